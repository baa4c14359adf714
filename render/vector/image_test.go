package vector_test

import (
	"bytes"
	"image"
	"image/color"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/vector"
)

// TestImage: a picture stands in both back ends, and the same bytes come of it
// each time.
func TestImage(t *testing.T) {
	m := image.NewRGBA(image.Rect(0, 0, 4, 3))
	for i := range m.Pix {
		m.Pix[i] = byte(20*i%200) | 0x0f
	}
	for x := range 4 {
		m.SetRGBA(x, 0, color.RGBA{200, 30, 30, 255})
	}
	s := &ink.Sheet{Name: "x", Width: 100, Height: 80}
	s.Add(&ink.Image{Box: r2.Box{Min: r2.Vec{X: 10, Y: 20}, Max: r2.Vec{X: 50, Y: 50}}, Image: m, Words: "a <thing>"})
	svg, err := vector.SVG(s)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`<image x="10" y="30" width="40" height="30"`, `aria-label="a &lt;thing&gt;"`, "data:image/png;base64,iVBOR"} {
		if !bytes.Contains(svg, []byte(want)) {
			t.Errorf("the SVG lacks %s", want)
		}
	}
	var first []byte
	for range 3 {
		pdf, err := vector.PDF([]*ink.Sheet{s, s}, vector.Info{Title: "x"})
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(pdf, []byte("/Subtype/Image")) && !bytes.Contains(pdf, []byte("/Subtype /Image")) {
			t.Fatal("the PDF has no image")
		}
		if first == nil {
			first = pdf
		}
		if !bytes.Equal(pdf, first) {
			t.Error("two runs give different bytes")
		}
	}
	s.Add(&ink.Image{Image: m})
	if _, err := vector.SVG(s); err == nil {
		t.Error("an image without a box was drawn")
	}
}
