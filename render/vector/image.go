package vector

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image/png"

	"stabile/render/ink"
)

// image writes a picture into the SVG as a PNG, so that the file is whole in
// itself.
func (w *svgWriter) image(m *ink.Image) {
	var b bytes.Buffer
	if err := png.Encode(&b, m.Image); err != nil {
		return // a bytes.Buffer takes every write, and a picture without dots is reported before
	}
	w.style("")
	from, to := roundPoint(m.Box.Min), roundPoint(m.Box.Max)
	fmt.Fprintf(w, `<image x="%s" y="%s" width="%s" height="%s" preserveAspectRatio="none" role="img" aria-label="%s" href="data:image/png;base64,`,
		millimetres(from.X), millimetres(w.sheet.Height-to.Y), millimetres(to.X-from.X), millimetres(to.Y-from.Y), escape(m.Words))
	w.WriteString(base64.StdEncoding.EncodeToString(b.Bytes()))
	w.WriteString("\"/>\n")
}
