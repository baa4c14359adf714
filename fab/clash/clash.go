// Package clash finds parts that run into each other away from their joints,
// parts that go below the ground, and parts that are tied to nothing. Lengths
// are in mm.
//
// Posts are taken as solid rods between their trimmed ends, bases as plates,
// and balls as solid: of rolled gores with their ridges standing out, else as
// true spheres. Two parts that are joined to each other meet exactly there, by
// the way the one is trimmed or placed to the other; they are looked at for
// running into each other elsewhere.
package clash

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
)

// most is the number of clashes that are reported. A design with more of them has
// one mistake that makes them all.
const most = 50

// Find returns the parts of a design that clash, go below the ground or are
// tied to nothing, given the design's ties, each at the span of the later part, in the order of the
// parts.
func Find(d *design.Design, ties *design.Ties) source.List {
	f := newFinder(d, ties)
	list := f.loose()
	boxes := make([]r3.Box, len(f.solids))
	for i, s := range f.solids {
		boxes[i] = s.bounds()
	}
	g := newGrid(boxes)
	clashes := 0
	for i, p := range d.Parts {
		f.ground(&list, i)
		f.astray(&list, p)
		for _, j := range g.near(i) {
			if f.joined[pair{j, i}] {
				continue
			}
			depth, at := deepest(f.solids[j], f.solids[i])
			if depth == 0 {
				continue
			}
			if clashes++; clashes > most {
				list.Add(p.Span, "mend those above first", "there are more than %d places where parts run into each other; the rest are not reported", most)
				list.Sort()
				return list
			}
			list = append(list, f.clash(d.Parts[j], p, depth, at))
		}
		g.add(i)
	}
	list.Sort()
	return list
}

// clash words the overlap of two parts.
func (f *finder) clash(earlier, later *design.Part, depth float64, at r3.Vec) source.Diagnostic {
	var list source.List
	list.Add(later.Span, "move one of them, or make it shorter or slimmer, until they are clear of each other",
		"%s '%s' runs into %s '%s': they overlap by %s about (%s, %s, %s)",
		later.Kind(), later.Name, earlier.Kind(), earlier.Name, f.units.Exact(depth),
		f.units.Length(at.X, quantity.Coarse), f.units.Length(at.Y, quantity.Coarse), f.units.Length(at.Z, quantity.Coarse))
	if !earlier.Span.IsZero() {
		list[0].Note = []source.Note{{Span: earlier.Span, Text: "'" + earlier.Name + "' is here"}}
	}
	return list[0]
}

// ground reports a part that goes below the ground.
func (f *finder) ground(list *source.List, i int) {
	if f.solids[i].bounds().Min.Z >= -Tolerance {
		return
	}
	p := f.parts[i]
	low := lowest(f.solids[i])
	if low < -Tolerance {
		list.Add(p.Span, "the ground is at z = 0; nothing may reach below it",
			"%s '%s' goes %s below the ground", p.Kind(), p.Name, f.units.Exact(-low))
	}
}

// astray reports a post that runs into the very part that it is joined to:
// from its foot into the ball or plate that it stands on, or past its head.
func (f *finder) astray(list *source.List, p *design.Part) {
	post := p.Post
	if post == nil {
		return
	}
	for _, e := range []struct {
		end design.Contact
		at  r3.Vec
		out r3.Vec // away from what the end meets
	}{{post.Ends[design.Foot].Contact, post.Ends[design.Foot].At, post.Direction}, {post.Ends[design.Head].Contact, post.Ends[design.Head].At, r3.Scale(-1, post.Direction)}} {
		if b := e.end.With; e.end.Meets == design.OnBall && b != nil && b.Ball != nil {
			if into := r3.Dot(r3.Sub(b.Ball.Center, e.at), e.out); into > Tolerance {
				list.Add(p.At("lean"), "lean it the other way, or move its foot round the ball",
					"post '%s' runs into ball '%s' that it is joined to", p.Name, b.Name)
			}
		} else if e.end.Meets == design.OnSide && b != nil && b.Post != nil {
			rel := r3.Sub(e.at, b.Post.Ends[design.Foot].At)
			away := r3.Sub(rel, r3.Scale(r3.Dot(rel, b.Post.Direction), b.Post.Direction))
			if r3.Dot(away, e.out) < -Tolerance*r3.Norm(away) {
				list.Add(p.At("lean"), "turn it away from the post, or move its foot round it",
					"post '%s' runs into post '%s' that it stands on", p.Name, b.Name)
			}
		}
	}
	if post.Ends[design.Foot].Meets != design.OnPlate {
		return
	}
	what, top := "the ground", 0.0
	if b := post.Ends[design.Foot].With; b != nil && b.Base != nil {
		what, top = "base '"+b.Name+"'", b.Base.Top
	}
	low := post.Ends[design.Head].At.Z
	if post.Ends[design.Head].Meets == design.Free {
		low = -solid.EndReach(post, design.Head, r3.Vec{Z: -1})
	}
	if low < top-Tolerance {
		list.Add(p.At("lean"), "lean it less, or make it longer",
			"the head of post '%s' reaches %s below the top of %s that it stands on", p.Name, f.units.Exact(top-low), what)
	}
}

// lowest returns the height of the lowest point of a solid.
func lowest(s body) float64 {
	switch s := s.(type) {
	case *tube:
		return s.lowest()
	case *sphere:
		return s.lowest()
	}
	return s.bounds().Min.Z
}

// lowest returns the height of the lowest point of a ball.
func (s *sphere) lowest() float64 {
	return -solid.Reach(s.part, [2][]r3.Vec{}, r3.Vec{Z: -1})
}

// lowest returns the height of the lowest point of a tube, line by line of its
// outside. 720 lines miss less than 1/100,000 of its diameter.
func (t *tube) lowest() float64 {
	x, y := design.Tilt(t.u)
	low := math.Inf(1)
	for i := range 720 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 360)
		out := r3.Add(r3.Scale(cos, x), r3.Scale(sin, y))
		at := func(s float64) r3.Vec {
			return r3.Add(t.foot, r3.Add(r3.Scale(s, t.u), r3.Scale(t.r0+t.k*s, out)))
		}
		// The piece of the line outside of the balls and above the floor.
		lo, hi := t.lo, t.hi
		for _, b := range t.balls {
			from, to, ok := b.chord(at(0), at(1))
			switch {
			case !ok:
			case from+to < t.lo+t.hi:
				lo = max(lo, to)
			default:
				hi = min(hi, from)
			}
		}
		if lo <= hi {
			low = min(low, max(at(lo).Z, t.floor), max(at(hi).Z, t.floor))
		}
	}
	return low
}

// chord returns the stretch of a line that lies within the sphere that the
// flats touch, in parts of the way from p to q.
func (s *sphere) chord(p, q r3.Vec) (from, to float64, ok bool) {
	d, rel := r3.Sub(q, p), r3.Sub(p, s.center)
	a, b, c := r3.Norm2(d), r3.Dot(rel, d), r3.Norm2(rel)-s.radius*s.radius
	if b*b <= a*c || a == 0 {
		return 0, 0, false
	}
	root := math.Sqrt(b*b - a*c)
	return (-b - root) / a, (-b + root) / a, true
}
