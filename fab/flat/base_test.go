package flat

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/written"
)

// pad returns the base of a text, of sheet 10 mm thick.
func pad(t testing.TB, base string) *design.Part {
	t.Helper()
	return written.Design(t, written.Metric+`base pad { `+base+`, metal slab }`).Base()
}

// TestPlate weighs the plate of the worked assembly T1, 600 x 400 x 10 at 7850
// kg/m3: 18.84 kg.
func TestPlate(t *testing.T) {
	d := develop(t, pad(t, "plate 600 by 400"))
	if !near(d.Mass, 18.84) || d.CG != (r3.Vec{Z: 5}) {
		t.Errorf("plate weighs %v about %v, want 18.84 about its middle", d.Mass, d.CG)
	}
	checkOutline(t, d.Blanks[0])
}

func TestAnchors(t *testing.T) {
	for _, tt := range []struct {
		base    string
		anchors int
		want    []r2.Vec
	}{
		{"plate 600 by 400", 4, []r2.Vec{{X: -260, Y: -160}, {X: 260, Y: -160}, {X: 260, Y: 160}, {X: -260, Y: 160}}},
		{"plate 600 by 400", 2, []r2.Vec{{X: -260, Y: -160}, {X: 260, Y: 160}}},
		// The rectangle of 520 by 320 is 1680 round: every 210.
		{"plate 600 by 400", 8, []r2.Vec{
			{X: -260, Y: -160}, {X: -50, Y: -160}, {X: 160, Y: -160}, {X: 260, Y: -50},
			{X: 260, Y: 160}, {X: 50, Y: 160}, {X: -160, Y: 160}, {X: -260, Y: 50},
		}},
		{"disc 480", 4, []r2.Vec{
			{X: 100 * math.Sqrt2, Y: 100 * math.Sqrt2}, {X: -100 * math.Sqrt2, Y: 100 * math.Sqrt2},
			{X: -100 * math.Sqrt2, Y: -100 * math.Sqrt2}, {X: 100 * math.Sqrt2, Y: -100 * math.Sqrt2},
		}},
	} {
		d := develop(t, pad(t, fmt.Sprintf("%s, anchors %d, anchor_diameter 14, anchor_edge 40", tt.base, tt.anchors)))
		b := d.Blanks[0]
		checkOutline(t, b)
		if len(b.Holes) != len(tt.want) {
			t.Fatalf("%s: %d holes, want %d", tt.base, len(b.Holes), len(tt.want))
		}
		for i, h := range b.Holes {
			if r2.Norm(r2.Sub(h.Center, tt.want[i])) > 1e-9 || h.Diameter != 14 || len(h.Outline) != 48 {
				t.Errorf("%s: hole %d at %v, want %v", tt.base, i, h.Center, tt.want[i])
			}
			for _, q := range h.Outline {
				if off := r2.Norm(r2.Sub(q, h.Center)) - 7; math.Abs(off) > Chord {
					t.Errorf("%s: the edge of hole %d is %v off its circle", tt.base, i, off)
				}
			}
		}
		whole := develop(t, pad(t, tt.base))
		holes := float64(len(b.Holes)) * math.Pi * 49 * 10 * 7850e-9
		if got := whole.Mass - d.Mass; !near(got, holes) {
			t.Errorf("%s: holes weigh %v, want %v", tt.base, got, holes)
		}
	}
}

// TestOneAnchor balances a plate by the lever rule about its one hole.
func TestOneAnchor(t *testing.T) {
	d := develop(t, pad(t, "plate 100 by 100, anchors 1, anchor_diameter 40, anchor_edge 25"))
	hole := math.Pi * 400
	want := 25 * hole / (10000 - hole)
	if !near(d.CG.X, want) || !near(d.CG.Y, want) {
		t.Errorf("centre of gravity %v, want %v both ways", d.CG, want)
	}
}

// TestPolygon weighs a plate of five sides, off the origin, point by point.
func TestPolygon(t *testing.T) {
	d := develop(t, pad(t, `plate polygon (100, -50), (420, 10), (380, 200), (60, 260), (20, 90),
anchors 3, anchor_diameter 60, anchor_edge 50`))
	b := d.Blanks[0]
	checkOutline(t, b)
	const step = 0.5
	area, moment := 0.0, r2.Vec{}
	outline := design.Outline{Corners: b.Outline}
	for x := 0.0; x < 450; x += step {
		for y := -100.0; y < 300; y += step {
			p := r2.Vec{X: x, Y: y}
			in := outline.Distance(p) < 0
			for _, h := range b.Holes {
				in = in && r2.Norm(r2.Sub(p, h.Center)) > 30
			}
			if in {
				area += step * step
				moment = r2.Add(moment, r2.Scale(step*step, p))
			}
		}
	}
	if want := area * 10 * 7850e-9; math.Abs(d.Mass-want) > 1e-3*want {
		t.Errorf("it weighs %v, want %v", d.Mass, want)
	}
	if off := r2.Norm(r2.Sub(design.Plan(d.CG), r2.Scale(1/area, moment))); off > 0.1 || d.CG.Z != 5 {
		t.Errorf("its centre of gravity %v is %v mm off", d.CG, off)
	}
}
