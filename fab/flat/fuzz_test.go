package flat

import (
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
)

// FuzzPost develops posts whose sizes come from a seed and are then stretched
// out of the common, further than the language lets them be: whatever they are, there
// is an answer or a reason.
func FuzzPost(f *testing.F) {
	f.Add(uint64(1), 1.0, 1.0, 1.0, 0.0)
	f.Add(uint64(2), 0.01, 3.0, 0.1, 1.5)
	f.Add(uint64(3), 100.0, 0.001, 1e6, 3.0)
	f.Add(uint64(4), 1.0, 20.0, 1.0, -2.0)
	f.Fuzz(func(t *testing.T, seed uint64, diameter, thickness, length, lean float64) {
		p, ok := randomPost(t, rand.New(rand.NewPCG(seed, 1)))
		if !ok {
			return
		}
		p.Post.Ends[design.Foot].Diameter *= diameter
		p.Post.Ends[design.Head].Diameter = p.Post.Ends[design.Foot].Diameter
		p.Metal.Thickness *= thickness
		p.Post.Length *= length
		p.Post.Direction = design.Leaning(lean, 1)
		d, wrong := Develop(p)
		if wrong.Err() != nil {
			return
		}
		b := d.Blanks[0]
		for _, q := range b.Outline {
			if !quantity.Finite(q.X, q.Y) {
				t.Fatalf("outline has %v", q)
			}
		}
		if !(d.Mass > 0) || !(b.Width > 0) || !(b.Length > 0) || !quantity.Finite(d.Mass, d.CG.X, d.CG.Y, d.CG.Z, d.Seam, d.Welds[0], d.Welds[1]) {
			t.Fatalf("mass %v, %v by %v, centre of gravity %v, seam %v, welds %v", d.Mass, b.Width, b.Length, d.CG, d.Seam, d.Welds)
		}
		for _, o := range b.Ordinates {
			for _, s := range o.Stations {
				if !(s.Ordinate >= 0 && s.Ordinate <= b.Length) {
					t.Fatalf("%s ordinate %v of a blank %v long", o.Edge, s.Ordinate, b.Length)
				}
			}
		}
		if len(b.Outline) < 400 {
			checkOutline(t, b)
		}
	})
}

// FuzzBall develops balls of any sizes, made by hand since the language refuses most.
func FuzzBall(f *testing.F) {
	f.Add(300.0, 1.5, 60.0, 12, 0)
	f.Add(10.0, 4.9, 1e-9, 3, 1)
	f.Add(1e9, 1e-3, 1e8, 100, 2)
	f.Fuzz(func(t *testing.T, diameter, thickness, caps float64, gores, build int) {
		if gores > 10000 {
			return
		}
		p := newBall(diameter, thickness, design.Construction(((build%4)+4)%4), gores, r3.Vec{})
		p.Ball.Caps = caps
		d, wrong := Develop(p)
		if wrong.Err() != nil {
			return
		}
		for _, b := range d.Blanks {
			for _, q := range b.Outline {
				if !quantity.Finite(q.X, q.Y) {
					t.Fatalf("outline of %s has %v", b.Name, q)
				}
			}
			if !(b.Area > 0) || !quantity.Finite(b.Area, b.Mass, b.Forming.Crown, b.Forming.Stretch) {
				t.Fatalf("%s = %+v", b.Name, b)
			}
		}
		if !quantity.Finite(d.Mass, d.Seam) {
			t.Fatalf("mass %v, seam %v", d.Mass, d.Seam)
		}
	})
}

// FuzzJoint develops ends of every kind, stretched out of the common, as a whole
// design with what they stand on.
func FuzzJoint(f *testing.F) {
	for k := range len(jointKinds()) {
		f.Add(uint64(k), k, 1.0, 1.0, 1.0, 1.0)
	}
	f.Add(uint64(9), 2, 30.0, 0.01, 5.0, -1.0)
	f.Fuzz(func(t *testing.T, seed uint64, kind int, diameter, other, length, turn float64) {
		kinds := jointKinds()
		p, _ := randomJoint(rand.New(rand.NewPCG(seed, 2)), kinds[((kind%len(kinds))+len(kinds))%len(kinds)])
		p.Post.Ends[design.Foot].Diameter *= diameter
		p.Post.Ends[design.Head].Diameter *= other
		p.Post.Length *= length
		p.Post.Direction = r3.Unit(r3.Add(p.Post.Direction, r3.Vec{X: turn - 1}))
		parts := []*design.Part{p}
		for _, end := range p.Post.Ends {
			if end.With != nil && end.With.Base == nil {
				parts = append(parts, end.With)
			}
		}
		checkAll(t, parts)
	})
}

// FuzzRolledUp rolls random joints back up: whatever can be made fits.
func FuzzRolledUp(f *testing.F) {
	for k := range len(jointKinds()) {
		f.Add(uint64(k), k)
	}
	f.Fuzz(func(t *testing.T, seed uint64, kind int) {
		kinds := jointKinds()
		p, i := randomJoint(rand.New(rand.NewPCG(seed, 4)), kinds[((kind%len(kinds))+len(kinds))%len(kinds)])
		d, wrong := Develop(p)
		if wrong.Err() != nil {
			return
		}
		b := &d.Blanks[0]
		foot, head := ends(b)
		checkEnd(t, p, b, i, [][]r2.Vec{foot, head}[i])
		checkOutline(t, *b)
		if t.Failed() {
			t.Fatalf("post %+v on %s", *p.Post, describe(p.Post.Ends[i]))
		}
	})
}

// threadedBall returns a ball on a post, about the point at 300 mm along it: by hand,
// since the language refuses what is out of the common.
func threadedBall(build design.Construction, n int, diameter float64, along, pole r3.Vec) (post, ball *design.Part) {
	post = newPost(diameter, 1.5, 700, r3.Vec{X: 3, Y: -2, Z: 10}, along)
	ball = newBall(300, 1.5, build, n, r3.Add(post.Post.Ends[design.Foot].At, r3.Scale(300, along)))
	if build == design.Zones {
		ball.Ball.Gores, ball.Ball.Zones = 0, n
	}
	ball.Ball.Pole = pole
	ball.Ball.Prime = design.Toward(pole, 0.3)
	ball.Ball.Around, ball.Ball.Along = post, 300
	return post, ball
}

// FuzzThread threads balls of every build on posts, with a vent.
func FuzzThread(f *testing.F) {
	f.Add(uint64(1), 0, 12, 60.0, 30.0, 8.0, 0.3)
	f.Add(uint64(2), 2, 7, 100.0, 0.0, 20.0, 1.5)
	f.Add(uint64(3), 3, 1, 299.0, 0.0, 1.0, 0.0)
	f.Add(uint64(4), 1, 48, 250.0, 290.0, 0.0, 3.0)
	f.Fuzz(func(t *testing.T, seed uint64, build, n int, diameter, caps, vent, tilt float64) {
		builds := []design.Construction{design.RolledGores, design.DomedGores, design.Zones, design.Halves, design.Bought}
		if n > 200 || n < -200 {
			return
		}
		rng := rand.New(rand.NewPCG(seed, 3))
		post, ball := threadedBall(builds[((build%5)+5)%5], n, diameter, anyDirection(rng), design.Leaning(tilt, rng.Float64()))
		ball.Ball.Caps, ball.Ball.Vent, ball.Ball.Drain = caps, vent, vent/2
		checkAll(t, []*design.Part{post, ball})
	})
}

// checkAll sees that what comes of a design is numbers, and its outlines simple.
func checkAll(t *testing.T, parts []*design.Part) {
	t.Helper()
	whole := &design.Design{Parts: parts}
	made, wrong := All(whole)
	if wrong.Err() != nil {
		return
	}
	MarkStanding(whole, made)
	for i, d := range made {
		if !quantity.Finite(d.Mass, d.CG.X, d.CG.Y, d.CG.Z, d.Seam, d.Thread, d.Welds[0], d.Welds[1]) || d.Mass < 0 {
			t.Fatalf("part %d: %+v", i, d)
		}
		for _, b := range d.Blanks {
			for _, q := range b.Outline {
				if !quantity.Finite(q.X, q.Y) {
					t.Fatalf("outline of %s has %v", b.Name, q)
				}
			}
			for _, m := range b.Marks {
				for _, q := range append(m.Path, m.From, m.To) {
					if !quantity.Finite(q.X, q.Y) {
						t.Fatalf("a mark of %s has %v", b.Name, q)
					}
				}
			}
			if !(b.Quantity > 0) || !quantity.Finite(b.Area, b.Width, b.Length, b.Mass) || b.Area < -1e-6 {
				t.Fatalf("blank %s of %d, %v by %v, area %v, mass %v", b.Name, b.Quantity, b.Width, b.Length, b.Area, b.Mass)
			}
		}
	}
}
