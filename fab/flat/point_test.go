package flat

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/written"
)

// TestPointsRollUp rolls the flats of random cones with a point back up: each point of the
// outline comes to lie on the cone, the two edges of the seam meet or leave their gap, no
// metal runs into itself at the end of the sheet, and weight, balance and weld are those
// of the solid, cut into thin rings.
func TestPointsRollUp(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 1))
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	var worst float64
	for n := range 300 {
		thick, narrow := between(0.5, 4), between(1, 6)
		wide, long := between(6*thick, 300), between(20, 1200)
		gap := max(0, between(-1, 1))
		d := written.Design(t, fmt.Sprintf(`units mm
metal skin { alloy low-carbon-steel, thickness %.4f }
metal slab { alloy low-carbon-steel, thickness 10 }
shop { welding { process tig, narrow %.4f } }
base pad { plate 900 by 900, metal slab }
post spike on pad { diameter %.4f to 0, length %.4f, gap %.4f, metal skin }
`, thick, narrow, wide, long, gap))
		made, wrong := All(d)
		if err := wrong.Err(); err != nil {
			t.Fatal(err)
		}
		p := d.Part("spike")
		thick, wide, long = p.Metal.Thickness, p.Post.Ends[0].Diameter, p.Post.Length
		half := math.Atan(wide / 2 / long) // between axis and wall
		sin, cos := math.Sincos(half)
		top := p.Post.Ends[1].At.Z - thick/2/sin // where the middle of the sheet would come to a point
		spike := made[1]
		var turns [2]float64
		least, base := math.Inf(1), 0.0
		pieces := 0
		for i := range spike.Blanks {
			b := &spike.Blanks[i]
			pieces++
			low, high := math.Inf(1), math.Inf(-1)
			for _, q := range b.Outline {
				// About the apex of the fan: how far along the wall, and how far round.
				rel := r2.Sub(q, b.Fan.Apex)
				slant, turn := r2.Norm(rel), math.Atan2(rel.X, -rel.Y)/sin
				low, high = min(low, turn), max(high, turn)
				least, base = min(least, slant), max(base, slant)
			}
			turns[0], turns[1] = turns[0]+low, turns[1]+high
			if i == 0 && math.Abs(b.Fan.Small-least) > Chord {
				t.Fatalf("%d: the small arc is %v, the nearest corner %v", n, b.Fan.Small, least)
			}
		}
		// The inner edge of its foot stands on the plate.
		worst = max(worst, math.Abs(top-base*cos-thick/2*sin-p.Post.Ends[0].At.Z))
		girth := least * sin // radius of the middle at the end of the sheet
		if inside := girth - thick/2*cos; inside < -1e-9 {
			t.Errorf("%d: the inside runs %v past the axis", n, -inside)
		}
		if left := 2*math.Pi*girth - gap; left < narrow-cornerRoom {
			t.Errorf("%d: %v is left at the end, less than can be welded, %v", n, left, narrow)
		}
		if spare := min(girth-thick/2*cos, 2*math.Pi*girth-gap-narrow, least-gapsAway*gap); spare > cornerRoom {
			t.Errorf("%d: the sheet ends %v before it must", n, spare)
		}
		// All round, but for the gap at the wide end.
		most := base * sin
		if missing := (2*math.Pi - (turns[1] - turns[0])) * most; math.Abs(missing-gap*float64(pieces)) > Chord {
			t.Errorf("%d: %v is missing at the seam, the gap is %v; %v by %v, %d pieces", n, missing, gap, wide, long, pieces)
		}
		var mass, moment float64
		const rings = 20000
		for k := range rings {
			s := least + (base-least)*(float64(k)+0.5)/rings
			m := (2*math.Pi*s*sin - gap*float64(pieces)) * (base - least) / rings * thick * p.Metal.Density * 1e-9
			mass, moment = mass+m, moment+m*(top-s*cos)
		}
		if math.Abs(spike.Mass/mass-1) > 5e-4 || math.Abs(spike.CG.Z-moment/mass) > 0.1 {
			t.Errorf("%d: %v kg at %v, by rings %v at %v", n, spike.Mass, spike.CG.Z, mass, moment/mass)
		}
		var fill float64
		for _, s := range spike.Seams {
			if s.Kind == PointFill {
				fill = s.Volume
			}
		}
		// What the cone has above the sheet's end, which is square through it.
		inner := r3.Vec{X: girth - thick/2*cos, Z: top - least*cos - thick/2*sin}
		outer := r3.Vec{X: girth + thick/2*cos, Z: top - least*cos + thick/2*sin}
		tip := p.Post.Ends[1].At.Z
		want := 0.0
		for k := range rings {
			z := inner.Z + (tip-inner.Z)*(float64(k)+0.5)/rings
			r := (tip - z) * sin / cos
			if z < outer.Z {
				r = inner.X + (outer.X-inner.X)*(z-inner.Z)/(outer.Z-inner.Z)
			}
			want += math.Pi * r * r * (tip - inner.Z) / rings
		}
		if math.Abs(fill/want-1) > 1e-3 {
			t.Errorf("%d: %v mm3 of weld builds up the point, by rings %v", n, fill, want)
		}
	}
	if worst > cornerRoom {
		t.Errorf("a foot stands %v off the plate", worst)
	}
}

// cornerRoom is how far, in mm, a corner may seem to lie off its place: the corners beside
// the gap are cut off parallel to the seam.
const cornerRoom = 1e-3

// TestPointVented drills the vent and the drain of a cone with a point: both are in its
// blank, the vent higher, and neither reaches over its edges.
func TestPointVented(t *testing.T) {
	d := written.Design(t, `units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { plate 900 by 900, metal slab }
post spike on pad { diameter 120 to 0, length 900, vent 8, drain 8, metal skin }
`)
	made, wrong := All(d)
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	b := &made[1].Blanks[0]
	if len(b.Holes) != 2 {
		t.Fatalf("%d holes: %+v", len(b.Holes), made[1].Findings)
	}
	for _, h := range b.Holes {
		for _, q := range h.Outline {
			if !within(q, b.Outline) || fromEdge(q, b.Outline) < ventClear/2 {
				t.Errorf("a hole at %v lies %v from the edge", h.Center, fromEdge(q, b.Outline))
			}
		}
	}
	if rise := math.Abs(b.Holes[0].Center.Y - b.Holes[1].Center.Y); rise < 500 {
		t.Errorf("the vent is only %v above the drain", rise)
	}
}
