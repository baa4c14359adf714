package stand

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

func TestHull(t *testing.T) {
	for _, tt := range []struct {
		name   string
		points []r2.Vec
		want   []r2.Vec
	}{
		{"none", nil, nil},
		{"one", []r2.Vec{{X: 1, Y: 1}}, nil},
		{"twice the same", []r2.Vec{{X: 1}, {X: 1}, {X: 1}}, nil},
		{"along a line", []r2.Vec{{}, {X: 1, Y: 1}, {X: 2, Y: 2}, {X: 3, Y: 3}}, nil},
		{"thinner than drawn", []r2.Vec{{}, {X: 100}, {X: 50, Y: 0.001}}, nil},
		{"square with points on it and in it", []r2.Vec{{X: 1, Y: 1}, {}, {X: 2}, {X: 1}, {X: 2, Y: 2}, {Y: 2}, {Y: 1}},
			[]r2.Vec{{}, {X: 2}, {X: 2, Y: 2}, {Y: 2}}},
	} {
		got := Hull(tt.points)
		if len(got) != len(tt.want) {
			t.Errorf("%s: Hull = %v, want %v", tt.name, got, tt.want)
			continue
		}
		for i := range got {
			if got[i] != tt.want[i] {
				t.Errorf("%s: Hull = %v, want %v", tt.name, got, tt.want)
				break
			}
		}
	}
}

// TestHullHolds holds that a hull is convex, counter-clockwise, made of given
// points and has all points within.
func TestHullHolds(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 12))
	for range 200 {
		points := make([]r2.Vec, 3+rnd.IntN(60))
		for i := range points {
			points[i] = r2.Vec{X: rnd.NormFloat64() * 100, Y: rnd.NormFloat64() * 100}
		}
		h := Hull(points)
		for i, a := range h {
			b := h[(i+1)%len(h)]
			for _, p := range points {
				if r2.Cross(r2.Unit(r2.Sub(b, a)), r2.Sub(p, a)) < -1e-9 {
					t.Fatalf("point %v outside of side %v %v", p, a, b)
				}
			}
		}
	}
}

func TestMiddle(t *testing.T) {
	far := r2.Vec{X: 1e6, Y: -2e6}
	got := design.Centroid([]r2.Vec{far, r2.Add(far, r2.Vec{X: 3}), r2.Add(far, r2.Vec{Y: 3})})
	if want := r2.Add(far, r2.Vec{X: 1, Y: 1}); r2.Norm(r2.Sub(got, want)) > 1e-9 {
		t.Errorf("Middle = %v, want %v", got, want)
	}
}

// TestRing stands a leaning tube on the ground. Its cut is square to the wall,
// so that where the tube leans over, the outside edge bears, and on the other
// side the inside edge.
func TestRing(t *testing.T) {
	const r, wall, lean = 50.0, 3.0, 0.3
	u := design.Leaning(lean, 0)
	p := &design.Post{Direction: u, Ends: [2]design.End{{Diameter: 2 * r}, {Diameter: 2 * r}}}
	var rim []r3.Vec
	for i := range 360 {
		out := design.Toward(u, float64(i)*math.Pi/180)
		// The length at which a line of the tube at radius q meets the ground.
		meets := func(q float64) float64 { return -q * out.Z / u.Z }
		rim = append(rim, r3.Add(r3.Scale(r, out), r3.Scale(max(meets(r), meets(r-wall)), u)))
	}
	ring := Ring(p, wall, rim)
	if len(ring) != len(rim) {
		t.Fatalf("%d of %d points bear", len(ring), len(rim))
	}
	hull := Hull(ring)
	var lo, hi float64
	for _, q := range hull {
		lo, hi = min(lo, q.X), max(hi, q.X)
	}
	// The ground cuts the cylinder of radius q in an ellipse of half axis q/cos(lean).
	if want := r / math.Cos(lean); math.Abs(hi-want) > 0.01 && math.Abs(lo+want) > 0.01 {
		t.Errorf("the ring reaches from %v to %v, want one end at the outside edge %v", lo, hi, want)
	}
	if want := (r - wall) / math.Cos(lean); math.Abs(min(hi, -lo)-want) > design.Touch {
		t.Errorf("the ring reaches from %v to %v, want one end at the inside edge %v", lo, hi, want)
	}
	for i := range rim {
		rim[i].Z += 200
	}
	if got := Ring(p, wall, rim); got != nil {
		t.Errorf("a rim above the ground bears at %v", got)
	}
}
