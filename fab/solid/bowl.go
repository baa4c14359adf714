package solid

import "gonum.org/v1/gonum/spatial/r3"

// A Bowl is the outside of a bowl, taken as full to its rim: what lies of a ball below a
// plane across its pole.
type Bowl struct {
	Ball Radial // the whole of it
	Rim  Plane  // its normal is the pole, out of the mouth
}

// newBowl returns the bowl of a ball about a centre, up to a height along the pole.
func newBowl(ball Radial, center, pole r3.Vec, height float64) Bowl {
	return Bowl{ball, Plane{Normal: pole, Height: r3.Dot(pole, center) + height}}
}

// Leave implements Surface.
func (b Bowl) Leave(o, d r3.Vec) (float64, bool) {
	enter, leave, ok := Span(b.Ball, o, d)
	if !ok {
		return 0, false
	}
	if end, meets := b.Rim.Leave(o, d); meets {
		leave = min(leave, end)
	} else if b.Rim.Distance(r3.Add(o, r3.Scale(leave, d))) > 0 {
		return 0, false // it comes in by the mouth only after that, or runs above it
	}
	return leave, leave > enter
}

// Distance implements Surface.
func (b Bowl) Distance(p r3.Vec) float64 { return max(b.Ball.Distance(p), b.Rim.Distance(p)) }

// From implements Radial: above the rim, where a bowl has no outside, it is that of its ball.
func (b Bowl) From(d r3.Vec) float64 { return b.Ball.From(d) }

// Meet implements Surface. What meets a bowl meets it below its rim.
func (b Bowl) Meet(t Tube) Contour { return b.Ball.Meet(t) }

// Whole returns the surface that a tube is trimmed to which ends on a ball or a bowl: of a
// bowl that of its ball.
func Whole(r Radial) Radial {
	if b, ok := r.(Bowl); ok {
		return b.Ball
	}
	return r
}
