package sheets

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"
)

// TestRandom makes plans of blanks of all shapes and holds each against the rules
// that it must keep.
func TestRandom(t *testing.T) {
	together, askew, cutter, left, ordered, offcuts := 0, 0, 0, 0, 0, 0
	for n := range 250 {
		rnd := rand.New(rand.NewPCG(uint64(n), 7))
		in := anyInput(rnd, 1+rnd.IntN(12))
		p := Make(in)
		if f := fault(&in, p); f != "" {
			t.Fatalf("%d: %s", n, f)
		}
		if n%10 == 0 {
			again := anyInput(rand.New(rand.NewPCG(uint64(n), 7)), len(in.Blanks))
			again.Blanks = in.Blanks
			again.Shop, again.Modest = in.Shop, in.Modest
			if q := Make(again); !reflect.DeepEqual(p, q) {
				t.Fatalf("%d: two plans of the same blanks differ", n)
			}
		}
		ordered += len(p.Orders)
		for _, st := range p.Stacks {
			left += len(st.Left)
			offcuts += st.Offcuts
			if st.Way == ByCutter {
				cutter++
			}
			for _, s := range st.Sheets {
				for _, b := range s.Blocks {
					if len(b.Pieces) > 1 {
						together++
					}
					for _, q := range b.Pieces {
						if sin, cos := sincos(q.Angle); sin != 0 && cos != 0 {
							askew++
						}
					}
				}
			}
		}
		if (left > 0 || ordered > 0) && n == 249 && len(p.Findings) == 0 && !p.Complete() {
			t.Errorf("%d: what has no place is not told", n)
		}
	}
	// The test is of use only where all of this comes up.
	t.Logf("%d blocks of several, %d pieces askew, %d stacks by cutter, %d left, %d ordered, %d offcuts used", together, askew, cutter, left, ordered, offcuts)
	if together == 0 || askew == 0 || cutter == 0 || left == 0 || ordered == 0 || offcuts == 0 {
		t.Error("something never came up")
	}
}

// BenchmarkMake plans pieces of all shapes and sizes.
func BenchmarkMake(b *testing.B) {
	for _, pieces := range []int{30, 1000} {
		rnd := rand.New(rand.NewPCG(1, 1))
		skin := mild("skin", 1.2)
		in := input(hand(skin))
		for total := 0; total < pieces; {
			shape, n := lens(30+90*rnd.Float64(), 200+300*rnd.Float64()), 8
			switch rnd.IntN(3) {
			case 0:
				shape, n = rect(100+400*rnd.Float64(), 200+800*rnd.Float64()), 1
			case 1:
				shape, n = tube(100+300*rnd.Float64(), 500+500*rnd.Float64(), 50), 1
			}
			in.Blanks = append(in.Blanks, blank("a", skin, n, shape))
			total += n
		}
		b.Run(fmt.Sprint(pieces), func(b *testing.B) {
			for b.Loop() {
				p := Make(in)
				b.ReportMetric(float64(p.Count()), "sheets")
				b.ReportMetric(float64(p.Bound()), "bound")
			}
		})
	}
}
