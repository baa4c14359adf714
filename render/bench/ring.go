package bench

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/edit"
	"stabile/render/draft"
)

// ringHands returns the handles of a ring at one of its tubes: its centre, where the text
// gives its place, how far it is across, and the diameter of its tubes.
func ringHands(p *design.Part) []*hand {
	r, post := p.Post.Ring, p.Post
	var list []*hand
	if r.On == nil || r.On.Base != nil {
		h := &hand{Name: "centre", Says: "centre of " + r.Name}
		h.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
			if r.Tubes[0].Post.Lies {
				return places(p, design.Plan(r.Center), by)
			}
			at := r3.Add(r.Center, by)
			return []edit.Wish{on(p.Name, "at", 0, 0, length(at.X)), on(p.Name, "at", 0, 1, length(at.Y)), on(p.Name, "at", 0, 2, length(at.Z))}
		}
		list = append(list, h.everywhere(r.Center))
	}
	middle := r3.Scale(0.5, r3.Add(post.Ends[design.Foot].At, post.Ends[design.Head].At))
	out := r3.Unit(r3.Sub(middle, r.Center))
	size := &hand{Name: "size", Says: r.Name + ": how far it is across"}
	size.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
		return []edit.Wish{on(p.Name, "across", 0, 0, length(max(1, r.Across+2*r3.Dot(by, out))))}
	}
	list = append(list, size.everywhere(r3.Add(r.Center, r3.Scale(r.Across/2, out))))
	if given(p, "diameter") {
		inner := r3.Add(r.Center, r3.Scale(r.Across/2-post.Ends[design.Foot].Diameter, out))
		side := &hand{Name: "side", Says: "diameter of the tubes of " + r.Name}
		side.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
			return []edit.Wish{on(p.Name, "diameter", 0, 0, length(max(1, post.Ends[design.Foot].Diameter-r3.Dot(by, out))))}
		}
		list = append(list, side.everywhere(inner))
	}
	return list
}

// ringMeasured returns how far a ring is across, in the view that sees it round.
func ringMeasured(r *design.Ring) []shownSize {
	view, below := draft.Front, r2.Vec{Y: -1}
	switch {
	case r.Flat:
		view = draft.Plan
	case math.Abs(r.Axis.X) > math.Abs(r.Axis.Y):
		view = draft.Side
	}
	c, half := view.Flat(r.Center), r.Across/2
	return []shownSize{{
		property: "across", view: view, mm: r.Across,
		from: r2.Vec{X: c.X - half, Y: c.Y - half}, to: r2.Vec{X: c.X + half, Y: c.Y - half}, away: below,
	}}
}
