package fab

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// measure finds the box about the whole: for each of the six ways along the
// axes, how far the furthest part reaches.
func (j *Job) measure() {
	reach := func(way r3.Vec) float64 {
		most := math.Inf(-1)
		for i := range j.Parts {
			most = max(most, j.Parts[i].Body.Reach(way))
		}
		if math.IsInf(most, -1) {
			return 0
		}
		return most
	}
	s := &j.Size
	s.Max = r3.Vec{X: reach(r3.Vec{X: 1}), Y: reach(r3.Vec{Y: 1}), Z: reach(r3.Vec{Z: 1})}
	s.Min = r3.Vec{X: 0 - reach(r3.Vec{X: -1}), Y: 0 - reach(r3.Vec{Y: -1}), Z: 0 - reach(r3.Vec{Z: -1})}
	s.Below = max(0, -s.Min.Z)
	if b := j.Design.Base(); b != nil {
		s.Below = max(s.Below, b.Base.Footing.Height)
	}
	s.Min.Z = max(0, s.Min.Z)
	s.Width, s.Depth, s.Height = s.Max.X-s.Min.X, s.Max.Y-s.Min.Y, s.Max.Z-s.Min.Z
}
