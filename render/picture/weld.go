package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/render/picture/cast"
)

// A spot is a place on a solid that is looked at.
type spot struct {
	p, n, v     r3.Vec // the place, the normal, and the direction to the eye
	solid, face int32
	pixel       float64 // mm, that a pixel covers there
}

// A seaming is where the seams of a solid run that its shape does not tell.
type seaming struct {
	gores   int       // of a ball that is round all the same
	equator bool      // of dished halves
	along   []line    // a tube's seams along it
	rounds  []float64 // mm along a tube's axis from its foot, of the seams round it
	rolled  bool      // it is a tube that has a seam
}

// A line is a seam along a tube: its bearing in rad in the tube's own axes, and between
// which heights above its foot it runs.
type line struct{ bearing, low, high float64 }

// seamingOf takes the seams from what the part was developed to.
func seamingOf(s *cast.Solid, p *fab.Part) seaming {
	switch {
	case p.Post != nil:
		g := seaming{rolled: true}
		g.rounds = p.Rounds
		for course := range len(p.Rounds) + 1 {
			low, high := math.Inf(-1), math.Inf(1)
			if course > 0 {
				low = p.Rounds[course-1]
			}
			if course < len(p.Rounds) {
				high = p.Rounds[course]
			}
			for i := range p.Seams {
				if p.Seams[i].Kind == flat.TubeSeam && p.Seams[i].Course == course {
					d := p.Post.Facing(p.Seams[i].Bearing)
					g.along = append(g.along, line{math.Atan2(r3.Dot(d, s.Right), r3.Dot(d, s.Zero)), low, high})
				}
			}
		}
		return g
	case p.Ball == nil:
	case p.Ball.Build == design.DomedGores:
		return seaming{gores: p.Ball.Gores}
	case p.Ball.Build == design.Halves:
		return seaming{equator: true}
	}
	return seaming{}
}

// ringSeam is where the seam of a zoned ball's ring lies about its pole.
func ringSeam(ring int32) float64 { return flat.RingTurns()[ring%2] }

// none is farther than anything is from a weld.
const none = 1e9

// seam returns how far a spot of the outside is from the nearest seam within its own part, in
// mm along the surface, and turns the normal of one beside a ridge, which is
// dressed round, by as much as a weld of the given half width does.
func (s *Scene) seam(sp *spot, half float64) float64 {
	b := &s.world.Solids[sp.solid]
	g := &s.seams[sp.solid]
	rel := r3.Sub(sp.p, b.Center)
	switch b.Kind {
	case cast.Box:
		return none
	case cast.Tube:
		if !g.rolled {
			return none
		}
		return tubeSeam(b, g, rel, sp)
	}
	x, y, z := r3.Dot(rel, b.Zero), r3.Dot(rel, b.Right), r3.Dot(rel, b.Axis)
	rho := math.Sqrt(x*x + y*y)
	d := none
	// The edges of caps and flats.
	pole := design.PoleAt(z)
	slope := 1.0
	if b.Stretch > 0 {
		z /= b.Stretch // where the egg is a ball
		slope = 1 / b.Stretch
	}
	if flat, dome := b.Flat[pole], b.Dome[pole]; dome < b.Radius || flat < b.Radius && flat > 0 {
		end := min(dome, flat)
		if dome < b.Radius || b.Radius*b.Radius-end*end > 16*half*half {
			d = math.Abs(math.Abs(z)-end) * b.Radius / max(rho, half)
			if sp.face == cast.Upper || sp.face == cast.Lower {
				d = math.Abs(math.Sqrt(max(0, b.Radius*b.Radius-end*end)) - rho)
			}
		}
	}
	face, out := sp.face, 1.0
	if b.Bowl && face >= cast.Within+cast.Cap {
		face, out = face-cast.Within, -1 // of its inside, whose normal leads inward
	}
	switch {
	case b.Kind == cast.Lobed && face >= 0:
		l := b.Lobes[face]
		a, u := x*l.X+y*l.Y, y*l.X-x*l.Y
		tan := math.Tan(math.Pi / float64(len(b.Lobes)))
		ridge := a*tan - math.Abs(u)
		if wide := max(half, 0.8*sp.pixel); ridge < wide {
			// The normal half way between the two gores.
			turned := r3.Add(r3.Scale(1/rho, r3.Add(r3.Scale(x*a, b.Zero), r3.Scale(y*a, b.Right))), r3.Scale(z*slope, b.Axis))
			if b.Stretch > 0 {
				turned = r3.Scale(b.Radius, unit(turned))
			}
			sp.n = unit(r3.Add(r3.Scale(0.5+0.5*ridge/wide, sp.n), r3.Scale(out*(0.5-0.5*ridge/wide)/b.Radius, turned)))
		}
		d = min(d, ridge)
	case b.Kind == cast.Zoned:
		ring := b.Rings[sp.face]
		off := math.Abs(z*ring.X - rho*ring.Y)
		edge := b.Radius * math.Tan(math.Pi/2/float64(len(b.Rings)-1))
		if b.Stretch > 0 {
			edge, off = edge*math.Hypot(ring.Y, ring.X*b.Stretch), off*math.Hypot(ring.Y, ring.X*b.Stretch)
		}
		d = min(d, math.Abs(edge-off))
		if last := int32(len(b.Rings) - 1); sp.face > 0 && sp.face < last {
			d = min(d, rho*apart(math.Atan2(y, x), ringSeam(sp.face-1)))
		}
	case g.equator:
		d = min(d, math.Abs(z)/slope)
	case g.gores > 0:
		turn := 2 * math.Pi / float64(g.gores)
		off := math.Mod(math.Atan2(y, x)+2*math.Pi, turn) - turn/2
		d = min(d, rho*math.Abs(off))
	}
	return d
}

// apart returns the angle between two bearings, from 0 to pi.
func apart(a, b float64) float64 {
	d := math.Mod(math.Abs(a-b), 2*math.Pi)
	return min(d, 2*math.Pi-d)
}

// tubeSeam measures to the seam along a tube, and to the edge of a disc that
// closes an end.
func tubeSeam(b *cast.Solid, g *seaming, rel r3.Vec, sp *spot) float64 {
	z := r3.Dot(rel, b.Axis)
	x, y := r3.Dot(rel, b.Zero), r3.Dot(rel, b.Right)
	r := b.Radius + b.Slope*z
	if sp.face == cast.Foot || sp.face == cast.Head {
		return max(0, r-math.Sqrt(x*x+y*y))
	}
	d := none
	if len(g.along) > 0 {
		at := math.Atan2(y, x)
		for _, l := range g.along {
			if z >= l.low && z <= l.high {
				d = min(d, r*apart(at, l.bearing))
			}
		}
	}
	for _, along := range g.rounds {
		d = min(d, math.Abs(z-along))
	}
	for i := range b.Ends {
		if !b.Open[i] {
			d = min(d, math.Abs(b.Ends[i].Height-r3.Dot(b.Ends[i].Normal, sp.p)))
		}
	}
	return d
}

// mostJoins is how many joints of a part are looked at one by one for each
// place. A plate with more shows no welds.
const mostJoins = 48

// joint returns how far a spot is from the nearest part that its own is welded
// to, and turns the normal toward that of the fillet between them.
func (s *Scene) joint(sp *spot, half float64) float64 {
	list := s.joins[sp.solid]
	if len(list) > mostJoins {
		return none
	}
	d := none
	var nearest int32
	for _, i := range list {
		b := &s.world.Solids[i]
		rel := r3.Sub(sp.p, b.Middle)
		if reach := b.Hull + 8*half; r3.Dot(rel, rel) > reach*reach {
			continue
		}
		if away := b.Away(sp.p); away < d {
			d, nearest = away, i
		}
	}
	if wide := 1.3 * max(half, 0.8*sp.pixel); d < wide {
		b := &s.world.Solids[nearest]
		n := outward(b, sp.p)
		if r3.Dot(n, sp.n) < -0.2 {
			return max(d, 0) // a wedge that no fillet is seen in
		}
		f := max(d, 0) / wide
		sp.n = unit(r3.Add(r3.Scale(0.6+0.4*f, sp.n), r3.Scale(0.4-0.4*f, n)))
	}
	return max(d, 0)
}

// outward returns about the direction in which the surface of a solid faces at a
// point near to it.
func outward(b *cast.Solid, p r3.Vec) r3.Vec {
	switch b.Kind {
	case cast.Box:
		return r3.Vec{Z: 1}
	case cast.Tube:
		if b.Length < b.Radius/4 {
			return b.Axis // a round plate
		}
		return b.Normal(p, cast.Side)
	}
	return unit(r3.Sub(p, b.Center))
}
