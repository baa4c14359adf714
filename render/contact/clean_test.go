package contact_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"stabile/fab/study"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
	"stabile/render/contact"
	"stabile/render/internal/inspect"
	"stabile/render/picture"
	"stabile/render/sheet"
)

// longNames is a design of which everything that can be named has a long name. In
// some of its variations requirements fail, in some they cannot be checked.
const longNames = `sculpture "A title that somebody thought would never have to stand in the title block of a sheet of paper, nor over the figures of a plot"
units mm
adjust the_rise_of_the_slender_mast_over_the_plate_on_which_it_stands = 900 from 600 to 1500 step 10
adjust the_crown_as_wide_as_the_client_asks_for = 300 from 60 to 500
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 10 }
base the_pad_on_which_all_of_it_stands_in_the_yard { plate 600 by 500, metal slab }
post the_mast_that_carries_the_crown_over_everything_else on the_pad_on_which_all_of_it_stands_in_the_yard { diameter 100, length the_rise_of_the_slender_mast_over_the_plate_on_which_it_stands, metal skin }
ball the_moon on the_mast_that_carries_the_crown_over_everything_else { diameter the_crown_as_wide_as_the_client_asks_for, gores 10, metal skin }
require tipping >= 1.5 "the public leans on whatever it can reach, and in summer children climb on it"
require weight <= 30 kg "two people carry it up the stairs of the gallery without a machine of any kind"
require height <= 1.6 m "anunbrokenwordthatgoesonandonandonandonandonandonandonandonandonandonandon"
`

// A series is variations of a design.
type series struct {
	name    string
	study   *study.Study
	design  *design.Design
	results []study.Result
}

// take tries the first n variations of some sweeps.
func take(t *testing.T, name, src string, n int, questions []string, sweeps ...string) series {
	t.Helper()
	var ask []param.Question
	for _, q := range questions {
		ask = append(ask, param.Question{From: "--plot", Text: q})
	}
	s := &study.Study{
		Options: param.Options{Sweep: sweeps, Ask: ask},
		Load: func(o param.Options) (*design.Design, error) {
			d, wrong := param.Evaluate(source.NewFile("trial.stabile", src), o)
			return d, wrong.Err()
		},
	}
	d, err := s.Load(s.Options)
	if err != nil {
		t.Fatal(err)
	}
	trials, err := study.Grid(d, d.Sweeps)
	if err != nil {
		t.Fatal(err)
	}
	if len(trials) < n {
		t.Fatalf("%s: %d variations, want %d", name, len(trials), n)
	}
	results, err := s.Run(context.Background(), trials[:n])
	if err != nil {
		t.Fatal(err)
	}
	return series{fmt.Sprintf("%d of %s", n, name), s, d, results}
}

// everySeries is variations few and many, with short names and with long ones.
func everySeries(t *testing.T) []series {
	var list []series
	questions := []string{"weight", "tipping", "height"}
	for _, n := range []int{1, 2, 7, 24, 100} {
		list = append(list,
			take(t, "the lantern", text, n, append(questions, "mast.weight"), "rise step 4 in", "crown values 10"),
			take(t, "the design of long names", longNames, n, append(questions, "the_mast_that_carries_the_crown_over_everything_else.weight"),
				"the_rise_of_the_slender_mast_over_the_plate_on_which_it_stands step 100", "the_crown_as_wide_as_the_client_asks_for values 10"))
	}
	return list
}

// papers are papers of both customs, small and large, upright and lying.
func papers(t *testing.T) []sheet.Paper {
	t.Helper()
	var list []sheet.Paper
	for i, name := range []string{"A4", "A3", "ANSI A", "ANSI B", "A1"} {
		p, ok := sheet.LookupPaper(name)
		if !ok {
			t.Fatalf("no paper %s", name)
		}
		if i%2 == 0 {
			p = p.Landscape()
		}
		list = append(list, p)
	}
	return list
}

// TestClean: contact sheets pass the checker of all drawings, however many
// variations, on whichever paper, with elevations and with pictures; and so do
// plots of each figure against each other.
func TestClean(t *testing.T) {
	var total inspect.Report
	plots := 0
	for _, s := range everySeries(t) {
		drawn := entries(t, s.study, s.results)
		pictured := entries(t, s.study, s.results)
		if err := contact.Picture(context.Background(), pictured, 40, 40, picture.Options{Sketch: true}); err != nil {
			t.Fatal(err)
		}
		for _, paper := range papers(t) {
			for _, o := range []contact.Options{
				{Paper: paper},
				{Paper: paper, One: true, Date: "2027-05-03", Said: strings.Repeat("Of many variations that were tried these do. ", 12)},
			} {
				for kind, list := range map[string][]contact.Entry{"elevations": drawn, "pictures": pictured} {
					what := fmt.Sprintf("%s, %s, %gx%g, one page %v", s.name, kind, paper.Width, paper.Height, o.One)
					pages, err := contact.Sheets(s.design, list, o)
					if err != nil {
						t.Errorf("%s: %v", what, err)
						continue
					}
					total.Add(inspect.Check(t, what, pages...))
				}
			}
			for x := range s.design.Questions {
				for y := range s.design.Questions {
					what := fmt.Sprintf("plot of %s, %d against %d, %gx%g", s.name, y, x, paper.Width, paper.Height)
					page, err := contact.Plot(s.design, s.results, contact.NewAxis(s.design, x), contact.NewAxis(s.design, y), contact.Options{Paper: paper})
					if err != nil {
						if !strings.Contains(err.Error(), "none of the variations") {
							t.Errorf("%s: %v", what, err)
						}
						continue
					}
					plots++
					total.Add(inspect.Check(t, what, page))
				}
			}
		}
	}
	if plots == 0 {
		t.Error("nothing was plotted")
	}
	t.Logf("%d texts looked at, %d plots", total.Texts, plots)
}
