package sheets

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"stabile/param/design"
)

// Offcuts at hand are used before any sheet is bought.
func TestOffcutsFirst(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	s.Offcuts = []design.Offcut{{Metal: skin, Width: 410, Length: 710, Number: 2}, {Metal: skin, Width: 100, Length: 100, Number: 5}}
	p := checked(t, input(s, blank("mast", skin, 2, rect(400, 700))))
	if p.Count() != 0 || p.Bound() != 0 || p.Stacks[0].Offcuts != 2 || !p.Stacks[0].Priced {
		t.Errorf("%d sheets, %d offcuts, want 0 and 2", p.Count(), p.Stacks[0].Offcuts)
	}
	p = checked(t, input(s, blank("mast", skin, 3, rect(400, 700))))
	if p.Count() != 1 || p.Stacks[0].Offcuts != 2 || !p.Stacks[0].Sheets[0].Offcut {
		t.Errorf("%d sheets, %d offcuts, want 1 and 2", p.Count(), p.Stacks[0].Offcuts)
	}
}

// A shape is the least size of a block into which pieces can be joined such that
// edge-to-edge cuts part them.
type shape struct{ w, h float64 }

// shapes returns them all for a set of pieces.
func shapes(set int, sizes []shape, known map[int][]shape) []shape {
	if s, ok := known[set]; ok {
		return s
	}
	var out []shape
	if set&(set-1) == 0 {
		for i, s := range sizes {
			if set == 1<<i {
				out = []shape{s, {s.h, s.w}}
			}
		}
	}
	for a := (set - 1) & set; a > 0; a = (a - 1) & set {
		if b := set &^ a; a >= b {
			for _, p := range shapes(a, sizes, known) {
				for _, q := range shapes(b, sizes, known) {
					out = append(out, shape{p.w + q.w, max(p.h, q.h)}, shape{max(p.w, q.w), p.h + q.h})
				}
			}
		}
	}
	known[set] = out
	return out
}

// cheapest tries every way to share pieces out to sheets.
func cheapest(sizes []shape, sheets []design.Sheet) float64 {
	known := map[int][]shape{}
	one := func(set int) float64 {
		best := math.Inf(1)
		for _, h := range sheets {
			for _, s := range shapes(set, sizes, known) {
				if s.w <= h.Length && s.h <= h.Width {
					best = min(best, h.Price)
				}
			}
		}
		return best
	}
	all := 1<<len(sizes) - 1
	least := make([]float64, all+1)
	for set := 1; set <= all; set++ {
		least[set] = one(set)
		for a := (set - 1) & set; a > 0; a = (a - 1) & set {
			least[set] = min(least[set], least[a]+least[set&^a])
		}
	}
	return least[all]
}

// TestLeastMoney holds plans of few pieces against trying everything.
func TestLeastMoney(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 12))
	mixed := 0
	for n := range 120 {
		skin := mild("skin", 1.2)
		s := hand()
		s.Shear.Width, s.Shear.Least = 5000, 0
		for range 2 + rnd.IntN(2) {
			w, l := 500+float64(rnd.IntN(10))*50, 600+float64(rnd.IntN(9))*100
			s.Sheets = append(s.Sheets, design.Sheet{Metal: skin, Width: w, Length: l, Turn: true, Price: 20 + math.Round(w*l*(0.8+0.4*rnd.Float64())/5e4)})
		}
		var sizes []shape
		in := input(s)
		for range 2 + rnd.IntN(4) {
			z := shape{float64(200 + 50*rnd.IntN(10)), float64(250 + 50*rnd.IntN(9))}
			sizes = append(sizes, z)
			in.Blanks = append(in.Blanks, blank("a", skin, 1, rect(z.w, z.h)))
		}
		p := Make(in)
		if f := fault(&in, p); f != "" {
			t.Fatalf("%d: %s", n, f)
		}
		got, priced := p.Money()
		if want := cheapest(sizes, s.Sheets); !priced || math.Abs(got-want) > 1e-9 && !(math.IsInf(want, 1) && !p.Complete()) {
			t.Errorf("%d: costs %g, want %g", n, got, want)
		}
		if len(p.Taken()) > 1 {
			mixed++
		}
		if p.Aim() != "money" {
			t.Errorf("%d: aim %q", n, p.Aim())
		}
	}
	if mixed == 0 {
		t.Error("no plan takes two sizes")
	}
}

// Without a price for every size the fewest sheets are taken, whatever they cost.
func TestFewestSheets(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	s.Sheets = append(s.Sheets, design.Sheet{Metal: skin, Width: 600, Length: 1200, Turn: true, Price: 5})
	p := checked(t, input(s, blank("mast", skin, 4, rect(590, 1100))))
	if p.Count() != 1 || p.Aim() != "sheets" || p.Stacks[0].Sheets[0].Width != 48*inch {
		t.Errorf("%d sheets of %g, want one of 1219.2", p.Count(), p.Stacks[0].Sheets[0].Width)
	}
	s.Sheets[0].Price = 100
	if p = checked(t, input(s, blank("mast", skin, 4, rect(590, 1100)))); p.Count() != 4 || p.Aim() != "money" {
		t.Errorf("%d sheets, want four for 20 instead of one for 100", p.Count())
	}
}

// Gores that do not go on one sheet each in its own rectangle do so together.
func TestTogetherSavesASheet(t *testing.T) {
	skin := mild("skin", 1.2)
	s := hand(skin)
	s.Sheets[0].Width, s.Sheets[0].Length = 620, 1300
	const gores = 18
	if float64(gores)*95*480 < 620*1300 {
		t.Fatal("the gores go on one sheet by their rectangles")
	}
	p := checked(t, input(s, blank("moon gore", skin, gores, lens(95, 480))))
	if p.Count() != 1 || p.Bound() != 1 {
		t.Errorf("%d sheets, at least %d, want 1", p.Count(), p.Bound())
	}
	if got, each := p.Curved(ByShear), p.Stacks[0].Sheets[0].Blocks[0].Curved; got < gores*2*480 || each == 0 {
		t.Errorf("%g mm are cut by hand", got)
	}
}

func TestCutList(t *testing.T) {
	skin, slab := mild("skin", 1.2), mild("slab", 10)
	s := hand(skin, slab)
	s.Sheets[0].Trim = 10
	in := input(s, blank("mast", skin, 2, rect(400, 700)), blank("cap", skin, 3, disc(150)), blank("pad", slab, 1, rect(800, 700)))
	p := checked(t, in, "caution pad: TooThick{")
	pieces := map[string]int{}
	cut, trims, byHand := 0, 0, 0
	for _, l := range p.CutList() {
		switch l.What {
		case APiece, Ordered:
			pieces[l.Name] += l.Quantity
		case AnEdge:
			trims--
		case ByHand:
			byHand += l.Quantity
		}
		if l.Cut > 0 && (l.Cut < cut || !(l.Stop > 0) || !(l.Reach > 0) || l.Sheet != "skin 1") {
			t.Errorf("line %+v after cut %d", l, cut)
		}
		cut = max(cut, l.Cut)
	}
	for _, c := range p.Stacks[0].Sheets[0].Cuts {
		if c.Trim {
			trims++
		}
	}
	if pieces["mast"] != 2 || pieces["cap"] != 3 || pieces["pad"] != 1 || trims != 0 || byHand != 3 || cut != p.Cuts(ByShear) {
		t.Errorf("pieces %v, %d trimmed edges not listed, %d by hand, %d cuts of %d", pieces, trims, byHand, cut, p.Cuts(ByShear))
	}
}

// Sheets that are cut alike for parts of different names are distinguished.
func TestAlikeForManyParts(t *testing.T) {
	skin := mild("skin", 1.2)
	in := input(hand(skin))
	for _, name := range strings.Fields("a b c d e") {
		in.Blanks = append(in.Blanks, blank(name, skin, 1, rect(1219.2, 1300)))
	}
	p := checked(t, in)
	if p.Count() != 5 || len(p.Stacks[0].Sheets) != 5 {
		t.Errorf("%d sheets in %d layouts, want 5 in 5", p.Count(), len(p.Stacks[0].Sheets))
	}
	in.Blanks = in.Blanks[:1]
	in.Blanks[0].Quantity = 5
	if p = checked(t, in); p.Count() != 5 || len(p.Stacks[0].Sheets) != 1 || p.Stacks[0].Sheets[0].Copies != 5 {
		t.Errorf("%d sheets in %d layouts, want 5 in one", p.Count(), len(p.Stacks[0].Sheets))
	}
}
