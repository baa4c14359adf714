package vector

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"math"

	"github.com/fogleman/gg"
	"github.com/tdewolff/canvas"
	"golang.org/x/image/draw"
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// mostDots is the greatest number of dots of a raster picture, some 400 MB.
const mostDots = 100_000_000

// PNG returns a sheet as a picture of dots, black on white, at the given number
// of dots an inch.
func PNG(s *ink.Sheet, dpi float64) ([]byte, error) {
	if err := drawable(s); err != nil {
		return nil, fmt.Errorf("png: %w", err)
	}
	scale := dpi / 25.4
	w, h := math.Round(s.Width*scale), math.Round(s.Height*scale)
	if !(w >= 1 && h >= 1 && w*h <= mostDots) {
		return nil, errors.New("png: the picture would be too large or have no dots")
	}
	r := &raster{gg.NewContext(int(w), int(h)), scale, s.Height}
	r.SetRGB(1, 1, 1)
	r.Clear()
	for _, item := range s.Items {
		r.item(item)
	}
	var b bytes.Buffer
	if err := png.Encode(&b, r.Image()); err != nil {
		return nil, fmt.Errorf("png: %w", err)
	}
	return b.Bytes(), nil
}

// A raster draws a sheet in dots.
type raster struct {
	*gg.Context
	scale  float64 // dots a mm
	height float64 // mm
}

// at returns where a point of the sheet lies in dots, y down.
func (r *raster) at(p r2.Vec) (x, y float64) { return p.X * r.scale, (r.height - p.Y) * r.scale }

func (r *raster) item(item ink.Item) {
	switch it := item.(type) {
	case *ink.Stroke:
		if len(it.Path) >= 2 {
			r.path(it.Path, it.Closed)
			r.stroke(it.Line)
		}
	case *ink.Arc:
		x, y := r.at(it.Center)
		r.NewSubPath()
		r.DrawArc(x, y, it.Radius*r.scale, -it.From, -it.To)
		r.stroke(it.Line)
	case *ink.Fill:
		r.path(it.Path, true)
		r.fill(it.Shade)
	case *ink.Image:
		r.image(it)
	case *ink.Text:
		if it.Halo {
			r.path(it.Cleared(), true)
			r.fill(1)
		}
		r.text(it)
	}
}

func (r *raster) path(path []r2.Vec, closed bool) {
	r.ClearPath()
	for _, p := range path {
		r.LineTo(r.at(p))
	}
	if closed {
		r.ClosePath()
	}
}

func (r *raster) stroke(l ink.Line) {
	limb := limbOf(l)
	r.SetLineCap(gg.LineCapRound)
	if limb.cap == "butt" {
		r.SetLineCap(gg.LineCapButt)
	}
	r.SetLineJoin(gg.LineJoinRound)
	dashes := l.Dashes()
	for i := range dashes {
		dashes[i] *= r.scale
	}
	r.SetDash(dashes...)
	r.SetLineWidth(l.Width() * r.scale)
	r.SetRGB(0, 0, 0)
	r.Stroke()
}

func (r *raster) fill(shade float64) {
	g := float64(grey(shade)) / 255
	r.SetRGB(g, g, g)
	r.Fill()
}

func (r *raster) image(m *ink.Image) {
	x0, y0 := r.at(r2.Vec{X: m.Box.Min.X, Y: m.Box.Max.Y})
	x1, y1 := r.at(r2.Vec{X: m.Box.Max.X, Y: m.Box.Min.Y})
	to := image.Rect(int(math.Round(x0)), int(math.Round(y0)), int(math.Round(x1)), int(math.Round(y1)))
	if dots, ok := r.Image().(draw.Image); ok {
		draw.CatmullRom.Scale(dots, to, m.Image, m.Image.Bounds(), draw.Src, nil)
	}
}

// text draws the outlines of the letters, placed as the other back ends do.
func (r *raster) text(t *ink.Text) {
	start := t.Start()
	sin, cos := math.Sincos(t.Angle)
	em, x := t.Face.Em(t.Height), 0.0
	place := func(p canvas.Point) (float64, float64) {
		along, up := x+em*p.X, em*p.Y
		return r.at(r2.Vec{X: start.X + along*cos - up*sin, Y: start.Y + along*sin + up*cos})
	}
	r.ClearPath()
	for _, c := range t.Line() {
		for scan := (letter{t.Face, c}).outline().Scanner(); scan.Scan(); {
			x1, y1 := place(scan.End())
			switch scan.Cmd() {
			case canvas.MoveToCmd:
				r.MoveTo(x1, y1)
			case canvas.LineToCmd:
				r.LineTo(x1, y1)
			case canvas.QuadToCmd:
				cx, cy := place(scan.CP1())
				r.QuadraticTo(cx, cy, x1, y1)
			case canvas.CubeToCmd:
				cx, cy := place(scan.CP1())
				dx, dy := place(scan.CP2())
				r.CubicTo(cx, cy, dx, dy, x1, y1)
			case canvas.CloseCmd:
				r.ClosePath()
			}
		}
		x += ink.Width(string(c), t.Height, t.Face)
	}
	r.fill(0)
}
