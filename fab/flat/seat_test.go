package flat

import (
	"fmt"
	"math"
	"testing"

	"stabile/param/written"
)

// TestSeatOpens holds which of two balls is cut where the other sits in it: the
// smaller, or both where they are open to each other, never one that is bought.
func TestSeatOpens(t *testing.T) {
	const head = written.Metric + `
base pad { plate 600 by 600, metal slab }
`
	for _, tt := range []struct {
		text        string
		under, over bool
	}{
		{"ball a on pad { diameter 300, gores 10, metal skin }\nball b on a { diameter 150, seat 60, zones 6, metal skin }", false, true},
		{"ball a on pad { diameter 150, gores 10, metal skin }\nball b on a { diameter 300, seat 60, gores 8, bend domed, metal skin }", true, false},
		{"ball a on pad { diameter 200, halves, metal skin }\nball b on a { diameter 200, seat 60, halves, metal skin }", false, true},
		{"ball a on pad { diameter 300, gores 10, metal skin }\nball b on a { diameter 150, seat 60, through, gores 10, metal skin }", true, true},
		{"ball a on pad { diameter 300, gores 10, metal skin }\nball b on a { diameter 150, seat 60, bought 2 kg }", true, false},
		{"ball a on pad { diameter 300, bought 5 kg }\nball b on a { diameter 150, seat 60, bought 2 kg }", false, false},
	} {
		d := written.Design(t, head+tt.text)
		made, wrong := All(d)
		if err := wrong.Err(); err != nil {
			t.Fatal(err)
		}
		for i, want := range map[int]bool{1: tt.under, 2: tt.over} {
			opened := false
			for _, b := range made[i].Blanks {
				for _, n := range b.Notes {
					s, ok := n.(SitsIn)
					opened = opened || ok
					if ok && s.Ball != d.Parts[3-i].Name {
						t.Errorf("%s: %s is opened for %+v", tt.text, b.Name, s)
					}
				}
			}
			if opened != want {
				t.Errorf("%s: %s is opened: %v", tt.text, d.Parts[i].Name, opened)
			}
		}
	}
}

// TestNoSlivers cuts a cap with straight sides off by a ball as wide as it: its corners
// would be left, and are no pieces.
func TestNoSlivers(t *testing.T) {
	d := written.Design(t, written.Metric+`
base pad { plate 600 by 600, metal slab }
ball b on pad { diameter 300, gores 12, caps 90, metal skin }
ball c on b { diameter 160, seat 90, through, gores 8, metal skin }
`)
	made, wrong := All(d)
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	for _, b := range made[1].Blanks {
		if b.Shape == Disc && b.Area < 1000 {
			t.Errorf("%s of %.1f mm2 is left", b.Name, b.Area)
		}
	}
}

// TestBoughtOnBought: neither has a blank that could be cut, so it is said that the smaller
// is cut by hand, round the seat's circle.
func TestBoughtOnBought(t *testing.T) {
	for _, tt := range []struct {
		low, high float64
		of        string
	}{{200, 150, "high"}, {150, 200, "low"}, {180, 180, "high"}} {
		d := written.Design(t, written.Metric+fmt.Sprintf(`
base pad { plate 600 by 600, metal slab }
ball low on pad { diameter %v, bought 2 kg }
ball high on low { diameter %v, seat 40, bought 1 kg }
`, tt.low, tt.high))
		made, wrong := All(d)
		if err := wrong.Err(); err != nil {
			t.Fatal(err)
		}
		for i, p := range d.Parts {
			var found []CutByHand
			for _, f := range made[i].Findings {
				if c, ok := f.Fact.(CutByHand); ok {
					found = append(found, c)
				}
			}
			if want := p.Name == tt.of; want != (len(found) == 1) || want && math.Abs(found[0].Across-40) > 1e-6 {
				t.Errorf("balls of %v and %v: of %s is said %+v", tt.low, tt.high, p.Name, found)
			}
		}
	}
}
