package vector

import (
	"fmt"
	"math"
	"strconv"
	"sync"

	"github.com/tdewolff/canvas"
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// A letter is one letter of a typeface.
type letter struct {
	face ink.Face
	rune rune
}

// common is the number of letters, from the first of Unicode on, whose outlines
// are kept from one document to the next.
const common = 256

// outlines are the outlines of the common letters of both typefaces, each worked
// out at first use and then only read.
var outlines = sync.OnceValue(func() *[2][common]func() *canvas.Path {
	var table [2][common]func() *canvas.Path
	for f := range table {
		for r := range table[f] {
			l := letter{ink.Face(f), rune(r)}
			table[f][r] = sync.OnceValue(l.outline)
		}
	}
	return &table
})

// unhinted asks the library for outlines as they were drawn, not fitted to dots.
const unhinted = 0

// outline returns the outline of the letter from its own start on the baseline,
// at a size of the typeface of one millimetre.
func (l letter) outline() *canvas.Path {
	path := &canvas.Path{}
	f := font(l.face)
	if err := f.GlyphPath(path, f.GlyphIndex(l.rune), 0, 0, 0, 1/float64(f.Head.UnitsPerEm), unhinted); err != nil {
		return &canvas.Path{} // a space: the typefaces themselves are known to be sound
	}
	return path
}

// path returns the outline of the letter, kept from before where it is common.
func (l letter) path() *canvas.Path {
	if 0 <= l.rune && l.rune < common && l.face <= ink.Bold {
		return outlines()[l.face][l.rune]()
	}
	return l.outline()
}

// A cut is a letter at the size and the angle at which a document writes it.
type cut struct {
	letter
	height, angle float64
}

// A stencil is the path data of a cut, from point to point in whole hundredths
// of a millimetre, which makes a page of text half as long as in the sheet's own
// coordinates and is as fine as any letter needs. A document has few and writes
// each often.
type stencil struct {
	name       string // by which the document speaks of it; "" where it has not been used
	start, end [2]int // where the data begin and leave the pen, hundredths of a mm from the letter's own start, y down
	data       string // after the first move; "" for a space
}

// stencil returns the path data of a cut.
func (w *svgWriter) stencil(c cut) *stencil {
	s, ok := w.stencils[c]
	if !ok {
		s = c.stencil()
		w.stencils[c] = s
	}
	return s
}

func (c cut) stencil() *stencil {
	sin, cos := math.Sincos(c.angle)
	em := c.face.Em(c.height)
	place := func(p canvas.Point) [2]int {
		x, y := em*p.X, em*p.Y
		return hundredths(r2.Vec{X: float64(x*cos) - float64(y*sin), Y: -float64(x*sin) - float64(y*cos)})
	}
	s := &stencil{}
	var pen pen
	for scan := c.path().Scanner(); scan.Scan(); {
		switch scan.Cmd() {
		case canvas.MoveToCmd:
			if to := place(scan.End()); len(pen.data) == 0 && pen.last == 0 {
				s.start = to
				pen.begin(to)
			} else {
				pen.draw('m', to)
			}
		case canvas.LineToCmd:
			pen.draw('l', place(scan.End()))
		case canvas.QuadToCmd:
			pen.draw('q', place(scan.CP1()), place(scan.End()))
		case canvas.CubeToCmd:
			pen.draw('c', place(scan.CP1()), place(scan.CP2()), place(scan.End()))
		case canvas.CloseCmd:
			pen.close()
		}
	}
	s.end, s.data = pen.at, string(pen.data)
	return s
}

// hundredths returns a point in whole hundredths of a millimetre.
func hundredths(p r2.Vec) [2]int {
	return [2]int{int(math.Round(p.X * 100)), int(math.Round(p.Y * 100))}
}

// letters calls put for each letter of a text that leaves ink, with where it
// starts in hundredths of a mm, y down. The letters stand one after the other: the
// typefaces have no kerning.
func (w *svgWriter) letters(t *ink.Text, put func(at [2]int, s *stencil)) {
	start := t.Start()
	sin, cos := math.Sincos(t.Angle)
	x := 0.0
	for _, r := range t.Line() {
		if s := w.stencil(cut{letter{t.Face, r}, t.Height, t.Angle}); s.data != "" {
			put(hundredths(r2.Vec{X: start.X + float64(x*cos), Y: w.sheet.Height - start.Y - float64(x*sin)}), s)
		}
		x += ink.Width(string(r), t.Height, t.Face)
	}
}

// labelled begins an element that shows a text.
func (w *svgWriter) labelled(element string, t *ink.Text) {
	fmt.Fprintf(w, `<%s role="img" aria-label="%s"`, element, escape(t.Line()))
}

// text writes a text as letters of which the document has the outlines elsewhere.
func (w *svgWriter) text(t *ink.Text) {
	begun := false
	w.letters(t, func(at [2]int, s *stencil) {
		if !begun {
			w.labelled("g", t)
			w.WriteString(">")
			begun = true
		}
		if s.name == "" {
			w.used = append(w.used, s)
			s.name = "l" + strconv.Itoa(len(w.used))
		}
		w.WriteString(`<use xlink:href="#`)
		w.WriteString(s.name)
		w.WriteString(`" x="`)
		w.hundredths(at[0])
		w.WriteString(`" y="`)
		w.hundredths(at[1])
		w.WriteString(`"/>`)
	})
	if begun {
		w.WriteString("</g>\n")
	}
}

// define writes the outlines of letters.
func (w *svgWriter) define(used []*stencil) {
	if len(used) == 0 {
		return
	}
	w.WriteString("<defs>\n")
	for _, s := range used {
		fmt.Fprintf(w, `<path id="%s" d="m`, s.name)
		w.hundredths(s.start[0])
		w.WriteByte(' ')
		w.hundredths(s.start[1])
		w.WriteString(s.data)
		w.WriteString("\"/>\n")
	}
	w.WriteString("</defs>\n")
}

// outline writes a text as one path.
func (w *svgWriter) outline(t *ink.Text) {
	begun := false
	var pen [2]int
	w.letters(t, func(at [2]int, s *stencil) {
		if !begun {
			w.labelled("path", t)
			w.WriteString(` d="`)
			begun = true
		}
		w.WriteByte('m')
		w.hundredths(at[0] + s.start[0] - pen[0])
		w.WriteByte(' ')
		w.hundredths(at[1] + s.start[1] - pen[1])
		w.WriteString(s.data)
		pen = [2]int{at[0] + s.end[0], at[1] + s.end[1]}
	})
	if begun {
		w.WriteString("\"/>\n")
	}
}

func (w *svgWriter) hundredths(n int) { w.Write(appendHundredths(w.AvailableBuffer(), n)) }

// A pen writes path data from each point to the next.
type pen struct {
	data  []byte
	at    [2]int // where it is
	moved [2]int // where the outline began
	last  byte
}

// begin puts the pen down without a word.
func (p *pen) begin(at [2]int) { p.at, p.moved, p.last = at, at, 'm' }

func (p *pen) draw(command byte, points ...[2]int) {
	if command != p.last || command == 'm' {
		p.data = append(p.data, command)
	} else {
		p.data = append(p.data, ' ')
	}
	for i, to := range points {
		if i > 0 {
			p.data = append(p.data, ' ')
		}
		p.data = appendHundredths(p.data, to[0]-p.at[0])
		p.data = append(p.data, ' ')
		p.data = appendHundredths(p.data, to[1]-p.at[1])
	}
	p.at, p.last = points[len(points)-1], command
	if command == 'm' {
		p.moved = p.at
	}
}

// close goes back to where the outline began.
func (p *pen) close() {
	p.data = append(p.data, 'z')
	p.last, p.at = 'z', p.moved
}

// appendHundredths appends n/100 with as few digits as it needs.
func appendHundredths(b []byte, n int) []byte {
	if n < 0 {
		b = append(b, '-')
		n = -n
	}
	if n >= 100 || n == 0 {
		b = strconv.AppendInt(b, int64(n/100), 10)
	}
	if f := n % 100; f != 0 {
		b = append(b, '.', '0'+byte(f/10))
		if f%10 != 0 {
			b = append(b, '0'+byte(f%10))
		}
	}
	return b
}
