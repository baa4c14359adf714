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
		return s.far(r.Along.Z)
	}
	dip := -r.Along.Z
	// The ground fades into the distance.
	reach := 0.055
	if s.light.backdrop != nil {
		reach = 0.16
	}
	fade := math.Exp(-dip * dip / (reach * reach))
	if fade > 0.995 {
		return s.far(0)
	}
	p := r.At(t)
	p.Z = 0
	c := s.paved(p, t*pixel, t*pixel/dip, w.grid.at(w, x, y, p))
	return c.mix(s.far(0), fade)
}

// far returns the backdrop at a height of view.
func (s *Scene) far(z float64) rgb {
	l := &s.light
	if l.backdrop != nil {
		// A little brighter about the horizon, as a lit sheet is.
		return l.backdrop.scale(1.04 - 0.22*max(z, 0))
	}
	c := l.air(z, 0)
	haze := rgb{0.86, 0.88, 0.89}
	return haze.mix(c, smooth(-0.03, 0.16, z))
}

// paved returns the light that the pavement sends back at a place, given what a
// pixel covers across and along the line of sight, and the openness of the sky.
func (s *Scene) paved(p r3.Vec, across, along, open float64) rgb {
	l := &s.light
	up := r3.Vec{Z: 1}
	sun := s.world.Open(p, l.sun, l.spread, -1)
	if s.figure != nil {
		if sun > 0 {
			sun *= 1 - s.figure.shade(p, l)
		}
		open *= 1 - s.figure.stand(p)
	}
	light := l.sky(up).scale(rebound(open, pavement)).add(l.direct.scale(l.sun.Z * sun))
	return light.times(s.stone(p, across, along))
}

// stone returns the pavement's albedo: clouded and grainy concrete with sawn
// joints.
func (s *Scene) stone(p r3.Vec, across, along float64) rgb {
	pixel := max(across, 0.5*along)
	tone := 1.0
	if v := seen(700, pixel); v > 0 {
		tone += 0.07 * v * noise2(p.X/700, p.Y/700, s.seed+11)
	}
	if v := seen(150, pixel); v > 0 {
		tone += 0.05 * v * noise2(p.X/150, p.Y/150, s.seed+12)
	}
	if v := seen(28, pixel); v > 0 {
		tone += 0.05 * v * noise2(p.X/28, p.Y/28, s.seed+13)
	}
	if v := seen(7, pixel); v > 0 {
		tone += 0.07 * v * noise2(p.X/7, p.Y/7, s.seed+14)
	}
	// Each slab is of its own pour.
	i, j := math.Floor(p.X/slab), math.Floor(p.Y/slab)
	own := uniform(hash(uint32(int64(i)), uint32(int64(j)), 0, s.seed)) - 0.5
	dx, dy := math.Abs(p.X/slab-i-0.5), math.Abs(p.Y/slab-j-0.5)
	edge := slab * (0.5 - max(dx, dy))
	tone += 0.05 * own * smooth(0, max(30, 2*pixel), edge)
	const joint = 4.0 // mm, half of its width
	wide := max(joint, pixel)
	tone -= 0.45 * joint / wide * (1 - smooth(0.5*wide, 1.5*wide, edge))
	return rgb{pavement * tone, pavement * 0.985 * tone, pavement * 0.955 * tone}
}
