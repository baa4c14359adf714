package pack_test

import (
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/pack"
	"stabile/render/sheet"
)

// Designs with each of: a taper, a ball of zones, a ball on a ball, a branch, a
// post between two parts, and a ball threaded on a taper; and tapers whose ends
// are trimmed.
const (
	joined = "sculpture \"Joined\"\nunits mm\nmetal skin { alloy low-carbon-steel, thickness 1.5 mm }\nmetal slab { alloy low-carbon-steel, thickness 10 mm }\n" +
		"base pad { plate 700 by 600, metal slab }\n" +
		"post mast on pad { diameter 90 to 60, length 800, metal skin }\n" +
		"ball moon on mast { diameter 260, zones 7, metal skin }\n" +
		"ball star on moon { diameter 150, offset 20 toward 0 deg, halves, metal skin }\n" +
		"post arm on mast { at 400 toward 0 deg, diameter 34, length 260, lean 60 deg, metal skin }\n" +
		"ball fruit on arm { diameter 120, gores 8, metal skin }\n" +
		"post brace from pad to fruit { at (200, 100), diameter 30, metal skin }\n" +
		"ball bead around mast { height 200, diameter 170, gores 10, metal skin }\nsite { push 100 N at 1 m }\n"
	joinedInch = "sculpture \"Joined in inches\"\nunits inch\nmetal skin { alloy low-carbon-steel, gauge 16 }\nmetal slab { alloy low-carbon-steel, thickness 3/8 }\n" +
		"base pad { plate 30 by 24, metal slab }\n" +
		"post stem on pad { diameter 3 to 5, length 20, lean 4 deg toward 90 deg, metal skin }\n" +
		"ball drum on stem { diameter 12, zones 5, metal skin }\n" +
		"post neck on drum { diameter 4 to 2, length 14, lean 10 deg toward 0 deg, offset 1 toward 0 deg, metal skin }\n" +
		"ball bud on neck { diameter 7, gores 12, metal skin }\n" +
		"ball tip on bud { diameter 4, zones 4, metal skin }\n" +
		"ball ring around stem { height 9, diameter 9, zones 6, metal skin }\nsite { push 20 lbf at 4 ft }\n"
)

// TestSectorSheet reads the sheet of a taper: both radii, its angle, chord and
// slant, and how it is rolled, once. The numbers are worked by hand: a taper of
// 90 to 60 mm outside and 1.5 mm thick over 800 mm has mean radii of 44.25 and
// 29.25 mm; 15 mm of narrowing over 800 mm.
func TestSectorSheet(t *testing.T) {
	var texts []string
	for _, s := range pack.Sheets(text(t, joined), pack.Options{}) {
		if !strings.HasSuffix(s.Name, "-mast") {
			continue
		}
		for _, item := range s.Items {
			if x, ok := item.(*ink.Text); ok {
				texts = append(texts, x.Text)
			}
		}
	}
	for _, want := range []string{"277.9", "90°", "0°", "180°", "270°", "arm", "bead"} {
		if !slices.ContainsFunc(texts, func(s string) bool { return s == want || strings.HasPrefix(s, want+" ") }) {
			t.Errorf("the sheet of the mast does not say %q: %q", want, texts)
		}
	}
	all := strings.Join(texts, " ")
	for _, want := range []string{"radius 2360.4 mm and 1562.3 mm", "straight edges 798.1 mm"} {
		if !strings.Contains(all, want) {
			t.Errorf("the sheet of the mast does not say %q: %q", want, all)
		}
	}
	if n := strings.Count(all, "Roll to a cone: mean radius 44.3 mm"); n != 1 {
		t.Errorf("forming is told %d times, want once: %q", n, all)
	}
	if strings.Contains(all, "Stays flat") {
		t.Error("a cone is said to stay flat")
	}
}

// panelOf returns the strokes of the panel of a blank, from its head down to that of the
// next panel on the sheet; none where no sheet has the panel.
func panelOf(sheets []*ink.Sheet, name string) (list []*ink.Stroke) {
	for _, s := range sheets {
		var heads []*ink.Text
		var head *ink.Text
		for _, item := range s.Items {
			x, ok := item.(*ink.Text)
			if !ok || x.Face != ink.Bold || x.Height != sheet.Medium {
				continue
			}
			heads = append(heads, x)
			if x.Text == name {
				head = x
			}
		}
		if head == nil {
			continue
		}
		foot := 0.0
		for _, x := range heads {
			if x.At.X == head.At.X && x.At.Y < head.At.Y {
				foot = max(foot, x.At.Y)
			}
		}
		for _, item := range s.Items {
			if x, ok := item.(*ink.Stroke); ok {
				if lo, hi := extent(x.Path); lo.Y > foot && hi.Y < head.At.Y {
					list = append(list, x)
				}
			}
		}
	}
	return list
}

// TestOpenedGore looks for stations beyond the outline of a gore that is opened
// for a post.
func TestOpenedGore(t *testing.T) {
	panel := panelOf(pack.Sheets(text(t, joined), pack.Options{}), "bead gore")
	var low, high r2.Vec
	outlines := 0
	for _, x := range panel {
		if x.Group == "cut" {
			low, high = extent(x.Path)
			outlines++
		}
	}
	if outlines != 1 {
		t.Fatalf("%d outlines of the opened gore are drawn in its panel", outlines)
	}
	rules := 0
	for _, x := range panel {
		if x.Line != ink.Rule || x.Group != "mark" {
			continue
		}
		rules++
		if lo, hi := extent(x.Path); lo.Y < low.Y || hi.Y > high.Y || lo.X < low.X-0.01 || hi.X > high.X+0.01 {
			t.Errorf("a station from %.1f to %.1f at %.1f mm lies beyond the outline from %.1f to %.1f", lo.X, hi.X, lo.Y, low, high)
		}
	}
	if rules < 5 {
		t.Errorf("%d stations are drawn", rules)
	}
}
