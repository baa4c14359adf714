package pack

import (
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/sheet"
)

// Measures of the numbers of cuts, in mm.
const (
	numberAir  = 0.6  // between a number and the ends of its broken line
	tickLength = 1.6  // of a cut beyond the sheet's edge, to its number
	onEdge     = 0.05 // from the sheet's edge, within which a cut ends there
	together   = 0.35 // within which a line runs along a cut and is broken with it

	closeBeside = 4.0 // from the sheet's edge, within which a cut has its number beyond it
)

// numbers writes the cuts' numbers: outside the sheet where a cut ends at its
// edge or runs close along it, else in the line itself, which is broken for it,
// and with it what else runs there where there is no other way.
func (d *cutDrawing) numbers() {
	placed := map[int]bool{} // by number
	for _, try := range [...]func(i int) bool{
		func(i int) bool { return d.outsideNumber(i, sheet.Medium) },
		func(i int) bool { return d.lineNumber(i, sheet.Medium, nothing) },
		func(i int) bool { return d.besideNumber(i, sheet.Medium) },
		func(i int) bool { return d.outsideNumber(i, sheet.Small) || d.lineNumber(i, sheet.Small, nothing) },
		func(i int) bool { return d.lineNumber(i, sheet.Small, outlines) },
		func(i int) bool { return d.ledNumber(i, sheet.Small) },
		func(i int) bool { return d.lineNumber(i, sheet.Small, cuts) },
	} {
		for i := range d.Cuts {
			n := d.Cuts[i].Number
			placed[n] = placed[n] || try(i)
		}
	}
	// Within a run of like cuts the first and the last are enough.
	for _, r := range d.cutRows() {
		for _, n := range slices.Compact([]int{r.first, r.last}) {
			if !placed[n] {
				d.unnumbered = append(d.unnumbered, n)
			}
		}
	}
}

func (d *cutDrawing) number(i int, height float64) *ink.Text {
	return &ink.Text{Height: height, Anchor: ink.Middle, Face: ink.Bold, Text: strconv.Itoa(d.Cuts[i].Number)}
}

// outsideNumber writes a number beyond the sheet's edge.
func (d *cutDrawing) outsideNumber(i int, height float64) bool {
	c := &d.Cuts[i]
	a, b := d.ends(c)
	t := d.number(i, height)
	half := t.Width() / 2
	try := func(end r2.Vec, out r2.Vec) bool {
		tip := r2.Add(end, r2.Scale(tickLength, out))
		t.At = r2.Vec{X: tip.X + out.X*(half+numberAir), Y: tip.Y - height/2 + out.Y*(height/2+numberAir)}
		if !d.free(d.around(t)) || !d.freeLine(end, tip) {
			return false
		}
		d.put(t)
		d.lead(ink.Edge, end, tip)
		return true
	}
	if c.Upright {
		return b.Y > d.box.Max.Y-onEdge && try(b, r2.Vec{Y: 1}) || a.Y < d.box.Min.Y+onEdge && try(a, r2.Vec{Y: -1})
	}
	return a.X < d.box.Min.X+onEdge && try(a, r2.Vec{X: -1}) || b.X > d.box.Max.X-onEdge && try(b, r2.Vec{X: 1})
}

// besideNumber writes the number of a cut that runs close along the sheet's edge
// beyond that edge.
func (d *cutDrawing) besideNumber(i int, height float64) bool {
	c := &d.Cuts[i]
	a, b := d.ends(c)
	t := d.number(i, height)
	half := t.Width() / 2
	for _, s := range places() {
		p := r2.Add(a, r2.Scale(s, r2.Sub(b, a)))
		end, out := p, r2.Vec{}
		switch {
		case c.Upright && p.X-d.box.Min.X < closeBeside:
			end.X, out = d.box.Min.X, r2.Vec{X: -1}
		case c.Upright && d.box.Max.X-p.X < closeBeside:
			end.X, out = d.box.Max.X, r2.Vec{X: 1}
		case !c.Upright && p.Y-d.box.Min.Y < closeBeside:
			end.Y, out = d.box.Min.Y, r2.Vec{Y: -1}
		case !c.Upright && d.box.Max.Y-p.Y < closeBeside:
			end.Y, out = d.box.Max.Y, r2.Vec{Y: 1}
		default:
			return false
		}
		tip := r2.Add(end, r2.Scale(tickLength, out))
		t.At = r2.Vec{X: tip.X + out.X*(half+numberAir), Y: tip.Y - height/2 + out.Y*(height/2+numberAir)}
		if !d.free(d.around(t)) || !d.freeLine(p, tip) {
			continue
		}
		d.put(t)
		d.lead(ink.Edge, p, tip)
		return true
	}
	return false
}

// places are where along a cut its number is tried, as shares of its length.
func places() [19]float64 {
	return [...]float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.45, 0.55, 0.35, 0.65, 0.2, 0.8, 0.25, 0.75, 0.1, 0.9, 0.15, 0.85, 0.05, 0.95}
}

// lead draws a tick or a leader to a number.
func (d *cutDrawing) lead(kind ink.Line, from, to r2.Vec) {
	d.put(&ink.Stroke{Line: kind, Path: []r2.Vec{from, to}})
}

// free reports whether a box keeps clear of all that does not break for it:
// writing, dimensions, arrowheads, ticks and leaders with their dots. Lines of the
// layout are not among them; see crossed.
func (d *cutDrawing) free(box r2.Box) bool { return d.room.clear(boxPath(box), 0) }

// freeLine reports whether a tick or leader crosses no other, nor a dimension, and
// keeps clear of writing, arrowheads and dots.
func (d *cutDrawing) freeLine(p, q r2.Vec) bool {
	line := []r2.Vec{p, q}
	return d.room.clear(line, 0) && d.room.clearOfTaken(line, aroundText/2)
}

// around returns the box about a number with air.
func (d *cutDrawing) around(t *ink.Text) r2.Box {
	lo, hi := bounds(t.Box())
	return grown(r2.Box{Min: lo, Max: hi}, numberAir)
}

func grown(b r2.Box, by float64) r2.Box {
	return sheet.Box(b.Min.X-by, b.Min.Y-by, b.Max.X+by, b.Max.Y+by)
}

// A breaking is what a number may break beside its own line.
type breaking int

const (
	nothing  breaking = iota
	outlines          // of pieces: their area still shows them
	cuts              // other cuts too, but not the sheet's edge
)

// breaks reports whether a line of a kind may be broken.
func (b breaking) breaks(kind ink.Line) bool {
	return b >= outlines && kind == ink.Thin || b >= cuts && kind == ink.Edge
}

// lineNumber writes a number into its line, where no other line than those that
// run along it are in the way.
func (d *cutDrawing) lineNumber(i int, height float64, breaks breaking) bool {
	c := &d.Cuts[i]
	a, b := d.ends(c)
	t := d.number(i, height)
	along := t.Width()
	if c.Upright {
		along = height
	}
	const least = 1.0 // mm of line that must be left at each end
	l := r2.Norm(r2.Sub(b, a))
	if l < along+2*numberAir+2*least {
		return false
	}
	for _, s := range places() {
		if min(s, 1-s)*l < along/2+numberAir+least {
			continue
		}
		m := r2.Add(a, r2.Scale(s, r2.Sub(b, a)))
		t.At = r2.Vec{X: m.X, Y: m.Y - height/2}
		box := d.around(t)
		if !d.free(box) || d.crossed(box, a, c.Upright, breaks) {
			continue
		}
		d.put(t)
		d.broken = append(d.broken, box)
		return true
	}
	return false
}

// Measures of numbers that a leader ties to their cut, in mm.
const (
	leaderLeast = 3.0
	leaderMost  = 15.0
	leaderStep  = 1.5
	leaderWays  = 16 // directions that are tried
	leaderDot   = 0.45
)

// ledNumber writes a number near a cut that is too short for it, with a leader to
// the cut's middle. Outlines of pieces may be broken for it, cuts not.
func (d *cutDrawing) ledNumber(i int, height float64) bool {
	a, b := d.ends(&d.Cuts[i])
	m := r2.Scale(0.5, r2.Add(a, b))
	dot := &ink.Fill{Path: disc(m, leaderDot)}
	if !d.room.clear(dot.Path, aroundText/2) {
		return false
	}
	t := d.number(i, height)
	far := r2.Vec{X: math.Inf(1), Y: math.Inf(1)} // no line is to be broken for running along
	for off := leaderLeast; off <= leaderMost; off += leaderStep {
		for k := range leaderWays {
			sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / leaderWays)
			c := r2.Vec{X: m.X + off*cos, Y: m.Y + off*sin}
			t.At = r2.Vec{X: c.X, Y: c.Y - height/2}
			box := d.around(t)
			if !within(box.Min, d.box) || !within(box.Max, d.box) || !d.free(box) || d.crossed(box, far, true, outlines) {
				continue
			}
			share, _, ok := through(m, c, box)
			if !ok {
				continue
			}
			end := r2.Add(m, r2.Scale(share, r2.Sub(c, m))) // at the box
			if !d.freeLine(m, end) {
				continue
			}
			d.led++
			d.put(t)
			d.broken = append(d.broken, box)
			d.lead(ink.Thin, m, end)
			d.put(dot)
			return true
		}
	}
	return false
}

// crossed reports whether a line that may not be broken runs through a box, and
// not along the line, upright or level, through a point.
func (d *cutDrawing) crossed(box r2.Box, on r2.Vec, upright bool, breaks breaking) bool {
	off := func(p r2.Vec) float64 {
		if upright {
			return math.Abs(p.X - on.X)
		}
		return math.Abs(p.Y - on.Y)
	}
	for i := range d.lines {
		l := &d.lines[i]
		if breaks.breaks(l.kind) || !touches(l, box) {
			continue
		}
		for k := 1; k < len(l.path); k++ {
			p, q := l.path[k-1], l.path[k]
			t0, t1, ok := through(p, q, box)
			if !ok {
				continue
			}
			v := r2.Sub(q, p)
			if off(r2.Add(p, r2.Scale(t0, v))) > together || off(r2.Add(p, r2.Scale(t1, v))) > together {
				return true
			}
		}
	}
	return false
}
