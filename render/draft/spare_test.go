package draft_test

import (
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/draft"
	"stabile/render/ink"
)

// Room keeps what it gives away apart from all lines and from each other, within
// the area, and finds a place that is there.
func TestRoom(t *testing.T) {
	box := func(x0, y0, x1, y1 float64) r2.Box {
		return r2.Box{Min: r2.Vec{X: x0, Y: y0}, Max: r2.Vec{X: x1, Y: y1}}
	}
	area := box(20, 10, 220, 160)
	for seed := range uint64(50) {
		r := rand.New(rand.NewPCG(seed, 1))
		point := func() r2.Vec { return r2.Vec{X: 20 + 200*r.Float64(), Y: 10 + 150*r.Float64()} }
		d := draft.New(draft.Millimetre(), area)
		var lines [][2]r2.Vec
		for range 6 {
			l := [2]r2.Vec{point(), point()}
			lines = append(lines, l)
			d.Line(ink.Outline, l[:]...)
		}
		view := box(100, 60, 150, 100)
		spare := d.Spare(view)
		given := []r2.Box{view}
		const margin = 3.0
		for {
			w, h := 10+40*r.Float64(), 10+20*r.Float64()
			b, ok := spare.Room(w, h, margin)
			if !ok {
				break
			}
			if b.Min.X < area.Min.X-1e-9 || b.Min.Y < area.Min.Y-1e-9 || b.Max.X > area.Max.X+1e-9 || b.Max.Y > area.Max.Y+1e-9 {
				t.Fatalf("seed %d: %v leaves the area", seed, b)
			}
			for _, o := range given {
				if b.Min.X < o.Max.X+margin && o.Min.X < b.Max.X+margin && b.Min.Y < o.Max.Y+margin && o.Min.Y < b.Max.Y+margin {
					t.Fatalf("seed %d: %v is within %v mm of %v", seed, b, margin, o)
				}
			}
			for _, l := range lines {
				for k := range 1001 {
					q := r2.Add(l[0], r2.Scale(float64(k)/1000, r2.Sub(l[1], l[0])))
					if b.Min.X-2 < q.X && q.X < b.Max.X+2 && b.Min.Y-2 < q.Y && q.Y < b.Max.Y+2 {
						t.Fatalf("seed %d: a line comes near %v at %v", seed, b, q)
					}
				}
			}
			given = append(given, b)
		}
	}
	d := draft.New(draft.Millimetre(), area)
	if b, ok := d.Spare().Room(200, 150, 5); !ok || b != area {
		t.Errorf("Room(all) = %v, %v, want the area", b, ok)
	}
	s := d.Spare()
	if _, ok := s.Room(120, 100, 0); !ok {
		t.Error("no room on an empty area")
	}
	if _, ok := s.Room(120, 100, 0); ok {
		t.Error("room given twice")
	}
	s.Return()
	if _, ok := s.Room(120, 100, 0); !ok {
		t.Error("no room after it was given back")
	}
}
