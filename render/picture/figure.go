package picture

import (
	"image"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/render/picture/cast"
)

// A figure is someone who walks by, for scale: a flat shape that faces the viewer,
// through which what is behind it is seen. It stands for no one.
type figure struct {
	foot   r3.Vec // on the ground, in the middle between the feet
	height float64
	right  r3.Vec // across the shape, to the viewer's right
	back   r3.Vec // square to the shape, away from the viewer
	pale   rgb
	caster
}

// figureWidth is half of the shape's width as a share of its height, with a
// little to spare.
const figureWidth = 0.25

// newFigure returns a figure that stands at a place in the light of a sun.
func newFigure(foot r3.Vec, height float64, right, back, sun r3.Vec, pale rgb) *figure {
	return &figure{foot: foot, height: height, right: right, back: back, pale: pale, caster: newCaster(right, back, sun)}
}

// thick is how much of what is behind it the figure hides: a pale tone that never
// outweighs the piece.
const thick = 0.28

// over lays the figure over light, for a share of a pixel.
func (f *figure) over(c rgb, share float64) rgb { return c.mix(f.pale, thick*share) }

// meet returns how far along a ray the plane of the shape is.
func (f *figure) meet(r *cast.Ray) float64 {
	return r3.Dot(r3.Sub(f.foot, r.From), f.back) / r3.Dot(r.Along, f.back)
}

// A mask is the share of each pixel that the figure covers where nothing stands
// before it, over the stretch of the picture that it takes.
type mask struct {
	image.Rectangle
	share []uint8
}

// mask draws the figure as it is seen through a window.
func (f *figure) mask(w *window, bounds image.Rectangle) *mask {
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for i := range 4 {
		at := r3.Add(f.foot, r3.Scale(f.height*figureWidth*float64(2*(i&1)-1), f.right))
		at.Z += f.height * (1.02*float64(i>>1) - 0.01)
		x, y, depth := w.place(at)
		if depth <= 0 {
			return nil
		}
		low[0], low[1] = min(low[0], x), min(low[1], y)
		high[0], high[1] = max(high[0], x), max(high[1], y)
	}
	// What is far out of the picture counts no more for being farther.
	clip := func(v float64, side int) int { return int(math.Floor(min(max(v, -1), float64(side)+1))) }
	m := &mask{Rectangle: image.Rect(
		clip(low[0], bounds.Dx()), clip(low[1], bounds.Dy()),
		clip(high[0], bounds.Dx())+2, clip(high[1], bounds.Dy())+2,
	).Intersect(bounds)}
	if m.Empty() {
		return nil
	}
	m.share = make([]uint8, m.Dx()*m.Dy())
	// away is how many pixels a place is outside of the shape.
	away := func(x, y float64) float64 {
		r := w.ray(x, y)
		t := f.meet(&r)
		if !(t > 0) {
			return math.Inf(1)
		}
		p := r3.Sub(r.At(t), f.foot)
		pixel := t * w.pixel
		if w.parallel {
			pixel = w.pixel
		}
		return walker(r3.Dot(p, f.right)/f.height, p.Z/f.height) * f.height / pixel
	}
	const block = 8
	for y0 := m.Min.Y; y0 < m.Max.Y; y0 += block {
		for x0 := m.Min.X; x0 < m.Max.X; x0 += block {
			b := image.Rect(x0, y0, x0+block, y0+block).Intersect(m.Rectangle)
			middle := away(float64(x0)+(block-1)/2.0, float64(y0)+(block-1)/2.0)
			if middle > 1.5*block {
				continue
			}
			for y := b.Min.Y; y < b.Max.Y; y++ {
				row := m.share[(y-m.Min.Y)*m.Dx():]
				for x := b.Min.X; x < b.Max.X; x++ {
					d := -1.0
					if middle > -1.5*block {
						d = away(float64(x), float64(y))
					}
					row[x-m.Min.X] = uint8(255*min(max(0.5-d, 0), 1) + 0.5)
				}
			}
		}
	}
	return m
}

// at returns the share of a pixel that the figure covers, from 0 to 1.
func (m *mask) at(x, y int) float64 {
	if m == nil || x < m.Min.X || x >= m.Max.X || y < m.Min.Y || y >= m.Max.Y {
		return 0
	}
	return float64(m.share[(y-m.Min.Y)*m.Dx()+x-m.Min.X]) * (1.0 / 255)
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
	y := (t*l.sun.Z - rel.Z) / f.height
	if t <= 0 || y > 1.2 {
		return 0
	}
	x := (t*r3.Dot(l.sun, f.across) - r3.Dot(rel, f.across)) / f.height
	w := t*l.spread/f.height + 0.002
	if math.Abs(x) > figureWidth+w {
		return 0
	}
	return 0.8 * smooth(w, -w, walker(x, y))
}

// stand returns the share of the sky that the figure's feet keep from a point on
// the ground.
func (f *figure) stand(p r3.Vec) float64 {
	rel := r3.Sub(p, f.foot)
	x, y := r3.Dot(rel, f.right)/(0.17*f.height), r3.Dot(rel, f.back)/(0.05*f.height)
	if q := x*x + y*y; q < 6 {
		return 0.40 * math.Exp(-q)
	}
	return 0
}
