package sheets

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/layout"
	"stabile/fab/shop"
	"stabile/param/design"
)

// said returns the findings as data, a line each.
func said(p *Plan) string {
	var b strings.Builder
	for _, f := range p.Findings {
		fmt.Fprintf(&b, "%s %s: %s%+v\n", f.Level, strings.Join(f.Parts, " "), strings.TrimPrefix(fmt.Sprintf("%T", f.Fact), "sheets."), f.Fact)
	}
	return b.String()
}

// checked makes a plan, holds it against the rules, and looks for facts in what it
// finds.
func checked(t *testing.T, in Input, words ...string) *Plan {
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
	return Input{Blanks: blanks, Shop: s}
}

func TestTooThickForShear(t *testing.T) {
	slab := mild("slab", 9.525)
	p := checked(t, input(hand(slab), blank("pad", slab, 1, rect(900, 700))),
		"caution pad: TooThick{", "Cutter:0}")
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
	p := checked(t, input(s, blank("pad", slab, 1, rect(900, 700)), blank("mast", skin, 1, rect(300, 700))),
		"note : ForCutter{", "Kerf:2}")
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
	checked(t, input(s, blank("pad", slab, 1, rect(900, 700))), "caution pad: TooThick{", "Cutter:12}")
}

func TestTooLargeForCutter(t *testing.T) {
	slab := mild("slab", 9.525)
	s := hand(slab)
	s.Cutter = &design.Cutter{Kerf: 2, Width: 600, Length: 900}
	p := checked(t, input(s, blank("pad", slab, 1, rect(500, 500))), "fault pad: NoSheet{Metal:slab Cutter:true}")
	if p.Complete() {
		t.Error("the plan is told as complete")
	}
	s.Offcuts = []design.Offcut{{Metal: slab, Width: 600, Length: 600, Number: 1}}
	p = checked(t, input(s, blank("pad", slab, 1, rect(500, 500))), "note : ForCutter{")
	if p.Count() != 0 || p.Stacks[0].Offcuts != 1 {
		t.Errorf("%d sheets and %d offcuts, want the offcut", p.Count(), p.Stacks[0].Offcuts)
	}
}

func TestTooWideForShear(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	b := blank("mast", skin, 1, rect(500, 1800))
	b.Shape, b.Courses = flat.Tube, 1
	p := checked(t, input(s, b), "fault mast: TooLong{Width:500 Length:1800 ", "Shape:0 Courses:2}")
	if len(p.Stacks) != 1 || len(p.Stacks[0].Left) != 1 || p.Stacks[0].Left[0].Why != layout.TooLong {
		t.Errorf("Stacks = %+v", p.Stacks)
	}
	s.Cutter = &design.Cutter{Kerf: 1}
	p = checked(t, input(s, b, blank("reed", skin, 2, rect(200, 500))), "note mast: ForLongCut{Shear:1371.6 Sheets:false}")
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
	checked(t, input(s, blank("reed", skin, 2, rect(200, 500))),
		"fault reed: TooWide{Shear:1016}")
	s.Cutter = &design.Cutter{Kerf: 1}
	checked(t, input(s, blank("reed", skin, 2, rect(200, 500))), "note reed: ForLongCut{Shear:1016 Sheets:true}")
}

func TestTooLargeForSheet(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	s.Sheets[0].Trim = inch / 2
	b := blank("moon ring", skin, 2, sector(900, 1500, 2.5))
	b.Part, b.Shape = "moon", flat.Sector
	in := input(s, b)
	checked(t, in, "fault moon: TooLarge{Metal:skin ", "SheetWidth:1193.8 SheetLength:2413.", "Shape:4 Courses:0}")
	in.Modest = []*design.Metal{skin}
	checked(t, in, "caution moon: TooLarge{")
}

func TestSheetsAtHandDoNotSuffice(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	s.Sheets[0].Stocked, s.Sheets[0].Stock = true, 1
	p := checked(t, input(s, blank("wall", skin, 3, rect(1219.2, 1300))), "fault wall: TooFew{Metal:skin Count:2 Width:1219.2 Length:1300}")
	if p.Count() != 1 || p.Stacks[0].Left[0].Count != 2 || p.Stacks[0].Bound != 0 {
		t.Errorf("Stacks = %+v", p.Stacks)
	}
	s.Sheets[0].Stock = 0
	checked(t, input(s, blank("wall", skin, 3, rect(1219.2, 1300))), "fault wall: NoSheet{Metal:skin Cutter:false}")
}

// A strip that is narrower than the hold-downs grip is cut off a wider one; where
// there is none, it is reported.
func TestNarrowerThanGrip(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	checked(t, input(s, blank("rib", skin, 4, rect(12, 500))))
	s.Sheets = nil
	s.Offcuts = []design.Offcut{{Metal: skin, Width: 24, Length: 500, Number: 1}}
	p := checked(t, input(s, blank("rib", skin, 2, rect(12, 500))), "caution rib: Narrow{Width:12 Least:19.05", "Strip:false Cuts:[{Sheet:skin 1 Number:1}]}")
	if p.Findings[0].Level != finding.Caution {
		t.Errorf("Findings = %+v", p.Findings)
	}
}

func TestNoTurning(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	s.Sheets[0].Turn = false
	checked(t, input(s, blank("a", skin, 1, rect(1300, 1000))), "fault a: TooLarge{")
	s.Sheets[0].Turn = true
	checked(t, input(s, blank("a", skin, 1, rect(1300, 1000))))
}

// A bought ball has no blank, and nothing comes of nothing.
func TestNothing(t *testing.T) {
	p := checked(t, input(hand()))
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

// TestScribed: a stop that does not go as far as a cut is not set to it; the cut is made
// to a scribed line.
func TestScribed(t *testing.T) {
	for _, c := range []struct {
		reach             float64
		settings, scribed int
	}{{0, 2, 0}, {2000, 2, 0}, {350, 1, 1}, {100, 0, 2}} {
		m := mild("skin", 1)
		s := hand(m)
		s.Shear.Reach = c.reach
		s.Sheets = []design.Sheet{{Metal: m, Width: 1000, Length: 2000}}
		plan := Make(input(s, blank("piece", m, 1, rect(400, 300))))
		if got := len(plan.Stacks[0].Sheets[0].Cuts); got != 2 {
			t.Fatalf("%d cuts, want 2", got)
		}
		if plan.Settings() != c.settings || plan.Scribed() != c.scribed {
			t.Errorf("a stop that reaches %v mm is set %d times with %d lines scribed, want %d and %d", c.reach, plan.Settings(), plan.Scribed(), c.settings, c.scribed)
		}
	}
}

// TestChecks: what the shop cannot do fails, and is not decided where the shop is the
// modest one; what it does holds, with its figures.
func TestChecks(t *testing.T) {
	skin, slab := mild("skin", 1.2), mild("slab", 9.525)
	in := input(hand(skin, slab), blank("pad", slab, 1, rect(900, 700)), blank("mast", skin, 1, rect(500, 1800)), blank("reed", skin, 1, rect(200, 500)))
	verdicts := func(in Input) string {
		var b strings.Builder
		for _, c := range Make(in).Checks {
			fmt.Fprintf(&b, "%s %s %s %.4g %.4g\n", c.ID, c.Part, c.Verdict, c.Found, c.Limit)
			if (c.Verdict == check.Undecided) != (c.Why != nil) {
				t.Errorf("%+v", c)
			}
		}
		return b.String()
	}
	limit := math.Min(skin.Thickness/math.Sqrt(shop.ShearLoad(in.Shop.Shear, skin)), shop.Thickest*in.Shop.Shear.Thickness)
	want := fmt.Sprintf("stock pad holds 0 0\nshear pad fails 9.525 %.4g\nstock mast holds 0 0\nshear mast fails 1800 1372\nstock reed holds 0 0\nshear reed holds 1.2 %.4g\n", limit, limit)
	if got := verdicts(in); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	in.ModestShear = true
	if got := verdicts(in); strings.Contains(got, "fails") || strings.Count(got, "undecided") != 2 {
		t.Errorf("with a modest shear:\n%s", got)
	}
	in = input(hand(skin), blank("wall", skin, 1, rect(1300, 1300)))
	in.Shop.Sheets[0].Width, in.Shop.Sheets[0].Length = 1000, 1000
	if got := verdicts(in); !strings.Contains(got, "stock wall fails 1 0") {
		t.Errorf("of sheets too small:\n%s", got)
	}
	in.Modest = []*design.Metal{skin}
	if got := verdicts(in); !strings.Contains(got, "stock wall undecided") {
		t.Errorf("of a modest shop's sheets:\n%s", got)
	}
}
