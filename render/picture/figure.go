package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/render/picture/cast"
)

// A figure is a standing person for scale: a flat shape, as cut from card, that
// faces the viewer. It is drawn at a height of 1 and stands for no one.
type figure struct {
	foot   r3.Vec // on the ground, in the middle between the feet
	height float64
	right  r3.Vec // across the shape, to the viewer's right
	back   r3.Vec // square to the shape, away from the viewer

	limbs []bounded
	caster
}

// A bounded is a limb with the heights between which it lies.
type bounded struct {
	limb
	low, high float64
}

// newFigure returns a figure that stands at a place in the light of a sun.
func newFigure(foot r3.Vec, height float64, right, back, sun r3.Vec) *figure {
	f := &figure{foot: foot, height: height, right: right, back: back, caster: newCaster(right, back, sun)}
	for _, l := range &body {
		b := bounded{l, math.Inf(1), math.Inf(-1)}
		for _, q := range l {
			b.low, b.high = min(b.low, q[1]-q[2]), max(b.high, q[1]+q[2])
		}
		f.limbs = append(f.limbs, b)
	}
	return f
}

// figureWidth is half of the shape's width as a share of its height, with a
// little to spare.
const figureWidth = 0.17

// A limb is a line of round-ended bars, each tapering to the next: places with
// their radii.
type limb [][3]float64

// The body from the ground up, standing at ease, with a hand in a pocket.
// Measures are shares of the height. Proportions are those of drawing manuals,
// about eight heads. Common practice, no source.
var body = [...]limb{
	{{-0.040, 0.018, 0.0165}, {-0.066, 0.0125, 0.0115}}, // feet
	{{0.057, 0.018, 0.0165}, {0.092, 0.0125, 0.0115}},
	{ // legs
		{-0.040, 0.500, 0.0570}, {-0.043, 0.400, 0.0500}, {-0.043, 0.285, 0.0365},
		{-0.044, 0.215, 0.0370}, {-0.039, 0.055, 0.0215}, {-0.040, 0.020, 0.0180},
	},
	{
		{0.042, 0.498, 0.0560}, {0.050, 0.400, 0.0490}, {0.056, 0.285, 0.0355},
		{0.060, 0.215, 0.0360}, {0.058, 0.055, 0.0210}, {0.057, 0.020, 0.0180},
	},
	{ // trunk
		{0.001, 0.515, 0.0800}, {0.003, 0.560, 0.0770}, {0.003, 0.625, 0.0700}, {0.001, 0.735, 0.0840}, {0.000, 0.785, 0.0640},
	},
	{{-0.082, 0.796, 0.0290}, {0.000, 0.815, 0.0330}, {0.082, 0.799, 0.0290}}, // shoulders
	{{0.000, 0.835, 0.0320}, {0.001, 0.890, 0.0255}},                          // neck
	{ // the arm to the pocket
		{-0.094, 0.789, 0.0300}, {-0.113, 0.700, 0.0260}, {-0.135, 0.632, 0.0225}, {-0.119, 0.565, 0.0215}, {-0.092, 0.515, 0.0190},
	},
	{ // the other
		{0.095, 0.792, 0.0300}, {0.109, 0.700, 0.0255}, {0.119, 0.628, 0.0220}, {0.123, 0.560, 0.0210},
		{0.121, 0.490, 0.0150}, {0.119, 0.458, 0.0175}, {0.114, 0.418, 0.0110},
	},
	{{0.001, 0.9555, 0.0445}, {0.002, 0.935, 0.0435}, {0.003, 0.902, 0.0310}}, // head
}

// distance returns how far a place is outside of the shape, at a height of 1;
// less than 0 within.
func (f *figure) distance(x, y float64) float64 {
	d := 1.0
	for k := range f.limbs {
		l := &f.limbs[k]
		if max(l.low-y, y-l.high) > d+fillet {
			continue // too far to count
		}
		near := 1.0
		for i := 1; i < len(l.limb); i++ {
			a, b := &l.limb[i-1], &l.limb[i]
			ax, ay := b[0]-a[0], b[1]-a[1]
			px, py := x-a[0], y-a[1]
			t := min(max((px*ax+py*ay)/(ax*ax+ay*ay), 0), 1)
			qx, qy := px-t*ax, py-t*ay
			near = min(near, math.Sqrt(qx*qx+qy*qy)-a[2]-t*(b[2]-a[2]))
		}
		d = union(d, near)
	}
	return d
}

// fillet is the reach over which limbs grow together.
const fillet = 0.016

// union is the lesser of two distances with the corner between them filled, as
// flesh and cloth fill it.
func union(a, b float64) float64 {
	h := max(fillet-math.Abs(a-b), 0) / fillet
	return min(a, b) - h*h*fillet*0.25
}

// meet returns where a ray passes the shape, and how far outside of it in mm.
func (f *figure) meet(r *cast.Ray) (t, distance float64, ok bool) {
	across := r3.Dot(r.Along, f.back)
	if math.Abs(across) < 1e-6 {
		return 0, 0, false
	}
	rel := r3.Sub(f.foot, r.From)
	t = r3.Dot(rel, f.back) / across
	if t <= 0 {
		return 0, 0, false
	}
	p := r.At(t)
	y := p.Z / f.height
	x := r3.Dot(r3.Sub(p, f.foot), f.right) / f.height
	if y < -0.02 || y > 1.03 || math.Abs(x) > figureWidth {
		return 0, 0, false
	}
	return t, f.distance(x, y) * f.height, true
}

// mostTurned is the least cosine between the sun and what casts the figure's
// shadow: the shape itself, but turned to the sun where that would see it on
// edge.
const mostTurned = 0.5

// A caster is the plane of the shape that casts the shadow.
type caster struct {
	out, across r3.Vec  // square to it, and along it on the ground
	fall        float64 // how much of the way to the sun goes square to it
}

func newCaster(right, back, sun r3.Vec) caster {
	level := math.Hypot(sun.X, sun.Y)
	toward := r3.Vec{X: sun.X / level, Y: sun.Y / level}
	c := caster{out: back, across: right}
	cos := r3.Dot(back, toward)
	if math.Abs(cos) < mostTurned {
		side := unit(r3.Sub(back, r3.Scale(cos, toward)))
		cos = math.Copysign(mostTurned, cos)
		c.out = r3.Add(r3.Scale(math.Sqrt(1-cos*cos), side), r3.Scale(cos, toward))
		c.across = r3.Vec{X: -c.out.Y, Y: c.out.X}
		if r3.Dot(c.across, right) < 0 {
			c.across = r3.Scale(-1, c.across)
		}
	}
	c.fall = cos * level
	return c
}

// shade returns the share of the sun that the figure keeps from a point.
func (f *figure) shade(p r3.Vec, l *light) float64 {
	rel := r3.Sub(f.foot, p)
	t := r3.Dot(rel, f.out) / f.fall
	y := (p.Z + t*l.sun.Z) / f.height
	if t <= 0 || y > 1.1 {
		return 0
	}
	x := (t*r3.Dot(l.sun, f.across) - r3.Dot(rel, f.across)) / f.height
	w := t * l.spread / f.height
	if math.Abs(x) > figureWidth+w {
		return 0
	}
	return smooth(w, -w, f.distance(x, y))
}

// stand returns the share of the sky that the figure's feet keep from a point on
// the ground.
func (f *figure) stand(p r3.Vec) float64 {
	rel := r3.Sub(p, f.foot)
	x, y := r3.Dot(rel, f.right)/(0.13*f.height), r3.Dot(rel, f.back)/(0.05*f.height)
	if q := x*x + y*y; q < 6 {
		return 0.55 * math.Exp(-q)
	}
	return 0
}
