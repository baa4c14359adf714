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

// outline returns the outline of a letter. A document has few letters and uses
// each often.
func (w *svgWriter) outline(l letter) *canvas.Path {
	if 0 <= l.rune && l.rune < common && l.face <= ink.Bold {
		return outlines()[l.face][l.rune]()
	}
	path, ok := w.letters[l]
	if !ok {
		path = l.outline()
		w.letters[l] = path
	}
	return path
}

// text writes a text as the outlines of its letters, one after the other: the
// typefaces have no kerning.
func (w *svgWriter) text(t *ink.Text) {
	line := t.Line()
	start := t.Start()
	sin, cos := math.Sincos(t.Angle)
	em, x := t.Face.Em(t.Height), 0.0
	place := func(p canvas.Point) r2.Vec {
		along, up := x+float64(em*p.X), em*p.Y
		return r2.Vec{
			X: start.X + float64(along*cos) - float64(up*sin),
			Y: start.Y + float64(along*sin) + float64(up*cos),
		}
	}
	pen := pen{w: w}
	for _, r := range line {
		for scan := w.outline(letter{t.Face, r}).Scanner(); scan.Scan(); {
			pen.begin(line)
			switch scan.Cmd() {
			case canvas.MoveToCmd:
				pen.draw('m', place(scan.End()))
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
		x += ink.Width(string(r), t.Height, t.Face)
	}
	pen.end()
}

// A pen writes the outlines of letters: from each point to the next, in whole
// hundredths of a millimetre, which makes a page of text half as long as in
// the sheet's own coordinates and is as fine as any letter needs.
type pen struct {
	w     *svgWriter
	begun bool
	x, y  int // where the pen is, hundredths of a mm, y down
	moved [2]int
	last  byte
}

// begin opens the path of a text, once, when there is something to draw.
func (p *pen) begin(label string) {
	if !p.begun {
		fmt.Fprintf(p.w, `<path role="img" aria-label="%s" d="`, escape(label))
		p.begun = true
	}
}

func (p *pen) end() {
	if p.begun {
		p.w.WriteString("\"/>\n")
	}
}

func (p *pen) draw(command byte, points ...r2.Vec) {
	if command != p.last || command == 'm' {
		p.w.WriteByte(command)
	} else {
		p.w.WriteByte(' ')
	}
	p.last = command
	var x, y int
	for i, at := range points {
		x, y = int(math.Round(at.X*100)), int(math.Round((p.w.sheet.Height-at.Y)*100))
		if i > 0 {
			p.w.WriteByte(' ')
		}
		p.hundredths(x - p.x)
		p.w.WriteByte(' ')
		p.hundredths(y - p.y)
	}
	p.x, p.y = x, y
	if command == 'm' {
		p.moved = [2]int{x, y}
	}
}

// close goes back to where the outline began.
func (p *pen) close() {
	p.w.WriteByte('z')
	p.last = 'z'
	p.x, p.y = p.moved[0], p.moved[1]
}

// hundredths writes n/100 with as few digits as it needs.
func (p *pen) hundredths(n int) {
	b := p.w.AvailableBuffer()
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
	p.w.Write(b)
}
