package flat

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// buy makes a post one that is cut from pipe of a wall.
func buy(p *design.Part, wall float64) {
	sheet := *p.Metal
	metal := *p.Metal
	metal.Thickness = wall
	p.Metal = &metal
	p.Post.Bought = &design.BoughtTube{Sheet: &sheet, Length: 6000}
	p.Post.Gap = 0
}

// wrapped returns where a point of a template comes to lie that is wrapped round the
// outside of a pipe.
func wrapped(p *design.Part, q r2.Vec) r3.Vec {
	outer := p.Post.Ends[design.Foot].Diameter / 2
	sin, cos := math.Sincos(p.Post.Seam + q.X/outer)
	return r3.Add(p.Post.Ends[design.Foot].At, tilted(p.Post.Direction, r3.Vec{X: outer * cos, Y: outer * sin, Z: q.Y}))
}

// besideCap is what a thick wall may run inside beside a dished cap, in mm: there its
// touch is looked for in steps across the wall, which are the wider the thicker that is.
const besideCap = 0.01

// TestTemplatesWrapped wraps templates of random joints of every kind round the outside
// of their pipe. Along a plane the edge lies on it, as a saw leaves it; elsewhere the
// wall, coped square through from the edge, touches what the end meets and runs into it
// nowhere.
func TestTemplatesWrapped(t *testing.T) {
	for n, kind := range jointKinds() {
		rng := rand.New(rand.NewPCG(41, uint64(n)))
		var most reached
		made := 0
		for made < 150 {
			p, i := randomJoint(rng, kind)
			if p.Post.IsTaper() {
				continue
			}
			made++
			outer := p.Post.Ends[design.Foot].Diameter / 2
			buy(p, outer*(0.05+0.4*rng.Float64()))
			d, wrong := Develop(p)
			if wrong.Err() != nil {
				t.Fatalf("%s: %v", kind.name, wrong.Err())
			}
			b := &d.Blanks[0]
			if got := math.Pi * 2 * outer; math.Abs(b.Width-got) > 1e-9 {
				t.Fatalf("a template is %v wide, and the pipe %v round", b.Width, got)
			}
			foot, head := curves(*b)
			curve := [][]r2.Vec{foot, head}[i]
			plane := p.Post.Ends[i].Meets == design.OnPlate || p.Post.Ends[i].Meets == design.OnHead
			look := func(q r2.Vec) {
				var gap float64
				if plane {
					gap = gapTo(p, i, wrapped(p, q))
				} else {
					mean := outer - p.Metal.Thickness/2
					gap = nearest(p, b, i, r2.Vec{X: q.X * mean / outer, Y: q.Y})
				}
				most.add(gap)
				inside := nowhereInside
				if kind.name == "ball with caps" {
					inside = besideCap
				}
				if gap < -inside || gap > atMostOff {
					t.Fatalf("%s: the edge at %v is %v from the surface", kind.name, q, gap)
				}
			}
			for k, q := range curve {
				look(q)
				if k > 0 {
					for _, u := range [...]float64{0.2, 0.5, 0.8} {
						look(r2.Add(q, r2.Scale(u, r2.Sub(curve[k-1], q))))
					}
				}
			}
			if len(d.Seams) > 0 && d.Seams[0].Kind == TubeSeam {
				t.Fatalf("%s: a pipe has a seam to weld", kind.name)
			}
		}
		t.Logf("%s: %d pipes; at most %.4f mm inside and %.4f mm off", kind.name, made, most.in, most.out)
	}
}

// TestPipeWeighed takes pipes between two sawn planes apart into small pieces: their mass
// and centre of gravity are those of the ring between the two planes.
func TestPipeWeighed(t *testing.T) {
	rng := rand.New(rand.NewPCG(42, 1))
	for range 40 {
		outer := 20 + 80*rng.Float64()
		lean := 1.1 * rng.Float64()
		way := design.Leaning(lean, 7*rng.Float64())
		p := newPost(2*outer, 2, 900, r3.Vec{X: 30, Y: -20, Z: 9.5}, way)
		p.Post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnPlate, With: &design.Part{Name: "pad", Base: &design.Base{Top: 9.5}}}
		p.Post.Ends[design.Head].Disc = false
		host := newPost(2*outer, 2, 900, p.Post.Ends[design.Head].At, r3.Unit(r3.Add(way, r3.Scale(0.8*rng.Float64(), square2(rng, way)))))
		p.Post.Ends[design.Head].Contact = design.Contact{Meets: design.OnHead, With: host}
		wall := outer * (0.1 + 0.3*rng.Float64())
		buy(p, wall)
		d, wrong := Develop(p)
		if wrong.Err() != nil {
			t.Fatal(wrong.Err())
		}
		zero, right := design.Tilt(way)
		mitre := r3.Unit(r3.Add(way, host.Post.Direction)) // both go on, one into the other
		const around, across = 720, 40
		var mass float64
		var first r3.Vec
		for a := range around {
			sin, cos := math.Sincos(2 * math.Pi * (float64(a) + 0.5) / around)
			out := r3.Add(r3.Scale(cos, zero), r3.Scale(sin, right))
			for k := range across {
				r := outer - wall + wall*(float64(k)+0.5)/across
				from := r3.Add(p.Post.Ends[design.Foot].At, r3.Scale(r, out))
				low := (9.5 - from.Z) / way.Z
				high := r3.Dot(r3.Sub(p.Post.Ends[design.Head].At, from), mitre) / r3.Dot(way, mitre)
				m := r * (2 * math.Pi / around) * (wall / across) * (high - low) * p.Metal.Density * 1e-9
				mass += m
				first = r3.Add(first, r3.Scale(m, r3.Add(from, r3.Scale((low+high)/2, way))))
			}
		}
		cg := r3.Scale(1/mass, first)
		if math.Abs(d.Mass/mass-1) > 1e-5 {
			t.Errorf("a pipe weighs %v, its pieces %v", d.Mass, mass)
		}
		if off := r3.Norm(r3.Sub(d.CG, cg)); off > 0.01 {
			t.Errorf("the centre of gravity of a pipe is %v from that of its pieces", off)
		}
		for _, note := range d.Blanks[0].Notes {
			if s, ok := note.(SawnEnd); ok && s.End == "foot" {
				if math.Abs(s.Angle-lean) > 1e-4 {
					t.Errorf("sawn at %v, leaning %v", s.Angle, lean)
				}
				// Its foot reaches lowest on the side that it leans away from.
				if lean > 0.05 && math.Abs(math.Remainder(s.Long-design.BearingOf(way)+math.Pi, 2*math.Pi)) > 1e-3 {
					t.Errorf("longest at %v, leaning toward %v", s.Long, design.BearingOf(way))
				}
			}
		}
	}
}
