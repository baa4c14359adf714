package flat

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
)

// meetingGap is how far, in mm, a point lies above what an end meets, square to
// its surface; negative inside.
func meetingGap(end design.Contact, x r3.Vec) float64 {
	if end.Meets == design.OnBall {
		return outside(end.With, x)
	}
	if end.With != nil {
		return x.Z - end.With.Base.Top
	}
	return x.Z
}

// checkRolledUp rolls both ends of a blank back up.
func checkRolledUp(t *testing.T, p *design.Part, b Blank) {
	t.Helper()
	foot, head := curves(b)
	for i, curve := range [][]r2.Vec{foot, head} {
		if p.Post.Ends[i].Meets != design.Free {
			checkEnd(t, p, &b, i, curve)
			continue
		}
		for _, q := range curve {
			if want := float64(i) * p.Post.Length; q.Y != want {
				t.Fatalf("free %s at y = %v, want %v", endName(i), q.Y, want)
			}
		}
	}
}

// checkOutline checks that an outline is simple, counter-clockwise and within
// its bounding rectangle.
func checkOutline(t *testing.T, b Blank) {
	t.Helper()
	n := len(b.Outline)
	if n < 4 {
		t.Fatalf("blank %s has %d points", b.Name, n)
	}
	area := 0.0
	low, high := b.Outline[0], b.Outline[0]
	for i, p := range b.Outline {
		q := b.Outline[(i+1)%n]
		if !quantity.Finite(p.X, p.Y) {
			t.Fatalf("blank %s has a point %v", b.Name, p)
		}
		if p == q {
			t.Fatalf("blank %s repeats its point %d, %v", b.Name, i, p)
		}
		area += r2.Cross(p, q) / 2
		low = r2.Vec{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
		high = r2.Vec{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
	}
	if area <= 0 {
		t.Errorf("blank %s encloses %v, want more than nothing, counter-clockwise", b.Name, area)
	}
	if w, l := high.X-low.X, high.Y-low.Y; math.Abs(w-b.Width) > 1e-9*w || math.Abs(l-b.Length) > 1e-9*l {
		t.Errorf("blank %s measures %v by %v, says %v by %v", b.Name, w, l, b.Width, b.Length)
	}
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if crosses(b.Outline[i], b.Outline[i+1], b.Outline[j], b.Outline[(j+1)%n]) {
				t.Fatalf("blank %s: side %d crosses side %d", b.Name, i, j)
			}
		}
	}
}

func crosses(a, b, c, d r2.Vec) bool {
	side := func(p, q, r r2.Vec) float64 { return r2.Cross(r2.Sub(q, p), r2.Sub(r, p)) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

func TestRandomJointsRolledUp(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 1005))
	joints, short := 0, 0
	for joints < 1200 {
		p, ok := randomPost(t, rng)
		if !ok {
			continue
		}
		d, wrong := Develop(p)
		if wrong.Err() != nil {
			if !strings.Contains(wrong[0].Text, "too short") {
				t.Fatalf("%v", wrong.Err())
			}
			short++
			continue
		}
		checkRolledUp(t, p, d.Blanks[0])
		checkOutline(t, d.Blanks[0])
		for i, end := range p.Post.Ends {
			if end.Meets != design.Free {
				joints++
			}
			if n := len(d.Rims[i]); n < 48 || n > 96 {
				t.Fatalf("%s rim has %d points, want 48 to 96", endName(i), n)
			}
		}
		if t.Failed() {
			t.Fatalf("post %+v on %s and %s", *p.Post, describe(p.Post.Ends[0]), describe(p.Post.Ends[1]))
		}
	}
	t.Logf("%d joints; %d posts too short for their ends", joints, short)
}

// bruteCut finds where a generator leaves what an end meets by halving, from a
// point well outside it to the nearest inside, and the height of the cut as the
// farthest over the wall.
func bruteCut(p *design.Part, head bool, bearing float64) float64 {
	post := p.Post
	end := post.Ends[design.Foot].Contact
	if head {
		end = post.Ends[design.Head].Contact
	}
	if end.Meets == design.Free {
		if head {
			return post.Length
		}
		return 0
	}
	mean := post.Ends[design.Foot].Diameter/2 - p.Metal.Thickness/2
	x := mean * (bearing - post.Seam)
	const radii = 13
	best := math.Inf(1)
	for k := range radii {
		r := post.Ends[design.Foot].Diameter/2 - p.Metal.Thickness*float64(k)/(radii-1)
		gap := func(y float64) float64 {
			if head {
				y = post.Length - y
			}
			return meetingGap(end, rolled(p, r2.Vec{X: x, Y: y}, r))
		}
		// March down onto the body from above, then halve.
		const step = 0.5
		y := 120.0
		for gap(y) > 0 && y > -2000 {
			y -= max(step, gap(y)/2)
		}
		lo, hi := y, y
		for gap(hi) <= 0 {
			hi += step
		}
		for range 50 {
			mid := (lo + hi) / 2
			if gap(mid) > 0 {
				hi = mid
			} else {
				lo = mid
			}
		}
		best = min(best, -hi)
	}
	if head {
		return post.Length + best
	}
	return -best
}

// TestMassByBruteForce integrates the trimmed wall cell by cell.
func TestMassByBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	const around, across = 720, 6
	for done := 0; done < 6; {
		p, ok := randomPost(t, rng)
		if !ok {
			continue
		}
		d, wrong := Develop(p)
		if wrong.Err() != nil {
			continue
		}
		done++
		post := p.Post
		outer, wall := post.Ends[design.Foot].Diameter/2, p.Metal.Thickness
		turn := 2*math.Pi - post.Gap/(outer-wall/2)
		var mass float64
		var cg r3.Vec
		for i := range around {
			angle := turn * (float64(i) + 0.5) / around
			bearing := post.Seam + angle
			lo, hi := bruteCut(p, false, bearing), bruteCut(p, true, bearing)
			for k := range across {
				r := outer - wall*(float64(k)+0.5)/across
				cell := r * wall / across * turn / around * (hi - lo) * p.Metal.Density * 1e-9
				mass += cell
				at := rolled(p, r2.Vec{X: (outer - wall/2) * angle, Y: (lo + hi) / 2}, r)
				cg = r3.Add(cg, r3.Scale(cell, at))
			}
		}
		cg = r3.Scale(1/mass, cg)
		if off := math.Abs(d.Mass-mass) / mass; off > 2e-5 {
			t.Errorf("post %d: mass %v kg, by cells %v: %.2g off", done, d.Mass, mass, off)
		}
		if off := r3.Norm(r3.Sub(d.CG, cg)); off > 0.01 {
			t.Errorf("post %d: centre of gravity %v, by cells %v", done, d.CG, cg)
		}
	}
}
