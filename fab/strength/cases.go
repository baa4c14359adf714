package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/frame"
	"stabile/fab/wind"
	"stabile/param/design"
)

// The frame is solved once, for loads that do not mix: its weight as it is with
// down along z, x and y; the wind from each bearing of half a turn, from the
// other half it being the same turned round; the uplift of the wind; a push along
// x and along y on each part that can be pushed. Every case is a sum of these.

// bearings is from how many bearings a push and a slope are tried.
const bearings = 72

// The columns of the loads that every sculpture has.
const (
	weightZ = iota // down along -z
	weightX        // along +x
	weightY        // along +y
	common         // how many there are
)

// A term is a share of a column.
type term struct {
	column int
	share  float64
}

// A loadCase is a sum of columns.
type loadCase struct {
	kind    kind
	from    float64 // rad, the bearing of wind and push; where the ground slopes down toward, of the weight alone
	sloping bool
	least   bool // the wind is brought up to the least design force
	push    int  // which push, of a case of one
	terms   [common + 3]term
	count   int // of terms
}

// with adds a term.
func (c *loadCase) with(column int, share float64) {
	c.terms[c.count] = term{column, share}
	c.count++
}

type kind int

const (
	ownWeight kind = iota
	inWind
	pushed
)

// A group is the cases of one kind, from all bearings.
type group struct {
	kind         kind
	first, count int // in the list of cases
	push         int // which push; -1 for none
}

// cases are the load cases and the frame's answer to their columns.
type cases struct {
	frame  *frame.Frame
	solved *solution // of the columns that are kept: all, unless there are very many pushes
	list   []loadCase
	groups []group
	ground []frame.Wrench // the reaction of the ground in each column, once it is needed

	slope float64   // rad
	hung  bool      // the piece is on a wall: what shakes it takes nothing off its weight
	speed float64   // m/s, of the wind
	blows []float64 // how much of each column of wind counts at most
	lifts bool      // the wind lifts something
	push  int       // the first column of pushes
	each  int       // how many columns a push has: along x, along y and, of people, down

	pushes  []push
	force   float64 // N, of a push
	windows []window
}

// uplift is the column of the wind's lift.
func (c *cases) uplift() int { return common + len(c.blows) }

// load returns a case as data.
func (c *cases) load(n int) check.Case {
	l := &c.list[n]
	out := check.Case{Bearing: l.from, Sloping: c.slope > 0}
	switch {
	case l.kind == pushed:
		p := &c.pushes[l.push]
		out.Kind, out.Part, out.Where, out.Along = check.Push, p.part.Name, p.where, p.along
		if p.loads != nil {
			out.Kind, out.Around = check.PeopleLoad, !c.levels(l)
		}
	case l.kind == inWind:
		out.Kind, out.Speed, out.Least = check.WindLoad, c.speed, l.least
	case l.sloping:
		out.Kind, out.Sloping = check.Slope, false
	default:
		out.Kind, out.Sloping = check.OwnWeight, false
	}
	return out
}

func newCases(f *frame.Frame, in Input, pushes []push) *cases {
	site := siteOf(in.Design)
	c := &cases{frame: f, pushes: pushes, slope: site.Slope, hung: in.Design.Wall() != nil, force: site.Push, each: 2}
	if in.people != nil {
		c.each, c.force = 3, 1
	}
	if in.Wind != nil {
		c.blows = make([]float64, len(in.Wind.Bearings)/2)
		c.speed = in.Wind.Speed
	}
	c.push = c.uplift() + 1
	room := mostKept
	if in.room > 0 {
		room = in.room
	}
	kept := c.kept(room)
	l := f.NewLoads(c.push + c.each*kept)
	l.Gravity(weightZ, r3.Vec{Z: -1})
	l.Gravity(weightX, r3.Vec{X: 1})
	l.Gravity(weightY, r3.Vec{Y: 1})
	if len(c.blows) > 0 {
		c.blow(l, in.Wind)
	}
	c.lay(l, c.push, pushes[:kept])
	c.solved = &solution{Solution: f.Solve(l), c: c, ends: map[cut][]piece{}}
	c.enlist(in, pushes)
	c.split(kept, room)
	return c
}

// lay lays pushes on, along x and along y each, from a column on.
func (c *cases) lay(l *frame.Loads, column int, pushes []push) {
	for i, p := range pushes {
		for k, force := range c.axes() {
			l.At(column+c.each*i+k, p.part, p.at, force)
		}
	}
}

// axes returns the forces of the columns of a push.
func (c *cases) axes() []r3.Vec {
	all := [...]r3.Vec{{X: c.force}, {Y: c.force}, {Z: -c.force}}
	return all[:c.each]
}

// siteOf returns a design's site; the zero site for none.
func siteOf(d *design.Design) design.Site {
	if d.Site == nil {
		return design.Site{}
	}
	return *d.Site
}

// enlist lists the cases, group by group.
func (c *cases) enlist(in Input, pushes []push) {
	half := len(c.blows)
	c.list = make([]loadCase, 0, 1+bearings*(1+len(pushes))+2*half)
	c.groups = make([]group, 0, 3+len(pushes))
	c.add(loadCase{kind: ownWeight}, r3.Vec{}, 0)
	c.group(ownWeight, -1)
	if c.slope > 0 {
		for k := range bearings {
			from := 2 * math.Pi * float64(k) / bearings
			sin, cos := math.Sincos(from)
			c.add(loadCase{kind: ownWeight, from: from, sloping: true}, r3.Vec{X: cos, Y: sin}, c.slope)
		}
		c.group(ownWeight, -1)
	}
	for k := range 2 * half {
		b, sign := &in.Wind.Bearings[k], 1.0
		if k >= half {
			sign = -1
		}
		c.blows[k%half] = max(c.blows[k%half], b.Scale)
		n := c.add(loadCase{kind: inWind, from: b.From, least: b.Scale > 1}, b.Direction, c.slope)
		n.with(common+k%half, sign*b.Scale)
		if c.lifts {
			n.with(c.uplift(), 1)
		}
	}
	c.group(inWind, -1)
	for i := range pushes {
		if pushes[i].loads != nil {
			shares, from := leanings(pushes[i].loads, c.slope > 0)
			for k, share := range shares {
				sin, cos := math.Sincos(from[k])
				n := c.add(loadCase{kind: pushed, from: from[k], push: i}, r3.Vec{X: -cos, Y: -sin}, c.slope)
				for axis, x := range share {
					n.with(c.push+c.each*i+axis, x)
				}
			}
			c.group(pushed, i)
			continue
		}
		for k := range bearings {
			from := 2 * math.Pi * float64(k) / bearings
			sin, cos := math.Sincos(from)
			n := c.add(loadCase{kind: pushed, from: from, push: i}, r3.Vec{X: -cos, Y: -sin}, c.slope)
			n.with(c.push+c.each*i, -cos)
			n.with(c.push+c.each*i+1, -sin)
		}
		c.group(pushed, i)
	}
}

// group closes a group with the cases that were added since the last.
func (c *cases) group(k kind, push int) {
	first := 0
	if n := len(c.groups); n > 0 {
		first = c.groups[n-1].first + c.groups[n-1].count
	}
	if count := len(c.list) - first; count > 0 {
		c.groups = append(c.groups, group{kind: k, first: first, count: count, push: push})
	}
}

// blow adds the wind of half a turn of bearings to their columns, and its lift to
// its own.
func (c *cases) blow(l *frame.Loads, w *wind.Wind) {
	half := w.Bearings[:len(c.blows)]
	side := make([]r3.Vec, len(half))
	for i := range w.Items {
		p := w.Items[i].Part
		for k := range half {
			side[k] = r3.Scale(half[k].Side[i], half[k].Direction)
			if head := half[k].Cap[i]; head != 0 {
				l.At(common+k, p, p.Post.Ends[design.Head].At, r3.Scale(head, half[k].Direction))
			}
		}
		l.AlongEach(common, p, side)
	}
	for load := range w.Loads(&w.Bearings[0], 1) {
		if load.Uplift.Z != 0 {
			c.lifts = true
			l.Along(c.uplift(), load.Part, load.Uplift)
		}
	}
}

// tilted returns the shares of the weight along a slope and square to it.
func (c *cases) tilted(slope float64) (sin, cos float64) {
	sin, cos = math.Sincos(slope)
	if c.hung {
		cos = 1
	}
	return sin, cos
}

// add adds a case, with the weight on ground that slopes down along the level
// unit vector.
func (c *cases) add(n loadCase, down r3.Vec, slope float64) *loadCase {
	sin, cos := c.tilted(slope)
	n.with(weightZ, cos)
	if slope > 0 {
		n.with(weightX, sin*down.X)
		n.with(weightY, sin*down.Y)
	}
	c.list = append(c.list, n)
	return &c.list[len(c.list)-1]
}

// sum returns the sum of a case, given what each column comes to.
func (c *loadCase) sum(columns []frame.SectionForces) (all frame.SectionForces) {
	for _, t := range c.terms[:c.count] {
		all.Add(t.share, &columns[t.column])
	}
	return all
}

// width is how many columns there are.
func (c *cases) width() int { return c.push + c.each*len(c.pushes) }

// greatestCompressions returns the greatest push in each beam over all cases, as a negative
// force; 0 where it is always pulled.
func (c *cases) greatestCompressions() []float64 {
	f := c.frame
	list := make([]float64, len(f.Beams))
	from, to := make([]float64, c.width()), make([]float64, c.width())
	for w := range c.windows {
		o := c.open(w)
		o.watch()
		for i := range f.Beams {
			if b := &f.Beams[i]; b.A == b.B || !o.reaches(i) {
				continue
			}
			o.pulls(i, from, to)
			list[i] = c.leastAxialIn(o.groups, to, c.leastAxialIn(o.groups, from, list[i]))
		}
	}
	// A push that is only what rounding leaves of none would pass for a post
	// about to buckle.
	const rounding = 1e-9
	greatest := 0.0
	for _, p := range list {
		greatest = max(greatest, -p)
	}
	for i, p := range list {
		if -p < rounding*greatest {
			list[i] = 0
		}
	}
	return list
}

// leastAxial returns the least pull over all cases, given that of each column, or
// what is known already where that is less.
func (c *cases) leastAxial(columns []float64, known float64) float64 {
	return c.leastAxialIn(c.groups, columns, known)
}

// leastAxialIn is leastAxial in the cases of some groups. Those that could go below
// what is known by rounding alone are passed over.
func (c *cases) leastAxialIn(groups []group, columns []float64, known float64) float64 {
	const rounding = 1e-12
	for i := len(groups) - 1; i >= 0; i-- {
		g := &groups[i]
		if bound := c.axialBound(g, columns); bound >= known-rounding*math.Abs(known) {
			continue
		}
		for n := g.first; n < g.first+g.count; n++ {
			known = min(known, c.list[n].scalar(columns))
		}
	}
	return known
}
