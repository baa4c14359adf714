package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
)

// hair is how much smaller than the true part its solid is taken, in mm, so
// that a line on the surface of a part, or on the joint of two, is not hidden
// by the surface that it lies on. It is more than the chord error of a trimmed
// edge (0.05 mm) and less than a line is wide on a full-size drawing.
const hair = 0.2

// slack is the least length of a line of sight, in mm, that a solid must cover
// to hide what is behind. Where it covers less the line grazes the solid, and
// the part's own outline is there.
const slack = 0.5

// A body is that of a part, a hair within it, with the ball that surrounds it and
// one about the same centre that is wholly inside.
type body struct {
	*solid.Body
	center r3.Vec
	reach  float64
	core   float64 // radius; 0 for none
}

func bodyOf(b *solid.Body) body {
	from, to, radius := b.Spine()
	out := body{Body: b.Less(hair), center: r3.Scale(0.5, r3.Add(from, to)), reach: math.Hypot(r3.Norm(r3.Sub(to, from))/2, radius)}
	out.core = max(0, -out.Distance(out.center)) // which is never steeper than 1
	return out
}

// hides reports whether the body hides a point from a viewer in a direction.
func (b *body) hides(p, toward r3.Vec) bool {
	out := b.Outside()
	if out == nil {
		enter, leave, ok := b.Span(p, toward)
		return ok && leave-max(enter, 0) > slack
	}
	// Most of a ball's points that come here are past it, which one way tells.
	leave, ok := out.Leave(p, toward)
	if !ok || leave <= slack {
		return false
	}
	back, ok := out.Leave(p, r3.Scale(-1, toward))
	return ok && -back < leave && leave-max(-back, 0) > slack
}
