package picture

import (
	"image"
	"image/draw"
	"math"

	"golang.org/x/image/vector"
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
	shape  *shape
	caster
}

// newFigure returns a figure that stands at a place in the light of a sun.
func newFigure(of *shape, foot r3.Vec, height float64, right, back, sun r3.Vec) *figure {
	return &figure{foot: foot, height: height, right: right, back: back, shape: of, caster: newCaster(right, back, sun)}
}

// figureWidth is half of the shape's width as a share of its height, with a
// little to spare.
const figureWidth = 0.17

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
	edge := smoothed(person[:], 10)
	place := make([][2]float64, len(edge))
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for i, p := range edge {
		at := r3.Add(f.foot, r3.Scale(f.height*p.X, f.right))
		at.Z = f.height * p.Y
		x, y, depth := w.place(at)
		if depth <= 0 {
			return nil
		}
		place[i] = [2]float64{x + 0.5, y + 0.5}
		low[0], low[1] = min(low[0], place[i][0]), min(low[1], place[i][1])
		high[0], high[1] = max(high[0], place[i][0]), max(high[1], place[i][1])
	}
	// What is far out of the picture counts no more for being farther.
	clip := func(v float64, side int) int { return int(min(max(v, -1), float64(side)+1)) }
	m := &mask{Rectangle: image.Rect(
		clip(low[0], bounds.Dx()), clip(low[1], bounds.Dy()),
		clip(high[0], bounds.Dx())+1, clip(high[1], bounds.Dy())+1,
	).Intersect(bounds)}
	if m.Empty() {
		return nil
	}
	r := vector.NewRasterizer(m.Dx(), m.Dy())
	r.DrawOp = draw.Src
	for i, p := range place {
		x, y := float32(p[0]-float64(m.Min.X)), float32(p[1]-float64(m.Min.Y))
		if i == 0 {
			r.MoveTo(x, y)
		} else {
			r.LineTo(x, y)
		}
	}
	r.ClosePath()
	a := image.NewAlpha(image.Rect(0, 0, m.Dx(), m.Dy()))
	r.Draw(a, a.Rect, image.Opaque, image.Point{})
	m.share = a.Pix
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
	y := (p.Z + t*l.sun.Z) / f.height
	if t <= 0 || y > 1.1 {
		return 0
	}
	x := (t*r3.Dot(l.sun, f.across) - r3.Dot(rel, f.across)) / f.height
	w := t * l.spread / f.height
	if math.Abs(x) > figureWidth+w {
		return 0
	}
	return smooth(w, -w, f.shape.distance(x, y))
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
