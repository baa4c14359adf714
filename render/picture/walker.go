package picture

import "math"

// A limb is a stretch of a figure: what two discs and the tangents to them hold.
type limb struct{ ax, ay, ra, bx, by, rb float64 }

// walking is someone in mid stride who goes to the left, seen from the side, in a
// coat. Measures are shares of the height from the ground between the feet.
// Proportions are those of figure drawing, seven and a half heads. Common
// practice, no source.
var walking = [...]limb{
	{-0.006, 0.946, 0.053, -0.016, 0.922, 0.043}, // head
	{-0.004, 0.900, 0.028, 0.004, 0.850, 0.030},  // neck
	{-0.004, 0.800, 0.050, 0.012, 0.795, 0.050},  // shoulders
	{0.004, 0.785, 0.061, 0.002, 0.650, 0.056},   // chest
	{0.002, 0.650, 0.056, 0.006, 0.500, 0.068},   // coat
	{0.006, 0.500, 0.068, 0.006, 0.425, 0.074},   // its skirt
	{-0.018, 0.480, 0.054, -0.088, 0.270, 0.037}, // leg in front
	{-0.088, 0.270, 0.037, -0.138, 0.066, 0.022},
	{-0.134, 0.030, 0.020, -0.198, 0.034, 0.013}, // its foot, on the heel
	{0.014, 0.480, 0.054, 0.042, 0.265, 0.037},   // leg behind
	{0.042, 0.265, 0.037, 0.150, 0.098, 0.022},
	{0.166, 0.080, 0.019, 0.118, 0.019, 0.016}, // its foot, on the ball
	{0.118, 0.019, 0.016, 0.092, 0.012, 0.011},
	{0.006, 0.790, 0.036, 0.078, 0.640, 0.027}, // arm behind
	{0.078, 0.640, 0.027, 0.092, 0.500, 0.020},
	{0.093, 0.485, 0.021, 0.090, 0.455, 0.015},
	{-0.004, 0.790, 0.036, -0.058, 0.640, 0.027}, // arm in front
	{-0.058, 0.640, 0.027, -0.116, 0.520, 0.020},
	{-0.121, 0.508, 0.021, -0.138, 0.484, 0.015},
}

// walker returns how far a place is outside of the shape of someone who walks, at
// a height of 1; less than 0 within. Limbs run into each other with a fillet.
func walker(x, y float64) float64 {
	const fillet = 0.010
	d := math.Inf(1)
	for i := range walking {
		e := walking[i].away(x, y)
		if h := fillet - math.Abs(d-e); h > 0 {
			d = min(d, e) - h*h/(4*fillet)
		} else {
			d = min(d, e)
		}
	}
	return d
}

// away returns about how far a place is outside of a limb.
func (l *limb) away(x, y float64) float64 {
	ux, uy := l.bx-l.ax, l.by-l.ay
	px, py := x-l.ax, y-l.ay
	t := min(max((px*ux+py*uy)/(ux*ux+uy*uy), 0), 1)
	return norm2(px-t*ux, py-t*uy) - lerp(l.ra, l.rb, t)
}
