package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// norm, unit and norm2 are those of package r3 and math.Hypot without their care
// for numbers near the ends of the range.

func norm(v r3.Vec) float64 { return math.Sqrt(v.X*v.X + v.Y*v.Y + v.Z*v.Z) }

func unit(v r3.Vec) r3.Vec { return r3.Scale(1/norm(v), v) }

func norm2(x, y float64) float64 { return math.Sqrt(x*x + y*y) }
