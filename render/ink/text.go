package ink

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"gonum.org/v1/gonum/spatial/r2"
)

// Width returns the length, in mm, of a line of writing whose capitals are
// height mm high.
func Width(text string, height float64, face Face) float64 {
	t := face.typeface()
	var units float64
	for _, r := range text {
		units += t.of(r).advance
	}
	return units * height / t.capital
}

// Missing returns the letters of a text that one of the typefaces lacks, each
// once, in the order of the text.
func Missing(text string) []rune {
	var lacking []rune
	for _, r := range text {
		if slices.Contains(lacking, r) {
			continue
		}
		if !regular().of(r).present || !bold().of(r).present {
			lacking = append(lacking, r)
		}
	}
	return lacking
}

// Line returns the text as it is drawn: on one line. Control characters and
// separators of lines are spaces; characters that only steer a writing system
// are left out.
func (t *Text) Line() string {
	return strings.Map(plain, t.Text)
}

// plain returns the letter that is drawn for r, or -1 for none.
func plain(r rune) rune {
	switch {
	case unicode.IsControl(r), unicode.In(r, unicode.Zl, unicode.Zp):
		return ' '
	case unicode.Is(unicode.Cf, r):
		return -1
	}
	return r
}

// Width returns the length of the text along its line, in mm.
func (t *Text) Width() float64 { return Width(t.Text, t.Height, t.Face) }

// Start returns the point on the baseline where the text begins.
func (t *Text) Start() r2.Vec {
	return t.place(0, 0, t.before(t.Width()))
}

// Box returns the corners of the text's ink: along its whole width, from its
// lowest ink, or the baseline, to its highest, or the height of a capital. The
// first is where the text begins, the rest follow counter-clockwise.
func (t *Text) Box() []r2.Vec {
	face := t.Face.typeface()
	bottom, top, units := 0.0, face.capital, 0.0
	for _, r := range t.Text {
		g := face.of(r)
		if g.ink {
			bottom, top = min(bottom, g.bottom), max(top, g.top)
		}
		units += g.advance
	}
	scale := t.Height / face.capital
	width := units * t.Height / face.capital
	return t.corners(width, 0, width, bottom*scale, top*scale)
}

// haloMargin is how far paper is cleared round a text with a halo, as a share
// of its height: wide enough to see, narrower than the gap between two lines.
const haloMargin = 0.3

// Cleared returns the corners of the area that is cleared behind a text with a
// halo.
func (t *Text) Cleared() []r2.Vec {
	m := haloMargin * t.Height
	width := t.Width()
	return t.corners(width, -m, width+m, -m, t.Height+m)
}

func (t *Text) corners(width, x0, x1, y0, y1 float64) []r2.Vec {
	before := t.before(width)
	return []r2.Vec{t.place(x0, y0, before), t.place(x1, y0, before), t.place(x1, y1, before), t.place(x0, y1, before)}
}

// before is how much of a text so wide lies before its anchor.
func (t *Text) before(width float64) float64 {
	switch t.Anchor {
	case Middle:
		return width / 2
	case End:
		return width
	}
	return 0
}

// place returns the point x along the line and y above it, from where the text
// begins, so far before its anchor.
func (t *Text) place(x, y, before float64) r2.Vec {
	x -= before
	sin, cos := math.Sincos(t.Angle)
	return r2.Vec{
		X: t.At.X + float64(x*cos) - float64(y*sin),
		Y: t.At.Y + float64(x*sin) + float64(y*cos),
	}
}
