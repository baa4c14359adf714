package picture

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/param/design"
	"stabile/param/golden"
)

// How far a picture may be from its golden one, in CIELAB units (Delta E of
// 1976): about 2.3 can just be distinguished by eye (Mahy and others, 1994, from memory).
// Each is the difference of means over squares of 4 pixels, so that neither the
// grain of the dither nor the last bit of another machine's arithmetic counts.
const (
	goldenMean  = 0.4 // on average over the picture
	goldenWorst = 4.0 // in any square
)

func TestGolden(t *testing.T) {
	type shot struct {
		j *fab.Job
		o Options
	}
	shots := make(map[string]shot)
	all := examples(t)
	for name, j := range all {
		shots[name] = shot{j, Options{Beside: Person}}
	}
	kinds := all["every-kind"]
	for _, kind := range []design.FinishKind{design.Paint, design.Galvanize, design.Weather, design.Brushed} {
		d := *kinds.Design
		d.Finish = &design.Finish{Name: "blue", Kind: kind}
		k := *kinds
		k.Design = &d
		shots["every-kind-"+string(kind)] = shot{&k, Options{From: new(4.4), Sun: new(3.4)}}
	}
	shots["backdrop"] = shot{all["slow-tide"], Options{Backdrop: color.RGBA{216, 207, 196, 255}, From: new(4.0), Sketch: true}}
	shots["from-above"] = shot{all["winter-orchard"], Options{Eye: 5000, Distance: 3000, Beside: Person, Person: 1750}}
	for _, name := range slices.Sorted(maps.Keys(shots)) {
		s := shots[name]
		img := scene(t, s.j, s.o).Render(240, 180)
		path := filepath.Join("testdata", name+".png")
		if golden.Updating() {
			data, err := PNG(img)
			require.NoError(t, err)
			require.NoError(t, os.MkdirAll("testdata", 0o777))
			require.NoError(t, os.WriteFile(path, data, 0o644))
			continue
		}
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		want, err := png.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		mean, worst := difference(t, img, want)
		if mean > goldenMean || worst > goldenWorst {
			t.Errorf("%s differs from its golden picture by %.2f in the mean and %.2f at the most", name, mean, worst)
		}
	}
}

// difference returns the mean and the greatest difference of two pictures.
func difference(t *testing.T, a, b image.Image) (mean, worst float64) {
	t.Helper()
	require.Equal(t, a.Bounds(), b.Bounds())
	const side = 4
	n := 0
	for y := 0; y < a.Bounds().Dy(); y += side {
		for x := 0; x < a.Bounds().Dx(); x += side {
			p, q := lab(a, x, y, side), lab(b, x, y, side)
			d := math.Sqrt((p[0]-q[0])*(p[0]-q[0]) + (p[1]-q[1])*(p[1]-q[1]) + (p[2]-q[2])*(p[2]-q[2]))
			mean += d
			worst = max(worst, d)
			n++
		}
	}
	return mean / float64(n), worst
}

// lab returns the CIELAB of a square's mean light, under D65.
func lab(img image.Image, x0, y0, side int) [3]float64 {
	var c rgb
	n := 0.0
	for y := y0; y < min(y0+side, img.Bounds().Dy()); y++ {
		for x := x0; x < min(x0+side, img.Bounds().Dx()); x++ {
			c = c.add(linear(img.At(x, y)))
			n++
		}
	}
	c = c.scale(1 / n)
	f := func(v float64) float64 {
		if v > 216.0/24389 {
			return math.Cbrt(v)
		}
		return (24389.0/27*v + 16) / 116
	}
	x := f((0.4124*c.r + 0.3576*c.g + 0.1805*c.b) / 0.9505)
	y := f(0.2126*c.r + 0.7152*c.g + 0.0722*c.b)
	z := f((0.0193*c.r + 0.1192*c.g + 0.9505*c.b) / 1.0890)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

// The measure sees what an eye sees: a picture of another light, or with a part
// moved.
func TestGoldenSees(t *testing.T) {
	j := job(t, "../../examples", "slow-tide")
	a := scene(t, j, Options{Sun: new(3.0)}).Render(240, 180)
	b := scene(t, j, Options{Sun: new(3.2)}).Render(240, 180)
	c := scene(t, j, Options{Sun: new(3.0), From: new(fromBearing + 0.03)}).Render(240, 180)
	for name, img := range map[string]image.Image{"sun": b, "view": c} {
		if mean, worst := difference(t, a, img); mean <= goldenMean && worst <= goldenWorst {
			t.Errorf("another %s differs by %.2f in the mean and %.2f at the most, which passes", name, mean, worst)
		}
	}
	if mean, worst := difference(t, a, a); mean != 0 || worst != 0 {
		t.Errorf("a picture differs from itself by %v and %v", mean, worst)
	}
}
