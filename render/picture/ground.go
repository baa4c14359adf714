package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/render/picture/cast"
)

// pavement is the albedo of the ground, that of weathered concrete. Common
// practice, no source.
const pavement = 0.27

// slab is the distance, in mm, between the joints of the pavement.
const slab = 1500.0

// underfoot returns where a ray meets the ground, if it does.
func underfoot(r *cast.Ray) (t float64, ok bool) {
	const level = 1e-4
	if r.Along.Z > -level || r.From.Z <= 0 {
		return 0, false
	}
	return -r.From.Z / r.Along.Z, true
}

// behind returns what is seen at a place of the picture along a ray that meets
// no part: the ground, or the sky. pixel is the tangent that a pixel covers.
func (w *worker) behind(x, y float64, r *cast.Ray, pixel float64) rgb {
	s := w.Scene
	t, ok := underfoot(r)
	if !ok {
		return s.far(r.Along)
	}
	dip := -r.Along.Z
	// The ground fades into the distance.
	reach := 0.055
	if s.light.backdrop != nil {
		reach = 0.16
	}
	fade := bell(dip * (1 / reach))
	if fade > 0.995 {
		return s.light.edge
	}
	p := r.At(t)
	p.Z = 0
	c := w.paved(p, t*pixel, t*pixel/dip, w.grid.at(w, x, y, p))
	if fade == 0 {
		return c
	}
	return c.mix(s.light.edge, fade)
}

// bell is about exp(-x^2), and 0 from 4 on.
func bell(x float64) float64 {
	q := 1 - x*x*(1.0/16)
	if q <= 0 {
		return 0
	}
	q *= q
	q *= q
	q *= q
	return q * q
}

// A patch is the ground that a tile shows.
type patch struct {
	known  bool    // the whole tile shows ground but for what stands on it
	before []int32 // the solids that may stand before the sun
	base   bool    // the base plate is near
}

// spread finds what may shade the ground in a tile.
func (w *worker) spread(x, y int) {
	w.patch.known, w.patch.base = false, w.base >= 0
	var corners [4]r3.Vec
	var middle r3.Vec
	for i := range corners {
		r := w.win.ray(float64(x+i&1*tile)-0.5, float64(y+i>>1*tile)-0.5)
		t, ok := underfoot(&r)
		if !ok {
			return
		}
		corners[i] = r.At(t)
		middle = r3.Add(middle, r3.Scale(0.25, corners[i]))
	}
	radius := 0.0
	for _, c := range corners {
		radius = max(radius, norm(r3.Sub(c, middle)))
	}
	l := &w.Scene.light
	w.patch.known = true
	if w.base >= 0 {
		b := &w.world.Solids[w.base]
		w.patch.base = norm(r3.Sub(middle, b.Middle)) < radius+b.Hull+12*b.High.Z
	}
	w.patch.before = w.world.Before(middle, radius, l.sun, l.spread, w.patch.before[:0])
}

// paved returns the light that the pavement sends back at a place, given what a
// pixel covers across and along the line of sight, and the openness of the sky.
func (w *worker) paved(p r3.Vec, across, along, open float64) rgb {
	s, l := w.Scene, &w.Scene.light
	sun := 0.0
	if w.patch.known {
		sun = s.world.OpenAmong(p, l.sun, l.spread, w.patch.before)
	} else {
		sun = s.world.Open(p, l.sun, l.spread, -1)
	}
	if w.patch.base {
		open *= 1 - s.world.Solids[s.base].Hides(p, r3.Vec{Z: 1})
	}
	if s.figure != nil {
		if sun > 0 {
			sun *= 1 - s.figure.shade(p, l)
		}
		open *= 1 - s.figure.stand(p)
	}
	light := l.open.scale(rebound(open, pavement)).add(l.level.scale(sun))
	c := light.times(s.stone(p, across, along))
	if w.patch.base {
		c = c.scale(1 - s.crevice(p, across))
	}
	return c
}

// crevice returns how much darker the pavement is close to the base plate, which
// does not lie on it everywhere.
func (s *Scene) crevice(p r3.Vec, pixel float64) float64 {
	const gap = 5.0 // mm
	wide := max(gap, pixel)
	return 0.6 * gap / wide * (1 - smooth(0, 1.6*wide, s.world.Solids[s.base].Away(p)))
}

// stone returns the pavement's albedo: clouded and grainy concrete with sawn
// joints.
func (s *Scene) stone(p r3.Vec, across, along float64) rgb {
	pixel := max(across, 0.5*along)
	tone := 1.0
	if v := seen(700, pixel); v > 0 {
		tone += 0.07 * v * noise2(p.X*(1.0/700), p.Y*(1.0/700), s.seed+11)
	}
	if v := seen(150, pixel); v > 0 {
		tone += 0.05 * v * noise2(p.X*(1.0/150), p.Y*(1.0/150), s.seed+12)
	}
	if v := seen(28, pixel); v > 0 {
		tone += 0.05 * v * noise2(p.X*(1.0/28), p.Y*(1.0/28), s.seed+13)
	}
	if v := seen(7, pixel); v > 0 {
		tone += 0.07 * v * noise2(p.X*(1.0/7), p.Y*(1.0/7), s.seed+14)
	}
	// Each slab is of its own pour.
	x, y := p.X*(1/slab), p.Y*(1/slab)
	i, j := math.Floor(x), math.Floor(y)
	own := uniform(hash(uint32(int64(i)), uint32(int64(j)), 0, s.seed)) - 0.5
	dx, dy := math.Abs(x-i-0.5), math.Abs(y-j-0.5)
	edge := slab * (0.5 - max(dx, dy))
	tone += 0.05 * own * smooth(0, max(30, 2*pixel), edge)
	const joint = 4.0 // mm, half of its width
	wide := max(joint, pixel)
	tone -= 0.45 * joint / wide * (1 - smooth(0.5*wide, 1.5*wide, edge))
	return rgb{pavement * tone, pavement * 0.985 * tone, pavement * 0.955 * tone}
}
