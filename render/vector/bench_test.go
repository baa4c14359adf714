//go:build unix

package vector_test

import (
	"bytes"
	"image/color"
	"math"
	"syscall"
	"testing"
	"time"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/pdf"
	"github.com/tdewolff/canvas/renderers/svg"

	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/internal/sample"
	"stabile/render/pack"
	"stabile/render/vector"
)

// BenchmarkPack makes the pack of a design of 30 parts as files: the sheets, the
// PDF and an SVG of each sheet. In the same run the drawing library writes the
// same lines and texts by its own means, as a PDF and as SVGs with writing as
// outlines. ratio is the time of the whole pack over that of the library, and
// PDF-ratio that of our PDF, bookmarks and all, over the library's. The sizes of
// the files are given besides. All times but ns/op are of the processor alone, so
// that other work on the machine does not show.
func BenchmarkPack(b *testing.B) {
	j := sample.Job(sample.Random(4, 30, quantity.Millimetre))
	var drawing, writing, library, ours, theirs time.Duration
	var pages, document, pictures int
	for b.Loop() {
		start := used(b)
		sheets := pack.Sheets(j, pack.Options{})
		drawn := used(b)
		data, err := vector.PDF(sheets, vector.Info{Title: j.Design.Title})
		if err != nil {
			b.Fatal(err)
		}
		ours += used(b) - drawn
		pages, document, pictures = len(sheets), len(data), 0
		for _, s := range sheets {
			data, err := vector.SVG(s)
			if err != nil {
				b.Fatal(err)
			}
			pictures += len(data)
		}
		drawing, writing = drawing+drawn-start, writing+used(b)-drawn
		b.StopTimer() // the library's time is its own
		start = used(b)
		family := typefaces(b)
		barePDF(b, sheets, family)
		theirs += used(b) - start
		bareSVG(b, sheets, family)
		library += used(b) - start
		b.StartTimer()
	}
	per := func(d time.Duration) float64 { return d.Seconds() * 1e3 / float64(b.N) }
	b.ReportMetric(per(drawing), "drawing-ms/op")
	b.ReportMetric(per(writing), "writing-ms/op")
	b.ReportMetric(per(library), "library-ms/op")
	b.ReportMetric(float64(drawing+writing)/float64(library), "ratio")
	b.ReportMetric(float64(ours)/float64(theirs), "PDF-ratio")
	b.ReportMetric(float64(pages), "sheets")
	b.ReportMetric(float64(document)/1e3, "PDF-kB")
	b.ReportMetric(float64(pictures)/1e3, "SVGs-kB")
}

// used returns the processor's time that the program has used.
func used(b *testing.B) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

func typefaces(b *testing.B) *canvas.FontFamily {
	family := canvas.NewFontFamily("Go")
	for _, face := range []ink.Face{ink.Regular, ink.Bold} {
		if err := family.LoadFont(face.TTF(), 0, styleOf(face)); err != nil {
			b.Fatal(err)
		}
	}
	return family
}

func styleOf(f ink.Face) canvas.FontStyle {
	if f == ink.Bold {
		return canvas.FontBold
	}
	return canvas.FontRegular
}

// barePDF writes sheets as one document with the drawing library alone.
func barePDF(b *testing.B, sheets []*ink.Sheet, family *canvas.FontFamily) {
	var document bytes.Buffer
	p := pdf.New(&document, sheets[0].Width, sheets[0].Height, nil)
	for i, s := range sheets {
		if i > 0 {
			p.NewPage(s.Width, s.Height)
		}
		bareItems(p, s, family, p.RenderText)
	}
	if err := p.Close(); err != nil {
		b.Fatal(err)
	}
}

// bareSVG writes each sheet as an SVG with the drawing library alone.
func bareSVG(b *testing.B, sheets []*ink.Sheet, family *canvas.FontFamily) {
	for _, s := range sheets {
		var picture bytes.Buffer
		r := svg.New(&picture, s.Width, s.Height, &svg.Options{SizeUnits: "mm"})
		bareItems(r, s, family, func(t *canvas.Text, m canvas.Matrix) { t.RenderAsPath(r, m, 0) })
		if err := r.Close(); err != nil {
			b.Fatal(err)
		}
	}
}

func bareItems(r canvas.Renderer, s *ink.Sheet, family *canvas.FontFamily, write func(*canvas.Text, canvas.Matrix)) {
	grey := func(shade float64) canvas.Paint {
		g := uint8(math.Round(255 * shade))
		return canvas.Paint{Color: color.RGBA{g, g, g, 255}}
	}
	line := func(l ink.Line, p *canvas.Path) {
		dashes := l.Dashes()
		for i := range dashes {
			dashes[i] /= l.Width()
		}
		r.RenderPath(p, canvas.Style{Stroke: grey(0), StrokeWidth: l.Width(), StrokeCapper: canvas.RoundCap, StrokeJoiner: canvas.RoundJoin, Dashes: dashes}, canvas.Identity)
	}
	for _, item := range s.Items {
		p := &canvas.Path{}
		switch it := item.(type) {
		case *ink.Stroke:
			for _, q := range it.Path {
				p.LineTo(q.X, q.Y)
			}
			if it.Closed {
				p.Close()
			}
			line(it.Line, p)
		case *ink.Arc:
			q := it.At(it.From)
			p.MoveTo(q.X, q.Y)
			p.Arc(it.Radius, it.Radius, 0, it.From*180/math.Pi, it.To*180/math.Pi)
			line(it.Line, p)
		case *ink.Fill:
			for _, q := range it.Path {
				p.LineTo(q.X, q.Y)
			}
			p.Close()
			r.RenderPath(p, canvas.Style{Fill: grey(it.Shade)}, canvas.Identity)
		case *ink.Text:
			face := family.Face(it.Face.Em(it.Height)*72/25.4, styleOf(it.Face), canvas.Black)
			at := it.Start()
			write(canvas.NewTextLine(face, it.Line(), canvas.Left), canvas.Identity.Translate(at.X, at.Y).Rotate(it.Angle*180/math.Pi))
		}
	}
}
