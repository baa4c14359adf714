package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// person is the outline of someone who stands at ease, seen from the front with
// the weight on one leg, as a closed curve through points: down the viewer's
// right and up the left. Measures are shares of the height, from the ground
// between the feet. Proportions are those of figure drawing, seven and a half
// heads. Common practice, no source.
var person = [...]r2.Vec{
	// Head and neck.
	{X: 0.0040, Y: 1.0000}, {X: 0.0270, Y: 0.9940}, {X: 0.0415, Y: 0.9760}, {X: 0.0465, Y: 0.9520},
	{X: 0.0465, Y: 0.9330}, {X: 0.0472, Y: 0.9200}, {X: 0.0440, Y: 0.9060}, {X: 0.0390, Y: 0.8900},
	{X: 0.0318, Y: 0.8750}, {X: 0.0298, Y: 0.8600}, {X: 0.0325, Y: 0.8435},
	// Shoulder, and down the outside of the arm.
	{X: 0.0480, Y: 0.8305}, {X: 0.0940, Y: 0.8130}, {X: 0.1145, Y: 0.7930}, {X: 0.1230, Y: 0.7560},
	{X: 0.1265, Y: 0.7000}, {X: 0.1315, Y: 0.6380}, {X: 0.1375, Y: 0.5850}, {X: 0.1405, Y: 0.5350},
	{X: 0.1410, Y: 0.4880},
	// Hand.
	{X: 0.1425, Y: 0.4620}, {X: 0.1428, Y: 0.4340}, {X: 0.1400, Y: 0.4050}, {X: 0.1345, Y: 0.3855},
	{X: 0.1275, Y: 0.3850}, {X: 0.1235, Y: 0.4020}, {X: 0.1215, Y: 0.4220}, {X: 0.1165, Y: 0.4400},
	{X: 0.1165, Y: 0.4620},
	// Up the inside of the arm.
	{X: 0.1170, Y: 0.4900}, {X: 0.1090, Y: 0.5350}, {X: 0.0995, Y: 0.5850}, {X: 0.0945, Y: 0.6380},
	{X: 0.0910, Y: 0.6820}, {X: 0.0885, Y: 0.7060}, {X: 0.0866, Y: 0.7105}, {X: 0.0846, Y: 0.7050},
	// Down the trunk and the outside of the leg.
	{X: 0.0805, Y: 0.6750}, {X: 0.0765, Y: 0.6350}, {X: 0.0770, Y: 0.5950}, {X: 0.0820, Y: 0.5450},
	{X: 0.0870, Y: 0.4900}, {X: 0.0900, Y: 0.4300}, {X: 0.0905, Y: 0.3600}, {X: 0.0890, Y: 0.2850},
	{X: 0.0915, Y: 0.2100}, {X: 0.0915, Y: 0.1200}, {X: 0.0915, Y: 0.0540},
	// Foot.
	{X: 0.0950, Y: 0.0400}, {X: 0.1060, Y: 0.0270}, {X: 0.1185, Y: 0.0150}, {X: 0.1205, Y: 0.0060},
	{X: 0.1150, Y: 0.0008}, {X: 0.1000, Y: 0.0000}, {X: 0.0640, Y: 0.0000}, {X: 0.0570, Y: 0.0030},
	{X: 0.0555, Y: 0.0180}, {X: 0.0540, Y: 0.0410},
	// The insides of the legs.
	{X: 0.0475, Y: 0.0540}, {X: 0.0440, Y: 0.1200}, {X: 0.0395, Y: 0.2100}, {X: 0.0375, Y: 0.2850},
	{X: 0.0280, Y: 0.3700}, {X: 0.0150, Y: 0.4400}, {X: 0.0075, Y: 0.4560}, {X: 0.0030, Y: 0.4380},
	{X: -0.0015, Y: 0.3700}, {X: -0.0080, Y: 0.2850}, {X: -0.0090, Y: 0.2100}, {X: -0.0130, Y: 0.1200},
	{X: -0.0165, Y: 0.0540},
	// The other foot.
	{X: -0.0210, Y: 0.0410}, {X: -0.0170, Y: 0.0220}, {X: -0.0150, Y: 0.0080}, {X: -0.0190, Y: 0.0008},
	{X: -0.0300, Y: 0.0000}, {X: -0.0580, Y: 0.0000}, {X: -0.0700, Y: 0.0012}, {X: -0.0735, Y: 0.0090},
	{X: -0.0715, Y: 0.0230}, {X: -0.0665, Y: 0.0410},
	// Up the outside of the leg and the trunk.
	{X: -0.0680, Y: 0.0540}, {X: -0.0705, Y: 0.1200}, {X: -0.0750, Y: 0.2100}, {X: -0.0765, Y: 0.2850},
	{X: -0.0850, Y: 0.3600}, {X: -0.0920, Y: 0.4300}, {X: -0.0965, Y: 0.5000}, {X: -0.0935, Y: 0.5500},
	{X: -0.0840, Y: 0.5980}, {X: -0.0790, Y: 0.6350}, {X: -0.0798, Y: 0.6700},
	// Arm and hand.
	{X: -0.0825, Y: 0.6960}, {X: -0.0846, Y: 0.7025}, {X: -0.0870, Y: 0.6970}, {X: -0.0915, Y: 0.6700},
	{X: -0.0985, Y: 0.6230}, {X: -0.1075, Y: 0.5700}, {X: -0.1165, Y: 0.5190}, {X: -0.1220, Y: 0.4790},
	{X: -0.1215, Y: 0.4530}, {X: -0.1225, Y: 0.4330}, {X: -0.1275, Y: 0.4160}, {X: -0.1300, Y: 0.3950},
	{X: -0.1350, Y: 0.3775}, {X: -0.1420, Y: 0.3765}, {X: -0.1475, Y: 0.3950}, {X: -0.1500, Y: 0.4230},
	{X: -0.1495, Y: 0.4520}, {X: -0.1475, Y: 0.4790}, {X: -0.1470, Y: 0.5240}, {X: -0.1440, Y: 0.5740},
	{X: -0.1370, Y: 0.6290}, {X: -0.1305, Y: 0.6900}, {X: -0.1255, Y: 0.7450}, {X: -0.1165, Y: 0.7830},
	{X: -0.0940, Y: 0.8045},
	// Shoulder, neck and head.
	{X: -0.0440, Y: 0.8255}, {X: -0.0278, Y: 0.8410}, {X: -0.0258, Y: 0.8600}, {X: -0.0280, Y: 0.8750},
	{X: -0.0345, Y: 0.8900}, {X: -0.0395, Y: 0.9060}, {X: -0.0425, Y: 0.9200}, {X: -0.0418, Y: 0.9330},
	{X: -0.0412, Y: 0.9520}, {X: -0.0355, Y: 0.9760}, {X: -0.0200, Y: 0.9940},
}

// smoothed returns a closed curve through points as a polygon with a number of
// sides for each point: the centripetal Catmull-Rom spline, which makes neither
// loops nor overshoots (Yuksel, Schaefer and Keyser, 2011).
func smoothed(points []r2.Vec, sides int) []r2.Vec {
	n := len(points)
	knot := func(a, b r2.Vec) float64 { return math.Sqrt(r2.Norm(r2.Sub(b, a))) }
	list := make([]r2.Vec, 0, n*sides)
	for i := range points {
		a, b, c, d := points[(i+n-1)%n], points[i], points[(i+1)%n], points[(i+2)%n]
		u, v, w := knot(a, b), knot(b, c), knot(c, d)
		// The tangents at b and c over the stretch between them.
		tangent := func(a, b, c r2.Vec, u, v float64) r2.Vec {
			return r2.Add(r2.Sub(r2.Scale(1/u, r2.Sub(b, a)), r2.Scale(1/(u+v), r2.Sub(c, a))), r2.Scale(1/v, r2.Sub(c, b)))
		}
		m0, m1 := r2.Scale(v, tangent(a, b, c, u, v)), r2.Scale(v, tangent(b, c, d, v, w))
		for k := range sides {
			t := float64(k) / float64(sides)
			tt, ttt := t*t, t*t*t
			p := r2.Add(r2.Scale(2*ttt-3*tt+1, b), r2.Scale(3*tt-2*ttt, c))
			p = r2.Add(p, r2.Add(r2.Scale(ttt-2*tt+t, m0), r2.Scale(ttt-tt, m1)))
			list = append(list, p)
		}
	}
	return list
}
