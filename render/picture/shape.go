package picture

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A shape holds how far places are from the outline of the figure, on a square
// mesh over the plane that it stands in. Its shadow is cut from it, which is as
// soft as it is far.
type shape struct {
	away [shapeRows * shapeColumns]float32 // shares of the height, less than 0 within
}

// The mesh of a shape. Between its places an outline that bends with a radius R
// is off by 1 / (8 R cells^2), a thousandth of the height at the toes, and the
// shadow of those falls no farther.
const (
	shapeCells   = 128 // to the height
	shapeColumns = 53
	shapeRows    = 140
	shapeLeft    = -26.0 / shapeCells
	shapeFoot    = -5.0 / shapeCells
)

// shapeReach is the distance, as a share of the height, from which on a shape
// tells none apart: more than half the soft edge of the shadow of the head.
const shapeReach = 0.036

func newShape() *shape {
	s := new(shape)
	for i := range s.away {
		s.away[i] = shapeReach * shapeReach
	}
	edge := smoothed(person[:], 3)
	var crossings [shapeRows][]float64
	for i, b := range edge {
		a := edge[(i+len(edge)-1)%len(edge)]
		s.near(a, b)
		// Where the rows cross it.
		from, to := shapeCells*(min(a.Y, b.Y)-shapeFoot), shapeCells*(max(a.Y, b.Y)-shapeFoot)
		for row := int(math.Ceil(from)); float64(row) < to; row++ {
			t := (shapeFoot + float64(row)/shapeCells - a.Y) / (b.Y - a.Y)
			crossings[row] = append(crossings[row], shapeCells*(a.X+t*(b.X-a.X)-shapeLeft))
		}
	}
	for row, list := range crossings {
		slices.Sort(list)
		for column := range shapeColumns {
			d := &s.away[row*shapeColumns+column]
			*d = float32(math.Sqrt(float64(*d)))
			before, _ := slices.BinarySearch(list, float64(column))
			if before%2 == 1 {
				*d = -*d
			}
		}
	}
	return s
}

// near lowers the squares of distances to those from a side of the outline.
func (s *shape) near(a, b r2.Vec) {
	ab := r2.Sub(b, a)
	inv := 1 / r2.Norm2(ab)
	from := func(v, low float64) int { return max(int(math.Ceil(shapeCells*(v-shapeReach-low))), 0) }
	to := func(v, low float64, n int) int { return min(int(shapeCells*(v+shapeReach-low)), n-1) }
	for row := from(min(a.Y, b.Y), shapeFoot); row <= to(max(a.Y, b.Y), shapeFoot, shapeRows); row++ {
		py := shapeFoot + float64(row)/shapeCells - a.Y
		for column := from(min(a.X, b.X), shapeLeft); column <= to(max(a.X, b.X), shapeLeft, shapeColumns); column++ {
			px := shapeLeft + float64(column)/shapeCells - a.X
			t := min(max((px*ab.X+py*ab.Y)*inv, 0), 1)
			qx, qy := px-t*ab.X, py-t*ab.Y
			d := &s.away[row*shapeColumns+column]
			*d = min(*d, float32(qx*qx+qy*qy))
		}
	}
}

// distance returns how far a place is outside of the shape, at a height of 1;
// less than 0 within.
func (s *shape) distance(x, y float64) float64 {
	x, y = shapeCells*(x-shapeLeft), shapeCells*(y-shapeFoot)
	if !(x >= 0 && y >= 0 && x < shapeColumns-1 && y < shapeRows-1) {
		return shapeReach
	}
	i, j := int(x), int(y)
	x, y = x-float64(i), y-float64(j)
	d := s.away[j*shapeColumns+i:]
	return lerp(lerp(float64(d[0]), float64(d[1]), x), lerp(float64(d[shapeColumns]), float64(d[shapeColumns+1]), x), y)
}
