package flat

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/written"
)

// TestBoresOfPosts drills a vent and a drain into tubes and tapers: one at the higher end
// and one at the lower, off the seam and the cuts, with what they take out of mass.
func TestBoresOfPosts(t *testing.T) {
	for _, tt := range []struct {
		name, text string
	}{
		{"upright", "diameter 80, length 500"},
		{"leaning", "diameter 80, length 500, lean 30 deg toward 50 deg"},
		{"taper", "diameter 120 to 60, length 700, lean 12 deg toward 200 deg"},
		{"seam where the holes would be", "diameter 80, length 500, seam toward 90 deg"},
	} {
		made := func(more string) *Developed {
			d := written.Design(t, written.Metric+fmt.Sprintf(`
base pad { plate 600 by 600, metal slab }
post mast on pad { %s, %s metal skin }
`, tt.text, more))
			all, wrong := All(d)
			if err := wrong.Err(); err != nil {
				t.Fatal(err)
			}
			return &all[1]
		}
		whole, bored := made(""), made("vent 9, drain 12 toward 0 deg,")
		b := &bored.Blanks[0]
		if len(b.Holes) != 2 || len(whole.Blanks[0].Holes) != 0 {
			t.Fatalf("%s: %d holes", tt.name, len(b.Holes))
		}
		drain, vent := b.Holes[0], b.Holes[1]
		if drain.Diameter != 12 || vent.Diameter != 9 || !(vent.Center.Y > drain.Center.Y+400) {
			t.Errorf("%s: a drain %+v and a vent %+v", tt.name, drain.Center, vent.Center)
		}
		for _, h := range b.Holes {
			if room := fromEdge(h.Center, b.Outline) - h.Diameter/2; !within(h.Center, b.Outline) || room < ventClear-0.5 {
				t.Errorf("%s: a hole of %v is %v mm off an edge", tt.name, h.Diameter, room)
			}
		}
		gone := math.Pi / 4 * (12*12 + 9*9) * 1.5 * 7850e-9
		if got := whole.Mass - bored.Mass; math.Abs(got-gone) > 0.01*gone {
			t.Errorf("%s: %v kg are drilled out, want %v", tt.name, got, gone)
		}
		// The balance moves away from the larger hole, which is low.
		if move := r3.Sub(bored.CG, whole.CG); !(move.Z > 0) || r3.Norm(move) > 1 {
			t.Errorf("%s: the balance moves by %v", tt.name, move)
		}
	}
}

// TestBoresOfBalls: with a drain the vent is the highest place that is clear and the drain
// the lowest; alone it is low.
func TestBoresOfBalls(t *testing.T) {
	for _, tt := range []struct {
		bores  string
		height map[float64]int // of the hole of a diameter: above the middle or below
	}{
		{"vent 8", map[float64]int{8: -1}},
		{"drain 6", map[float64]int{6: -1}},
		{"vent 8, drain 6", map[float64]int{8: 1, 6: -1}},
		{"vent 8 toward 0 deg, drain 6 toward 180 deg", map[float64]int{8: 1, 6: -1}},
	} {
		d := written.Design(t, written.Metric+`
base pad { plate 600 by 600, metal slab }
ball moon on pad { diameter 300, gores 8, `+tt.bores+`, metal skin }
`)
		made, wrong := All(d)
		if err := wrong.Err(); err != nil {
			t.Fatal(err)
		}
		found := 0
		for _, b := range made[1].Blanks {
			for _, h := range b.Holes {
				found++
				if got := h.Center.Y * float64(tt.height[h.Diameter]); b.Shape == Gore && got < 50 {
					t.Errorf("%s: a hole of %v at %v on a gore", tt.bores, h.Diameter, h.Center)
				}
			}
		}
		if found != len(tt.height) {
			t.Errorf("%s: %d holes", tt.bores, found)
		}
	}
}
