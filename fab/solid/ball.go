package solid

import (
	"math"

	"stabile/param/design"
)

// Outside returns the outside of a ball as it is made: the lobes of rolled gores
// with their caps or blunt ends, the rings of zones, or the sphere.
func Outside(p *design.Part) Radial {
	b := p.Ball
	sphere := Sphere{Center: b.Center, Radius: b.Radius}
	if p.Metal == nil || b.Build == design.Halves || b.Build == design.Bought {
		return sphere
	}
	if b.Build == design.Zones {
		return Zoned{Center: b.Center, Radius: b.Radius, Pole: b.Pole, Zones: b.Zones}
	}
	g, ok := GoredOf(p)
	if !ok {
		return sphere
	}
	sin, cos := math.Sincos(g.End / g.Mean)
	flatCap := g.Mean*sin + p.Metal.Thickness/2
	if b.Build == design.DomedGores {
		if b.Caps > 0 && g.CapFlat {
			return Flattened{Sphere: sphere, Pole: b.Pole, End: min(flatCap, b.Radius)}
		}
		return sphere
	}
	lobed := NewLobed(b.Center, b.Radius, b.Gores, b.Pole, b.Prime)
	switch {
	case b.Caps > 0 && g.CapFlat:
		lobed.Flatten(flatCap)
	case b.Straight: // dished, they carry the lobes on
	case b.Caps > 0:
		lobed.Dome(b.Radius * sin)
	case cos > 0:
		lobed.Flatten(b.Radius * sin)
	}
	return lobed
}
