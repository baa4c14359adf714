package plate

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// Softer is what the springs of Square are multiplied by: a second solver, of shells with
// shear, was 4 to 6 % softer than the plate elements of its table (case K14).
const Softer = 0.94

// The table of a square plate held at its corners: E t3 times this against a post's moment, by
// how far the anchors are set in from the corner and the post's radius, both over the side.
// Adini-Clough-Melosh elements, 32 x 32 (case K14).
var (
	insets  = [3]float64{0, 1. / 16, 1. / 8}
	radii   = [4]float64{1. / 16, 3. / 32, 1. / 8, 3. / 16}
	corners = [3][4]float64{
		{0.4506, 0.5542, 0.6396, 0.8602},
		{0.5355, 0.6867, 0.8200, 1.1984},
		{0.6281, 0.8435, 1.0476, 1.6952},
	}
)

// A Give is how stiff a plate is under a post, with what was held at the table's limits.
type Give struct {
	K      float64 // N mm/rad over E t3: a plain number
	Spring float64 // N mm/rad

	// Beyond tells that the plate is outside of what the figures were worked out for,
	// and that the nearest stands in, on the soft side.
	Beyond bool
}

// Square returns the spring of a square plate of a side and thickness, held at its four corners
// by anchors set in by so much from both edges, free to turn there, against the moment of a
// post of an outer radius in its middle. The ground is not counted on: rigid ground adds 13 to
// 45 %. It is Softer times the table, linear between. A thinner post than the table's has the
// give of a plate about a point moment added, ln(r1/r) / (4 pi D) (derived); a wider one and
// deeper insets have those at the limit.
func Square(side, thickness, inset, radius, modulus float64) (Give, error) {
	if err := domain.Check(domain.Length("side", side), domain.Length("thickness", thickness), domain.Distance("inset", inset), domain.Length("post radius", radius),
		domain.Stress("modulus", modulus)); err != nil {
		return Give{}, fmt.Errorf("plate: %w", err)
	}
	if 2*radius >= side || 2*inset >= side {
		return Give{}, fmt.Errorf("plate: a post of %.6g or anchors set in by %.6g do not go on a side of %.6g", 2*radius, inset, side)
	}
	var g Give
	x, y := radius/side, inset/side
	g.Beyond = x > radii[3] || y > insets[2]
	i, u := place(radii[:], x)
	j, v := place(insets[:], y)
	g.K = (1-v)*((1-u)*corners[j][i]+u*corners[j][i+1]) + v*((1-u)*corners[j+1][i]+u*corners[j+1][i+1])
	if x < radii[0] {
		// D is E t3 / (12 (1 - nu2)).
		g.K = 1 / (1/g.K + 12*(1-poisson*poisson)/(4*math.Pi)*math.Log(radii[0]/x))
	}
	g.K *= Softer
	g.Spring = g.K * modulus * math.Pow(thickness, 3)
	return g, nil
}

// place returns the column of a table that a number is in, and how far, 0 to 1.
func place(at []float64, x float64) (int, float64) {
	i := 0
	for i < len(at)-2 && x > at[i+1] {
		i++
	}
	return i, min(1, max(0, (x-at[i])/(at[i+1]-at[i])))
}

// Loose returns the spring of a plate that lies free on rigid ground, as a share of the moment
// at which it tips lifts it: E t3 times 1.17 up to 30 % of that moment, 0.51 at 60 %, linear
// between, and 0.30 above. One plate of 600 x 400 x 10 mm under a post of 67 mm by unilateral
// contact (case K16): other plates are Beyond. On soil it is softer, and no rule is given.
func Loose(thickness, modulus, share float64) (Give, error) {
	if err := domain.Check(domain.Length("thickness", thickness), domain.Stress("modulus", modulus), domain.Ratio("share of the tipping moment", share)); err != nil {
		return Give{}, fmt.Errorf("plate: %w", err)
	}
	const firm, half, least = 1.17, 0.51, 0.30
	g := Give{K: least, Beyond: true}
	switch {
	case share <= 0.3:
		g.K = firm
	case share <= 0.6:
		g.K = firm + (half-firm)*(share-0.3)/0.3
	}
	g.Spring = g.K * modulus * math.Pow(thickness, 3)
	return g, nil
}
