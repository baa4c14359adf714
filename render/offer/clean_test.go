package offer_test

import (
	"fmt"
	"image"
	"testing"

	"stabile/fab"
	"stabile/param"
	"stabile/param/source"
	"stabile/render/internal/inspect"
	"stabile/render/offer"
	"stabile/render/sheet"
)

// hard are designs that want much room on the page: long names, every sentence
// that warns, shapes that leave little room.
func hard(t *testing.T) map[string]*fab.Job {
	t.Helper()
	const metals = "metal skin { alloy stainless-304, gauge 16 }\nmetal slab { alloy galvanized-steel, thickness 3 mm }\nmetal rind { alloy copper, thickness 1 mm }\n"
	const long = "a title as long as a client may wish for, with an unbrokenwordthatgoesonandonandonandonandonandonandon at the middle of it, and more"
	jobs := map[string]*fab.Job{}
	for name, src := range map[string]string{
		"long names": "sculpture \"" + long + "\"\nunits mm\n" + metals + "finish coat { paint }\nbase pad { plate 900 by 700, metal slab, anchors 8, anchor_diameter 16, anchor_edge 60 }\n" +
			"site { wind 45 m/s, method en1991, terrain II }\nshop {\n name \"" + long + "\"\n}\n" +
			"post p on pad { diameter 80, length 1800, metal skin }\nball o on p { diameter 300, gores 8, metal rind }\n",
		"tips":      "sculpture \"Tips\"\nunits inch\n" + metals + "base pad { plate 8 by 8, metal slab, ballast 30 lb }\nsite { push 60 lbf at 5 ft }\npost p on pad { diameter 3, length 60, lean 8 deg toward 0 deg, metal skin }\nball o on p { diameter 12, gores 8, metal rind }\n",
		"slender":   "sculpture \"Slender\"\nunits mm\n" + metals + "base pad { plate 200 by 200, metal slab }\npost p on pad { diameter 40, length 12 m, metal skin }\n",
		"wide":      "sculpture \"Wide\"\nunits inch\n" + metals + "base pad { plate 200 by 12, metal slab }\npost p on pad { diameter 4, length 6, metal skin }\n",
		"small":     "sculpture \"Small\"\nunits mm\n" + metals + "base pad { plate 40 by 30, metal skin }\npost p on pad { diameter 8, length 20, metal skin }\n",
		"one sided": "sculpture \"One-sided\"\nunits inch\n" + metals + "base pad { plate 6 by 300, metal slab }\npost p on pad { diameter 4, length 90, metal skin }\n",
	} {
		d, wrong := param.Evaluate(source.NewFile(name, src), param.Options{})
		if d == nil {
			t.Fatalf("%s: %v", name, wrong)
		}
		j, wrong := fab.Build(d, fab.Everything)
		if j == nil {
			t.Fatalf("%s: %v", name, wrong)
		}
		jobs[name] = j
	}
	return jobs
}

// TestClean: the offer passes the checker of all drawings, for every example and
// for designs that want much room, on each paper, with and without price and
// picture.
func TestClean(t *testing.T) {
	jobs := hard(t)
	for name, j := range examples(t) {
		jobs[name] = j
	}
	var total inspect.Report
	for name, j := range jobs {
		for _, size := range []string{"", "A4", "letter", "A3", "tabloid", "A1"} {
			p, _ := sheet.LookupPaper(size)
			for _, price := range []bool{false, true} {
				for _, aspect := range []float64{0, 0.4, 0.67, 1, 3} {
					o := offer.Options{Paper: p, Price: price, Large: aspect == 1}
					if aspect > 0 {
						o.Date, o.Picture = "2027-05-03", image.NewGray(image.Rect(0, 0, int(40*aspect), 40))
					}
					what := fmt.Sprintf("%s on %s, price %t, picture %g", name, size, price, aspect)
					pages, err := offer.Pages(j, o)
					if err != nil {
						t.Errorf("%s: %v", what, err)
						continue
					}
					for _, page := range pages {
						total.Add(inspect.Check(t, what, page))
					}
				}
			}
		}
	}
	t.Logf("%d texts looked at", total.Texts)
}
