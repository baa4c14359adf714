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

// A loadCase is a sum of columns. Sums of one group differ from its weight alone
// only by the columns of that group.
type loadCase struct {
	name  string
	kind  kind
	terms []term
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
}

func newCases(f *frame.Frame, in Input) *cases {
	c := &cases{}
	var site design.Site
	if in.Design.Site != nil {
		site = *in.Design.Site
	}
	half := 0
	if in.Wind != nil {
		half = len(in.Wind.Bearings) / 2
	}
	pushes := pushes(in, &site)
	uplift := common + half
	first := uplift + 1
	l := f.NewLoads(first + 2*len(pushes))
	l.Gravity(weightZ, r3.Vec{Z: -1})
	l.Gravity(weightX, r3.Vec{X: 1})
	l.Gravity(weightY, r3.Vec{Y: 1})
	if half > 0 {
		w := in.Wind
		for k := range half {
			blow(l, common+k, w, &w.Bearings[k])
		}
		for load := range w.Loads(&w.Bearings[0], 1) {
			if load.Uplift.Z != 0 {
				l.Along(uplift, load.Part, load.Uplift)
			}
		}
	}
	for i, p := range pushes {
		l.At(first+2*i, p.part, p.at, r3.Vec{X: site.Push})
		l.At(first+2*i+1, p.part, p.at, r3.Vec{Y: site.Push})
	}
	c.solved = f.Solve(l)

	c.add("own weight", ownWeight, r3.Vec{}, 0)
	if site.Slope > 0 {
		for k := range bearings {
			from := 2 * math.Pi * float64(k) / bearings
			sin, cos := math.Sincos(from)
			c.add("own weight, sloping down toward "+quantity.Bearing(from), ownWeight, r3.Vec{X: cos, Y: sin}, site.Slope)
		}
	}
	for k := range 2 * half {
		b, sign := &in.Wind.Bearings[k], 1.0
		if k >= half {
			sign = -1
		}
		name := "wind from " + quantity.Bearing(b.From)
		if b.Scale > 1 {
			name += " (least design force)"
		}
		c.add(name, inWind, b.Direction, site.Slope, term{common + k%half, sign * b.Scale}, term{uplift, 1})
	}
	for i, p := range pushes {
		for k := range bearings {
			from := 2 * math.Pi * float64(k) / bearings
			sin, cos := math.Sincos(from)
			c.add("push on "+p.part.Name+" from "+quantity.Bearing(from), pushed, r3.Vec{X: -cos, Y: -sin}, site.Slope,
				term{first + 2*i, -cos}, term{first + 2*i + 1, -sin})
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

// add adds a case: the terms, and the weight on ground that slopes down along
// the level unit vector.
func (c *cases) add(name string, k kind, down r3.Vec, slope float64, terms ...term) {
	sin, cos := math.Sincos(slope)
	list := append(make([]term, 0, len(terms)+common), term{weightZ, cos})
	if slope > 0 {
		list = append(list, term{weightX, sin * down.X}, term{weightY, sin * down.Y})
	}
	c.list = append(c.list, loadCase{name, k, append(list, terms...)})
}

// A push is where the site's push can be laid.
type push struct {
	part *design.Part
	at   r3.Vec
}

// pushes returns each post and ball that stands at the height of the push; where
// none reaches it, the highest part at its top.
func pushes(in Input, site *design.Site) []push {
	if !(site.Push > 0) {
		return nil
	}
	var list []push
	var highest push
	for _, it := range in.Items {
		p, h := it.Part, site.PushHeight
		var lo, hi r3.Vec
		switch {
		case p.Post != nil:
			lo, hi = p.Post.Foot, p.Post.Head
			if lo.Z > hi.Z {
				lo, hi = hi, lo
			}
		case p.Ball != nil:
			r := r3.Vec{Z: p.Ball.Radius}
			lo, hi = r3.Sub(p.Ball.Center, r), r3.Add(p.Ball.Center, r)
		default:
			continue
		}
		if highest.part == nil || hi.Z > highest.at.Z {
			highest = push{p, hi}
		}
		if lo.Z <= h && h <= hi.Z && lo.Z < hi.Z {
			share := (h - lo.Z) / (hi.Z - lo.Z)
			list = append(list, push{p, r3.Add(lo, r3.Scale(share, r3.Sub(hi, lo)))})
		}
	}
	if list == nil && highest.part != nil && site.PushHeight > highest.at.Z {
		list = []push{highest}
	}
	return list
}

// sum returns the sum of a case, given what each column comes to.
func (c *loadCase) sum(columns []frame.Cut) (cut frame.Cut) {
	for _, t := range c.terms {
		cut = cut.Add(t.share, columns[t.column])
	}
	return cut
}

// columns fills in the cuts of all columns at both ends of a beam.
func (c *cases) columns(beam int, from, to []frame.Cut) {
	for k := range from {
		from[k], to[k] = c.solved.Cuts(beam, k)
	}
}

func (c *cases) width() int { return c.solved.Loads.Cases }

// pushes returns the greatest push in each beam over all cases, as a negative
// force; 0 where it is always pulled.
func (c *cases) pushes() []float64 {
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
			for _, t := range c.list[n].terms {
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
