package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/shop"
	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/quantity"
)

// A setting is what the parts of a design know of each other.
type setting struct {
	units    quantity.System
	shrink   float64 // mm, that a seam draws its edges together
	sheets   []design.Sheet
	narrow   float64                      // mm, the narrowest strip of sheet that the shop can weld and handle
	bodies   map[*design.Part]*solid.Body // of balls and bases, as far as needed
	standing map[*design.Part][]standing  // what stands on a part
	threaded map[*design.Part][]thread    // the balls that a post goes through
	sunk     map[*design.Part][]sunk      // the balls that sit in a ball

	unmarked bool // the toes of posts on balls are worked out where a ball is cut open alone

	byHand map[*design.Part][]*design.Part // of a bought ball, the larger bought ones that it sits in

	// Room for the curves of a post's two ends and for its outline, used again
	// from one post to the next.
	curves  [2][]point
	outline []r2.Vec
}

// A standing is a closed line on the outside of a part where another meets it.
type standing struct {
	part *design.Part // the other
	line []r3.Vec     // nil for the toe of a post that is left to traced
	end  int          // of that post
}

// A thread is a ball on a post, with the two lines in which the outside of the
// post comes out of it.
type thread struct {
	ball  *design.Part
	lines [2][]r3.Vec
}

func newSetting(units quantity.System, sheets []design.Sheet) *setting {
	return &setting{units: units, sheets: sheets, narrow: design.Narrowest}
}

// settingOf returns the setting of a design whose blanks are cut from sheets.
func settingOf(d *design.Design, sheets []design.Sheet) *setting {
	s := newSetting(d.Units, sheets)
	if d.Shop != nil && d.Shop.Welding != nil {
		s.shrink = d.Shop.Welding.Shrink
		s.narrow = shop.Narrowest(d.Shop.Welding.Narrow)
	}
	return s
}

// body returns the body of a ball or a base, made once.
func (s *setting) body(p *design.Part) *solid.Body {
	if made, ok := s.bodies[p]; ok {
		return made
	}
	if s.bodies == nil {
		s.bodies = make(map[*design.Part]*solid.Body)
	}
	made := solid.New(p, [2][]r3.Vec{})
	s.bodies[p] = made
	return made
}

// stand enters a post with the parts that its ends stand on.
func (s *setting) stand(p *design.Part, made *Developed) {
	for i, end := range p.Post.Ends {
		if len(made.Toes[i]) > 0 || s.unmarked && end.Meets == design.OnBall && end.With != nil && end.With.Ball != nil {
			s.meet(end.With, standing{p, made.Toes[i], i})
		}
	}
}

// traced returns what stands on a part with all lines worked out.
func (s *setting) traced(part *design.Part) []standing {
	list := s.standing[part]
	for i := range list {
		if list[i].line == nil {
			list[i].line = s.toe(list[i].part, list[i].end)
		}
	}
	return list
}

// toe works out the toe of a post's end again.
func (s *setting) toe(p *design.Part, end int) []r3.Vec {
	d := developer{part: p, setting: s}
	t, ok := d.tube()
	if !ok {
		return nil
	}
	surface, ok := d.surface(end)
	if !ok {
		return nil
	}
	e := trim{tube: &t, head: end == design.Head}
	on, round := e.meet(surface), t.round()
	if !e.run(&on, &round) {
		return nil
	}
	return e.toes(&on)
}

func (s *setting) meet(host *design.Part, with standing) {
	if s.standing == nil {
		s.standing = make(map[*design.Part][]standing)
	}
	s.standing[host] = append(s.standing[host], with)
}

// seatPoints is the number of points from which the line is followed in which
// two balls are welded. Of lobes and rings it has kinks, toward which a step is
// halved seatHalvings times: a seat of a metre comes to steps of a quarter of a
// millimetre there.
const (
	seatPoints   = 96
	seatHalvings = 7
)

// seats enters the lines in which the outsides of balls that rest on balls cut
// each other: of two spheres a circle, of lobes and rings what they make of it.
func (s *setting) seats(joints []design.Joint) {
	for _, j := range joints {
		if j.A == nil || j.B == nil || j.A.Ball == nil || j.B.Ball == nil {
			continue
		}
		center, radius, normal := SeatCircle(j.A.Ball, j.B.Ball)
		if !(radius > 0) {
			continue
		}
		s.sink(j)
		x, y := design.Tilt(normal)
		round := round(j.A.Ball) && round(j.B.Ball)
		at := func(angle float64) r3.Vec {
			sin, cos := math.Sincos(angle)
			off := r3.Add(r3.Scale(cos, x), r3.Scale(sin, y))
			spheres := r3.Add(center, r3.Scale(radius, off))
			if round {
				return spheres
			}
			return s.cross(j.A, j.B, normal, off, spheres)
		}
		line := make([]r3.Vec, 0, 2*seatPoints)
		const step = 2 * math.Pi / seatPoints
		before := at(0)
		for i := range seatPoints {
			line = append(line, before)
			after := at(step * float64(i+1))
			line = follow(line, at, step*float64(i), step*float64(i+1), before, after, seatHalvings)
			before = after
		}
		s.meet(j.A, standing{part: j.B, line: line})
		s.meet(j.B, standing{part: j.A, line: line})
	}
}

// follow appends the points of a line between two angles, its ends left out, as
// many as chords need to stay near it.
func follow(line []r3.Vec, at func(float64) r3.Vec, from, to float64, a, b r3.Vec, halvings int) []r3.Vec {
	middle := (from + to) / 2
	m := at(middle)
	way, rel := r3.Unit(r3.Sub(b, a)), r3.Sub(m, a)
	if halvings == 0 || !(r3.Norm(r3.Cross(way, rel)) > kinked) {
		return line
	}
	line = follow(line, at, from, middle, a, m, halvings-1)
	return follow(append(line, m), at, middle, to, m, b, halvings-1)
}

// round reports whether the outside of a ball is a sphere.
func round(b *design.Ball) bool {
	if b.IsEgg() {
		return false
	}
	return b.Build == design.Halves || b.Build == design.Bought || b.Build == design.DomedGores && b.Caps == 0
}

// cross returns the point where the outsides of two balls cut each other, in the
// half plane that the line from centre to centre bounds and that lies in the
// direction off. Balls are seen whole from their centres: along a meridian of
// the first, from the line on, points lie in the second and from some angle on
// outside of it. Where that does not come, it is the point of their spheres.
func (s *setting) cross(a, b *design.Part, normal, off, spheres r3.Vec) r3.Vec {
	first, second := s.body(a).Outside(), s.body(b).Outside()
	from, to := a.Ball.Center, b.Ball.Center
	look := func(angle float64) (x r3.Vec, gap float64, ok bool) {
		sin, cos := math.Sincos(angle)
		way := r3.Add(r3.Scale(cos, normal), r3.Scale(sin, off))
		t, ok := first.Leave(from, way)
		x = r3.Add(from, r3.Scale(t, way))
		out := r3.Sub(x, to)
		far := r3.Norm(out)
		if !ok || far == 0 {
			return x, 0, false
		}
		t, ok = second.Leave(to, r3.Scale(1/far, out))
		return x, far - t, ok
	}
	// False position, kept from stalling at one end (Illinois).
	low, high := 0.0, math.Pi/2
	x, lowOff, ok := look(low)
	if !ok || lowOff >= 0 {
		return spheres
	}
	_, highOff, ok := look(high)
	if !ok || highOff <= 0 {
		return spheres
	}
	angle := math.Atan2(r3.Dot(r3.Sub(spheres, from), off), r3.Dot(r3.Sub(spheres, from), normal))
	for range 60 {
		var gap float64
		if x, gap, ok = look(angle); !ok {
			return spheres
		}
		if math.Abs(gap) < holeResolution {
			break
		}
		if gap < 0 {
			low, lowOff, highOff = angle, gap, highOff/2
		} else {
			high, highOff, lowOff = angle, gap, lowOff/2
		}
		angle = (low*highOff - high*lowOff) / (highOff - lowOff)
	}
	return x
}

// SeatCircle returns the circle in which the spheres of two balls cut each
// other, with the unit vector square to it from the first to the second. Its
// radius in mm is 0 where they do not.
func SeatCircle(a, b *design.Ball) (center r3.Vec, radius float64, normal r3.Vec) {
	between := r3.Sub(b.Center, a.Center)
	d := r3.Norm(between)
	if d == 0 {
		return a.Center, 0, design.Upright
	}
	normal = r3.Scale(1/d, between)
	if a.IsEgg() || b.IsEgg() {
		// Seated pole to pole, in a circle that is given.
		seat := b.Seat
		if a.On != nil && a.On.Ball == b {
			seat = a.Seat
		}
		return r3.Add(a.Center, r3.Scale(a.Chord(seat), normal)), seat / 2, normal
	}
	along := (d*d + (a.Radius-b.Radius)*(a.Radius+b.Radius)) / (2 * d)
	square := (a.Radius - along) * (a.Radius + along)
	return r3.Add(a.Center, r3.Scale(along, normal)), math.Sqrt(max(0, square)), normal
}

// length writes a length in both of the shop's systems, that of the design
// first.
func (s *setting) length(mm float64) string {
	first, second := quantity.Millimetre, quantity.Inch
	if s.units == quantity.Inch {
		first, second = second, first
	}
	return first.Exact(mm) + " (" + second.Exact(mm) + ")"
}

// fits reports whether a blank fits one of the sheets of its metal, or none is
// known.
func (s *setting) fits(m *design.Metal, width, length float64) bool {
	known := false
	for i := range s.sheets {
		sheet := &s.sheets[i]
		if sheet.Metal != m && (sheet.Metal == nil || m == nil || sheet.Metal.Name != m.Name) {
			continue
		}
		known = true
		w, l := sheet.Width-2*sheet.Trim, sheet.Length-2*sheet.Trim
		if width <= w && length <= l || sheet.Turn && width <= l && length <= w {
			return true
		}
	}
	return !known
}
