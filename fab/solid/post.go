package solid

import (
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// Side returns the outside of a post, without ends.
func Side(p *design.Post) Surface {
	foot := &p.Ends[design.Foot]
	if !p.IsTaper() {
		return Cylinder{Point: foot.At, Axis: p.Direction, Radius: foot.Diameter / 2}
	}
	return Cone{Point: foot.At, Axis: p.Direction, Radius: foot.Diameter / 2, Slope: p.Slope()}
}

const (
	// alike is the difference in diameter, in mm, up to which two tubes make a
	// mitre: rounding of the sizes in a text.
	alike = 1e-6

	// inLine is the least that the cosine of the angle between two posts may differ
	// from that of a straight line for them to make a mitre: at less, the plane of
	// the joint is square to both within a thousandth of a mm in a metre.
	inLine = 1e-12
)

// EndPlane returns the plane that the end of a post is cut to where it is joined
// to another post's end, its normal into the post: of two tubes alike that of
// their mitre, which halves the angle between them, or of a square butt; a smaller
// tube stands on the square end of the larger. It reports false for the larger,
// which is cut square whatever stands on it.
func EndPlane(p *design.Post, end int, with *design.Post, its int) (Plane, bool) {
	e, other := &p.Ends[end], &with.Ends[its]
	way, there := p.Inward(end), with.Inward(its)
	n, at := way, e.At
	switch {
	case r3.Dot(way, there) < -1+inLine:
	case e.Diameter > other.Diameter+alike:
		return Plane{}, false
	case e.Diameter < other.Diameter-alike:
		n, at = r3.Scale(-1, there), other.At
	default:
		n = r3.Unit(r3.Sub(way, there))
	}
	return Plane{Normal: n, Height: r3.Dot(n, at)}, true
}
