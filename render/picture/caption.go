package picture

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"stabile/param/quantity"
)

// heightText returns a height as one says it: of a person in feet and inches, or in
// metres; of less in inches, or in millimetres.
func heightText(mm float64, s quantity.System) string {
	if s != quantity.Inch && mm < 999.5 {
		return quantity.Decimal(mm, 0) + " mm"
	}
	if s != quantity.Inch {
		return quantity.Decimal(mm/1000, 2) + " m"
	}
	const inch = 25.4
	quarters := math.Round(mm / inch * 4)
	if quarters < 4*48 {
		return quantity.Fraction(quarters/4, 4) + " in"
	}
	feet := math.Floor(quarters / 48)
	rest := quantity.Fraction((quarters-48*feet)/4, 4)
	switch {
	case feet == 0:
		return rest + " in"
	case rest == "0":
		return quantity.Decimal(feet, 0) + " ft"
	}
	return quantity.Decimal(feet, 0) + " ft " + rest + " in"
}

// writeHeight writes the height of what shows the size over it.
func (s *Scene) writeHeight(img *image.RGBA, w *window) {
	x, y, _ := w.place(s.captionAt)
	size := min(max(0.0165*float64(max(img.Rect.Dx(), img.Rect.Dy())), 9), 40)
	ttf, err := opentype.Parse(goregular.TTF)
	if err != nil {
		panic("picture: typeface: " + err.Error()) // it is part of the program
	}
	face, err := opentype.NewFace(ttf, &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		panic("picture: typeface: " + err.Error())
	}
	defer face.Close()
	d := font.Drawer{Dst: img, Src: image.NewUniform(readable(img, int(x), int(y-size/2))), Face: face}
	wide := float64(d.MeasureString(s.caption)) / 64
	left := min(max(x-wide/2, 2), max(2, float64(img.Rect.Dx())-wide-2))
	d.Dot = fixed.Point26_6{X: fixed.Int26_6(left * 64), Y: fixed.Int26_6(max(y, size) * 64)}
	d.DrawString(s.caption)
}

// readable returns a grey that reads on what is at a place of the picture.
func readable(img *image.RGBA, x, y int) color.Color {
	c := img.RGBAAt(min(max(x, 0), img.Rect.Dx()-1), min(max(y, 0), img.Rect.Dy()-1))
	if 299*int(c.R)+587*int(c.G)+114*int(c.B) > 110_000 {
		return color.RGBA{44, 48, 54, 255}
	}
	return color.RGBA{226, 228, 230, 255}
}
