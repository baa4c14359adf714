package stock

import (
	"math"
	"slices"
)

// A Pipe is a size of standard steel pipe, plain end.
type Pipe struct {
	NPS      string  // nominal pipe size, such as "1-1/2"
	Schedule string  // "40" or "STD"
	Outside  float64 // mm
	Wall     float64 // mm
}

// The sizes of ASME B36.10M. To NPS 10 the standard weight is schedule 40.
var pipes = []Pipe{
	{"1", "40", 1.315 * inch, 0.133 * inch},
	{"1-1/4", "40", 1.660 * inch, 0.140 * inch},
	{"1-1/2", "40", 1.900 * inch, 0.145 * inch},
	{"2", "40", 2.375 * inch, 0.154 * inch},
	{"2-1/2", "40", 2.875 * inch, 0.203 * inch},
	{"3", "40", 3.500 * inch, 0.216 * inch},
	{"3-1/2", "40", 4.000 * inch, 0.226 * inch},
	{"4", "40", 4.500 * inch, 0.237 * inch},
	{"5", "40", 5.563 * inch, 0.258 * inch},
	{"6", "40", 6.625 * inch, 0.280 * inch},
	{"8", "40", 8.625 * inch, 0.322 * inch},
	{"10", "40", 10.750 * inch, 0.365 * inch},
	{"12", "STD", 12.750 * inch, 0.375 * inch},
	{"12", "40", 12.750 * inch, 0.406 * inch},
}

// pipeSteel is the density in kg/m3 that the SI weight formula of B36.10M
// implies: 0.0246615 kg/m for each mm2 of (outside less wall) times wall.
const pipeSteel = 7850

// Pipes returns the standard sizes from the smallest up.
func Pipes() []Pipe { return slices.Clone(pipes) }

// Weight returns the weight in kg of a metre of the pipe, plain end: the area
// of its ring times the density of steel.
func (p Pipe) Weight() float64 {
	return math.Pi * (p.Outside - p.Wall) * p.Wall * pipeSteel * 1e-6
}

// NearestPipe returns the standard pipe whose outside diameter is nearest to
// the given one in mm, the lighter where two walls share it.
func NearestPipe(outside float64) Pipe {
	return slices.MinFunc(pipes, func(a, b Pipe) int {
		da, db := math.Abs(a.Outside-outside), math.Abs(b.Outside-outside)
		switch {
		case da < db:
			return -1
		case da > db:
			return 1
		}
		return 0
	})
}
