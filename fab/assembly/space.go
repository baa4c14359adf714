package assembly

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/corrosion"
	"stabile/param/design"
)

// A Space is a hollow that is closed when all is welded: a ball, a tube shut at
// both ends, or several that open into each other.
type Space struct {
	Parts  []string
	Volume float64 // mm3, about
	Vent   float64 // mm, the largest vent that the design gives it; 0 for none
	Holes  int     // vents that the design gives it
	Dip    float64 // mm, least diameter of its vent and of its drain where it is hot dipped, else 0
	Step   int     // the number of the step that closes it; 0 where the plan has none
}

const (
	shopHeat = 20.0    // °C, at which a space is closed
	atmos    = 101.325 // kPa, the standard atmosphere
	kelvin   = 273.15
)

// ZincBath and Oven are the temperatures in °C of a hot-dip zinc bath and of the
// oven in which paint is baked. Common practice, no source.
const (
	ZincBath = 450.0
	Oven     = 200.0
)

// SealedPressure returns by how many kPa the air shut in a closed space at 20 °C
// presses more than the air outside when it is heated to a temperature in °C: an
// ideal gas whose volume stays the same. Water shut in with it does far worse.
func SealedPressure(celsius float64) float64 {
	return atmos * (celsius - shopHeat) / (shopHeat + kelvin)
}

// WeldVent is the least diameter, in mm, of the hole that lets out the air that
// welding heats. Common practice, no source.
const WeldVent = 3.0

// enclose finds the closed spaces. Two tubes head to head open into each other,
// unless the one stands on the disc of the other, and an open head within a ball
// that is threaded there opens into it, and a ball opens to one that it is seated on
// with 'through'. A joint welded from outside opens nothing.
func (m *maker) enclose() {
	n := len(m.in.Items)
	of := design.NewSets(n)
	open := make([]bool, n) // to the air
	join := func(a, b int) {
		a, b = of.Root(a), of.Root(b)
		of.Join(a, b)
		open[min(a, b)] = open[a] || open[b]
	}
	for i := range n {
		post := m.part(i).Post
		if post == nil {
			continue
		}
		for k, end := range post.Ends {
			switch {
			case k == 1 && end.Meets == design.Free && post.Shut():
			case end.Meets == design.Free:
				if ball := m.covering(i, post.Ends[k].At); ball >= 0 {
					join(i, ball)
					continue
				}
				open[of.Root(i)] = true
			case end.With == nil:
				open[of.Root(i)] = true
			case end.Meets == design.OnHead:
				host, ok := m.at[end.With]
				if ok && end.With.Post != nil && end.With.Post.Ends[end.With.Post.EndBy(m.part(i), end.At)].With == m.part(i) {
					join(i, host)
				}
			}
		}
	}
	for i := range m.links {
		l := &m.links[i]
		if a, b := m.part(l.A), m.part(l.B); l.Kind == design.SeatJoint && a != nil && a.Ball != nil && b.Ball != nil && b.Ball.Through {
			join(l.A, l.B)
		}
	}
	m.openHoles(join, func(i int) { open[of.Root(i)] = true })
	m.space = make([]int, n)
	number := make(map[int]int)
	for i := range n {
		m.space[i] = -1
		p := m.part(i)
		r := of.Root(i)
		if p.Base != nil || p.Ball != nil && p.Ball.Bowl || open[r] {
			continue
		}
		k, ok := number[r]
		if !ok {
			k = len(m.plan.Spaces)
			number[r] = k
			m.plan.Spaces = append(m.plan.Spaces, Space{})
			m.first = append(m.first, i)
		}
		m.space[i] = k
		m.hollow(&m.plan.Spaces[k], m.finished(i))
	}
}

// openHoles opens what the design's holes open: a way for a cable one hollow into another, or
// a post to the ground under its plate, and a hole for light a hollow to the air. What is hot
// dipped stays a hollow all the same: its holes must be where air and zinc run out.
func (m *maker) openHoles(join func(a, b int), toAir func(int)) {
	for i := range m.in.Items {
		p := m.part(i)
		for _, h := range p.Holes {
			with, ok := m.at[h.Joint]
			switch {
			case h.Joint == nil && p.Base == nil && !m.dipped() && h.Air() >= WeldVent:
				toAir(i)
			case h.Joint == nil || !ok:
			case p.Base != nil:
				toAir(with)
			default:
				join(i, with)
			}
		}
	}
}

func (m *maker) dipped() bool {
	f := m.in.Design.Finish
	return f != nil && f.Kind == design.Galvanize
}

// extreme is within what share of its height from its highest and from its lowest point a
// part's hole lets air or zinc out of a bath. Common practice, no source.
const extreme = 0.25

// boredByHoles counts the holes for light of a part that is hot dipped: those near its top
// together as one, and those near its foot as another.
func (s *Space) boredByHoles(p *design.Part, low, high float64) {
	var area [2]float64
	for _, h := range p.Holes {
		if h.Joint != nil || h.Disc {
			continue
		}
		places := []float64{h.At.Z}
		if h.Through {
			middle := h.At.Z
			if p.Ball != nil {
				middle = p.Ball.Center.Z
			}
			places = append(places, 2*middle-h.At.Z)
		}
		for _, z := range places {
			switch share := (z - low) / (high - low); {
			case share <= extreme:
				area[0] += h.Area()
			case share >= 1-extreme:
				area[1] += h.Area()
			}
		}
	}
	for _, a := range area {
		s.bored(math.Sqrt(4 / math.Pi * a))
	}
}

// hollow adds a part to a space.
func (m *maker) hollow(s *Space, p *design.Part) {
	s.Parts = append(s.Parts, p.Name)
	kind, outside, volume := corrosion.Ball, 0.0, 0.0
	if b := p.Ball; b != nil {
		outside, volume = 2*max(b.Radius, b.Polar()), b.Volume()
		s.bored(b.Vent, b.Drain)
		s.boredByHoles(p, b.Center.Z-b.Reach(design.Upright), b.Center.Z+b.Reach(design.Upright))
	} else {
		a, b := p.Post.Ends[design.Foot].Diameter/2, p.Post.Ends[design.Head].Diameter/2
		kind, outside, volume = corrosion.TubeEnd, max(2*a, 2*b), math.Pi/3*(a*a+a*b+b*b)*p.Post.Length
		s.bored(p.Post.Vent, p.Post.Drain)
		foot, head := p.Post.Ends[design.Foot].At.Z, p.Post.Ends[design.Head].At.Z
		s.boredByHoles(p, min(foot, head), max(foot, head))
	}
	s.Volume += volume
	if f := m.in.Design.Finish; f != nil && f.Kind == design.Galvanize {
		// A space too small for the rule to speak of needs the least hole.
		s.Dip = max(s.Dip, corrosion.LeastVent)
		if holes, err := kind.Holes(outside, volume); err == nil {
			s.Dip = max(s.Dip, holes.Diameter)
		}
	}
}

// bored counts the holes of a part that open a space.
func (s *Space) bored(holes ...float64) {
	for _, d := range holes {
		if d > 0 {
			s.Holes++
			s.Vent = max(s.Vent, d)
		}
	}
}

// covering returns the ball threaded on a post that covers a point of its axis,
// or -1.
func (m *maker) covering(post int, at r3.Vec) int {
	for _, k := range m.touches[post] {
		l := &m.links[k]
		if l.Kind != design.ThreadJoint || l.Post != post {
			continue
		}
		if b := m.part(l.Other(post)).Ball; b != nil && r3.Norm(r3.Sub(at, b.Center)) < b.Radius {
			return l.Other(post)
		}
	}
	return -1
}

// Closes reports whether a part is of a space that is closed without a hole when all is
// welded.
func (p *Plan) Closes(part string) bool {
	return slices.ContainsFunc(p.Spaces, func(s Space) bool { return s.Holes == 0 && slices.Contains(s.Parts, part) })
}
