package fab

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/flat"
	"stabile/param"
	"stabile/param/design"
)

// These tests close the loop on the examples: each flat is bent back into the
// piece that it was developed from, with geometry written again here, and the
// piece is measured against what it must meet and what it must weigh.

// nearEnough is how far, in mm, an edge may lie from what it must meet, and
// insideBy how far it may seem to run inside of it.
const (
	nearEnough = 0.02
	insideBy   = 0.001
)

func eachExample(t *testing.T, check func(t *testing.T, j *Job)) {
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
			j, wrong := Build(d, 0)
			if err := wrong.Err(); err != nil {
				t.Fatal(err)
			}
			check(t, j)
		})
	}
}

// A wall is a post's, by the geometry of a frustum: a point of it has a bearing, a
// height along the slant from the foot, and a distance out from the middle of the
// sheet.
type wall struct {
	part     *design.Part
	mean     float64 // mm, radius of the middle at the foot
	sin, cos float64 // of the angle by which it leans out
	start    float64 // mm along the axis, of the middle at the foot
	slant    float64 // mm, from foot to head
}

func wallOf(p *design.Part) wall {
	q := p.Post
	w := wall{part: p, cos: 1, slant: q.Length}
	if q.Ends[design.Foot].Diameter != q.Ends[design.Head].Diameter {
		alpha := math.Atan((q.Ends[design.Head].Diameter - q.Ends[design.Foot].Diameter) / 2 / q.Length)
		w.sin, w.cos = math.Sin(alpha), math.Cos(alpha)
		w.slant = q.Length / w.cos
		w.start = p.Metal.Thickness / 2 * w.sin
	}
	w.mean = q.Ends[design.Foot].Diameter/2 - p.Metal.Thickness/2*w.cos
	if q.Ends[design.Head].Diameter == 0 { // the inside of a cone closes before the point, or it is 3 mm round
		w.slant = (w.mean - max(p.Metal.Thickness/2*w.cos, 3/(2*math.Pi))) / -w.sin
	}
	return w
}

// at returns the point. Bearings are those of the post standing upright, carried
// over by the shortest turn; of a tube of a ring, from straight out of the ring.
func (w *wall) at(bearing, height, out float64) r3.Vec {
	sin, cos := math.Sincos(bearing)
	r := w.mean + height*w.sin + out*w.cos
	v := r3.Vec{X: r * cos, Y: r * sin, Z: w.start + height*w.cos - out*w.sin}
	up, u := r3.Vec{Z: 1}, w.part.Post.Direction
	if ring := w.part.Post.Ring; ring != nil {
		foot := w.part.Post.Ends[design.Foot].At
		out := r3.Unit(r3.Sub(r3.Add(foot, r3.Scale(w.part.Post.Length/2, u)), ring.Center))
		right := r3.Cross(u, out)
		return r3.Add(foot, r3.Add(r3.Scale(v.Z, u), r3.Add(r3.Scale(v.X, out), r3.Scale(v.Y, right))))
	}
	if axis := r3.Cross(up, u); r3.Norm(axis) > 0 {
		v = r3.NewRotation(math.Atan2(r3.Norm(axis), r3.Dot(up, u)), axis).Rotate(v)
	}
	return r3.Add(w.part.Post.Ends[design.Foot].At, v)
}

// offFlat returns the bearing and the height of a point of a blank of the post. A
// sector is rolled up about its apex, its left edge being the seam.
func (w *wall) offFlat(b *flat.Blank, q r2.Vec) (bearing, height float64) {
	if b.Fan == nil {
		return w.part.Post.Seam + q.X/b.Around(), q.Y
	}
	rel := r2.Scale(math.Copysign(1, w.sin), r2.Sub(q, b.Fan.Apex))
	angle := math.Atan2(rel.X, rel.Y) / w.sin
	return w.part.Post.Seam + b.Fan.Angle/math.Abs(w.sin)/2 + angle, math.Copysign(r2.Norm(rel), w.sin) - w.mean/w.sin
}

// outsideBy returns how far, in mm, a point lies outside of what an end of a post
// meets; negative inside.
func outsideBy(p *design.Part, i int, q r3.Vec) float64 {
	post := p.Post
	e, here, way := post.Ends[design.Foot].Contact, post.Ends[design.Foot].At, post.Direction
	if i == 1 {
		e, here, way = post.Ends[design.Head].Contact, post.Ends[design.Head].At, r3.Scale(-1, post.Direction)
	}
	switch e.Meets {
	case design.OnBall:
		return outsideBall(e.With, q)
	case design.OnSide:
		h := e.With.Post
		rel := r3.Sub(q, h.Ends[design.Foot].At)
		s := r3.Dot(rel, h.Direction)
		slope := (h.Ends[design.Head].Diameter - h.Ends[design.Foot].Diameter) / 2 / h.Length
		return (r3.Norm(r3.Sub(rel, r3.Scale(s, h.Direction))) - h.Ends[design.Foot].Diameter/2 - slope*s) / math.Hypot(1, slope)
	case design.OnHead:
		h := e.With.Post
		there, other, wide := h.Ends[design.Foot].At, h.Direction, h.Ends[design.Foot].Diameter
		if r3.Norm(r3.Sub(h.Ends[design.Head].At, here)) < r3.Norm(r3.Sub(h.Ends[design.Foot].At, here)) {
			there, other, wide = h.Ends[design.Head].At, r3.Scale(-1, h.Direction), h.Ends[design.Head].Diameter
		}
		switch mine := post.Ends[i].Diameter; {
		case math.Abs(mine-wide) < 1e-6: // the plane half way between the two
			return r3.Dot(r3.Sub(q, here), r3.Unit(r3.Sub(way, other)))
		case mine < wide: // the square end of the other
			return -r3.Dot(r3.Sub(q, there), other)
		}
		return r3.Dot(r3.Sub(q, here), way)
	case design.OnPlate:
		if e.With != nil && e.With.Base != nil {
			b := e.With.Base
			return b.Own(q).Z - b.Top
		}
		return q.Z + post.Sunk
	}
	return math.Inf(1)
}

// outsideBall is that of a ball. For rolled gores it is the distance from the
// lobe that stands out farthest, for zones from the ring, or from their caps.
func outsideBall(p *design.Part, q r3.Vec) float64 {
	b := p.Ball
	x := r3.Sub(q, b.Center)
	round, z := r3.Norm(x)-b.Radius, r3.Dot(x, b.Pole)
	level := r3.Norm(r3.Sub(x, r3.Scale(z, b.Pole)))
	switch b.Build {
	case design.Zones:
		most := math.Inf(-1)
		for k := range b.Zones + 2 {
			sin, cos := math.Sincos((float64(k)/float64(b.Zones+1) - 0.5) * math.Pi)
			most = max(most, z*sin+level*cos-b.Radius)
		}
		return most
	case design.RolledGores, design.DomedGores:
	default:
		return round
	}
	mean := b.Radius - p.Metal.Thickness/2
	across := b.CapAt(design.PoleAt(z))
	edge := math.Sqrt(mean*mean - across*across/4)
	flatCap := b.Caps > 0 && mean-edge <= p.Metal.Thickness
	lobed := round
	if b.Build == design.RolledGores {
		side := r3.Cross(b.Pole, b.Prime)
		out := 0.0
		for k := range b.Gores {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(b.Gores))
			out = max(out, cos*r3.Dot(x, b.Prime)+sin*r3.Dot(x, side))
		}
		lobed = math.Hypot(out, z) - b.Radius
	}
	switch {
	case flatCap:
		return max(lobed, math.Abs(z)-edge-p.Metal.Thickness/2)
	case b.Build == design.DomedGores:
		return round
	case b.Straight:
		return lobed // the caps carry the lobes on
	case b.Caps > 0:
		high := edge * b.Radius / mean
		return min(max(lobed, math.Abs(z)-high), max(round, high-math.Abs(z)))
	}
	// Tips are cut blunt where they are 3 mm wide, or as the shop says.
	narrow := 3.0
	if b.Narrow > 0 {
		narrow = b.Narrow
	}
	tip := math.Acos(narrow / 2 / (mean * math.Tan(math.Pi/float64(b.Gores))))
	return max(lobed, math.Abs(z)-b.Radius*math.Sin(tip))
}

// clearance returns how far the whole wall lies outside of what an end meets, at
// a bearing and a height: the least over the thickness.
func (w *wall) clearance(i int, bearing, height float64) float64 {
	half := w.part.Metal.Thickness / 2
	least, best := math.Inf(1), 0.0
	from, to := -half, half
	for range 3 {
		const parts = 8
		for k := range parts + 1 {
			out := from + (to-from)*float64(k)/parts
			if off := outsideBy(w.part, i, w.at(bearing, height, out)); off < least {
				least, best = off, out
			}
		}
		step := (to - from) / parts
		from, to = max(-half, best-step), min(half, best+step)
	}
	return least
}

// TestTrimmedEdgesMeet rolls the flat of every post of the examples, and of a
// design with every kind of joint, back up and measures its trimmed edges, corners
// and chords, and every station of its tables of ordinates, across the wall: the
// nearest of the wall must lie on the surface that it must meet.
func TestTrimmedEdgesMeet(t *testing.T) {
	points := 0
	meets := func(t *testing.T, j *Job) {
		for _, p := range j.Parts {
			if p.Post == nil {
				continue
			}
			w := wallOf(p.Part)
			ends := p.Post.Ends
			for _, b := range p.Blanks {
				if b.Shape != flat.Tube && b.Shape != flat.Sector || b.Name != p.Name {
					continue
				}
				look := func(i int, q r2.Vec, what string) {
					if ends[i].Meets == design.Free || ends[i].Meets == design.OnHead && p.Post.Ends[i].Diameter > headOf(p.Part, i) {
						return
					}
					points++
					bearing, height := w.offFlat(&b, q)
					if gap := w.clearance(i, bearing, height); gap < -insideBy || gap > nearEnough {
						t.Errorf("%s: %s of the %s at %.2f, %.2f lies %.4f mm off what it must meet", p.Name, what, [2]string{"foot", "head"}[i], q.X, q.Y, gap)
					}
				}
				near := func(q r2.Vec) int {
					if _, height := w.offFlat(&b, q); height > w.slant/2 {
						return 1
					}
					return 0
				}
				for k, q := range b.Outline {
					next := b.Outline[(k+1)%len(b.Outline)]
					look(near(q), q, "a corner")
					if near(q) == near(next) {
						for _, u := range [...]float64{0.25, 0.5, 0.75} {
							look(near(q), r2.Add(q, r2.Scale(u, r2.Sub(next, q))), "a chord")
						}
					}
				}
				if b.Fan != nil {
					continue // its tables are measured from arcs
				}
				bottom, top := span(b.Outline)
				for _, table := range b.Ordinates {
					for _, s := range table.Stations {
						if table.Edge == "foot" {
							look(0, r2.Vec{X: s.At, Y: bottom + s.Ordinate}, "a station")
						} else {
							look(1, r2.Vec{X: s.At, Y: top - s.Ordinate}, "a station")
						}
					}
				}
			}
		}
	}
	eachExample(t, meets)
	j := buildWith(t, company, Everything)
	meets(t, j)
	t.Logf("%d points measured", points)
	if points < 1000 {
		t.Errorf("only %d points were measured", points)
	}
}

// headOf returns the diameter of the end of a post that another's end i meets.
func headOf(p *design.Part, i int) float64 {
	end := &p.Post.Ends[i]
	with := end.With.Post
	return with.Ends[with.EndBy(p, end.At)].Diameter
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
	eachExample(t, func(t *testing.T, j *Job) {
		for _, p := range j.Parts {
			if p.Ball == nil || p.Ball.Gores == 0 || p.Ball.Around != nil || p.Ball.Vent > 0 || len(p.Holes) > 0 || len(sitsIn(j.Design, p.Part)) > 0 {
				continue // gores that are opened differ
			}
			b, blank := p.Ball, p.Blanks[0]
			if blank.Quantity != b.Gores {
				t.Errorf("%s: %d gores are cut for a ball of %d", p.Name, blank.Quantity, b.Gores)
			}
			gores++
			mean := b.Radius - p.Metal.Thickness/2
			inner := mean // where edges meet
			if b.Build == design.RolledGores && !b.EdgeMid {
				inner -= p.Metal.Thickness / 2
			}
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
				q := r3.Vec{X: inner * cos, Y: math.Abs(at.X), Z: inner * sin}
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
