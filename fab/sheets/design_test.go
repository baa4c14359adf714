package sheets

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"stabile/fab/flat"
	"stabile/fab/shop"
	"stabile/param"
	"stabile/param/source"
)

// sculpture writes a design at random: posts of all kinds on a plate, with balls
// of all constructions on them, and half of the time a shop.
func sculpture(rnd *rand.Rand) string {
	var b strings.Builder
	b.WriteString("units mm\nmetal skin { alloy low-carbon-steel, gauge 18 }\nmetal fine { alloy stainless-304, gauge 20 }\nmetal slab { alloy low-carbon-steel, thickness 10 }\n")
	posts := 1 + rnd.IntN(6)
	fmt.Fprintf(&b, "base pad { plate %d by 400, metal slab }\n", 500*posts)
	for i := range posts {
		metal := []string{"skin", "fine"}[rnd.IntN(2)]
		d := 40 + rnd.IntN(80)
		size := fmt.Sprint(d)
		head := d
		if rnd.IntN(3) == 0 {
			head = d - 5 - rnd.IntN(20)
			size = fmt.Sprintf("%d to %d", d, head)
		}
		fmt.Fprintf(&b, "post p%d on pad { at (%d, 0), diameter %s, length %d, lean %d deg toward %d deg, metal %s }\n",
			i, 500*i-250*posts+250, size, 200+rnd.IntN(900), rnd.IntN(9), rnd.IntN(360), metal)
		ball := []string{"gores %d", "zones %d", "halves # %d", "gores %d, bend domed", "gores %d, caps 60"}[rnd.IntN(5)]
		if strings.HasPrefix(ball, "zones") {
			ball = fmt.Sprintf(ball, 4+rnd.IntN(5))
		} else {
			ball = fmt.Sprintf(ball, 6+rnd.IntN(10))
		}
		ball, _, _ = strings.Cut(ball, " #")
		fmt.Fprintf(&b, "ball b%d on p%d { diameter %d, %s, metal %s }\n", i, i, 2*head+60+rnd.IntN(120), ball, metal)
	}
	if rnd.IntN(2) == 0 {
		fmt.Fprintf(&b, "shop {\n  sheet skin { size 1250 by 2500, price %d, trim %d, turn %s }\n  sheet skin { size 1000 by 2000, price 60 }\n  sheet fine { size 1000 by 2000 }\n",
			80+rnd.IntN(60), rnd.IntN(12), []string{"yes", "no"}[rnd.IntN(2)])
		fmt.Fprintf(&b, "  offcut skin { size %d by %d }\n", 200+rnd.IntN(600), 200+rnd.IntN(900))
		if rnd.IntN(2) == 0 {
			b.WriteString("  cutter { kerf 2 }\n")
		}
		fmt.Fprintf(&b, "  shear { width %d, alloy low-carbon-steel, gauge %d, least 15 }\n}\n", 900+rnd.IntN(800), 14+rnd.IntN(5))
	}
	return b.String()
}

// TestSculptures plans the sheets of designs made at random, from their true
// blanks.
func TestSculptures(t *testing.T) {
	built := 0
	for n := range 60 {
		text := sculpture(rand.New(rand.NewPCG(uint64(n), 21)))
		d, wrong := param.Evaluate(source.NewFile("random.stabile", text), param.Options{})
		if len(wrong) > 0 {
			continue // a ball too small for its post, and the like
		}
		made, wrong := flat.All(d)
		if len(wrong) > 0 {
			continue
		}
		built++
		in := Input{}
		var f shop.Filled
		in.Shop, f = shop.For(d)
		in.Modest = f.Sheets
		for i := range made {
			for k := range made[i].Blanks {
				in.Blanks = append(in.Blanks, &made[i].Blanks[k])
			}
		}
		p := Make(in)
		if f := fault(&in, p); f != "" {
			t.Fatalf("%d: %s\n%s", n, f, text)
		}
		if !p.Complete() && len(p.Findings) == 0 {
			t.Errorf("%d: what has no place is not reported\n%s", n, text)
		}
		for _, l := range p.CutList() {
			if l.Quantity <= 0 || l.Sheet == "" {
				t.Errorf("%d: line %+v", n, l)
			}
		}
	}
	if built < 40 {
		t.Errorf("only %d of the designs can be made", built)
	}
}
