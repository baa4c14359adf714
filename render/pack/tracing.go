package pack

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/param/quantity"
	"stabile/render/ink"
)

// A tracing is a blank at full size, its face up, as it is cut and marked: the
// lower left corner of the rectangle about it is the origin.
type tracing struct {
	*pack
	cut    *fab.Cut
	blank  *flat.Blank
	slug   string
	turned bool // a quarter turn counter-clockwise from the blank's own drawing
	width  float64
	height float64
	lines  []ink.Item // strokes and arcs, in groups
	edge   []r2.Vec   // the outline, to tell what is inside
	holes  [][]r2.Vec
	lo, hi r2.Vec // of the outline in the blank's own frame

	out stretch // of a tube, what is left out; none of most
}

// Measures of a tube that is traced with its plain middle left out, in mm.
const (
	tracedEnds  = 30.0 // that are kept beyond the curve of each end
	leftOutBand = 14.0 // that stands for what is left out: room for what is written on it
)

// leftOut returns what may be left out of the tracing of a blank: its longest plain
// stretch, as long as a rule reads well; none where that is hardly longer than what would
// stand for it.
func (k *pack) leftOut(b *flat.Blank) stretch {
	lo, hi := bounds(b.Outline)
	from, to := plainOf(b, lo, hi, tracedEnds, tracedEnds, tracedEnds)
	step := 5.0
	if k.units == quantity.Inch {
		step = inch / 4
	}
	out := math.Floor((to-from)/step) * step
	if out < 2*leftOutBand {
		return stretch{}
	}
	return stretch{from, from + out, leftOutBand}
}

// trace returns the tracing of a cut with the marks of all its pieces, each of which
// says whose it is.
func (k *pack) trace(c *fab.Cut, turned bool) *tracing { return k.traceOf(c, turned, allPieces) }

// traceShort is trace with what may be left out left out.
func (k *pack) traceShort(c *fab.Cut, turned bool, out stretch) *tracing {
	return k.traceWith(c, turned, allPieces, out)
}

// allPieces stands for the marks of every piece.
const allPieces = -1

// traceOf returns the tracing of a cut with the marks of one piece and those that all
// have in common: of 0 with these alone.
func (k *pack) traceOf(c *fab.Cut, turned bool, piece int) *tracing {
	return k.traceWith(c, turned, piece, stretch{})
}

func (k *pack) traceWith(c *fab.Cut, turned bool, piece int, out stretch) *tracing {
	b := &c.Blank
	if piece != allPieces {
		own := *b
		own.Marks = slices.DeleteFunc(slices.Clone(b.Marks), func(m flat.Mark) bool { return m.Piece > 0 && m.Piece != piece })
		b = &own
	}
	t := &tracing{pack: k, cut: c, blank: b, slug: slugOf(b.Name), turned: turned, out: out}
	if t.slug == "" {
		t.slug = "blank"
	}
	t.lo, t.hi = bounds(b.Outline)
	if b.Diameter > 0 {
		r := b.Diameter / 2 // the outline's chords may stop short of the circle
		t.lo, t.hi = r2.Vec{X: -r, Y: -r}, r2.Vec{X: r, Y: r}
	}
	t.width, t.height = t.hi.X-t.lo.X, t.short(t.hi.Y)-t.lo.Y
	if turned {
		t.width, t.height = t.height, t.width
	}
	t.edge = t.path(b.Outline)
	if b.Diameter > 0 {
		t.circle(r2.Vec{}, b.Diameter)
	} else {
		t.add(ink.Edge, cutGroup, true, t.edge)
	}
	for _, h := range b.Holes {
		t.holes = append(t.holes, t.path(h.Outline))
		if h.Diameter == 0 {
			t.add(ink.Edge, cutGroup, true, t.path(h.Outline))
			continue
		}
		t.circle(h.Center, h.Diameter)
		// Where the drill's point or the compass stands.
		arm := min(holeArm, h.Diameter/4)
		c := t.at(h.Center)
		t.add(ink.Thin, markGroup, false, []r2.Vec{{X: c.X - arm, Y: c.Y}, {X: c.X + arm, Y: c.Y}})
		t.add(ink.Thin, markGroup, false, []r2.Vec{{X: c.X, Y: c.Y - arm}, {X: c.X, Y: c.Y + arm}})
	}
	for i := range b.Marks {
		m := &b.Marks[i]
		t.lines = append(t.lines, strokeOf(m, t.path(markPath(m))))
	}
	for _, l := range t.bandEdges() {
		t.add(ink.Phantom, markGroup, false, l[:])
	}
	return t
}

// short returns where a height in the blank's own frame lies when what is left out is
// drawn as a band.
func (t *tracing) short(y float64) float64 {
	if long := t.out.length(); long > 0 && y > t.out.from {
		return y - min(y-t.out.from, long)*(1-t.out.gap/long)
	}
	return y
}

// bandEdges returns the edges of the band that stands for what is left out; none where
// nothing is.
func (t *tracing) bandEdges() (edges [][2]r2.Vec) {
	if t.out.length() <= 0 {
		return nil
	}
	for _, y := range [2]float64{t.out.from, t.out.to} {
		edges = append(edges, [2]r2.Vec{t.at(r2.Vec{X: t.lo.X, Y: y}), t.at(r2.Vec{X: t.hi.X, Y: y})})
	}
	return edges
}

// holeArm is the length, in mm, of the arms of the cross at a hole's centre.
const holeArm = 4

// markPath returns the points of a mark.
func markPath(m *flat.Mark) []r2.Vec {
	if len(m.Path) > 1 {
		return m.Path
	}
	return []r2.Vec{m.From, m.To}
}

// markLine returns the kind of line of a mark.
func markLine(kind flat.MarkKind) ink.Line {
	switch kind {
	case flat.CentreLine:
		return ink.Centre
	case flat.BendLine:
		return ink.BendLines
	case flat.Standing:
		return ink.Phantom
	}
	return ink.Thin
}

func (t *tracing) add(line ink.Line, group string, closed bool, path []r2.Vec) {
	t.lines = append(t.lines, &ink.Stroke{Line: line, Path: path, Closed: closed, Group: group})
}

func (t *tracing) circle(center r2.Vec, diameter float64) {
	a := ink.Circle(ink.Edge, t.at(center), diameter/2)
	a.Group = cutGroup
	t.lines = append(t.lines, a)
}

// at returns where a point of the blank's own frame lies on the tracing.
func (t *tracing) at(q r2.Vec) r2.Vec {
	y := t.short(q.Y)
	if t.turned {
		return r2.Vec{X: t.short(t.hi.Y) - y, Y: q.X - t.lo.X}
	}
	return r2.Vec{X: q.X - t.lo.X, Y: y - t.lo.Y}
}

func (t *tracing) path(qs []r2.Vec) []r2.Vec {
	out := make([]r2.Vec, len(qs))
	for i, q := range qs {
		out[i] = t.at(q)
	}
	return out
}

// within reports whether a point is on the metal.
func (t *tracing) within(q r2.Vec) bool {
	if !inPolygon(q, t.edge) {
		return false
	}
	for _, h := range t.holes {
		if inPolygon(q, h) {
			return false
		}
	}
	return true
}

// A lettering is what is written along a line of a tracing.
type lettering struct {
	from, to r2.Vec
	text     string
}

// letterings returns what is written along the marks and the seam's edges.
func (t *tracing) letterings() []lettering {
	var all []lettering
	b := t.blank
	seam := ""
	for i := range b.Marks {
		m := &b.Marks[i]
		text := markText(m)
		// Bearings grow to the right: x is the mean radius times the angle from the seam.
		if m.Kind == flat.Witness && b.Shape == flat.Tube && b.Around() > 0 && seam == "" {
			seam = "seam, "
			if b.Bought != nil {
				seam = "ends meet, "
			}
			seam += bearing(m.Bearing - m.From.X/b.Around())
		}
		if text == "" {
			continue
		}
		path := t.path(markPath(m))
		// The longest of its straight pieces, where it is not one line.
		from, to := path[0], path[1]
		for i := 2; i < len(path); i++ {
			if r2.Norm(r2.Sub(path[i], path[i-1])) > r2.Norm(r2.Sub(to, from)) {
				from, to = path[i-1], path[i]
			}
		}
		all = append(all, lettering{from, to, text})
	}
	if seam != "" {
		for _, x := range [2]float64{t.lo.X, t.hi.X} {
			all = append(all, lettering{t.at(r2.Vec{X: x, Y: t.lo.Y}), t.at(r2.Vec{X: x, Y: t.hi.Y}), seam})
		}
	}
	return all
}

// bandLetterings returns what is written along the edges of the band that stands for what
// is left out: how far apart they are to be set.
func (t *tracing) bandLetterings() (all []lettering) {
	for _, l := range t.bandEdges() {
		all = append(all, lettering{l[0], l[1], "set " + t.length(t.out.length()) + " apart"})
	}
	return all
}

// upright returns the angle of a line, in rad, at which writing along it reads
// from below or from the right.
func upright(from, to r2.Vec) float64 {
	a := math.Atan2(to.Y-from.Y, to.X-from.X)
	const hair = 1e-6 // a line computed as nearly straight down reads as one straight up
	switch {
	case a > math.Pi/2+hair:
		return a - math.Pi
	case a <= -math.Pi/2+hair:
		return a + math.Pi
	}
	return a
}
