package picture

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// A Light is a time of day.
type Light string

// The lights.
const (
	Low  Light = "low"  // a low warm sun, or lamps, from one side
	High Light = "high" // a sun high up, or a skylight
	Soft Light = "soft" // a covered sky: hardly a shadow but under the foot
)

// Lights returns the names of all lights.
func Lights() []Light { return []Light{Low, High, Soft} }

// LookupLight returns the light of a name.
func LookupLight(name string) (Light, bool) {
	l := Light(name)
	return l, slices.Contains(Lights(), l)
}

// A light is the sun, or a lamp, and the sky, or a ceiling. Light falls on a white
// surface that faces it with the colours given here; what a surface sends back is
// its albedo times that.
type light struct {
	sun     r3.Vec // toward it
	spread  float64
	direct  rgb
	zenith  rgb
	horizon rgb
	albedo  rgb // of the ground
	ground  rgb // what the ground sends back, in sun and shade together
	open    rgb // what falls from the whole sky on level ground
	level   rgb // what falls from the sun on level ground

	// What metal mirrors: a dark band about the horizon up to a height, lamps.
	band    rgb
	bandTop float64
	back    r3.Vec // away from the viewer, where the band is higher
	panel   rgb    // of a window toward the sun; nothing outdoors
	rim     r3.Vec // toward a second, weaker light from behind
	rimmed  rgb
}

// sunAside is how far round from the viewer the sun stands, to the left.
const sunAside = -62 * math.Pi / 180

// newLight returns the light of a kind in a place, with a sun at a bearing, for a
// viewer who looks along back.
func newLight(kind Light, place Place, bearing float64, back r3.Vec, p *palette) light {
	// Heights of the sun, in rad, and the tangent of half the angle under which
	// its disc is seen with the haze about it: more than the true 0.0047.
	height, spread := 28*math.Pi/180, 0.016
	l := light{
		direct: rgb{3.05, 2.34, 1.62}, zenith: rgb{0.235, 0.345, 0.560}, horizon: rgb{0.62, 0.60, 0.60},
		band: rgb{0.075, 0.072, 0.060}, bandTop: 0.30,
	}
	if place.indoors() || place == Plain {
		height, spread = 37*math.Pi/180, 0.075
		l.direct, l.zenith, l.horizon = rgb{2.70, 2.36, 1.95}, rgb{0.36, 0.40, 0.47}, rgb{0.30, 0.31, 0.34}
		l.band, l.bandTop = p.wall.mix(rgb{0.08, 0.084, 0.09}, 0.5), 0.55
		l.panel = rgb{3.1, 2.95, 2.75}
	}
	switch kind {
	case High:
		height *= 1.75
		l.direct = l.direct.times(rgb{0.86, 1.02, 1.30})
	case Soft:
		height *= 1.6
		spread = 0.45
		l.direct = l.direct.times(rgb{0.23, 0.29, 0.38})
		l.zenith, l.horizon = rgb{1.02, 1.06, 1.12}, rgb{0.80, 0.83, 0.87}
		l.panel = l.panel.scale(0.3)
	}
	sin, cos := math.Sincos(height)
	sinB, cosB := math.Sincos(bearing)
	l.sun, l.spread = r3.Vec{X: cos * cosB, Y: cos * sinB, Z: sin}, spread
	l.back = back
	side := r3.Cross(back, r3.Vec{Z: 1}) // to the viewer's right
	l.rim = unit(r3.Add(r3.Add(r3.Scale(0.80, back), r3.Scale(0.75, side)), r3.Vec{Z: 0.42}))
	l.rimmed = rgb{0.85, 0.98, 1.15}
	l.albedo = p.ground
	l.open, l.level = l.sky(r3.Vec{Z: 1}), l.direct.scale(sin)
	l.ground = l.level.scale(0.8).add(l.open).times(l.albedo)
	return l
}

// air returns the light of the open sky in a direction, blurred over a cone of
// the given tangent.
func (l *light) air(z, blur float64) rgb {
	// Paler toward the horizon.
	h := 1 / (1 + 3.5*max(z, 0)) * (1 - 0.12*blur)
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
	c := l.sky(n).add(back)
	if d := r3.Dot(n, l.rim); d > 0 {
		c = c.add(l.rimmed.scale(0.22 * d * d))
	}
	return c
}

// lit returns the share of the ground's open light that it sends back to a piece
// at a height above it, in mm.
func lit(height float64) float64 {
	h := max(height, 0)
	return 0.30 + 0.50*h/(h+250)
}

// mirrored returns the light of the surroundings in a direction as a surface
// mirrors it, blurred over a cone of the given tangent: the sky or ceiling above a
// band of darker distance, which is what gives metal its modelling, and lamps.
func (l *light) mirrored(d r3.Vec, blur float64) rgb {
	c := l.air(d.Z, blur).scale(1.25)
	top := l.bandTop * (0.55 + 0.45*r3.Dot(d, l.back))
	w := 0.04 + 0.9*blur
	// What lies behind the viewer is open: it lights what faces the eye.
	band := l.band.mix(l.open, 0.42*smooth(-0.2, -0.95, r3.Dot(d, l.back)))
	c = band.mix(c, smooth(top-w, top+w, d.Z))
	// A bright veil about the sun, or the window.
	if s := r3.Dot(d, l.sun); s > 0 {
		if l.panel.g > 0 {
			near := 0.86 - 0.35*blur
			c = c.add(l.panel.scale(smooth(near-0.06-0.35*blur, near+0.06+0.12*blur, s) / (1 + 2.5*blur)))
		} else {
			s *= s
			c = c.add(l.direct.scale(0.20 * s * s * s))
		}
	}
	if s := r3.Dot(d, l.rim); s > 0 {
		c = c.add(l.rimmed.scale(0.9 * smooth(0.80-0.5*blur, 0.95+0.05*blur, s)))
	}
	return c
}
