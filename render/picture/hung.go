package picture

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A piece on a wall is shown on it: what stands behind the piece is that wall, wherever the
// viewer stands before it, and it takes the piece's shadow and what keeps light from it.

// leastFront is the least sine of the angle between the wall and the way to the viewer, or to
// the sun: at less the wall is seen on edge.
const leastFront = 0.17

// onWall settles what hangs on that the piece is on a wall.
func (s *Scene) onWall() error {
	if s.wall == nil {
		return nil
	}
	switch o := &s.options; {
	case o.Place == Plinth:
		return errors.New("a piece on a wall stands on no plinth: choose another place")
	case math.Sin(s.bearing) > -leastFront:
		return errors.New("the piece is on a wall: look at it from its front, from a bearing between 190 and 350 deg")
	case o.Sun != nil && math.Sin(*o.Sun) > -leastFront:
		return errors.New("the piece is on a wall: its light comes from its front, from a bearing between 190 and 350 deg")
	}
	return nil
}

// beforeWall returns a bearing of the sun turned to the front of the wall where it would stand
// behind it.
func (s *Scene) beforeWall(sun float64) float64 {
	if s.wall == nil {
		return sun
	}
	const most = 65 * math.Pi / 180
	off := math.Remainder(sun-3*math.Pi/2, 2*math.Pi)
	return 3*math.Pi/2 + max(-most, min(off, most))
}

// faced returns the light of the wall that the piece is on, at a place on it, of which a pixel
// covers a length in mm, and how bright it is without its pattern.
func (s *Scene) faced(p r3.Vec, pixel float64) (c rgb, even float64) {
	st, l := &s.stage, &s.light
	n := r3.Scale(-1, st.back)
	x, z := p.X-st.middle.X, max(p.Z, 0)
	open := s.world.Sky(p, n, s.base)
	touch := 1.0
	if s.base >= 0 {
		open *= 1 - s.world.Solids[s.base].Hides(p, n)
		touch = 1 - s.crevice(p, pixel)
	}
	sun := s.world.Open(p, l.sun, l.spread, -1)
	if s.figure != nil && sun > 0 {
		sun *= 1 - s.figure.shade(p, l)
	}
	light := l.around(n, z).scale(rebound(open, st.palette.wall.luminance()))
	if nl := r3.Dot(n, l.sun); nl > 0 {
		light = light.add(l.direct.scale(0.62 * nl * sun))
	}
	// Less light gets into the corner with the floor.
	light = light.scale(touch * (1 - 0.35*math.Exp(-z*(1.0/220))))
	tone := 1.0
	if v := seen(900, pixel); v > 0 {
		tone += 0.06 * v * noise2(x*(1.0/900), z*(1.0/700), s.seed+31)
	}
	if v := seen(240, pixel); v > 0 {
		tone += 0.04 * v * noise2(x*(1.0/240), z*(1.0/260), s.seed+32)
	}
	if v := seen(14, pixel); v > 0 {
		tone += 0.03 * v * noise2(x*(1.0/14), z*(1.0/14), s.seed+33)
	}
	return light.times(st.palette.wall).scale(tone), light.luminance()
}
