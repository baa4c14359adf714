package plate

import (
	"sync"

	"gonum.org/v1/gonum/mat"
)

// unknowns is the number of unknowns of an element: at each of four corners the deflection and
// its two slopes.
const unknowns = 12

// An energy is a quadratic form of an element's unknowns.
type energy [unknowns][unknowns]float64

// energies are those of an element of side 1 by 1: the integrals of w_xx2, w_yy2, w_xx w_yy and
// w_xy2 of the twelve-term polynomial of Adini, Clough and Melosh (1960, 1963), whose corners
// run 0,0 1,0 1,1 0,1.
var energies = sync.OnceValue(func() (e [4]energy) {
	// The terms' powers of x and y.
	powers := [unknowns][2]int{{0, 0}, {1, 0}, {0, 1}, {2, 0}, {1, 1}, {0, 2}, {3, 0}, {2, 1}, {1, 2}, {0, 3}, {3, 1}, {1, 3}}
	// term returns a derivative of a term.
	term := func(p [2]int, dx, dy int, x, y float64) float64 {
		v := 1.0
		for k, d := range [2]int{dx, dy} {
			n := p[k]
			for range d {
				v *= float64(n)
				n--
			}
			for range n {
				v *= [2]float64{x, y}[k]
			}
		}
		return v
	}
	at := mat.NewDense(unknowns, unknowns, nil)
	for c, q := range [4][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}} {
		for k, p := range powers {
			at.Set(3*c, k, term(p, 0, 0, q[0], q[1]))
			at.Set(3*c+1, k, term(p, 1, 0, q[0], q[1]))
			at.Set(3*c+2, k, term(p, 0, 1, q[0], q[1]))
		}
	}
	var shape mat.Dense // terms by unknowns
	if err := shape.Inverse(at); err != nil {
		panic(err) // the matrix is the same always
	}
	// Gauss's three points are exact to the fifth power, and the fourth is the highest.
	points := [3][2]float64{{0.1127016653792583, 5. / 18}, {0.5, 8. / 18}, {0.8872983346207417, 5. / 18}}
	for _, px := range points {
		for _, py := range points {
			var xx, yy, xy [unknowns]float64
			for n := range unknowns {
				for k, p := range powers {
					s := shape.At(k, n)
					xx[n] += s * term(p, 2, 0, px[0], py[0])
					yy[n] += s * term(p, 0, 2, px[0], py[0])
					xy[n] += s * term(p, 1, 1, px[0], py[0])
				}
			}
			w := px[1] * py[1]
			for i := range unknowns {
				for j := range unknowns {
					e[0][i][j] += w * xx[i] * xx[j]
					e[1][i][j] += w * yy[i] * yy[j]
					e[2][i][j] += w * (xx[i]*yy[j] + yy[i]*xx[j]) / 2
					e[3][i][j] += w * xy[i] * xy[j]
				}
			}
		}
	}
	return e
})

// stiffness returns an element's stiffness of sides a by b, over the plate's stiffness D.
func stiffness(a, b float64) (k energy) {
	e := energies()
	// Slopes at a corner are per length; in the element of side 1 they are times the side.
	scale := [3]float64{1, a, b}
	for i := range unknowns {
		for j := range unknowns {
			v := e[0][i][j]*b/(a*a*a) + e[1][i][j]*a/(b*b*b) + (2*poisson*e[2][i][j]+2*(1-poisson)*e[3][i][j])/(a*b)
			k[i][j] = v * scale[i%3] * scale[j%3]
		}
	}
	return k
}
