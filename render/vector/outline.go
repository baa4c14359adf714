package vector

import (
	"fmt"
	"math"
	"strconv"

	"github.com/tdewolff/canvas"
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// A letter is one letter of a typeface at the height at which it is drawn.
type letter struct {
	face   ink.Face
	height float64
	rune   rune
}

// outline returns the outline of a letter from its own start on the baseline.
// A document has few letters and uses each often.
func (w *svgWriter) outline(l letter) *canvas.Path {
	path, ok := w.letters[l]
	if !ok {
		var err error
		if path, _, err = face(l.face, l.height).ToPath(string(l.rune)); err != nil {
			path = &canvas.Path{} // a space: the typefaces themselves are known to be sound
		}
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
	x := 0.0
	place := func(p canvas.Point) r2.Vec {
		return r2.Vec{
			X: start.X + float64((x+p.X)*cos) - float64(p.Y*sin),
			Y: start.Y + float64((x+p.X)*sin) + float64(p.Y*cos),
		}
	}
	pen := pen{w: w}
	for _, r := range line {
		for scan := w.outline(letter{t.Face, t.Height, r}).Scanner(); scan.Scan(); {
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
