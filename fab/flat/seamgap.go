package flat

import (
	"math"
)

// The gap of a taper's seam is as wide at the foot as at the head: on the flat a
// strip beside the straight edge at the right, whose other side is parallel to
// that. Of several pieces each has one.

// edgeAt returns the angle, at a height, of the line that lies a distance beside
// the radial line at an angle.
func (t *tube) edgeAt(angle, y, beside float64) float64 {
	if beside == 0 {
		return angle
	}
	if t.sin == 0 {
		return angle - beside/t.mean
	}
	sin := math.Abs(t.sin)
	return angle - math.Asin(beside*sin/t.girth(y))/sin
}

// beside returns the angle at which the curve meets that line.
func (e *trim) beside(angle, distance float64) float64 {
	if distance == 0 {
		return angle
	}
	if e.square {
		return e.edgeAt(angle, e.curve[0].y, distance)
	}
	low, high := e.reach()
	from, to := e.edgeAt(angle, low, distance), e.edgeAt(angle, high, distance)
	from, to = min(from, to), max(from, to)
	for range 60 { // halves the bracket to under a rounding
		m := (from + to) / 2
		if y, _ := e.level(m); m < e.edgeAt(angle, y, distance) {
			from = m
		} else {
			to = m
		}
	}
	return (from + to) / 2
}

// A strip is what the gap of a seam takes from the middle of a taper's wall: its
// area in mm2 and the moments of that, along the slant and to bearings 0 and 90.
type strip struct{ area, along, east, north float64 }

func (s *strip) add(other strip) {
	s.area += other.area
	s.along += other.along
	s.east += other.east
	s.north += other.north
}

// strip measures what the gap takes beside the edge at an angle, by the
// Gauss-Legendre rule of three points across it and along each line.
func (t *tube) strip(foot, head *trim, angle float64) (s strip) {
	if t.gap == 0 {
		return s
	}
	// along returns how far along the radial edge, from the apex, a point of the
	// line lies, less the apex's distance to the height 0.
	along := func(y, beside float64) float64 {
		r := t.girth(y) / t.sin
		return y - math.Copysign(beside*beside/(math.Abs(r)+math.Sqrt(r*r-beside*beside)), r)
	}
	at, weight := gauss()
	for g, u := range at {
		beside := t.gap * u
		low, _ := foot.level(foot.beside(angle, beside))
		high, _ := head.level(head.beside(angle, beside))
		length := along(high, beside) - along(low, beside)
		for h, v := range at {
			y := low + (high-low)*v
			area := t.gap * weight[g] * length * weight[h]
			sin, cos := math.Sincos(t.seam + t.edgeAt(angle, y, beside))
			s.add(strip{area, area * y, area * t.girth(y) * cos, area * t.girth(y) * sin})
		}
	}
	return s
}
