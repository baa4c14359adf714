package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// holePoints is the number of points of a round hole's outline.
const holePoints = 48

// disc returns a round blank whose finished piece has the given diameter, with
// an allowance all round to be trimmed off after forming.
func disc(name string, diameter, allowance float64) Blank {
	cut := diameter + 2*allowance
	return Blank{
		Name: name, Shape: Disc, Quantity: 1,
		Outline:   circle(r2.Vec{}, cut/2, roundPoints(cut/2)),
		Area:      math.Pi / 4 * diameter * diameter,
		Width:     cut,
		Length:    cut,
		Diameter:  cut,
		Allowance: allowance,
	}
}

// polygon returns a blank of even sides about a circle of the given radius, which a
// corner lies either side of the x axis from the right of.
func polygon(name string, sides int, radius float64) Blank {
	turn := math.Pi / float64(sides)
	outline := circle(r2.Vec{}, radius/math.Cos(turn), sides)
	sin, cos := math.Sincos(-turn)
	for i, q := range outline {
		outline[i] = r2.Vec{X: q.X*cos - q.Y*sin, Y: q.X*sin + q.Y*cos}
	}
	low, high := bounds(outline)
	return Blank{
		Name: name, Shape: Disc, Quantity: 1,
		Outline: outline,
		Area:    float64(sides) * radius * radius * math.Tan(turn),
		Width:   high.X - low.X,
		Length:  high.Y - low.Y,
	}
}

// roundPoints returns the number of points, a multiple of four, of which the
// chords keep near enough to a circle: each has a sagitta of r (1 - cos(pi/n)),
// at most r pi^2 / 2 n^2.
func roundPoints(radius float64) int {
	n := int(math.Ceil(math.Pi * math.Sqrt(radius/(2*smooth))))
	return max(holePoints, (n+3)/4*4)
}

// circle returns n points of a circle, counter-clockwise from its right.
func circle(center r2.Vec, radius float64, n int) []r2.Vec {
	points := make([]r2.Vec, n)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		points[i] = r2.Vec{X: center.X + radius*cos, Y: center.Y + radius*sin}
	}
	return points
}
