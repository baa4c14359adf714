package sheets

import (
	"strings"
	"testing"

	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/layout"
	"stabile/param/design"
	"stabile/param/quantity"
)

// said returns the findings in one text, a line each.
func said(p *Plan) string {
	var b strings.Builder
	for _, f := range p.Findings {
		b.WriteString(string(f.Level) + " " + f.Part + ": " + f.Text + "\n")
	}
	return b.String()
}

// check makes a plan, holds it against the rules, and looks for words in what it
// says.
func check(t *testing.T, in Input, words ...string) *Plan {
	t.Helper()
	p := Make(in)
	if f := fault(&in, p); f != "" {
		t.Fatal(f)
	}
	got := said(p)
	for _, w := range words {
		if !strings.Contains(got, w) {
			t.Errorf("the findings lack %q:\n%s", w, got)
		}
	}
	if len(words) == 0 && got != "" {
		t.Errorf("findings where none are wanted:\n%s", got)
	}
	return p
}

func input(s design.Shop, blanks ...*flat.Blank) Input {
	return Input{Blanks: blanks, Shop: s, Units: quantity.Inch}
}

func TestTooThickForShear(t *testing.T) {
	slab := mild("slab", 9.525)
	p := check(t, input(hand(slab), blank("pad", slab, 1, rect(900, 700))),
		"caution pad: is too thick for the shop to cut", "16 gauge low-carbon-steel at most", "buy it cut to size", "thinner gauge", "a cutter")
	if len(p.Orders) != 1 || p.Orders[0].Quantity != 1 || p.Orders[0].Width != 900 || p.Count() != 0 || !p.Complete() {
		t.Errorf("Orders = %+v", p.Orders)
	}
	if _, priced := p.Money(); priced {
		t.Error("what is ordered has no price, but the money is told as whole")
	}
}

// The cutter of the shop is used by itself where the shear does not do.
func TestTooThickForShearCutterDoes(t *testing.T) {
	slab, skin := mild("slab", 9.525), mild("skin", 1.2)
	s := hand(slab, skin)
	s.Cutter = &design.Cutter{Kerf: 2, Thickness: 12}
	p := check(t, input(s, blank("pad", slab, 1, rect(900, 700)), blank("mast", skin, 1, rect(300, 700))),
		"note : 'slab' of 3/8 in is cut with the cutter, since the shear takes 16 gauge")
	if len(p.Stacks) != 2 || p.Stacks[0].Way != ByCutter || p.Stacks[0].Kerf != 2 || p.Stacks[1].Way != ByShear || p.Count() != 2 {
		t.Errorf("Stacks = %+v", p.Stacks)
	}
	if got := p.Cuts(ByCutter); got != 2 || p.CutterLength() == 0 || p.Settings() != 2 {
		t.Errorf("%d cuts by the cutter, %g mm of them, %d settings of the shear", got, p.CutterLength(), p.Settings())
	}
}

func TestTooThickForCutter(t *testing.T) {
	slab := mild("slab", 20)
	s := hand(slab)
	s.Cutter = &design.Cutter{Kerf: 2, Thickness: 12}
	check(t, input(s, blank("pad", slab, 1, rect(900, 700))), "caution pad: is too thick", "and the cutter 15/32 in")
}

func TestTooLargeForCutter(t *testing.T) {
	slab := mild("slab", 9.525)
	s := hand(slab)
	s.Cutter = &design.Cutter{Kerf: 2, Width: 600, Length: 900}
	p := check(t, input(s, blank("pad", slab, 1, rect(500, 500))), "fault pad: has no sheet of 'slab'", "no size that can be had goes on the cutter")
	if p.Complete() {
		t.Error("the plan is told as complete")
	}
	s.Offcuts = []design.Offcut{{Metal: slab, Width: 600, Length: 600, Number: 1}}
	p = check(t, input(s, blank("pad", slab, 1, rect(500, 500))), "is cut with the cutter")
	if p.Count() != 0 || p.Stacks[0].Offcuts != 1 {
		t.Errorf("%d sheets and %d offcuts, want the offcut", p.Count(), p.Stacks[0].Offcuts)
	}
}

func TestTooWideForShear(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	b := blank("mast", skin, 1, rect(500, 1800))
	b.Shape = flat.Tube
	p := check(t, input(s, b), "fault mast: has a blank of 19-11/16 by 70-7/8 in that wants a longer cut than the 54 in of the shear", "two lengths", "second seam", "use a cutter")
	if len(p.Stacks) != 1 || len(p.Stacks[0].Left) != 1 || p.Stacks[0].Left[0].Why != layout.TooLong {
		t.Errorf("Stacks = %+v", p.Stacks)
	}
	s.Cutter = &design.Cutter{Kerf: 1}
	p = check(t, input(s, b, blank("reed", skin, 2, rect(200, 500))), "note mast: is cut with the cutter")
	if len(p.Stacks) != 2 || p.Stacks[0].Way != ByShear || p.Stacks[1].Way != ByCutter || !p.Complete() {
		t.Errorf("Stacks = %+v", p.Stacks)
	}
	if p.Stacks[0].Sheets[0].Name != "skin 1" || p.Stacks[1].Sheets[0].Name != "skin 2" {
		t.Errorf("sheets are called %q and %q", p.Stacks[0].Sheets[0].Name, p.Stacks[1].Sheets[0].Name)
	}
}

// No sheet goes into the shear whole, though every blank would.
func TestSheetTooWideForShear(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	s.Shear.Width = 40 * inch
	check(t, input(s, blank("reed", skin, 2, rect(200, 500))),
		"fault reed: is cut from sheets wider than the 40 in of the shear; buy narrower ones, have them cut down where they are bought, or use a cutter")
	s.Cutter = &design.Cutter{Kerf: 1}
	check(t, input(s, blank("reed", skin, 2, rect(200, 500))), "note reed: is cut with the cutter, since its sheets are wider than the 40 in of the shear")
}

func TestTooLargeForSheet(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	s.Sheets[0].Trim = inch / 2
	b := blank("moon ring", skin, 2, sector(900, 1500, 2.5))
	b.Part, b.Shape = "moon", flat.Sector
	in := input(s, b)
	check(t, in, "fault moon: has a blank of", "too large for every sheet of 'skin': the largest is 47 by 95 in inside its trim", "more zones", "larger sheet", "buy the part in")
	in.Modest = []*design.Metal{skin}
	check(t, in, "caution moon: has a blank of")
}

func TestSheetsAtHandDoNotSuffice(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	s.Sheets[0].Stocked, s.Sheets[0].Stock = true, 1
	p := check(t, input(s, blank("wall", skin, 3, rect(1219.2, 1300))), "fault wall: has no place for 2 pieces of 48 by 51-3/16 in: the sheets of 'skin' at hand do not suffice")
	if p.Count() != 1 || p.Stacks[0].Left[0].Count != 2 || p.Stacks[0].Bound != 0 {
		t.Errorf("Stacks = %+v", p.Stacks)
	}
	s.Sheets[0].Stock = 0
	check(t, input(s, blank("wall", skin, 3, rect(1219.2, 1300))), "fault wall: has no sheet of 'skin' to be cut from: there is none at hand")
}

// A strip that is narrower than the hold-downs grip is cut off a wider one; where
// there is none, it is told.
func TestNarrowerThanGrip(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	check(t, input(s, blank("rib", skin, 4, rect(12, 500))))
	s.Sheets = nil
	s.Offcuts = []design.Offcut{{Metal: skin, Width: 24, Length: 500, Number: 1}}
	p := check(t, input(s, blank("rib", skin, 2, rect(12, 500))), "caution rib: its blank of 15/32 in is narrower than the 3/4 in that the shear's hold-downs grip, at cut 1 of sheet 'skin 1'")
	if p.Findings[0].Level != finding.Caution {
		t.Errorf("Findings = %+v", p.Findings)
	}
}

func TestNoTurning(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	s.Sheets[0].Turn = false
	check(t, input(s, blank("a", skin, 1, rect(1300, 1000))), "fault a: has a blank of", "too large")
	s.Sheets[0].Turn = true
	check(t, input(s, blank("a", skin, 1, rect(1300, 1000))))
}

// A bought ball has no blank, and nothing comes of nothing.
func TestNothing(t *testing.T) {
	p := check(t, input(hand()))
	if money, priced := p.Money(); p.Count() != 0 || p.Bound() != 0 || money != 0 || !priced || !p.Complete() || len(p.CutList()) != 0 || p.Aim() != "" {
		t.Errorf("Plan = %+v", p)
	}
}

// TestSliver: a sheet is a little wider than the piece that takes up its length.
// A shear does not part less than 2 mm, or than twice the thickness.
func TestSliver(t *testing.T) {
	for _, c := range []struct {
		thickness, over float64
		want            bool
	}{{1, 1.5, true}, {1, 2.5, false}, {1.4, 2.5, true}, {1.4, 3, false}} {
		m := mild("skin", c.thickness)
		s := hand(m)
		s.Sheets = []design.Sheet{{Metal: m, Width: 400 + c.over, Length: 1000}}
		in := input(s, blank("piece", m, 1, rect(400, 1000)))
		plan := Make(in)
		var slivers, cuts int
		for _, st := range plan.Stacks {
			for _, sh := range st.Sheets {
				for _, cut := range sh.Cuts {
					cuts++
					if cut.Sliver {
						slivers++
					}
				}
			}
		}
		if cuts != 1 || (slivers == 1) != c.want {
			t.Errorf("%v mm of %v mm metal drop at %d cuts, of which %d drop slivers; want one cut, a sliver: %v", c.over, c.thickness, cuts, slivers, c.want)
		}
	}
}
