package pack_test

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/gonum/spatial/r2"
)

// An outline is the length of closed polygons and the area within them, holes
// taken off.
type outline struct{ length, area float64 }

// to adds a side.
func (o *outline) to(p, q r2.Vec) {
	o.length += r2.Norm(r2.Sub(q, p))
	o.area += r2.Cross(p, q) / 2
}

// A measure is what a typeface's own file says of the outlines of a line of
// writing, read by another library than draws it.
type measure struct {
	font    *sfnt.Font
	units   float64 // height of a capital
	letters map[rune]outline
}

var measures = sync.OnceValue(func() []*measure {
	var list []*measure
	for _, ttf := range [][]byte{goregular.TTF, gobold.TTF} {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			panic(err)
		}
		m := &measure{font: f, letters: map[rune]outline{}}
		var buf sfnt.Buffer
		index, err := f.GlyphIndex(&buf, 'H')
		if err != nil {
			panic(err)
		}
		bounds, _, err := f.GlyphBounds(&buf, index, fixed.Int26_6(f.UnitsPerEm()), font.HintingNone)
		if err != nil {
			panic(err)
		}
		m.units = float64(-bounds.Min.Y)
		list = append(list, m)
	}
	return list
})

// of returns what the outlines of a line of writing come to, where a capital is 1
// high.
func (m *measure) of(label string) outline {
	var sum outline
	for _, r := range label {
		l := m.letter(r)
		sum.length, sum.area = sum.length+l.length, sum.area+l.area
	}
	return sum
}

func (m *measure) letter(r rune) outline {
	if l, ok := m.letters[r]; ok {
		return l
	}
	var buf sfnt.Buffer
	index, err := m.font.GlyphIndex(&buf, r)
	if err != nil {
		panic(err)
	}
	segments, err := m.font.LoadGlyph(&buf, index, fixed.Int26_6(m.font.UnitsPerEm()), nil)
	if err != nil {
		panic(err)
	}
	var sum outline
	var pen, start r2.Vec
	to := func(p r2.Vec) {
		sum.to(pen, p)
		pen = p
	}
	at := func(p fixed.Point26_6) r2.Vec {
		return r2.Scale(1/m.units, r2.Vec{X: float64(p.X), Y: -float64(p.Y)})
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
	m.letters[r] = sum
	return sum
}
