package bench

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/edit"
	"stabile/render/draft"
)

// addVent puts a small hole into a ball, where air and water leave it.
func addVent(t *edit.Text, host *design.Part, z sizes) (*edited, error) {
	if host.Ball == nil {
		return nil, refuse(422, "a vent lets air and water out of a ball: point at one")
	}
	word := "vent"
	if host.Ball.Bowl {
		word = "drain"
	}
	set, err := t.Set(on(host.Name, word, 0, 0, length(z.vent)))
	if err != nil {
		return nil, errors.New(said(err))
	}
	return &edited{dragged: *changedBy(set), Part: host.Name}, nil
}

// addHole puts a round hole where a part is pointed at.
func addHole(t *edit.Text, a *addition, host *design.Part, z sizes) (*edited, error) {
	var where []edit.Given
	switch {
	case host.Ball != nil && host.Ball.Bowl:
		return nil, refuse(422, "a hole goes into a ball, a post or a plate: point at one")
	case host.Ball != nil:
		way := facing(a, host.Ball)
		where = []edit.Given{
			{Property: "toward", Values: []edit.Value{{Quantity: angle(stepped(bearing(design.Plan(way))))}}},
			{Property: "up", Values: []edit.Value{{Quantity: angle(stepped(math.Asin(max(-1, min(1, way.Z)))))}}},
		}
	case host.Post != nil:
		along := 0.5
		if a.View >= 0 && projections[a.View] != draft.Plan {
			along = alongPost(a, host.Post)
		}
		where = []edit.Given{{Property: "at", Values: []edit.Value{{Quantity: length(along * host.Post.Length)}, {Quantity: angle(seenFrom(a))}}}}
	default:
		where = placed(a, host.Base, z.hole)
	}
	return added(t, edit.Addition{Keyword: "hole", Clause: "in", Host: host.Name, Properties: append([]edit.Given{
		{Property: "diameter", Values: mm(z.hole)},
	}, where...)})
}

// stepped rounds an angle to the step of what is pointed at by hand: 5 deg.
func stepped(rad float64) float64 {
	const step = math.Pi / 36
	return math.Round(rad/step) * step
}

// seenFrom returns the bearing of the side that the view shows.
func seenFrom(a *addition) float64 {
	if a.View >= 0 && projections[a.View] == draft.Side {
		return 0
	}
	return 3 * math.Pi / 2
}

// facing returns the way from a ball's middle to the point of its outside that was pointed
// at.
func facing(a *addition, b *design.Ball) r3.Vec {
	front := r3.Vec{Y: -1}
	if a.View < 0 {
		return front
	}
	p := projections[a.View]
	off := r2.Scale(1/b.Radius, r2.Sub(r2.Vec{X: a.At[0], Y: a.At[1]}, p.Flat(b.Center)))
	if n := r2.Norm(off); n > 0.9 {
		off = r2.Scale(0.9/n, off)
	}
	deep := math.Sqrt(1 - r2.Norm2(off))
	switch p {
	case draft.Front:
		return r3.Vec{X: off.X, Y: -deep, Z: off.Y}
	case draft.Side:
		return r3.Vec{X: deep, Y: off.X, Z: off.Y}
	}
	return r3.Vec{X: off.X, Y: off.Y, Z: deep}
}

// alongPost returns how far along its length a post was pointed at, off its ends.
func alongPost(a *addition, post *design.Post) float64 {
	v := projections[a.View]
	foot := v.Flat(post.Ends[design.Foot].At)
	axis := r2.Sub(v.Flat(post.Ends[design.Head].At), foot)
	if n := r2.Norm2(axis); n > 1 {
		return max(0.15, min(0.85, r2.Dot(r2.Sub(r2.Vec{X: a.At[0], Y: a.At[1]}, foot), axis)/n))
	}
	return 0.6
}
