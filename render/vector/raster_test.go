package vector_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/vector"
)

// TestPNG reads a raster back: what is drawn is where the sheet has it, in its
// shade, and nothing else is.
func TestPNG(t *testing.T) {
	s := &ink.Sheet{Name: "x", Width: 100, Height: 60}
	square := func(x, y, side float64) []r2.Vec {
		return []r2.Vec{{X: x, Y: y}, {X: x + side, Y: y}, {X: x + side, Y: y + side}, {X: x, Y: y + side}}
	}
	blue := image.NewRGBA(image.Rect(0, 0, 2, 2))
	for i := range 4 {
		blue.SetRGBA(i%2, i/2, color.RGBA{0, 0, 200, 255})
	}
	s.Add(
		&ink.Fill{Path: square(10, 10, 20), Shade: 0.5},
		&ink.Stroke{Line: ink.Frame, Path: []r2.Vec{{X: 40, Y: 5}, {X: 40, Y: 55}}},
		ink.Circle(ink.Outline, r2.Vec{X: 60, Y: 30}, 10),
		&ink.Arc{Line: ink.Outline, Center: r2.Vec{X: 85, Y: 15}, Radius: 8, From: 0, To: math.Pi / 2},
		&ink.Image{Box: r2.Box{Min: r2.Vec{X: 75, Y: 40}, Max: r2.Vec{X: 95, Y: 55}}, Image: blue},
		&ink.Text{Text: "MASS", At: r2.Vec{X: 10, Y: 45}, Height: 5},
	)
	const dpi = 254 // ten dots a mm
	data, err := vector.PNG(s, dpi)
	if err != nil {
		t.Fatal(err)
	}
	m, err := png.Decode(bytes.NewReader(data))
	if err != nil || m.Bounds().Size() != (image.Point{1000, 600}) {
		t.Fatalf("the picture is %v, %v", m.Bounds(), err)
	}
	at := func(x, y float64) color.RGBA {
		return color.RGBAModel.Convert(m.At(int(x*10), int((60-y)*10))).(color.RGBA)
	}
	black, white, grey := color.RGBA{0, 0, 0, 255}, color.RGBA{255, 255, 255, 255}, color.RGBA{128, 128, 128, 255}
	diagonal := 8 * math.Sqrt2 / 2
	for _, c := range []struct {
		what string
		x, y float64
		want color.RGBA
	}{
		{"fill", 20, 20, grey}, {"beside the fill", 9, 20, white},
		{"line", 40, 30, black}, {"beside the line", 41, 30, white},
		{"circle, right", 70, 30, black}, {"circle, below", 60, 20, black}, {"its middle", 60, 30, white},
		{"arc", 85 + diagonal, 15 + diagonal, black}, {"the rest of its circle", 85 - diagonal, 15 - diagonal, white},
		{"image", 85, 47, color.RGBA{0, 0, 200, 255}}, {"below the image", 85, 39, white},
	} {
		if got := at(c.x, c.y); got != c.want {
			t.Errorf("%s at %v, %v is %v, want %v", c.what, c.x, c.y, got, c.want)
		}
	}
	dark, width := 0, ink.Width("MASS", 5, ink.Regular)
	for y := 445; y <= 505; y++ {
		for x := 95; x < 380; x++ {
			if v, _, _, _ := m.At(x, 600-y).RGBA(); v < 0x8000 {
				dark++
				if fx, fy := float64(x)/10, float64(y)/10; fx < 10 || fx > 10+width || fy < 44.8 || fy > 50.2 {
					t.Fatalf("writing at %v, %v", fx, fy)
				}
			}
		}
	}
	if share := float64(dark) / (width * 5 * 100); share < 0.1 || share > 0.4 {
		t.Errorf("writing covers %.2f of its box", share)
	}
	if _, err := vector.PNG(s, 1e9); err == nil {
		t.Error("a picture of any size is drawn")
	}
}
