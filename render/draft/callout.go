package draft

import (
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// Sizes of a callout, in mm.
const (
	balloon     = 3.4 // radius
	linePitch   = 4.0 // from one line of a note to the next
	noteGap     = 1.0 // more under a note, to tell it from the next
	grid        = 2.5 // balloons stand on a grid, so that neighbours line up
	leaderStart = 0.4 // off the outline, so that a leader is not counted as crossing what it points at
)

// A Target is a place that a leader may point at: a point of an outline with
// the direction that leads away from the part.
type Target struct {
	At  r2.Vec
	Out r2.Vec // unit vector

	Cost float64 // mm of leader that another target is preferred by
}

// A Callout is a balloon with its number, and beside it a note of some lines,
// the first in bold; joined by a leader to one of its targets.
type Callout struct {
	Number  int
	Note    []string
	Targets []Target

	width float64 // of the note
}

// placed is where a callout stands.
type placed struct {
	target Target
	center r2.Vec // of the balloon
	note   bool
	left   bool // the note is to the left of the balloon
	cost   float64
}

// What is bad about a place for a callout. The costs are of one scale, where 1
// is a millimetre of leader; they set the order in which a draughtsman gives
// way. Writing on a line, or a leader through writing, is no place at all.
const (
	costLeaderCross = 800 // two leaders cross: more than tooBad and costNoNote, so that rather none is drawn
	costLeaderPart  = 22  // a leader over the line of another part
	costLeaderThin  = 10  // a leader over a dimension or axis
	costInside      = 15  // a note within the picture of a part
	costLevel       = 6   // a leader level or upright, like a dimension
	costSlant       = 8   // a leader that leaves its outline at a grazing angle
	costNoNote      = 300 // the note left out
	gainAligned     = 4   // a balloon in line with another
	gainRow         = 10  // the same of balloons without notes: there are many, to be found in rows
	tooBad          = 400 // rather no callout at all
)

// Callouts places the callouts one by one, those with the fewest targets
// first, then takes each up again and puts it where it stands best among the
// others. A note that finds no free place is left out; its balloon stays. It
// returns the numbers of the callouts without a note and those that stand
// nowhere at all.
//
// Covered reports whether a point is within the picture of a part; it may be nil.
func (d *Drawing) Callouts(list []Callout, covered func(r2.Vec) bool) (bare, lost []int) {
	spots := make([]*placed, len(list))
	d.settle(list, spots, covered)
	for i, spot := range spots {
		if spot == nil {
			lost = append(lost, list[i].Number)
			continue
		}
		if !spot.note && len(list[i].Note) > 0 {
			bare = append(bare, list[i].Number)
		}
		d.drawCallout(&list[i], spot)
	}
	return bare, lost
}

// settle finds the places of callouts.
func (d *Drawing) settle(list []Callout, spots []*placed, covered func(r2.Vec) bool) {
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return len(list[a].Targets) - len(list[b].Targets) })
	for i := range list {
		list[i].measure(d.Style)
	}
	for round := range 3 {
		moved := false
		for _, i := range order {
			owner := calloutOwner + i
			old := spots[i]
			if old != nil {
				d.Space.lift(owner)
			}
			spot := d.bestSpot(&list[i], spots, i, covered)
			if spot != nil {
				d.takeCallout(&list[i], spot, owner)
			}
			moved = moved || round > 0 && spot != nil && old != nil && *spot != *old
			spots[i] = spot
		}
		if round > 0 && !moved {
			break
		}
	}
	d.uncross(list, spots, covered)
}

// calloutOwner is the first owner of what callouts take of a space.
const calloutOwner = 1 << 20

// measure sets the width of the note.
func (c *Callout) measure(s Style) {
	c.width = 0
	for k, line := range c.Note {
		face := ink.Regular
		if k == 0 {
			face = ink.Bold
		}
		c.width = max(c.width, ink.Width(line, s.Text, face))
	}
}

// boxes returns the box of the balloon and that of the note beside it.
func (c *Callout) boxes(s Style, at r2.Vec, left bool) (ball, note r2.Box) {
	ball = grow(r2.Box{Min: at, Max: at}, balloon+margin)
	w := c.width
	h := s.Text + linePitch*float64(len(c.Note)-1)
	x := at.X + balloon + between
	if left {
		x = at.X - balloon - between - w
	}
	// Letters reach below the baseline by about a third of a capital.
	lo := r2.Vec{X: x, Y: at.Y - h/2 - s.Text/3}
	note = grow(r2.Box{Min: lo, Max: r2.Vec{X: x + w, Y: at.Y + h/2}}, margin)
	note.Min.Y -= noteGap
	return ball, note
}

// bestSpot returns the cheapest place for a callout among the others, or nil.
func (d *Drawing) bestSpot(c *Callout, others []*placed, self int, covered func(r2.Vec) bool) *placed {
	var best *placed
	tried := map[[2]int]bool{}
	for _, t := range c.Targets {
		clear(tried)
		out := math.Atan2(t.Out.Y, t.Out.X)
		for _, reach := range [...]float64{9, 12, 16, 21, 27, 35, 45, 58, 75} {
			if best != nil && reach+t.Cost-balloon-gainRow > best.cost {
				break
			}
			for k := -4; k <= 4; k++ {
				p := polar(t.At, out+float64(k)*math.Pi/10, reach)
				cell := [2]int{int(math.Round(p.X / grid)), int(math.Round(p.Y / grid))}
				if tried[cell] {
					continue
				}
				tried[cell] = true
				at := r2.Vec{X: float64(cell[0]) * grid, Y: float64(cell[1]) * grid}
				for _, note := range [2]bool{true, false} {
					if note == (len(c.Note) == 0) && (note || best != nil && best.note) {
						continue
					}
					spot := placed{target: t, center: at, note: note && len(c.Note) > 0, left: at.X < t.At.X}
					if d.price(c, &spot, others, self, covered, best) {
						best = &spot
					}
				}
			}
		}
	}
	if best != nil && best.cost > tooBad+costNoNote {
		return nil
	}
	return best
}

// price sets the cost of a place and reports whether it is better than the
// best so far.
func (d *Drawing) price(c *Callout, spot *placed, others []*placed, self int, covered func(r2.Vec) bool, best *placed) bool {
	limit := math.Inf(1)
	if best != nil {
		limit = best.cost
	}
	v := r2.Sub(spot.center, spot.target.At)
	reach := r2.Norm(v)
	if reach < balloon+3 {
		return false
	}
	u := r2.Scale(1/reach, v)
	facing := r2.Dot(u, spot.target.Out)
	if facing < 0.15 {
		return false
	}
	cost := reach - balloon + costSlant*(1-facing) + spot.target.Cost
	if slope := min(math.Abs(u.X), math.Abs(u.Y)); slope < 0.2 {
		cost += costLevel
	}
	if len(c.Note) > 0 && !spot.note {
		cost += costNoNote
	}
	aligned := false
	for i, o := range others {
		if i != self && o != nil && (o.center.X == spot.center.X || o.center.Y == spot.center.Y) && r2.Norm(r2.Sub(o.center, spot.center)) < 60 {
			aligned = true
			break
		}
	}
	switch {
	case aligned && len(c.Note) == 0:
		cost -= gainRow
	case aligned:
		cost -= gainAligned
	}
	if cost >= limit {
		return false
	}
	ball, note := c.boxes(d.Style, spot.center, spot.left)
	list := [2]r2.Box{ball, note}
	count := 1
	if spot.note {
		count = 2
	}
	for _, b := range list[:count] {
		if !d.Space.clear(b) || d.Space.crossed(b) {
			return false // never on a line
		}
		if covered != nil && covered(r2.Scale(0.5, r2.Add(b.Min, b.Max))) {
			cost += costInside
		}
	}
	from, to := polar(spot.target.At, math.Atan2(u.Y, u.X), leaderStart), r2.Sub(spot.center, r2.Scale(balloon, u))
	n, written := d.Space.cross(from, to)
	if written {
		return false // never through writing
	}
	cost += costLeaderPart*float64(n[objectLine]) + costLeaderThin*float64(n[thinLine]) + costLeaderCross*float64(n[leaderLine])
	spot.cost = cost
	return cost < limit
}

// takeCallout takes the paper that a callout stands on.
func (d *Drawing) takeCallout(c *Callout, spot *placed, owner int) {
	ball, note := c.boxes(d.Style, spot.center, spot.left)
	// A leader may pass the corner of a balloon's box, and as near to a note as its
	// letters.
	d.Space.addArea(ball, grow(ball, balloon/math.Sqrt2-balloon-margin), owner)
	if spot.note {
		d.Space.addArea(note, grow(note, -margin/2), owner)
	}
	u := r2.Unit(r2.Sub(spot.center, spot.target.At))
	d.Space.addPath([]r2.Vec{spot.target.At, r2.Sub(spot.center, r2.Scale(balloon, u))}, false, leaderLine, owner)
}

func (d *Drawing) drawCallout(c *Callout, spot *placed) {
	u := r2.Unit(r2.Sub(spot.center, spot.target.At))
	d.Items = append(d.Items, &ink.Stroke{Line: ink.Thin, Path: []r2.Vec{spot.target.At, r2.Sub(spot.center, r2.Scale(balloon, u))}})
	d.head(spot.target.At, math.Atan2(-u.Y, -u.X))
	d.Items = append(d.Items, Balloon(c.Number, spot.center)...)
	if !spot.note {
		return
	}
	anchor, x := ink.Start, spot.center.X+balloon+between
	if spot.left {
		anchor, x = ink.End, spot.center.X-balloon-between
	}
	h := d.Style.Text + linePitch*float64(len(c.Note)-1)
	for k, line := range c.Note {
		face := ink.Regular
		if k == 0 {
			face = ink.Bold
		}
		y := spot.center.Y + h/2 - d.Style.Text - linePitch*float64(k)
		d.Items = append(d.Items, &ink.Text{At: r2.Vec{X: x, Y: y}, Height: d.Style.Text, Anchor: anchor, Face: face, Text: line})
	}
}

// Balloon returns an item's number in its circle.
func Balloon(number int, center r2.Vec) []ink.Item {
	const height = 2.5
	return []ink.Item{
		ink.Circle(ink.Thin, center, balloon),
		&ink.Text{At: r2.Vec{X: center.X, Y: center.Y - height/2}, Height: height, Anchor: ink.Middle, Text: strconv.Itoa(number)},
	}
}
