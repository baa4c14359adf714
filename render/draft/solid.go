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

// A body is that of a part, a hair within it, with the ball that surrounds it.
type body struct {
	*solid.Body
	center r3.Vec
	reach  float64
}

func bodyOf(b *solid.Body) body {
	from, to, radius := b.Spine()
	return body{b.Less(hair), r3.Scale(0.5, r3.Add(from, to)), math.Hypot(r3.Norm(r3.Sub(to, from))/2, radius)}
}
