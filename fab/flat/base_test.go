package flat

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

func newBase(b design.Base) *design.Part {
	b.Top = 10
	return &design.Part{Name: "pad", Metal: steel(10), Base: &b}
}

// TestPlate weighs the plate of the worked assembly T1, 600 x 400 x 10 at 7850
// kg/m3: 18.84 kg.
func TestPlate(t *testing.T) {
	d := develop(t, newBase(design.Base{Width: 600, Depth: 400}))
	if !near(d.Mass, 18.84) || d.CG != (r3.Vec{Z: 5}) {
		t.Errorf("plate weighs %v about %v, want 18.84 about its middle", d.Mass, d.CG)
	}
	checkOutline(t, d.Blanks[0])
}

func TestAnchors(t *testing.T) {
	for _, tt := range []struct {
		base design.Base
		want []r2.Vec
	}{
		{design.Base{Width: 600, Depth: 400, Anchors: 4}, []r2.Vec{{X: -260, Y: -160}, {X: 260, Y: -160}, {X: 260, Y: 160}, {X: -260, Y: 160}}},
		{design.Base{Width: 600, Depth: 400, Anchors: 2}, []r2.Vec{{X: -260, Y: -160}, {X: 260, Y: 160}}},
		// The rectangle of 520 by 320 is 1680 round: every 210.
		{design.Base{Width: 600, Depth: 400, Anchors: 8}, []r2.Vec{
			{X: -260, Y: -160}, {X: -50, Y: -160}, {X: 160, Y: -160}, {X: 260, Y: -50},
			{X: 260, Y: 160}, {X: 50, Y: 160}, {X: -160, Y: 160}, {X: -260, Y: 50},
		}},
		{design.Base{Shape: design.Disc, Width: 480, Depth: 480, Anchors: 4}, []r2.Vec{
			{X: 100 * math.Sqrt2, Y: 100 * math.Sqrt2}, {X: -100 * math.Sqrt2, Y: 100 * math.Sqrt2},
			{X: -100 * math.Sqrt2, Y: -100 * math.Sqrt2}, {X: 100 * math.Sqrt2, Y: -100 * math.Sqrt2},
		}},
	} {
		tt.base.AnchorDiameter, tt.base.AnchorEdge = 14, 40
		d := develop(t, newBase(tt.base))
		b := d.Blanks[0]
		checkOutline(t, b)
		if len(b.Holes) != len(tt.want) {
			t.Fatalf("%+v: %d holes, want %d", tt.base, len(b.Holes), len(tt.want))
		}
		for i, h := range b.Holes {
			if r2.Norm(r2.Sub(h.Center, tt.want[i])) > 1e-9 || h.Diameter != 14 || len(h.Outline) != 48 {
				t.Errorf("%+v: hole %d at %v, want %v", tt.base, i, h.Center, tt.want[i])
			}
		}
		whole := develop(t, newBase(design.Base{Shape: tt.base.Shape, Width: tt.base.Width, Depth: tt.base.Depth}))
		holes := float64(len(b.Holes)) * math.Pi * 49 * 10 * 7850e-9
		if got := whole.Mass - d.Mass; !near(got, holes) {
			t.Errorf("%+v: holes weigh %v, want %v", tt.base, got, holes)
		}
	}
}

// TestOneAnchor balances a plate by the lever rule about its one hole.
func TestOneAnchor(t *testing.T) {
	d := develop(t, newBase(design.Base{Width: 100, Depth: 100, Anchors: 1, AnchorDiameter: 40, AnchorEdge: 25}))
	hole := math.Pi * 400
	want := 25 * hole / (10000 - hole)
	if !near(d.CG.X, want) || !near(d.CG.Y, want) {
		t.Errorf("centre of gravity %v, want %v both ways", d.CG, want)
	}
}

// TestPolygon weighs a plate of five sides, off the origin, point by point.
func TestPolygon(t *testing.T) {
	corners := []r2.Vec{{X: 100, Y: -50}, {X: 420, Y: 10}, {X: 380, Y: 200}, {X: 60, Y: 260}, {X: 20, Y: 90}}
	d := develop(t, newBase(design.Base{Shape: design.Polygon, Width: 400, Depth: 310, Corners: corners, Anchors: 3, AnchorDiameter: 60, AnchorEdge: 50}))
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
