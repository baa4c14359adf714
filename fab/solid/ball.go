package solid

import (
	"math"

	"stabile/param/design"
)

// Outside returns the outside of a ball as it is made: the lobes of rolled gores
// with their caps or blunt ends, the rings of zones, or the sphere.
func Outside(p *design.Part) Radial {
	if b := p.Ball; b.Bowl {
		return newBowl(whole(p), b.Center, b.Pole, b.RimHeight())
	}
	return whole(p)
}

// whole returns the outside of a ball, and of a bowl as if it were closed. That of an egg is
// worked out where it is a sphere, as tall as it is wide.
func whole(p *design.Part) Radial {
	b := p.Ball
	if b.IsEgg() {
		return newEgg(b, squashed(p))
	}
	return squashed(p)
}

// squashed returns the outside of a ball, of an egg pressed along its pole to a sphere.
func squashed(p *design.Part) Radial {
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
	if b.Bowl {
		const up, low = design.UpperPole, design.LowerPole
		g.End[up], g.CapFlat[up] = g.End[low], g.CapFlat[low]
	}
	if b.Build == design.DomedGores {
		if !g.CapFlat[design.LowerPole] && !g.CapFlat[design.UpperPole] {
			return sphere
		}
		f := Flattened{Sphere: sphere, Pole: b.Pole, End: [2]float64{b.Radius, b.Radius}}
		for pole := range f.End {
			if g.CapFlat[pole] {
				f.End[pole] = min(g.flatCap(p, pole), b.Polar()) * (b.Radius / b.Polar())
			}
		}
		return f
	}
	lobed := NewLobed(b.Center, b.Radius, b.Gores, b.Pole, b.Prime)
	for pole := range g.End {
		sin, cos := math.Sincos(b.Profile().Drawn(g.Latitude(g.End[pole])))
		switch {
		case g.CapFlat[pole]:
			lobed.Flatten(pole, g.flatCap(p, pole)*(b.Radius/b.Polar()))
		case b.Straight: // dished, it carries the lobes on
		case b.Caps > 0:
			lobed.Dome(pole, b.Radius*sin)
		case cos > 0:
			lobed.Flatten(pole, b.Radius*sin)
		}
	}
	return lobed
}

// flatCap returns how far the outside of a flat cap lies from the centre, in mm.
func (g *Gored) flatCap(p *design.Part, pole int) float64 {
	_, height := g.At(g.End[pole])
	return height + p.Metal.Thickness/2
}
