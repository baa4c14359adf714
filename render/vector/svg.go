package vector

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// The SVG is written here and not by the library, for the sake of its readers:
// a cutting table's importer and a person with a text editor. It has plain
// absolute paths in millimetres without transforms, style sheets or packed arc
// flags, groups by name for the lines to cut and to mark, and the words of each
// text, none of which the library gives. The library still turns letters into
// outlines.
//
// Texts are outlines so that the sheet looks the same on a machine without the
// typeface. A sheet has the outline of each letter once, at each size, and then
// says where it stands; in Plain files, which machines read, the outlines
// themselves stand there. The words are beside each text as its label, where a
// search through the file and a screen reader find them.

// SVG returns the sheet as an SVG document in true millimetres.
//
// Strokes and arcs of a named group are gathered in one <g> with the name as
// its id, drawn where the first of them stands in the sheet; everything else
// keeps the order of the sheet.
func SVG(s *ink.Sheet) ([]byte, error) {
	if err := drawable(s); err != nil {
		return nil, fmt.Errorf("svg: %w", err)
	}
	w := newSVG(s)
	done := make(map[string]bool)
	for _, item := range s.Items {
		switch name := groupOf(item); {
		case name == "":
			w.item(item)
		case !done[name]:
			done[name] = true
			w.group(name)
		}
	}
	w.style("")
	w.WriteString("</svg>\n")

	whole := newSVG(s)
	// The style is for viewers with a dark background. A rectangle would be
	// taken for a line to cut.
	whole.head(` xmlns:xlink="http://www.w3.org/1999/xlink" style="background:#fff"`)
	whole.define(w.used)
	whole.Write(w.Bytes())
	return whole.Bytes(), nil
}

type svgWriter struct {
	bytes.Buffer
	sheet    *ink.Sheet
	open     string // the attributes of the <g> that is open; "" for none
	stencils map[cut]*stencil
	used     []*stencil // those that the document is to define, in order of first use
}

func newSVG(s *ink.Sheet) *svgWriter {
	return &svgWriter{sheet: s, stencils: make(map[cut]*stencil)}
}

// head writes the start of a document, with attributes of its own.
func (w *svgWriter) head(attributes string) {
	title := w.sheet.Title
	if title == "" {
		title = w.sheet.Name
	}
	fmt.Fprintf(w, `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="%[1]smm" height="%[2]smm" viewBox="0 0 %[1]s %[2]s"%[4]s role="img" aria-labelledby="title">
<title id="title">%[3]s</title>
`, millimetres(w.sheet.Width), millimetres(w.sheet.Height), escape(title), attributes)
}

func groupOf(item ink.Item) string {
	switch it := item.(type) {
	case *ink.Stroke:
		return it.Group
	case *ink.Arc:
		return it.Group
	}
	return ""
}

func (w *svgWriter) group(name string) {
	w.style("")
	fmt.Fprintf(w, "<g id=\"%s\">\n", escape(name))
	for _, item := range w.sheet.Items {
		if groupOf(item) == name {
			w.item(item)
		}
	}
	w.style("")
	w.WriteString("</g>\n")
}

// style opens a <g> with the attributes, unless it is open already, and closes
// the one before.
func (w *svgWriter) style(attributes string) {
	if attributes == w.open {
		return
	}
	if w.open != "" {
		w.WriteString("</g>\n")
	}
	if attributes != "" {
		fmt.Fprintf(w, "<g %s>\n", attributes)
	}
	w.open = attributes
}

func (w *svgWriter) item(item ink.Item) {
	switch it := item.(type) {
	case *ink.Stroke:
		if len(it.Path) < 2 {
			return
		}
		w.style(strokeStyle(it.Line))
		w.path(it.Path, it.Closed)
	case *ink.Arc:
		w.style(strokeStyle(it.Line))
		w.arc(it)
	case *ink.Fill:
		w.fill(it.Path, it.Shade)
	case *ink.Image:
		w.image(it)
	case *ink.Text:
		if it.Halo {
			w.fill(it.Cleared(), 1)
		}
		w.style(fillStyle(0))
		w.text(it)
	}
}

func (w *svgWriter) fill(path []r2.Vec, shade float64) {
	w.style(fillStyle(shade))
	w.path(path, true)
}

func (w *svgWriter) path(path []r2.Vec, closed bool) {
	w.WriteString(`<path d="`)
	w.polyline(path, closed)
	w.WriteString("\"/>\n")
}

func strokeStyle(l ink.Line) string {
	limb := limbOf(l)
	s := fmt.Sprintf(`fill="none" stroke="#000" stroke-width="%s" stroke-linecap="%s" stroke-linejoin="%s"`,
		millimetres(l.Width()), limb.cap, limb.join)
	if dashes := l.Dashes(); dashes != nil {
		s += ` stroke-dasharray="`
		for i, d := range dashes {
			if i > 0 {
				s += " "
			}
			s += millimetres(d)
		}
		s += `"`
	}
	return s
}

func fillStyle(shade float64) string {
	g := grey(shade)
	return fmt.Sprintf(`fill="#%02x%02x%02x"`, g, g, g)
}

// polyline writes path data. SVG has y down from the top of the sheet.
func (w *svgWriter) polyline(path []r2.Vec, closed bool) {
	for i, p := range path {
		switch i {
		case 0:
			w.WriteByte('M')
		case 1:
			w.WriteByte('L')
		default:
			w.WriteByte(' ')
		}
		w.point(p)
	}
	if closed {
		w.WriteByte('Z')
	}
}

func (w *svgWriter) arc(a *ink.Arc) {
	if a.Whole() {
		c := roundPoint(a.Center)
		fmt.Fprintf(w, "<circle cx=\"%s\" cy=\"%s\" r=\"%s\"/>\n",
			millimetres(c.X), millimetres(w.sheet.Height-c.Y), millimetres(a.Radius))
		return
	}
	// In quarters, since the centre of an arc of nearly half a turn cannot be
	// distinguished from its rounded ends.
	r := millimetres(a.Radius)
	w.WriteString(`<path d="M`)
	w.point(a.At(a.From))
	pieces := math.Ceil((a.To - a.From) / (math.Pi / 2))
	for i := 1.0; i <= pieces; i++ {
		fmt.Fprintf(w, "A%s %s 0 0 0 ", r, r)
		w.point(a.At(a.From + (a.To-a.From)*i/pieces))
	}
	w.WriteString("\"/>\n")
}

func (w *svgWriter) point(p r2.Vec) {
	w.number(p.X)
	w.WriteByte(' ')
	w.number(w.sheet.Height - p.Y)
}

func (w *svgWriter) number(mm float64) {
	w.Write(appendMillimetres(w.AvailableBuffer(), mm))
}

func millimetres(mm float64) string { return string(appendMillimetres(nil, mm)) }

// appendMillimetres appends a length in mm to the micrometre, without trailing
// zeros.
func appendMillimetres(to []byte, mm float64) []byte {
	mm = round(mm)
	if mm == 0 {
		return append(to, '0') // never -0
	}
	return strconv.AppendFloat(to, mm, 'f', -1, 64)
}

func escape(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a bytes.Buffer takes every write
	return b.String()
}
