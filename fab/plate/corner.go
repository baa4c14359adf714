package plate

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// Safety is the factor of safety on bending of a plate, AISC 360 F11 with F1.
const Safety = 1.67

// A Line is a line across which a plate yields.
type Line struct {
	Length  float64 // mm
	Moment  float64 // N, per mm of it
	Allowed float64 // N, per mm: Fy t2 / (4 x 1.67)
	Needed  float64 // mm, the thickness at which both agree
	Use     float64 // 1 is the limit
}

func line(length, moment, thickness, yield float64) Line {
	l := Line{Length: length, Moment: moment / length, Allowed: yield * thickness * thickness / (4 * Safety)}
	l.Needed = math.Sqrt(4 * Safety * l.Moment / yield)
	l.Use = l.Moment / l.Allowed
	return l
}

// Corner returns the bending of a plate's free corner by an anchor in tension T, as when the
// edge on the far side presses on the ground: a line across the corner at 45 degrees, at the
// post's face, a distance e along the diagonal from the anchor, which is set in from both
// edges by inset:
//
//	L = 2 (e + sqrt(2) inset), m = T e / L
//
// The square corner is cut no shorter at any other angle (case K17). Most is the longest that
// the plate leaves for the line; 0 is no limit.
func Corner(tension, distance, inset, most, thickness, yield float64) (Line, error) {
	if err := domain.Check(domain.Weight("tension", tension), domain.Length("distance", distance), domain.Distance("inset", inset), domain.Distance("longest line", most),
		domain.Length("thickness", thickness), domain.Stress("yield", yield)); err != nil {
		return Line{}, fmt.Errorf("plate corner: %w", err)
	}
	length := 2 * (distance + math.Sqrt2*inset)
	if most > 0 {
		length = min(length, most)
	}
	return line(length, tension*distance, thickness, yield), nil
}

// Between returns the bending of the strip of a plate between two posts on it, whose moments
// bend it the opposite way and come to so much across the strip. Its width is the narrower
// post's diameter and on each side the distance to the nearest edge, the width of the plate
// at most: common practice, no source.
func Between(moment, diameter, left, right, width, thickness, yield float64) (Line, error) {
	if err := domain.Check(domain.Weight("moment", moment), domain.Length("post diameter", diameter), domain.Distance("distance to an edge", left), domain.Distance("distance to an edge", right),
		domain.Length("plate width", width), domain.Length("thickness", thickness), domain.Stress("yield", yield)); err != nil {
		return Line{}, fmt.Errorf("plate between posts: %w", err)
	}
	return line(min(width, diameter+left+right), moment, thickness, yield), nil
}
