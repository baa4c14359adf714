package inspect

import (
	"fmt"
	"math"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/gonum/spatial/r2"
)

// An outline is the length of closed polygons and the area within them, holes
// taken off. Those of curves are of their control polygons.
type outline struct{ length, area float64 }

// to adds a side.
func (o *outline) to(p, q r2.Vec) {
	d := r2.Sub(q, p)
	o.length += math.Sqrt(d.X*d.X + d.Y*d.Y)
	o.area += r2.Cross(p, q) / 2
}

// A face is what a typeface's own file says of the outlines of its letters, read
// by another library than draws it. A capital is 1 high.
type face struct {
	letters map[rune]outline
}

// faces are the typefaces of the drawings, regular and bold, read once.
var faces = sync.OnceValue(func() [2]*face { return [2]*face{readFace(goregular.TTF), readFace(gobold.TTF)} })

// readFace reads all letters of a typeface. Those of the drawings are part of the
// program: one that cannot be read is a fault of the program.
func readFace(ttf []byte) *face {
	must := func(err error) {
		if err != nil {
			panic(fmt.Sprintf("inspect: typeface: %v", err))
		}
	}
	f, err := sfnt.Parse(ttf)
	must(err)
	var buf sfnt.Buffer
	units := fixed.Int26_6(f.UnitsPerEm()) // at this size a fixed-point unit is a font unit
	index, err := f.GlyphIndex(&buf, 'H')
	must(err)
	bounds, _, err := f.GlyphBounds(&buf, index, units, font.HintingNone)
	must(err)
	capital := float64(-bounds.Min.Y)
	out := &face{letters: map[rune]outline{}}
	for r := rune(' '); r <= 0xffff; r++ {
		index, err := f.GlyphIndex(&buf, r)
		if err != nil || index == 0 {
			continue
		}
		segments, err := f.LoadGlyph(&buf, index, units, nil)
		must(err)
		out.letters[r] = outlineOf(segments, 1/capital)
	}
	return out
}

// outlineOf measures a letter, enlarged by a factor.
func outlineOf(segments sfnt.Segments, enlarged float64) outline {
	var sum outline
	var pen, start r2.Vec
	to := func(p r2.Vec) {
		sum.to(pen, p)
		pen = p
	}
	at := func(p fixed.Point26_6) r2.Vec {
		return r2.Scale(enlarged, r2.Vec{X: float64(p.X), Y: -float64(p.Y)})
	}
	for _, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			to(start)
			pen = at(s.Args[0])
			start = pen
		case sfnt.SegmentOpLineTo:
			to(at(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			to(at(s.Args[0]))
			to(at(s.Args[1]))
		}
	}
	to(start)
	return sum
}

// heightOf returns how high the capitals of a written line are, however it is
// turned: the length of its outlines tells. Of the two faces the one was used that
// has as much ink for its length. Dots and strokes alone are too small to be
// measured; they are NaN.
func heightOf(label string, written outline) float64 {
	height, best := math.NaN(), math.Inf(1)
	measured := false
	for _, f := range faces() {
		var unit outline
		for _, r := range label {
			l := f.letters[r]
			unit.length, unit.area = unit.length+l.length, unit.area+l.area
			measured = measured || unicode.IsLetter(r) || unicode.IsDigit(r)
		}
		h := written.length / unit.length
		if off := math.Abs(math.Abs(written.area/unit.area)/(h*h) - 1); off < best {
			height, best = h, off
		}
	}
	if !measured {
		return math.NaN()
	}
	return height
}

// lacking returns the letters of a label that a typeface lacks.
func lacking(label string) []rune {
	var list []rune
	for _, r := range label {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
			continue
		}
		for _, f := range faces() {
			if _, ok := f.letters[r]; !ok {
				list = append(list, r)
				break
			}
		}
	}
	return list
}
