package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// Outside returns the outside of a ball as it is made: the lobes of rolled gores
// with their caps or blunt ends, the rings of zones, or the sphere.
func Outside(p *design.Part) Surface {
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
	case b.Caps > 0:
		lobed.Dome(b.Radius * sin)
	case cos > 0:
		lobed.Flatten(b.Radius * sin)
	}
	return lobed
}

// IsLobed reports whether a ball is of rolled gores, straight across, so that it
// has ridges.
func IsLobed(b *design.Ball) bool { return b.Build == design.RolledGores && b.Gores >= 3 }

// IsZoned reports whether a ball is of rings, each a frustum of a cone.
func IsZoned(b *design.Ball) bool { return b.Build == design.Zones && b.Zones > 0 }

// Meridian returns the unit vector square to a ball's pole at a longitude in rad
// from the middle of its first gore.
func Meridian(b *design.Ball, longitude float64) r3.Vec {
	sin, cos := math.Sincos(longitude)
	return r3.Add(r3.Scale(cos, b.Prime), r3.Scale(sin, r3.Cross(b.Pole, b.Prime)))
}

// Ridge returns how far in mm from the axis through its poles the ridges of a
// lobed ball stand at the equator. A ridge is an ellipse of this half axis, and
// of the radius along the pole.
func Ridge(b *design.Ball) float64 { return b.Radius / math.Cos(math.Pi/float64(b.Gores)) }

// ZoneStep returns the latitude, in rad, that each ring of a ball of zones takes
// up; the two discs at the poles take up as much together.
func ZoneStep(b *design.Ball) float64 { return math.Pi / float64(b.Zones+1) }

// RingEdge returns the radius of edge k of the rings of a ball of zones, from the
// lower pole up, and its height along the pole from the centre: in a plane through
// the poles, the corners of the regular polygon about the circle.
func RingEdge(b *design.Ball, k int) (radius, height float64) {
	sin, cos := math.Sincos(ZoneStep(b)*(float64(k)+0.5) - math.Pi/2)
	return Hull(b) * cos, Hull(b) * sin
}

// Hull returns the radius of the sphere about a ball's centre that holds all of it.
func Hull(b *design.Ball) float64 {
	switch {
	case IsZoned(b):
		return b.Radius / math.Cos(ZoneStep(b)/2)
	case IsLobed(b):
		return Ridge(b)
	}
	return b.Radius
}

// ballReach returns how far a ball reaches from its centre along a unit vector.
//
// Across a rolled gore the surface is straight, so that the furthest point of a
// lobed ball is on a ridge; caps cut the ridges off at their edge. The sphere that
// the flats touch lies within. Where blunt or flat ends cut off the very poles the
// sphere is taken all the same.
func ballReach(p *design.Part, way r3.Vec) float64 {
	b := p.Ball
	switch {
	case IsZoned(b):
		return zonedReach(b, way)
	case !IsLobed(b):
		return b.Radius
	}
	limit := CapLatitude(p)
	most, out := b.Radius, Ridge(b)
	pole := r3.Dot(way, b.Pole)
	for k := range b.Gores {
		level := r3.Dot(way, Meridian(b, (2*float64(k)+1)*math.Pi/float64(b.Gores)))
		latitude := max(-limit, min(limit, math.Atan2(b.Radius*pole, out*level)))
		s, c := math.Sincos(latitude)
		most = max(most, out*level*c+b.Radius*pole*s)
	}
	return most
}

// zonedReach returns the reach of a ball of zones: that of the edge, or the two,
// nearest to the direction.
func zonedReach(b *design.Ball, way r3.Vec) float64 {
	step := ZoneStep(b)
	pole := max(-1, min(1, r3.Dot(way, b.Pole)))
	// From the lower pole on, corners lie at odd multiples of half a step.
	up := math.Asin(pole) + math.Pi/2
	corner := (math.Floor(up/step) + 0.5) * step
	corner = max(step/2, min(math.Pi-step/2, corner))
	return Hull(b) * math.Cos(up-corner)
}
