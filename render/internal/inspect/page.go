package inspect

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
)

// A page is what is found on a sheet, in whichever form it was read: in mm, from
// one of the corners at the left. Which one makes no difference here.
type page struct {
	width, height float64
	frame         *r2.Box // nil for a bare page
	texts         []text
	lines         []line
	circles       []circle
	marks         [][]r2.Vec // dark areas, convex
	pictures      []r2.Box
	depth         float64 // mm by which a line may reach into a text's shape
	exact         float64 // mm within which points are the same
}

// A text is a line of writing.
type text struct {
	label  string
	shape  []r2.Vec // convex, about its ink; nil until it is asked for
	ink    []r2.Vec // points of its outlines, of which shape is the hull
	box    r2.Box
	height float64 // mm, of a capital; NaN where it cannot be measured
	lacks  []rune
	sum    outline // of what is written of it
}

// A line is a line along a path; curves are in chords.
type line struct {
	path   []r2.Vec
	box    r2.Box
	width  float64 // mm
	dashes int     // how many lengths its pattern has; 0 for a continuous line
}

// A circle is a whole circle; it is among the lines too.
type circle struct {
	center r2.Vec
	radius float64
	width  float64
}

// Widths of line, in mm, by which lines are distinguished.
const (
	wide       = 0.35 // the least of wide lines
	frameWidth = 0.7
)

// hiddenDashes is how many lengths the pattern of a line of hidden edges has; those
// of axes and neighbouring parts have more.
const hiddenDashes = 2

// object reports whether the line is of the object: wide, or of its hidden edges.
func (l *line) object() bool { return l.width >= wide || l.dashes == hiddenDashes }

// chords is the number of chords in which a circle or an arc is looked at.
const chords = 64

func (p *page) addLine(path []r2.Vec, width float64, dashes int) {
	if len(path) == 0 {
		return
	}
	l := line{path, design.Bounds(path), width, dashes}
	if width == frameWidth && len(path) == 5 && path[0] == path[4] {
		p.frame = &l.box
	}
	p.lines = append(p.lines, l)
}

func (p *page) addCircle(center r2.Vec, radius, width float64, dashes int) {
	path := make([]r2.Vec, chords+1)
	for i := range path {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / chords)
		path[i] = r2.Vec{X: center.X + radius*cos, Y: center.Y + radius*sin}
	}
	p.circles = append(p.circles, circle{center, radius, width})
	p.addLine(path, width, dashes)
}

// about returns a convex shape about the text's ink.
func (t *text) about() []r2.Vec {
	if t.shape == nil {
		t.shape = design.Hull(t.ink)
	}
	return t.shape
}
