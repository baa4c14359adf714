// Package plate works out how far a base plate gives under a post's moment, and the bending
// of its corners.
//
// Lengths are in mm, forces in N, moments in N mm, stresses in MPa, angles in rad.
package plate

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"stabile/fab/internal/domain"
)

// poisson is Poisson's ratio of steel.
const poisson = 0.3

// Annulus returns the give of a round plate that is supported all round its edge, with a post
// in its middle, to a moment M at the post: it turns by alpha M / (E t3) and its greatest
// stress is beta M / (a t2), with a the radius of the edge. Ratio is the post's outer radius
// over a. The edge is clamped or free to turn.
//
// The plate theory of Kirchhoff: w = (A r + B/r + C r3 + D r ln r) cos(theta), D being M over
// 4 pi times the plate's stiffness; Roark's Formulas has the same in a table (case K13).
func Annulus(ratio float64, clamped bool) (alpha, beta float64, err error) {
	if err := domain.Check(domain.Value{Name: "post over plate", X: ratio, Least: 1e-4, Most: 0.95}); err != nil {
		return 0, 0, fmt.Errorf("round plate: %w", err)
	}
	const nu = poisson
	b := ratio // with a = 1
	// Each row is a condition, for A, B, C and D, on a boss that turns by 1.
	terms := func(r float64) (w, slope, moment [4]float64) {
		l := math.Log(r)
		w = [4]float64{r, 1 / r, r * r * r, r * l}
		slope = [4]float64{1, -1 / (r * r), 3 * r * r, l + 1}
		// w'' + nu (w'/r - w/r2)
		moment = [4]float64{0, 2 * (1 - nu) / (r * r * r), (6 + 2*nu) * r, (1 + nu) / r}
		return w, slope, moment
	}
	wb, sb, mb := terms(b)
	wa, sa, ma := terms(1)
	last := ma
	if clamped {
		last = sa
	}
	var rows []float64
	for _, row := range [4][4]float64{wb, sb, wa, last} {
		rows = append(rows, row[:]...)
	}
	var x mat.VecDense
	if err := x.SolveVec(mat.NewDense(4, 4, rows), mat.NewVecDense(4, []float64{b, 1, 0, 0})); err != nil {
		return 0, 0, fmt.Errorf("round plate: %w", err)
	}
	// With E t3 = 1 the plate's stiffness is 1 / (12 (1 - nu2)), and M = 4 pi D stiffness.
	stiff := 1 / (12 * (1 - nu*nu))
	m := 4 * math.Pi * math.Abs(x.AtVec(3)) * stiff
	bend := 0.0
	for i, c := range mb {
		bend += c * x.AtVec(i)
	}
	return 1 / m, 6 * stiff * math.Abs(bend) / m, nil
}
