package inspect

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Crossings are counts of leaders of balloons and of dimension lines that cross
// other lines. Leaders may not cross each other, which is a fault; the rest is
// stated, to be brought down, not forbidden: in a thicket there may be no way
// round.
type Crossings struct {
	Leaders, WithOutlines, WithNarrow int
	Dimensions, OfDimensions          int // dimension lines, and where extension lines or other dimension lines cross them
}

func (c *Crossings) add(o Crossings) {
	c.Leaders += o.Leaders
	c.WithOutlines += o.WithOutlines
	c.WithNarrow += o.WithNarrow
	c.Dimensions += o.Dimensions
	c.OfDimensions += o.OfDimensions
}

// narrow is the width, in mm, of the lines of balloons, leaders and dimensions.
const narrow = 0.25

// outlineWidth is the width, in mm, of visible outlines.
const outlineWidth = 0.5

// balloonRadius, in mm, tells balloons from other circles.
const balloonRadius = 3.4

// leaderPoint is how much of a leader, in mm, is left out at its point, where it
// touches what it points at.
const leaderPoint = 0.5

// extensionEnd is how much of a line, in mm, is left out at its ends, where
// extension lines and dimension lines meet.
const extensionEnd = 0.25

// thin reports whether a line is a thin continuous one.
func (l *line) thin() bool { return l.width == narrow && l.dashes == 0 }

// leaders returns which of the lines end on a balloon.
func (p *page) leaders() map[int][2]r2.Vec {
	var balloons []r2.Vec
	for _, c := range p.circles {
		if c.width == narrow && math.Abs(c.radius-balloonRadius) <= p.exact {
			balloons = append(balloons, c.center)
		}
	}
	found := map[int][2]r2.Vec{}
	if len(balloons) == 0 {
		return found
	}
	for i := range p.lines {
		l := &p.lines[i]
		if !l.thin() || len(l.path) != 2 {
			continue
		}
		if slices.ContainsFunc(balloons, func(b r2.Vec) bool {
			return math.Abs(r2.Norm(r2.Sub(l.path[1], b))-balloonRadius) <= 2*p.exact
		}) {
			u := r2.Unit(r2.Sub(l.path[1], l.path[0]))
			found[i] = [2]r2.Vec{r2.Add(l.path[0], r2.Scale(leaderPoint, u)), l.path[1]}
		}
	}
	return found
}

// lookAtLeaders finds leaders that cross each other.
func (p *page) lookAtLeaders(say func(Kind, string, ...any)) {
	var list [][2]r2.Vec
	leaders := p.leaders()
	for i := range p.lines {
		a, ok := leaders[i]
		if !ok {
			continue
		}
		for _, b := range list {
			if cross(a, b) {
				say(LeadersCross, "the leaders to %.1f, %.1f and %.1f, %.1f cross", a[1].X, a[1].Y, b[1].X, b[1].Y)
			}
		}
		list = append(list, a)
	}
}

// crossings counts what leaders and dimension lines cross.
func (p *page) crossings() Crossings {
	leaders := p.leaders()
	c := Crossings{Leaders: len(leaders)}
	if len(leaders) > 0 {
		for i := range p.lines {
			l := &p.lines[i]
			_, leader := leaders[i]
			balloon := l.width == narrow && len(l.path) == chords+1 && math.Abs(l.box.Max.X-l.box.Min.X-2*balloonRadius) <= p.exact
			visible := l.width == outlineWidth
			if leader || balloon || !visible && !(l.width == narrow && (l.dashes == 0 || l.dashes > hiddenDashes)) {
				continue
			}
			for k := 1; k < len(l.path); k++ {
				for _, a := range leaders {
					switch {
					case !cross(a, [2]r2.Vec(l.path[k-1:k+1])):
					case visible:
						c.WithOutlines++
					default:
						c.WithNarrow++
					}
				}
			}
		}
	}
	p.crossDimensions(&c, leaders)
	return c
}

// crossDimensions counts the lines with an arrowhead that are no leaders, and the
// thin lines that cross them.
func (p *page) crossDimensions(c *Crossings, leaders map[int][2]r2.Vec) {
	var tips []r2.Vec
	for _, m := range p.marks {
		if len(m) == 3 {
			tips = append(tips, m[1])
		}
	}
	pointed := func(q r2.Vec) bool {
		return slices.ContainsFunc(tips, func(t r2.Vec) bool { return math.Abs(t.X-q.X)+math.Abs(t.Y-q.Y) < p.exact })
	}
	var others, dimensions [][2]r2.Vec
	for i := range p.lines {
		l := &p.lines[i]
		if _, leader := leaders[i]; leader || !l.thin() || len(l.path) != 2 || r2.Norm(r2.Sub(l.path[1], l.path[0])) < 1 {
			continue
		}
		u := r2.Scale(extensionEnd, r2.Unit(r2.Sub(l.path[1], l.path[0])))
		seg := [2]r2.Vec{r2.Add(l.path[0], u), r2.Sub(l.path[1], u)}
		if pointed(l.path[0]) || pointed(l.path[1]) {
			dimensions = append(dimensions, seg)
		} else {
			others = append(others, seg)
		}
	}
	c.Dimensions += len(dimensions)
	for i, a := range dimensions {
		for _, list := range [2][][2]r2.Vec{dimensions[:i], others} {
			for _, b := range list {
				if cross(a, b) {
					c.OfDimensions++
				}
			}
		}
	}
}
