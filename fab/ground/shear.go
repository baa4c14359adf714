package ground

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Wedge is the breakout of the concrete's edge under shear, with its terms.
type Wedge struct {
	Edge    int     // 0 left, 1 right, 2 near, 3 away
	Away    float64 // c_a1, from the edge to the front row
	Area    float64 // A_Vc, mm2
	One     float64 // A_Vc0, mm2: 4.5 c_a12
	Side    float64 // psi_ed, edges beside
	Thin    float64 // psi_h, concrete that is not deep
	Basic   float64 // N, of one anchor
	Nominal float64 // N, of the front row, for shear toward the edge
	Shear   float64 // N, that the load brings: toward the edge, or half of that along it
}

// wedges works out the breakout toward each edge that is near enough to matter: nearer than 10
// h_ef and 60 d_a, EN 1992-4 7.2.2.5 (1), from memory. The front row is taken to carry all of
// the shear, since holes have play. Shear along an edge counts half, ACI 318-19 17.7.2.1 (c).
func wedges(a Anchor, c Concrete, p Loads, basic func(away float64) float64, factor float64) (list []Wedge) {
	const rounding = 1e-6
	for edge := range 4 {
		w := Wedge{Edge: edge, Away: math.Inf(1)}
		for _, q := range p.At {
			w.Away = min(w.Away, c.edges(q)[edge])
		}
		if w.Away >= max(10*a.Embedment, 60*a.Diameter) {
			continue
		}
		out := [4]r2.Vec{{X: -1}, {X: 1}, {Y: -1}, {Y: 1}}[edge]
		along := math.Abs(r2.Cross(out, p.Shear))
		w.Shear = max(r2.Dot(out, p.Shear), along/2, 0)
		// The front row's reach along the edge, cut at the edges beside.
		beside := [2]int{2, 3}
		if edge >= 2 {
			beside = [2]int{0, 1}
		}
		reach := 1.5 * w.Away
		var spans [][2]float64
		side := math.Inf(1)
		for _, q := range p.At {
			e := c.edges(q)
			if e[edge] > w.Away*(1+rounding)+rounding {
				continue
			}
			at := e[beside[0]]
			spans = append(spans, [2]float64{at - min(reach, at), at + min(reach, e[beside[1]])})
			side = min(side, at, e[beside[1]])
		}
		deep := min(reach, c.Depth)
		w.Area, w.One = covered(spans)*deep, 4.5*w.Away*w.Away
		w.Side, w.Thin = 1, max(1, math.Sqrt(reach/c.Depth))
		if side < reach {
			w.Side = 0.7 + 0.3*side/reach
		}
		w.Basic = basic(w.Away)
		w.Nominal = w.Area / w.One * w.Side * w.Thin * factor * w.Basic
		list = append(list, w)
	}
	return list
}

// worst returns the wedge that shear takes the most of, and whether there is one.
func worst(list []Wedge) (w Wedge, use float64, found bool) {
	for _, x := range list {
		if u := x.Shear / x.Nominal; !found || u > use {
			w, use, found = x, u, true
		}
	}
	return w, use, found
}
