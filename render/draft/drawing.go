package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// A Style is how dimensions look; see Millimetre and Inch.
type Style struct {
	Text   float64 // mm, height of a capital
	Arrow  float64 // mm, length of an arrowhead
	Open   bool    // arrowheads are open, else filled
	InLine bool    // the value breaks its line, else it stands above it
	First  float64 // mm, from the outline to the first dimension line
	Step   float64 // mm, from one dimension line to the next
}

// Millimetre returns dimensioning by ISO 129-1: filled heads, values above
// their lines, read from below and from the right.
func Millimetre() Style {
	return Style{Text: 2.5, Arrow: 2.5, First: 10, Step: 7}
}

// Inch returns the custom of inch work: the value breaks its line. It is read
// from below and from the right as well, so that stacks of dimensions stay
// narrow.
func Inch() Style {
	return Style{Text: 2.5, Arrow: 2.5, InLine: true, First: 10, Step: 8}
}

// Lengths of a dimension's parts, in mm (ISO 129-1 gives them in widths of the
// line: 8 beyond the dimension line at a narrow line of 0.25 mm).
const (
	gap       = 1.0 // between an outline and its extension line
	overshoot = 2.0 // of an extension line beyond the dimension line
	headWidth = 0.3 // of an arrowhead, as a share of its length (about 15 deg included)
	above     = 0.9 // between a line and the value above it
	margin    = 0.7 // about writing that nothing may enter
	between   = 1.2 // between the end of a broken line and the value in it
	outside   = 5.0 // length of the tail of an arrow that points in from outside
)

// A Drawing is what is drawn on an area of paper, with a record of what is
// taken so that more can be placed beside it.
type Drawing struct {
	Style Style
	Items []ink.Item
	Space *Space
}

// New returns an empty drawing on the given area of paper.
func New(s Style, area r2.Box) *Drawing {
	return &Drawing{Style: s, Space: NewSpace(area)}
}

// stroke draws a line and takes its place.
func (d *Drawing) stroke(l ink.Line, w weight, owner int, path ...r2.Vec) {
	d.Items = append(d.Items, &ink.Stroke{Line: l, Path: path})
	d.Space.addPath(path, false, w, owner)
}

// Line draws a line of the object, or one that stands with it such as a
// centre line.
func (d *Drawing) Line(l ink.Line, path ...r2.Vec) {
	w := thinLine
	if l == ink.Outline || l == ink.Seam || l == ink.Hidden {
		w = objectLine
	}
	d.stroke(l, w, nobody, path...)
}

// Put draws an item, taking the place of its lines and writing.
func (d *Drawing) Put(item ink.Item) { d.put(item, nobody) }

func (d *Drawing) put(item ink.Item, owner int) {
	d.Items = append(d.Items, item)
	d.take(item, owner)
}

// take records what an item covers.
func (d *Drawing) take(item ink.Item, owner int) {
	weigh := func(l ink.Line) weight {
		switch l {
		case ink.Outline, ink.Hidden, ink.Seam:
			return objectLine
		}
		return thinLine
	}
	switch it := item.(type) {
	case *ink.Stroke:
		d.Space.addPath(it.Path, it.Closed, weigh(it.Line), owner)
	case *ink.Arc:
		d.Space.addPath(arcPath(it), false, weigh(it.Line), owner)
	case *ink.Text:
		d.Space.addBox(grow(boxOf(it.Box()...), margin), owner)
	}
}

// Reserve takes a box of paper so that nothing is placed on it.
func (d *Drawing) Reserve(b r2.Box) { d.Space.addBox(b, nobody) }

// arcPath returns points along an arc, ends included.
func arcPath(a *ink.Arc) []r2.Vec {
	n := max(int(math.Ceil((a.To-a.From)/(2*math.Pi)*48)), 2)
	path := make([]r2.Vec, n+1)
	for i := range path {
		path[i] = a.At(a.From + (a.To-a.From)*float64(i)/float64(n))
	}
	return path
}

// head draws an arrowhead with its point at p, pointing along the angle.
func (d *Drawing) head(p r2.Vec, angle float64) {
	l, w := d.Style.Arrow, d.Style.Arrow*headWidth/2
	back := polar(p, angle+math.Pi, l)
	a, b := polar(back, angle+math.Pi/2, w), polar(back, angle-math.Pi/2, w)
	if d.Style.Open {
		d.Items = append(d.Items, &ink.Stroke{Line: ink.Thin, Path: []r2.Vec{a, p, b}})
		return
	}
	d.Items = append(d.Items, &ink.Fill{Path: []r2.Vec{a, p, b}})
}

// text writes a value whose middle stands on the point, turned by the angle.
func (d *Drawing) text(at r2.Vec, angle float64, anchor ink.Anchor, s string) *ink.Text {
	t := &ink.Text{At: at, Height: d.Style.Text, Angle: angle, Anchor: anchor, Text: s}
	d.put(t, nobody)
	return t
}

// polar returns the point at a distance from p along an angle.
func polar(p r2.Vec, angle, distance float64) r2.Vec {
	sin, cos := math.Sincos(angle)
	return r2.Vec{X: p.X + distance*cos, Y: p.Y + distance*sin}
}

// readable returns the angle, turned by half a turn where that is needed to
// read it from below or from the right.
func readable(angle float64) float64 {
	a := math.Mod(angle, 2*math.Pi)
	if a <= -math.Pi {
		a += 2 * math.Pi
	} else if a > math.Pi {
		a -= 2 * math.Pi
	}
	// A line straight up is read from the right: it stays as it is. The hair
	// of tolerance keeps a line computed as nearly upright from flipping.
	const hairline = 1e-6
	if a > math.Pi/2+hairline {
		a -= math.Pi
	} else if a <= -math.Pi/2+hairline {
		a += math.Pi
	}
	return a
}

// Free reports whether a text would stand clear of all lines and writing.
func (d *Drawing) Free(t *ink.Text) bool {
	box := grow(boxOf(t.Box()...), margin)
	return d.Space.clear(box) && !d.Space.crossed(box)
}

// alongside is how near, in mm, a leader may run to another line in nearly its own
// direction before the two are taken for one.
const alongside = 3.0

// Alongside reports whether a line would run beside another for most of its
// length, where it would be taken for a part of it.
func (d *Drawing) Alongside(from, to r2.Vec) bool {
	v := r2.Sub(to, from)
	l := r2.Norm(v)
	if l < alongside {
		return false
	}
	u := r2.Scale(1/l, v)
	middle := r2.Scale(0.5, r2.Add(from, to))
	found := false
	d.Space.buckets(grow(r2.Box{Min: middle, Max: middle}, alongside), func(k int) {
		for _, id := range d.Space.segAt[k] {
			g := &d.Space.segs[id]
			w := r2.Sub(g.b, g.a)
			if g.owner != lifted && math.Abs(r2.Cross(u, w)) < 0.2*r2.Norm(w) && r2.Norm(w) > alongside && offLine(middle, g.a, g.b) < alongside {
				found = true
			}
		}
	})
	return found
}

// Crossings returns how many dimension lines, axes and other thin lines a leader
// would cross.
func (d *Drawing) Crossings(from, to r2.Vec) int {
	v := r2.Sub(to, from)
	l := r2.Norm(v)
	if l <= leaderStart {
		return 0
	}
	n, _ := d.Space.cross(from, r2.Sub(to, r2.Scale(leaderStart/l, v)))
	return n[thinLine]
}

// Pointer draws a leader from writing to a line, with its head on the line. It
// reports false, and draws nothing, where it would cross writing, a leader or
// more than the given number of lines of the object.
func (d *Drawing) Pointer(from, to r2.Vec, crossed int) bool {
	v := r2.Sub(to, from)
	l := r2.Norm(v)
	if l < d.Style.Arrow {
		return true // the writing is beside its line
	}
	short := r2.Sub(to, r2.Scale(leaderStart/l, v))
	n, written := d.Space.cross(from, short)
	if n[objectLine] > crossed || n[leaderLine] > 0 || written {
		return false
	}
	d.head(to, math.Atan2(v.Y, v.X))
	d.stroke(ink.Thin, leaderLine, nobody, from, to)
	return true
}
