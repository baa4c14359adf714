package flat

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A moment is an area of the middle of the sheet, in mm2, and its first moment in mm3:
// about the centre of the ball, or of what is cut from a post about the foot of its wall.
type moment struct {
	area  float64
	first r3.Vec
}

func (m moment) plus(n moment) moment { return moment{m.area + n.area, r3.Add(m.first, n.first)} }

func (m moment) minus(n moment) moment { return moment{m.area - n.area, r3.Sub(m.first, n.first)} }

func (m moment) times(w float64) moment { return moment{w * m.area, r3.Scale(w, m.first)} }

// momentOf returns a moment of which the first is given along three axes.
func momentOf(area, x, y, z float64, alongX, alongY, alongZ r3.Vec) moment {
	return moment{area, r3.Add(r3.Scale(x, alongX), r3.Add(r3.Scale(y, alongY), r3.Scale(z, alongZ)))}
}

// measure returns the moment of what an outline in the piece's chart encloses,
// counter-clockwise.
//
// By Green's theorem the integral of f over it is that of F dY round it, where f
// is the rate at which F grows with X: sweep gives F for the area, which is
// stretched as the chart is, and for its moment. Each side is taken by the
// Gauss-Legendre rule of three points.
func (p *piece) measure(outline []r2.Vec) moment {
	var sum moment
	at, weight := gauss()
	for i, from := range outline {
		side := r2.Sub(outline[(i+1)%len(outline)], from)
		if side.Y == 0 {
			continue
		}
		for g := range at {
			m := p.sweep(r2.Add(from, r2.Scale(at[g], side)))
			sum = sum.plus(m.times(weight[g] * side.Y))
		}
	}
	return sum
}

// dished returns F of a disc that is dished at equal area, in its chart, where a
// point is as far from the middle as its chord from the pole. With s = 1 - (X2 +
// Y2) / 4 R2 it comes to lie X sqrt(s) and Y sqrt(s) from the axis through the
// pole, and R (2 s - 1) along it.
func dished(q r2.Vec, radius float64, alongX, alongY, pole r3.Vec) moment {
	wide := 2 * radius
	rest := wide*wide - q.Y*q.Y
	root := math.Sqrt(max(0, rest-q.X*q.X)) // 2 R sqrt(s)
	half := math.Sqrt(max(0, rest))
	turn := 0.0
	if half > 0 {
		turn = math.Asin(max(-1, min(1, q.X/half)))
	}
	return momentOf(q.X,
		-root*root*root/(3*wide),
		q.Y*(q.X*root+rest*turn)/(2*wide),
		radius*q.X*(1-(q.X*q.X/3+q.Y*q.Y)/(2*radius*radius)),
		alongX, alongY, pole)
}

// finished returns the outline of the piece without what is trimmed off after
// forming.
func (p *piece) finished() []r2.Vec {
	if p.trimmed != nil {
		return p.trimmed
	}
	return p.outline
}

// leftOf returns the moment of part k of what is left of a piece, once it is
// trimmed.
func (d *developer) leftOf(p *piece, c *cutOut, k int) moment {
	var sum moment
	add := func(outline []r2.Vec, holes [][]r2.Vec) {
		m := p.measure(outline)
		for _, h := range holes {
			if within(h[0], outline) {
				m = m.minus(p.measure(h))
			}
		}
		sum = sum.plus(m)
	}
	if t := c.trimmed; t == nil {
		add(c.outlines[k], c.holes)
	} else {
		for _, o := range t.outlines {
			// Its corner farthest out lies on the line to trim to, within what is cut.
			corner := slices.MaxFunc(o, func(q, r r2.Vec) int { return cmp.Compare(r2.Norm2(q), r2.Norm2(r)) })
			if len(c.outlines) == 1 || within(corner, c.outlines[k]) {
				add(o, t.holes)
			}
		}
	}
	for _, v := range c.bores {
		if within(v.Center, p.onFlat(c.outlines[k])) {
			area := math.Pi / 4 * v.Diameter * v.Diameter
			sum = sum.minus(moment{area, r3.Scale(area, r3.Sub(v.at, d.part.Ball.Center))})
		}
	}
	return sum
}
