package vector

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"time"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/pdf"
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// Info is what a PDF says of itself. The author is left for the shop to say.
type Info struct {
	Title   string
	Subject string
	Date    time.Time // of creation; the zero time leaves it out
}

// PDF returns the sheets as one document, a page of its own size for each, with
// a bookmark for each page. Typefaces are embedded, only the letters in use,
// and the text can be searched. Readers are asked to print at full size.
func PDF(sheets []*ink.Sheet, info Info) ([]byte, error) {
	if len(sheets) == 0 {
		return nil, errors.New("pdf: no sheets")
	}
	for _, s := range sheets {
		if err := drawable(s); err != nil {
			return nil, fmt.Errorf("pdf: %w", err)
		}
	}
	var b bytes.Buffer
	options := pdf.DefaultOptions
	options.Compress = false // finish does it faster, with one compressor for all pages
	w := &pdfWriter{pdf.New(&b, sheets[0].Width, sheets[0].Height, &options), make(map[setting]*canvas.Text)}
	for i, s := range sheets {
		if i > 0 {
			w.NewPage(s.Width, s.Height)
		}
		for _, item := range s.Items {
			w.item(item)
		}
	}
	if err := w.Close(); err != nil {
		return nil, fmt.Errorf("pdf: %w", err)
	}
	data, err := finish(b.Bytes(), sheets, info)
	if err != nil {
		return nil, fmt.Errorf("pdf: %w", err)
	}
	return data, nil
}

// pdfWriter draws straight to the library's renderer: the library's own context
// would measure dashes wrongly.
type pdfWriter struct {
	*pdf.PDF
	lines map[setting]*canvas.Text
}

// A setting is a line of writing as it is set. Setting one takes the library
// long; the same lines stand on many sheets.
type setting struct {
	face   ink.Face
	height float64
	text   string
}

func (w *pdfWriter) item(item ink.Item) {
	switch it := item.(type) {
	case *ink.Stroke:
		if len(it.Path) >= 2 {
			w.stroke(it.Line, polyline(it.Path, it.Closed))
		}
	case *ink.Arc:
		w.stroke(it.Line, arc(it))
	case *ink.Fill:
		w.fill(it.Path, it.Shade)
	case *ink.Image:
		w.image(it)
	case *ink.Text:
		if it.Halo {
			w.fill(it.Cleared(), 1)
		}
		w.text(it)
	}
}

func (w *pdfWriter) stroke(l ink.Line, path *canvas.Path) {
	limb := limbOf(l)
	dashes := l.Dashes()
	for i := range dashes {
		dashes[i] /= l.Width() // the library multiplies by it
	}
	w.RenderPath(path, canvas.Style{
		Stroke:       greyPaint(0),
		StrokeWidth:  l.Width(),
		StrokeCapper: limb.capper(),
		StrokeJoiner: limb.joiner(),
		Dashes:       dashes,
	}, canvas.Identity)
}

func (w *pdfWriter) fill(path []r2.Vec, shade float64) {
	w.RenderPath(polyline(path, true), canvas.Style{Fill: greyPaint(shade)}, canvas.Identity)
}

// text draws the line from its start: the library's own centring is not used,
// so that both back ends place a text alike.
func (w *pdfWriter) text(t *ink.Text) {
	start := roundPoint(t.Start())
	key := setting{t.Face, t.Height, t.Line()}
	line, ok := w.lines[key]
	if !ok {
		line = canvas.NewTextLine(face(key.face, key.height), key.text, canvas.Left)
		w.lines[key] = line
	}
	w.RenderText(line, canvas.Identity.Translate(start.X, start.Y).Rotate(t.Angle*180/math.Pi))
}

func (w *pdfWriter) image(m *ink.Image) {
	from, to := roundPoint(m.Box.Min), roundPoint(m.Box.Max)
	size := m.Image.Bounds().Size()
	place := canvas.Identity.Translate(from.X, from.Y).Scale((to.X-from.X)/float64(size.X), (to.Y-from.Y)/float64(size.Y))
	w.RenderImage(m.Image, place)
}

func polyline(path []r2.Vec, closed bool) *canvas.Path {
	p := &canvas.Path{}
	for i, v := range path {
		v = roundPoint(v)
		if i == 0 {
			p.MoveTo(v.X, v.Y)
		} else {
			p.LineTo(v.X, v.Y)
		}
	}
	if closed {
		p.Close()
	}
	return p
}

// bezierSpan is the greatest angle that one cubic stands for: an eighth of a
// turn, where it leaves the circle by 4e-6 of the radius, 2 um on a circle a
// metre across.
const bezierSpan = math.Pi / 4

// arc returns the arc as cubic curves. Each touches the circle at its ends and
// in its middle: its handles are 4/3 tan(angle/4) of the radius long.
func arc(a *ink.Arc) *canvas.Path {
	p := &canvas.Path{}
	span := a.To - a.From
	if a.Whole() {
		span = 2 * math.Pi
	}
	pieces := math.Max(1, math.Ceil(span/bezierSpan))
	step := span / pieces
	handle := a.Radius * 4 / 3 * math.Tan(step/4)
	tangent := func(angle float64) r2.Vec {
		sin, cos := math.Sincos(angle)
		return r2.Vec{X: -handle * sin, Y: handle * cos}
	}
	start := roundPoint(a.At(a.From))
	p.MoveTo(start.X, start.Y)
	for i := 0.0; i < pieces; i++ {
		from, to := a.From+i*step, a.From+(i+1)*step
		c1 := roundPoint(r2.Add(a.At(from), tangent(from)))
		c2 := roundPoint(r2.Sub(a.At(to), tangent(to)))
		end := roundPoint(a.At(to))
		p.CubeTo(c1.X, c1.Y, c2.X, c2.Y, end.X, end.Y)
	}
	if a.Whole() {
		p.Close()
	}
	return p
}
