package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A light is the sun and the sky. Light falls on a white surface that faces it
// with the colours given here; what a surface sends back is its albedo times
// that.
type light struct {
	sun      r3.Vec // toward it
	spread   float64
	direct   rgb
	zenith   rgb
	horizon  rgb
	ground   rgb // what the pavement sends back, in sun and shade together
	open     rgb // what falls from the whole sky on level ground
	level    rgb // what falls from the sun on level ground
	edge     rgb // what is seen at the horizon
	backdrop *rgb
}

// sunHeight is the sun's height above the horizon, in rad: that of a late
// morning in spring, which models round things best.
const sunHeight = 43 * math.Pi / 180

// sunSpread is the tangent of half the angle under which the sun's disc is
// seen, with the haze about it: several times the true 0.0047, as under a
// thin veil.
const sunSpread = 0.02

func newLight(bearing float64, backdrop *rgb) light {
	sin, cos := math.Sincos(sunHeight)
	sinB, cosB := math.Sincos(bearing)
	l := light{
		sun:      r3.Vec{X: cos * cosB, Y: cos * sinB, Z: sin},
		spread:   sunSpread,
		direct:   rgb{2.05, 1.90, 1.66},
		zenith:   rgb{0.345, 0.475, 0.695},
		horizon:  rgb{0.86, 0.91, 0.97},
		backdrop: backdrop,
	}
	l.open, l.level = l.sky(r3.Vec{Z: 1}), l.direct.scale(sin)
	l.ground = l.level.add(l.open).scale(pavement)
	l.edge = l.horizonEdge()
	return l
}

// air returns the light of the open sky in a direction, blurred over a cone of
// the given tangent.
func (l *light) air(z, blur float64) rgb {
	// Paler toward the horizon.
	h := 1 / (1 + 5.5*max(z, 0)) * (1 - 0.12*blur)
	return l.zenith.mix(l.horizon, h)
}

// sky returns the light that falls from the sky alone on an open surface of the
// given normal, without what comes back from the ground.
func (l *light) sky(n r3.Vec) rgb {
	c := l.zenith.mix(l.horizon, 0.54-0.10*n.Z)
	return c.scale(1.05 * (0.5 + 0.5*n.Z))
}

// around returns the light that falls on a surface of the given normal from sky
// and ground, at a height above it. Near the ground the piece and its shadow
// dim what comes back from there.
func (l *light) around(n r3.Vec, height float64) rgb {
	back := l.ground.scale(0.5 * (1 - n.Z) * lit(height))
	return l.sky(n).add(back)
}

// lit returns the share of the ground's open light that it sends back to a piece
// at a height above it, in mm.
func lit(height float64) float64 {
	h := max(height, 0)
	return 0.30 + 0.50*h/(h+250)
}

// mirrored returns the light of the surroundings in a direction as a surface
// mirrors it, blurred over a cone of the given tangent: the sky above a band of
// darker distance, which is what gives metal its modelling.
func (l *light) mirrored(d r3.Vec, blur float64) rgb {
	sky := l.air(d.Z, blur)
	// A bright veil about the sun.
	if s := r3.Dot(d, l.sun); s > 0 {
		s *= s
		sky = sky.add(l.direct.scale(0.16 * s * s * s))
	}
	far := rgb{0.20, 0.21, 0.215}
	if l.backdrop != nil {
		sky = sky.mix(*l.backdrop, 0.6)
		far = l.backdrop.scale(0.6)
	}
	w := 0.04 + 1.1*blur
	return far.mix(sky, smooth(0.12-w, 0.14+w, d.Z))
}
