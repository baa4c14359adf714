package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/frame"
	"stabile/fab/plate"
	"stabile/fab/shell"
	"stabile/param/design"
)

// A Shell is a joint on the wall of a ball, in its worst case: a post that is welded
// to it, or another ball, or the base.
type Shell struct {
	Ball, With *design.Part
	Where      check.Where // the post's Foot or Head; Seat where there is no post
	Joint      shell.Joint
	Capacity   shell.Capacity
	Case       check.Case
	Load       shell.Load
	Use        shell.Use
	Ratio      float64 // Use.Interaction with that of the joints nearer than the clearance; 1 is the limit
	Near       []string
	Gap        Gap     // why the rule does not decide; "" where it does
	Seamed     bool    // seams of the ball lie in the joint or beside it
	Caps       float64 // mm, the caps within which the joint would clear the seams of gores; 0 for none

	round shell.Capacity // of a wall that is curved one way: what a sphere's would carry
	soft  shell.Springs  // by what the springs are those of a sphere

	out   r3.Vec  // from the ball's middle to the joint
	half  float64 // rad, that the ring takes up
	along float64 // mm, of a joint on a post's side: along its axis from the foot
}

// oblique is the angle in rad between a post and the ball's radius up to which the ring
// is taken as round: common practice, no source.
const oblique = math.Pi / 4

// rimClear is how far from a joint the open rim of a bowl must be, in square roots of the
// radius times the wall, for the rule of a whole ball to hold: what an edge disturbs has died
// away to a twentieth there, e^-1.285 k with k 2.4 (shallow shells; derived from the
// characteristic length).
const rimClear = 2.4

// mostCap is the colatitude in rad up to which caps are a cure: beyond, the ball is
// better made of halves.
const mostCap = 75 * math.Pi / 180

// outward returns the unit vector from a ball's middle to an end of a post, its
// foot (0) or head (1).
func outward(p, ball *design.Part, end int) r3.Vec {
	out := r3.Sub(p.Post.Ends[end].At, ball.Ball.Center)
	if r := r3.Norm(out); r > 0 {
		return r3.Scale(1/r, out)
	}
	return p.Post.Direction
}

// walled reports whether the wall of a ball is known.
func walled(ball *design.Part) bool {
	m := ball.Metal
	return m != nil && m.Thickness > 0 && ball.Ball.Radius > m.Thickness
}

// ringOn returns the joint of a ring of the given mean diameter on a ball: of a tube of
// the given metal, or a bare rim where that is nil.
func ringOn(ball *design.Part, diameter float64, tube *design.Metal) shell.Joint {
	m := ball.Metal
	yield, _ := Yield(m)
	j := shell.Joint{Radius: ball.Ball.Radius - m.Thickness/2, Wall: m.Thickness, Diameter: diameter, Strength: yield / shell.Safety, Rim: tube == nil}
	if tube != nil {
		own, _ := Yield(tube)
		j.Tube, j.TubeStrength = tube.Thickness, own/shell.Safety
	}
	return j
}

// tubeOn returns the joint of an end of a post on a ball; not ok where the ball's wall is
// not known.
func tubeOn(p, ball *design.Part, end int) (shell.Joint, bool) {
	if !walled(ball) || p.Metal == nil {
		return shell.Joint{}, false
	}
	j := ringOn(ball, p.Post.Ends[end].Diameter-p.Metal.Thickness, p.Metal)
	return j, j.Diameter > 0 && j.Diameter < 2*j.Radius
}

// capacityAt returns what a ball's wall carries at an end of a post; where the wall is not
// known, without end, but so that the greatest moment is found.
func capacityAt(p, ball *design.Part, end int) shell.Capacity {
	if s := shellAt(p, ball, end); s.Joint.Wall > 0 {
		return s.Capacity
	}
	return shell.Capacity{Outward: math.Inf(1), Inward: math.Inf(1), Moment: 1, Shear: math.Inf(1), Torque: math.Inf(1)}
}

// shellAt returns what a ball's wall is checked for at an end of a post, without a load.
func shellAt(p, ball *design.Part, end int) Shell {
	s := Shell{Ball: ball, With: p, Where: ends[end], out: outward(p, ball, end)}
	j, ok := tubeOn(p, ball, end)
	if wide := p.Post.Ends[end].Doubler; ok && wide > 0 {
		s.double(j, wide)
	} else {
		s.take(j, ok)
	}
	if s.Gap == "" && math.Abs(r3.Dot(p.Post.Direction, squareTo(ball, s.out))) < math.Cos(oblique) {
		s.Gap = WallOblique
	}
	return s
}

// double gives the shell the joint on a disc that doubles its wall: the ring on both sheets, and
// the edge of the disc on the ball's own wall. It carries the lesser of what the two do. The
// frame has the give of the undoubled wall, which is more.
func (s *Shell) double(j shell.Joint, wide float64) {
	ring, edge, err := j.With(shell.Doubler{Diameter: wide, Wall: j.Wall})
	if err != nil {
		s.take(j, true)
		return
	}
	edged := Shell{Ball: s.Ball, With: s.With, Where: s.Where, out: s.out}
	edged.take(edge, true) // which is the nearer to seams and to other joints
	c := edged.Capacity
	s.Seamed, s.Gap, s.half, s.soft, s.Caps = edged.Seamed, edged.Gap, edged.half, edged.soft, edged.Caps
	if s.Joint = ring; s.Seamed {
		s.Joint.Strength *= shell.Seam
	}
	own, err := s.Joint.Capacity()
	if err != nil || edged.Joint.Wall == 0 {
		s.Joint, s.Gap = shell.Joint{}, WallUnknown
		return
	}
	if !own.Decides() {
		s.Gap = WallRange
	}
	s.Capacity = least(own, c)
}

// take gives the shell its joint, and finds whether the rule reaches it.
func (s *Shell) take(j shell.Joint, ok bool) {
	if !ok {
		s.Gap = WallUnknown
		return
	}
	s.half = math.Asin(min(1, j.Diameter/2/j.Radius))
	if b := s.Ball.Ball; b != nil && b.IsEgg() {
		j = s.onEgg(j)
	}
	s.soft = shell.Springs{Rotational: 1, Axial: 1}
	s.Joint = j
	s.form()
	s.holed()
	if s.Seamed {
		s.Joint.Strength *= shell.Seam
	}
	c, err := s.Joint.Capacity()
	if err != nil {
		s.Joint, s.Gap = shell.Joint{}, WallUnknown
		return
	}
	s.Capacity = c
	if !c.Decides() {
		s.Gap = WallRange
	}
	if b := s.Ball.Ball; b.Bowl && b.RimClear(s.out, s.half) < rimClear*math.Sqrt(j.Radius*j.Wall) {
		s.Gap = WallRim
	}
	if s.Joint.Single {
		round := s.Joint
		round.Single = false
		s.round, _ = round.Capacity()
	}
}

// holed finds holes in the wall: one within the ring makes it a bare rim, as if all within were
// gone, and one beside it, nearer than the clearance of the rule, leaves it undecided.
func (s *Shell) holed() {
	middle := r3.Vec{}
	if s.Ball.Ball != nil {
		middle = s.Ball.Ball.Center
	}
	for _, h := range s.Ball.Holes {
		if h.Disc {
			continue
		}
		if p := s.Ball.Post; p != nil {
			middle = r3.Add(p.Ends[design.Foot].At, r3.Scale(h.Along, p.Direction))
		}
		for side := range 2 {
			way := h.Way
			if side == 1 {
				if !h.Through {
					break
				}
				way = r3.Scale(-1, way)
			}
			apart, reach := s.beside(h, middle, way)
			switch ring := s.Joint.Diameter / 2; {
			case apart+reach <= ring:
				s.Joint.Rim, s.Joint.Tube, s.Joint.TubeStrength = true, 0, 0
			case s.Gap == "" && apart-reach-ring < s.Joint.Clearance():
				s.Gap = WallHoled
			}
		}
	}
}

// beside returns how far the middle of a hole is from that of the joint, along the wall in mm,
// and how far the hole reaches from its own.
func (s *Shell) beside(h *design.Hole, middle, way r3.Vec) (apart, reach float64) {
	reach = max(h.Width, h.Height) / 2
	if s.Ball.Post != nil {
		r := s.Joint.Radius
		reach = r * math.Asin(min(1, reach/r))
		turn := math.Acos(max(-1, min(1, r3.Dot(way, s.out))))
		return math.Hypot(r*turn, h.Along-s.along), reach
	}
	// A hole whose axis passes the middle of the ball comes out where that leaves it.
	rel := r3.Sub(h.At, middle)
	rel = r3.Sub(rel, r3.Scale(r3.Dot(rel, way), way))
	out := r3.Unit(r3.Add(rel, r3.Scale(math.Sqrt(max(0, s.Joint.Radius*s.Joint.Radius-r3.Norm2(rel))), way)))
	reach = s.Joint.Radius * math.Asin(min(1, reach/s.Joint.Radius))
	return s.Joint.Radius * math.Acos(max(-1, min(1, r3.Dot(out, s.out)))), reach
}

// form finds how the wall is curved at the joint, and whether seams of the ball lie in it or
// nearer than the clearance of the rule. At the pole of rolled gores, where all of the seams
// meet under the ring, the wall counts as that of the sphere that they touch: finite elements
// of three such joints carry 1.3 to 2.2 times as much as the rule.
func (s *Shell) form() {
	b := s.Ball.Ball
	j := &s.Joint
	room := s.half + j.Clearance()/j.Radius // rad, from the joint's middle
	if b.IsEgg() {
		room = s.half + j.Clearance()/nearest(b)
	}
	lean := math.Acos(max(-1, min(1, math.Abs(r3.Dot(s.out, b.Pole)))))
	switch b.Build {
	case design.Bought:
		s.Seamed = true // where its seams are is not known
		return
	case design.Halves:
		s.Seamed = math.Pi/2-lean < room
		return
	case design.Zones:
		if b.IsEgg() {
			s.eggRinged(room, lean)
		} else {
			s.ringed(room, lean)
		}
		return
	}
	edge := 0.0 // rad, of the cap on whose side it stands
	if b.Caps > 0 {
		edge = math.Asin(min(1, b.CapAt(design.PoleAt(r3.Dot(s.out, b.Pole)))/2/j.Radius))
	}
	flat := j.Radius*(1-math.Cos(edge)) <= j.Wall
	if b.IsEgg() && edge > 0 {
		pole := design.PoleAt(r3.Dot(s.out, b.Pole))
		edge = math.Atan2(b.Profile().At(s.Ball.CapLatitude(pole), j.Wall/2)) // the angle from the pole
		flat = s.Ball.CapIsFlat(pole)
	}
	if edge > 0 && lean+room <= edge {
		if flat {
			s.Gap = WallFlatCap
		}
		return
	}
	onEdge := edge > 0 && lean-room < edge
	s.Seamed = onEdge || !s.clears(room, lean)
	if lean+room < mostCap && !b.IsEgg() {
		s.Caps = 2 * j.Radius * math.Sin(lean+room)
	}
	if b.Build == design.DomedGores {
		return
	}
	switch {
	case lean <= s.half/2:
		s.soft = shell.OfPole
		return
	case s.Seamed:
		s.soft = shell.OfSeam
	default:
		s.soft = shell.OfMiddle
	}
	j.Single = true
}

// ringed is form of a ball of zones: each ring is part of a cone, whose wall is curved one way,
// the less the nearer it is to the pole.
func (s *Shell) ringed(room, lean float64) {
	n := s.Ball.Ball.Zones
	step := math.Pi / float64(max(1, n))
	from := max(0, lean-room)
	ring := math.Floor(from / step) // that lies the nearest to the pole, counted from there
	if ring == 0 {
		s.Gap = WallPole
		return
	}
	s.Seamed = ring != math.Floor((lean+room)/step)
	s.Joint.Single = true
	// A cone that touches the sphere at its middle has the radius R (1 + tan(step / 2) / tan(middle))
	// at its wide edge toward the equator's side, measured square to the wall.
	s.Joint.Radius *= 1 + math.Tan(step/2)/math.Tan(step*(ring+0.5))
}

// settle leaves undecided a wall that is curved one way only and carries less as a cylinder than
// is asked of it, but not as a sphere.
func (s *Shell) settle() {
	if s.Gap == "" && s.Joint.Single && s.Ball.Ball != nil && s.Ratio > 1 && s.Ratio*s.round.Use(s.Load).Interaction <= s.Use.Interaction {
		s.Gap = WallRidges
	}
}

// source returns where the limit is from.
func (s *Shell) source() string {
	text := wallSource
	switch {
	case s.Ball.Post != nil:
		text = sideSource
	case s.Joint.Single:
		text = singleSource
	}
	if b := s.Ball.Ball; b != nil && b.IsEgg() {
		text += eggSource
	}
	if s.Seamed {
		text += seamSource
	}
	return text
}

// clears reports whether the seams of gores are farther from the joint than room, in rad;
// lean is how far it is from the nearer pole.
func (s *Shell) clears(room, lean float64) bool {
	b := s.Ball.Ball
	if lean <= room || b.Gores == 0 {
		return false
	}
	across := r3.Cross(b.Pole, b.Prime)
	step := 2 * math.Pi / float64(b.Gores)
	at := math.Mod(math.Atan2(r3.Dot(s.out, across), r3.Dot(s.out, b.Prime))+4*math.Pi, step) // from the middle of a gore
	near := math.Abs(at - step/2)                                                             // from its seam
	return math.Asin(math.Sin(lean)*math.Sin(min(near, math.Pi/2))) >= room
}

// shell takes down what an end of a post does to a ball.
func (s *Strength) shell(c *cases, look *search, p, ball *design.Part, end int) {
	sh := shellAt(p, ball, end)
	sh.governed(c, look)
	s.Shells = append(s.Shells, sh)
}

// governed takes the worst case that a search found.
func (s *Shell) governed(c *cases, look *search) {
	s.Case, s.Load = c.load(max(0, look.wall.at)), look.load
	if s.Joint.Wall > 0 {
		s.Use = s.Capacity.Use(s.Load)
		s.Ratio = s.Use.Interaction
	}
}

// Ruled reports whether the rule has figures for the wall.
func (s *Shell) Ruled() bool { return s.Gap.fails() }

// Axial returns the limit in N of the force along the radius that the load has.
func (s *Shell) Axial() float64 {
	if s.Load.Force < 0 {
		return s.Capacity.Inward
	}
	return s.Capacity.Outward
}

// crowd adds up the uses of joints on one ball that stand nearer to each other than the
// clearance; where their rings cross the rule does not decide.
func (s *Strength) crowd() {
	for i := range s.Shells {
		a := &s.Shells[i]
		if a.Joint.Wall == 0 || a.Ball.Post != nil {
			continue
		}
		for k := range s.Shells {
			b := &s.Shells[k]
			if k == i || b.Ball != a.Ball || b.Joint.Wall == 0 {
				continue
			}
			apart := math.Acos(max(-1, min(1, r3.Dot(a.out, b.out)))) - a.half - b.half
			switch {
			case apart < 0 && a.Gap == "":
				a.Gap = WallCrossed
			case apart*nearest(a.Ball.Ball) < a.Joint.Clearance():
				a.Near = append(a.Near, b.With.Name)
				a.Ratio += b.Use.Interaction
			}
		}
	}
	for i := range s.Shells {
		s.Shells[i].settle()
	}
}

// given returns the items with the give of what they are welded to: the walls of balls,
// and the plate, whose springs under the posts it returns as well.
func given(items []frame.Item, in Input) (list []frame.Item, under []plate.Spring) {
	list = append([]frame.Item(nil), items...)
	if in.PlateGives {
		under = onPlate(list, in)
	}
	for i := range list {
		it := &list[i]
		switch p := it.Part; {
		case p.Post != nil:
			for k := range ends {
				end := &p.Post.Ends[k]
				if end.Meets != design.OnBall || end.With == nil || end.With.Ball == nil {
					continue
				}
				if j, ok := tubeOn(p, end.With, k); ok {
					if s, err := j.Springs(end.With.Metal.Modulus); err == nil {
						s = s.Times(shellAt(p, end.With, k).soft)
						it.Give[k] = frame.Spring{Rotational: s.Rotational, Axial: s.Axial}
					}
				}
			}
		case p.Ball != nil:
			it.Seat = seatOf(p)
		}
	}
	return list, under
}

// seatOf returns the seat of a ball on another ball or on a plate, whose walls are known;
// nil for none. On a plate it is the ring on which the gap has grown to the thickness of
// the ball's sheet.
func seatOf(ball *design.Part) *frame.Seat {
	b := ball.Ball
	host := b.On
	if host == nil || !walled(ball) {
		return nil
	}
	t := ball.Metal.Thickness
	switch {
	case host.Ball != nil && b.Seat > 0 && walled(host):
		axis := r3.Sub(b.Center, host.Ball.Center)
		if r3.Norm(axis) == 0 {
			return nil
		}
		axis = r3.Unit(axis)
		lower, upper := ringOn(host, b.Seat, nil), ringOn(ball, b.Seat, nil)
		give, err := lower.Ring(host.Metal.Modulus)
		if err != nil {
			return nil
		}
		rim, err := upper.Springs(ball.Metal.Modulus)
		if err != nil {
			return nil
		}
		give = give.Series(rim)
		rise := host.Ball.Chord(min(b.Seat, 2*host.Ball.Radius))
		wall := min(t, host.Metal.Thickness)
		return &frame.Seat{
			At: r3.Add(host.Ball.Center, r3.Scale(rise, axis)), Axis: axis, Ring: frame.Tube(b.Seat+wall, wall),
			Length: t + host.Metal.Thickness, Modulus: ball.Metal.Modulus, Spring: frame.Spring{Rotational: give.Rotational, Axial: give.Axial},
		}
	case host.Base != nil:
		d := restRing(ball)
		give, err := ringOn(ball, d, nil).Springs(ball.Metal.Modulus)
		if err != nil {
			return nil
		}
		return &frame.Seat{
			At: b.Bottom(), Axis: r3.Vec{Z: 1}, Ring: frame.Tube(d+t, t),
			Length: 2 * t, Modulus: ball.Metal.Modulus, Spring: frame.Spring{Rotational: give.Rotational, Axial: give.Axial},
		}
	}
	return nil
}

// restRing returns the diameter in mm of the ring on which a ball that rests on a plate
// is welded to it.
func restRing(ball *design.Part) float64 {
	r, t := ball.Ball.Radius, ball.Metal.Thickness
	if b := ball.Ball; b.IsEgg() {
		r = min(b.Profile().Bends(math.Asin(max(-1, min(1, -b.Pole.Z)))))
		t = min(t, r)
	}
	return 2 * math.Sqrt(2*r*t-t*t)
}

// A seated ball is checked at its seat.
type seated struct {
	ball *design.Part
	beam int
	look search
}

// seats returns the seats that are checked.
func (s *Strength) seats(f *frame.Frame, items []frame.Item) []seated {
	var list []seated
	for _, it := range items {
		beam, ok := f.Seat(it.Part)
		if !ok || f.Beams[beam].A == f.Beams[beam].B {
			continue
		}
		b := it.Part.Ball
		look := newSearch(unlimited, s.Amplification, math.Inf(1))
		look.looked, look.weld, look.diameter = true, true, f.Beams[beam].Diameter
		look.shell, look.sign, look.out = true, 1, [3]float64{1, 0, 0}
		look.capacity = leastOf(seatShells(it.Part, b.On))
		look.foot = b.On.Base != nil
		list = append(list, seated{it.Part, beam, look})
	}
	return list
}

// unlimited is of a cut that no section is checked at.
var unlimited = Allowable{Tension: math.Inf(1), Compression: math.Inf(1), Bending: math.Inf(1), Shear: math.Inf(1), Twist: math.Inf(1)}

// seatShells returns the walls at a seat: that of the ball, and that of the ball below.
func seatShells(ball, host *design.Part) []Shell {
	out := r3.Vec{Z: -1}
	d := ball.Ball.Seat
	if host.Ball != nil {
		out = r3.Unit(r3.Sub(host.Ball.Center, ball.Ball.Center))
	} else {
		d = restRing(ball)
	}
	list := []Shell{{Ball: ball, With: host, Where: check.Seat, out: out}}
	if host.Ball != nil {
		list = append(list, Shell{Ball: host, With: ball, Where: check.Seat, out: r3.Scale(-1, out)})
	}
	for i := range list {
		list[i].take(ringOn(list[i].Ball, d, nil), true)
	}
	return list
}

// leastOf returns what the weaker of some walls carries by each load.
func leastOf(list []Shell) shell.Capacity {
	c := list[0].Capacity
	for _, s := range list[1:] {
		c = least(c, s.Capacity)
	}
	return c
}

// least returns what the weaker of two walls carries by each load.
func least(c, o shell.Capacity) shell.Capacity {
	c.Outward, c.Inward, c.Moment = min(c.Outward, o.Outward), min(c.Inward, o.Inward), min(c.Moment, o.Moment)
	c.Shear, c.Torque = min(c.Shear, o.Shear), min(c.Torque, o.Torque)
	return c
}

// sit takes down what was found at a seat: the walls and the weld.
func (s *Strength) sit(c *cases, seat *seated) {
	on := seat.ball.Ball.On
	s.seated(seat)
	for _, sh := range seatShells(seat.ball, on) {
		sh.governed(c, &seat.look)
		s.Shells = append(s.Shells, sh)
	}
	s.ring(c, &seat.look, seat.ball, on, check.Seat)
}
