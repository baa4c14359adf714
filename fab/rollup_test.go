package fab_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/param"
	"stabile/param/design"
)

// These tests close the loop on the examples: each flat is bent back into the
// piece that it was developed from, with geometry written anew here, and the
// piece is measured against what it must meet and what it must weigh.

// nearEnough is how far, in mm, a trimmed edge may lie from what it must meet:
// the chord by which an outline may leave the true curve.
const nearEnough = flat.Chord

func eachExample(t *testing.T, check func(t *testing.T, j *fab.Job)) {
	t.Helper()
	dir := filepath.Join("..", "examples")
	files, err := filepath.Glob(filepath.Join(dir, "*.stabile"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	for _, f := range files {
		t.Run(filepath.Base(f), func(t *testing.T) {
			text, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(string(text), "\nsculpture ") {
				t.Skip("what other files use")
			}
			d, err := param.Load(os.DirFS(dir), filepath.Base(f), param.Options{})
			if err != nil {
				t.Fatal(err)
			}
			j, wrong := fab.Build(d)
			if err := wrong.Err(); err != nil {
				t.Fatal(err)
			}
			check(t, j)
		})
	}
}

// rolled returns where a point of a post's flat comes to lie, at a radius from
// the axis.
func rolled(p *design.Part, at r2.Vec, radius float64) r3.Vec {
	mean := (p.Post.Diameter[0] - p.Metal.Thickness) / 2
	across := design.Toward(p.Post.Direction, p.Post.Seam+at.X/mean)
	q := r3.Add(p.Post.Foot, r3.Scale(at.Y, p.Post.Direction))
	return r3.Add(q, r3.Scale(radius, across))
}

// outsideBy returns how far, in mm, a point lies outside of what an end meets;
// negative inside. For rolled gores it is the distance from the lobe that
// stands out farthest, or from the dished cap.
func outsideBy(e design.End, q r3.Vec) float64 {
	if e.Meets == design.OnPlate {
		return q.Z - e.With.Base.Top
	}
	b := e.With.Ball
	x := r3.Sub(q, b.Center)
	round := r3.Norm(x) - b.Radius
	if b.Build != design.RolledGores {
		return round
	}
	z := r3.Dot(x, b.Pole)
	if b.Caps > 0 {
		mean := b.Radius - e.With.Metal.Thickness/2
		edge := b.Radius * math.Sqrt(1-math.Pow(b.Caps/2/mean, 2))
		if math.Abs(z) >= edge {
			return round
		}
	}
	side := r3.Cross(b.Pole, b.Prime)
	out := 0.0
	for k := range b.Gores {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(b.Gores))
		out = max(out, cos*r3.Dot(x, b.Prime)+sin*r3.Dot(x, side))
	}
	return math.Hypot(out, z) - b.Radius
}

// TestTrimmedEdgesMeet rolls the flat of every post of the examples back up and
// measures every point of its trimmed edges, and every station of its tables of
// ordinates, across the wall: the nearest of the wall must lie on the surface
// that it must meet.
func TestTrimmedEdgesMeet(t *testing.T) {
	const across = 40 // steps through the wall
	points := 0
	eachExample(t, func(t *testing.T, j *fab.Job) {
		for _, p := range j.Parts {
			if p.Post == nil {
				continue
			}
			blank := p.Blanks[0]
			bottom, top := span(blank.Outline)
			meets := func(e design.End, at r2.Vec, what string) {
				points++
				outer := p.Post.Diameter[0] / 2
				gap := math.Inf(1)
				for i := range across + 1 {
					r := outer - p.Metal.Thickness*float64(i)/across
					gap = min(gap, outsideBy(e, rolled(p.Part, at, r)))
				}
				if math.Abs(gap) > nearEnough {
					t.Errorf("%s: %s at %.2f, %.2f lies %.3f mm off what it must meet", p.Name, what, at.X, at.Y, gap)
				}
			}
			middle := p.Post.Length / 2
			for _, at := range blank.Outline {
				if e := p.Post.FootEnd; at.Y < middle && e.Meets != design.Free {
					meets(e, at, "the foot")
				}
				if e := p.Post.HeadEnd; at.Y > middle && e.Meets != design.Free {
					meets(e, at, "the head")
				}
			}
			for _, table := range blank.Ordinates {
				for _, s := range table.Stations {
					switch table.Edge {
					case "foot":
						meets(p.Post.FootEnd, r2.Vec{X: s.At, Y: bottom + s.Ordinate}, "a station of the foot")
					case "head":
						meets(p.Post.HeadEnd, r2.Vec{X: s.At, Y: top - s.Ordinate}, "a station of the head")
					default:
						t.Errorf("%s: ordinates of an edge %q", p.Name, table.Edge)
					}
				}
			}
		}
	})
	t.Logf("%d points measured", points)
	if points < 1000 {
		t.Errorf("only %d points were measured", points)
	}
}

// span returns the least and greatest y of an outline.
func span(outline []r2.Vec) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range outline {
		low, high = min(low, p.Y), max(high, p.Y)
	}
	return low, high
}

// TestGoresClose bends the gores of every ball of the examples back about the
// level axis square to their middle, N of them side by side, and measures that
// their edges meet their neighbours'.
func TestGoresClose(t *testing.T) {
	gores := 0
	eachExample(t, func(t *testing.T, j *fab.Job) {
		for _, p := range j.Parts {
			if p.Ball == nil || p.Ball.Gores == 0 {
				continue
			}
			b, blank := p.Ball, p.Blanks[0]
			if blank.Quantity != b.Gores {
				t.Errorf("%s: %d gores are cut for a ball of %d", p.Name, blank.Quantity, b.Gores)
			}
			gores++
			mean := b.Radius - p.Metal.Thickness/2
			half := math.Pi / float64(b.Gores)
			low, high := span(blank.Outline)
			for _, at := range blank.Outline {
				if at.Y < low+1e-6 || at.Y > high-1e-6 {
					continue // the blunt or capped end
				}
				// Bent about the axis through the ball's centre, the edge must lie in
				// the plane between this gore and the next: half a turn's Nth part
				// round from the middle.
				sin, cos := math.Sincos(at.Y / mean)
				q := r3.Vec{X: mean * cos, Y: math.Abs(at.X), Z: mean * sin}
				if b.Build == design.DomedGores {
					// Stretched to the sphere, across becomes along the parallel.
					sin, cos := math.Sincos(q.Y / q.X)
					q.X, q.Y = q.X*cos, q.X*sin
				}
				if turn := math.Atan2(q.Y, q.X) - half; math.Abs(turn)*math.Hypot(q.X, q.Y) > nearEnough {
					t.Errorf("%s: edge at %.2f, %.2f is %.3f mm off its neighbour's", p.Name, at.X, at.Y, turn*q.X)
				}
			}
		}
	})
	if gores < 5 {
		t.Errorf("only %d balls of gores were measured", gores)
	}
}

// TestMassByGrid weighs every post of the examples by brute force: the tube is
// cut into small cells, and those count whose whole wall lies clear of what the
// ends meet.
func TestMassByGrid(t *testing.T) {
	const (
		around = 120
		along  = 2000
		depth  = 3    // through the wall
		within = 1e-3 // of the mass: 0.1 per cent
	)
	eachExample(t, func(t *testing.T, j *fab.Job) {
		for _, p := range j.Parts {
			if p.Post == nil {
				continue
			}
			mean := (p.Post.Diameter[0] - p.Metal.Thickness) / 2
			low, high := span(p.Blanks[0].Outline)
			low, high = low-1, high+1
			step := (high - low) / along
			clear := func(x, y float64) bool {
				for i := range depth {
					r := mean + p.Metal.Thickness*(float64(i)/(depth-1)-0.5)
					q := rolled(p.Part, r2.Vec{X: x, Y: y}, r)
					if e := p.Post.FootEnd; e.Meets != design.Free && outsideBy(e, q) < 0 {
						return false
					}
					if e := p.Post.HeadEnd; e.Meets != design.Free && outsideBy(e, q) < 0 {
						return false
					}
				}
				return p.Post.HeadEnd.Meets != design.Free || y <= p.Post.Length
			}
			cells := 0
			for i := range around {
				x := 2 * math.Pi * mean * (float64(i) + 0.5) / around
				// From the middle out to both ends: all between lies clear.
				from := along / 2
				for k := from; k < along && clear(x, low+(float64(k)+0.5)*step); k++ {
					cells++
				}
				for k := from - 1; k >= 0 && clear(x, low+(float64(k)+0.5)*step); k-- {
					cells++
				}
			}
			area := float64(cells) * step * (2*math.Pi*mean - p.Post.Gap) / around
			mass := area * p.Metal.Thickness * p.Metal.Density * 1e-9
			for _, b := range p.Blanks[1:] { // the disc of a free head
				mass += b.Mass * float64(b.Quantity)
			}
			if off := p.Mass/mass - 1; math.Abs(off) > within {
				t.Errorf("%s: weighs %.5f kg, by brute force %.5f kg: %.3f %% off", p.Name, p.Mass, mass, off*100)
			}
		}
	})
}
