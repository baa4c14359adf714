// Package clash finds parts that run into each other away from their joints,
// parts that go below the ground or into the wall that they are on, and parts that are tied to nothing. Lengths
// are in mm.
//
// Posts are taken as solid rods between their trimmed ends, bases as plates,
// and balls as solid: of rolled gores with their ridges standing out, else as
// true spheres. Two parts that are joined to each other meet exactly there, by
// the way the one is trimmed or placed to the other; they are looked at for
// running into each other elsewhere.
package clash

import (
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
// tied to nothing, given the design's ties and its parts' bodies, each at the span of the later part, in the order of the
// parts.
func Find(d *design.Design, ties *design.Ties, bodies []*solid.Body) source.List {
	f := newFinder(d, ties, bodies)
	list := f.loose()
	boxes := make([]r3.Box, len(bodies))
	for i, b := range bodies {
		boxes[i] = b.Bounds()
	}
	g := newGrid(boxes)
	clashes := 0
	for i, p := range d.Parts {
		f.ground(&list, i)
		f.wall(&list, i)
		f.astray(&list, p)
		for _, j := range g.near(i) {
			if f.joined[pair{j, i}] {
				continue
			}
			depth, at := deepest(bodies[j], bodies[i])
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
	if f.bodies[i].Bounds().Min.Z >= -Tolerance {
		return
	}
	p := f.parts[i]
	low := -f.bodies[i].Reach(r3.Vec{Z: -1})
	if p.Post != nil {
		low += p.Post.Sunk
	}
	if low < -Tolerance {
		list.Add(p.Span, "the ground is at z = 0; nothing may reach below it",
			"%s '%s' goes %s below the ground", p.Kind(), p.Name, f.units.Exact(-low))
	}
}

// wall reports a part that goes into the wall that the piece is on, whose face is y = 0.
func (f *finder) wall(list *source.List, i int) {
	p := f.parts[i]
	if !f.onWall || p.Base != nil || f.bodies[i].Bounds().Max.Y <= Tolerance {
		return
	}
	if into := f.bodies[i].Reach(r3.Vec{Y: 1}); into > Tolerance {
		list.Add(p.Span, "bring it out from the wall by as much, whose face is at y = 0",
			"%s '%s' goes %s into the wall", p.Kind(), p.Name, f.units.Exact(into))
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
	what, below, top, out := "the ground", "below the top of", 0.0, design.Upright
	if b := post.Ends[design.Foot].With; b != nil && b.Base != nil {
		what, top, out = "base '"+b.Name+"'", b.Base.Top, b.Base.Out()
		if b.Base.OnWall() {
			below = "behind the face of"
		}
	}
	low := r3.Dot(post.Ends[design.Head].At, out)
	if post.Ends[design.Head].Meets == design.Free {
		low = -post.Reach(design.Head, r3.Scale(-1, out))
	}
	if low < top-Tolerance {
		list.Add(p.At("lean"), "lean it less, or make it longer",
			"the head of post '%s' reaches %s %s %s that it stands on", p.Name, f.units.Exact(top-low), below, what)
	}
}
