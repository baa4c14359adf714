package strength

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/param/design"
)

// Each push can be worst anywhere, so there are as many columns of them as there are
// posts, and a sculpture of thousands would need room for posts times posts. Where
// that is much, the columns of weight and wind alone are kept, and pushes are solved
// some at a time, as often as they are needed.

// mostKept is how many columns of pushes times beams are kept: about 100 bytes each.
const mostKept = 1 << 20

// A window is some groups of cases that are gone through together.
type window struct {
	groups []group
	pushes [2]int // those that are solved for it, from and up to; none where its columns are kept
}

// kept returns how many of the pushes are kept, given the room: all or none.
func (c *cases) kept(room int) int {
	if c.each*len(c.pushes)*len(c.frame.Beams) <= room {
		return len(c.pushes)
	}
	return 0
}

// split makes the windows: one for all that is kept, and some for the rest.
func (c *cases) split(kept, room int) {
	if kept == len(c.pushes) {
		c.windows = []window{{groups: c.groups}}
		return
	}
	first := len(c.groups) - len(c.pushes) // each push has a group, the last ones
	c.windows = []window{{groups: c.groups[:first]}}
	step := max(1, room/(c.each*len(c.frame.Beams)))
	for from := 0; from < len(c.pushes); from += step {
		to := min(from+step, len(c.pushes))
		c.windows = append(c.windows, window{c.groups[first+from : first+to], [2]int{from, to}})
	}
}

// An opened window has what its columns come to.
type opened struct {
	*window
	c      *cases
	pushed *frame.Solution // nil where they are kept
}

// open works a window out.
func (c *cases) open(w int) opened {
	o := opened{window: &c.windows[w], c: c}
	if from, to := o.pushes[0], o.pushes[1]; to > from {
		l := c.frame.NewPointLoads(c.each * (to - from))
		c.lay(l, 0, c.pushes[from:to])
		o.pushed = c.frame.Solve(l)
	}
	return o
}

// columns returns from where to where the window's own columns are.
func (o *opened) columns() (from, to int) {
	return o.c.push + o.c.each*o.pushes[0], o.c.push + o.c.each*o.pushes[1]
}

// reaches reports whether a beam can carry anything in the window that it does not in
// the first: a window of pushes that are not felt in it has nothing to look at.
func (o *opened) reaches(beam int) bool { return o.pushed == nil || o.pushed.Reaches(beam) }

// sectionForces fills in what is carried at an end of a beam in the columns that the window's
// cases are sums of. The list has room for all columns and is used again.
func (o *opened) sectionForces(beam, end int, list []frame.SectionForces) []frame.SectionForces {
	kept := o.c.solved.Solution.SectionForces(beam, end, list)
	if o.pushed == nil {
		return kept
	}
	from, to := o.columns()
	list = list[:o.c.width()]
	o.pushed.SectionForces(beam, end, list[from:from:to])
	return list
}

// pulls fills in the pulls at both ends of a beam in the same columns.
func (o *opened) pulls(beam int, from, to []float64) {
	o.c.solved.Axials(beam, from, to)
	if o.pushed != nil {
		first, last := o.columns()
		o.pushed.Axials(beam, from[first:last], to[first:last])
	}
}

// A solution is how the frame answers to the columns that are kept, and, where they
// are asked for one by one, to all.
type solution struct {
	*frame.Solution
	c    *cases
	ends map[cut][]piece // at the ends of posts on the plate, of columns that are not kept
	tops []r3.Vec        // how the highest part moves, in the same
}

// A cut is just inside an end of a beam, that towards the foot (0) or the head (1).
type cut struct{ beam, end int }

// A piece is what is carried at a cut in some of the columns.
type piece struct {
	first         int
	sectionForces []frame.SectionForces
}

// keep keeps what is carried at an end of a post on the plate, which the plate is
// checked for when all windows are closed.
func (o *opened) keep(post *frame.Post, beam, end int, columns []frame.SectionForces) {
	st := beam + end
	if o.pushed == nil || st > 0 && st < post.Beams() || post.Part.Post.Ends[min(st, 1)].Meets != design.OnPlate {
		return
	}
	o.store(cut{post.First + beam, end}, columns)
}

// store is keep at a cut that is known to be on the plate.
func (o *opened) store(at cut, columns []frame.SectionForces) {
	if o.pushed == nil {
		return
	}
	from, to := o.columns()
	for from < to && !felt(&columns[from]) {
		from++
	}
	for from < to && !felt(&columns[to-1]) {
		to--
	}
	if from < to {
		o.c.solved.ends[at] = append(o.c.solved.ends[at], piece{from, slices.Clone(columns[from:to])})
	}
}

// watch keeps how the highest part moves.
func (o *opened) watch() {
	if o.pushed == nil {
		return
	}
	part, at := highest(o.c.frame)
	for k := range o.pushed.Loads.Cases {
		o.c.solved.tops = append(o.c.solved.tops, o.pushed.Moved(part, at, k))
	}
}

// top returns how the highest part moves in a column, given its highest point.
func (s *solution) top(part *design.Part, at r3.Vec, column int) r3.Vec {
	if k := column - s.Loads.Cases; k >= 0 {
		return s.tops[k]
	}
	return s.Moved(part, at, column)
}

// SectionForces returns what is carried at an end of a beam in all columns, of which those that
// are not kept are known at the ends of posts on the plate alone.
func (s *solution) SectionForces(beam, end int, list []frame.SectionForces) []frame.SectionForces {
	list = s.Solution.SectionForces(beam, end, slices.Grow(list[:0], s.c.width()))
	if kept := len(list); kept < s.c.width() {
		list = list[:s.c.width()]
		clear(list[kept:])
		for _, p := range s.ends[cut{beam, end}] {
			copy(list[p.first:], p.sectionForces)
		}
	}
	return list
}

// Reaction returns what the ground bears on the whole in a column, about the origin:
// against a push that is not kept, the push turned round.
func (s *solution) Reaction(column int) frame.Wrench {
	if column < s.Loads.Cases {
		return s.Solution.Reaction(column)
	}
	k := column - s.c.push
	force := r3.Scale(-1, s.c.axes()[k%s.c.each])
	return frame.Wrench{Force: force, Moment: r3.Cross(s.c.pushes[k/s.c.each].at, force)}
}
