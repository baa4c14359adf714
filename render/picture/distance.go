package picture

import "gonum.org/v1/gonum/spatial/r3"

// far returns the backdrop in a direction above the horizon.
func (s *Scene) far(d r3.Vec) rgb {
	l := &s.light
	switch {
	case l.backdrop != nil:
		// A little brighter about the horizon, as a lit sheet is.
		return l.backdrop.scale(1.04 - 0.22*max(d.Z, 0))
	case d.Z <= 0:
		return l.edge
	}
	c := l.hazy(d.Z)
	if d.Z > mostWood {
		return c
	}
	return c.mix(leaves, s.woods(d))
}

// hazy returns the open sky, which is lost in haze toward the horizon.
func (l *light) hazy(z float64) rgb {
	haze := rgb{0.86, 0.88, 0.89}
	return haze.mix(l.air(z, 0), smooth(-0.03, 0.16, z))
}

// Trees in the far distance, two rows of them in the haze.
var (
	leaves    = rgb{0.46, 0.50, 0.49}
	woodTop   = [2]float64{0.0204, 0.0136} // their height, as a tangent
	woodShare = [2]float64{0.13, 0.22}     // of the light behind that they take
)

const (
	mostWood = 0.037 // the height, as a tangent, that no tree reaches
	woodSoft = 0.0077
)

// woods returns how much of the sky trees in the far distance keep from sight in
// a direction.
func (s *Scene) woods(d r3.Vec) float64 {
	scale := 1 / norm2(d.X, d.Y)
	x, y, z := scale*d.X, scale*d.Y, scale*d.Z
	share := 0.0
	for row := range woodTop {
		seed, f := s.seed+uint32(21+3*row), 8+11*float64(row) // waves to a radian
		top := woodTop[row] * (1 + 0.5*noise2(f*x, f*y, seed) + 0.25*noise2(4*f*x, 4*f*y, seed+1))
		share += (1 - share) * woodShare[row] * (1 - smooth(top-woodSoft, top+0.2*woodSoft, z))
	}
	return share
}

// horizonEdge returns what is seen at the horizon, to which the ground fades.
func (l *light) horizonEdge() rgb {
	if l.backdrop != nil {
		return l.backdrop.scale(1.04)
	}
	c := l.hazy(0)
	for _, share := range woodShare {
		c = c.mix(leaves, share)
	}
	return c
}
