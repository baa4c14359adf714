package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/fab/wind"
	"stabile/param/design"
	"stabile/param/quantity"
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
	push    int  // which push; -1 for none
	part    *design.Part
	terms   [common + 2]term
	count   int // of terms
}

// name tells the case in words.
func (c *loadCase) name() string {
	bearing := quantity.Bearing(c.from)
	switch {
	case c.kind == pushed:
		return "push on " + c.part.Name + " from " + bearing
	case c.kind == inWind && c.least:
		return "wind from " + bearing + " (least design force)"
	case c.kind == inWind:
		return "wind from " + bearing
	case c.sloping:
		return "own weight, sloping down toward " + bearing
	}
	return "own weight"
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

// cases are the load cases and the frame's answer to their columns.
type cases struct {
	solved *frame.Solution
	list   []loadCase
	push   int // the first column of pushes
}

func newCases(f *frame.Frame, in Input, pushes []push) *cases {
	c := &cases{}
	var site design.Site
	if in.Design.Site != nil {
		site = *in.Design.Site
	}
	half := 0
	if in.Wind != nil {
		half = len(in.Wind.Bearings) / 2
	}
	uplift := common + half
	first := uplift + 1
	l := f.NewLoads(first + 2*len(pushes))
	l.Gravity(weightZ, r3.Vec{Z: -1})
	l.Gravity(weightX, r3.Vec{X: 1})
	l.Gravity(weightY, r3.Vec{Y: 1})
	lifts := false
	if half > 0 {
		w := in.Wind
		for k := range half {
			blow(l, common+k, w, &w.Bearings[k])
		}
		for load := range w.Loads(&w.Bearings[0], 1) {
			if load.Uplift.Z != 0 {
				lifts = true
				l.Along(uplift, load.Part, load.Uplift)
			}
		}
	}
	for i, p := range pushes {
		l.At(first+2*i, p.part, p.at, r3.Vec{X: site.Push})
		l.At(first+2*i+1, p.part, p.at, r3.Vec{Y: site.Push})
	}
	c.solved = f.Solve(l)

	c.list = make([]loadCase, 0, 1+bearings*(1+len(pushes))+2*half)
	c.add(loadCase{kind: ownWeight}, r3.Vec{}, 0)
	if site.Slope > 0 {
		for k := range bearings {
			from := 2 * math.Pi * float64(k) / bearings
			sin, cos := math.Sincos(from)
			c.add(loadCase{kind: ownWeight, from: from, sloping: true}, r3.Vec{X: cos, Y: sin}, site.Slope)
		}
	}
	for k := range 2 * half {
		b, sign := &in.Wind.Bearings[k], 1.0
		if k >= half {
			sign = -1
		}
		n := c.add(loadCase{kind: inWind, from: b.From, least: b.Scale > 1}, b.Direction, site.Slope)
		n.with(common+k%half, sign*b.Scale)
		if lifts {
			n.with(uplift, 1)
		}
	}
	c.push = first
	for i, p := range pushes {
		for k := range bearings {
			from := 2 * math.Pi * float64(k) / bearings
			sin, cos := math.Sincos(from)
			n := c.add(loadCase{kind: pushed, from: from, part: p.part}, r3.Vec{X: -cos, Y: -sin}, site.Slope)
			n.push = i
			n.with(first+2*i, -cos)
			n.with(first+2*i+1, -sin)
		}
	}
	return c
}

// blow adds the wind of a bearing to a column, without its lift.
func blow(l *frame.Loads, column int, w *wind.Wind, b *wind.Bearing) {
	for load := range w.Loads(b, 1) {
		l.Along(column, load.Part, load.Side)
		if load.Cap != (r3.Vec{}) {
			l.At(column, load.Part, load.Part.Post.Head, load.Cap)
		}
	}
}

// add adds a case, with the weight on ground that slopes down along the level
// unit vector.
func (c *cases) add(n loadCase, down r3.Vec, slope float64) *loadCase {
	n.push = -1
	sin, cos := math.Sincos(slope)
	n.with(weightZ, cos)
	if slope > 0 {
		n.with(weightX, sin*down.X)
		n.with(weightY, sin*down.Y)
	}
	c.list = append(c.list, n)
	return &c.list[len(c.list)-1]
}

// sum returns the sum of a case, given what each column comes to.
func (c *loadCase) sum(columns []frame.Cut) (cut frame.Cut) {
	f, m := &cut.Force, &cut.Moment
	for _, t := range c.terms[:c.count] {
		k, d := t.share, &columns[t.column]
		f.X += k * d.Force.X
		f.Y += k * d.Force.Y
		f.Z += k * d.Force.Z
		m.X += k * d.Moment.X
		m.Y += k * d.Moment.Y
		m.Z += k * d.Moment.Z
	}
	return cut
}

// columns fills in the cuts of all columns at both ends of a beam.
func (c *cases) columns(beam int, from, to []frame.Cut) {
	for k := range from {
		from[k], to[k] = c.solved.Cuts(beam, k)
	}
}

// A cut is what is borne across a post in a case.
type cut struct {
	frame.Cut
	in *loadCase
}

// cuts appends the cuts of all cases at one end of a beam, given those of the
// columns. Pushes on what the beam does not bear are left out: there it bears its
// weight alone, which is a case of its own.
func (c *cases) cuts(list []cut, columns []frame.Cut) []cut {
	felt := make([]bool, (c.width()-c.push)/2)
	for i := range felt {
		for _, k := range columns[c.push+2*i : c.push+2*i+2] {
			// A push is some N; the rest is rounding.
			felt[i] = felt[i] || r3.Norm2(k.Force) > 1e-12
		}
	}
	for n := range c.list {
		if p := c.list[n].push; p < 0 || felt[p] {
			list = append(list, cut{c.list[n].sum(columns), &c.list[n]})
		}
	}
	return list
}

func (c *cases) width() int { return c.solved.Loads.Cases }

// greatestPushes returns the greatest push in each beam over all cases, as a negative
// force; 0 where it is always pulled.
func (c *cases) greatestPushes() []float64 {
	f := c.solved.Loads.Frame()
	list := make([]float64, len(f.Beams))
	ends := [2][]float64{make([]float64, c.width()), make([]float64, c.width())}
	for i := range f.Beams {
		b := &f.Beams[i]
		if b.A == b.B {
			continue
		}
		for k := range c.width() {
			from, to := c.solved.Cuts(i, k)
			ends[0][k], ends[1][k] = from.Axial(b.Axis), to.Axial(b.Axis)
		}
		for n := range c.list {
			var from, to float64
			for _, t := range c.list[n].terms[:c.list[n].count] {
				from += t.share * ends[0][t.column]
				to += t.share * ends[1][t.column]
			}
			list[i] = min(list[i], from, to)
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
