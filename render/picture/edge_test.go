package picture

import (
	"image"
	"math"
	"testing"
)

// Samples that are spared, since what they would see is known, are not missed: a
// picture with 64 samples, each shaded, in every pixel differs from it by no more
// than the eye can tell, or at an edge between bright and dark by no more than
// from one with 16 samples in the same places, each shaded. From that one it differs
// by no more than a golden picture may.
func TestEdgesAgainstAllSamples(t *testing.T) {
	for name, j := range examples(t) {
		s := scene(t, j, Options{Beside: Person, Person: 1750})
		const w, h = 240, 180
		s.sketch = false
		img, all := image.NewRGBA(image.Rect(0, 0, w, h)), image.NewRGBA(image.Rect(0, 0, w, h))
		win := s.view.window(w, h)
		f := newFrame(s, &win, img)
		f.side = fine
		f.each((*worker).look)
		f.each((*worker).finish)
		sixteen := image.NewRGBA(image.Rect(0, 0, w, h))
		newFrame(s, &win, sixteen).each(func(k *worker, x0, y0 int) {
			k.gather(x0, y0)
			for y := y0; y < min(y0+tile, h); y++ {
				for x := x0; x < min(x0+tile, w); x++ {
					var light several
					for i := range fine * fine {
						u, v := k.jitter(x, y, i, fine)
						p := k.sample(float64(x)+u, float64(y)+v, win.pixel, new(sky))
						light.add(held(p.rgb()))
					}
					k.put(x, y, k.overlay(x, y, light.mean()))
				}
			}
		})
		g := newFrame(s, &win, all)
		g.each(func(k *worker, x0, y0 int) {
			k.gather(x0, y0)
			for y := y0; y < min(y0+tile, h); y++ {
				for x := x0; x < min(x0+tile, w); x++ {
					var light several
					for i := range 64 {
						u, v := (float64(i%8)+0.5)/8-0.5, (float64(i/8)+0.5)/8-0.5
						p := k.sample(float64(x)+u, float64(y)+v, win.pixel, new(sky))
						light.add(held(p.rgb()))
					}
					k.put(x, y, k.overlay(x, y, light.mean()))
				}
			}
		})
		mean, worst := difference(t, img, all)
		_, worst16 := difference(t, sixteen, all)
		if mean > 0.25 || worst > max(2.3, worst16) || math.IsNaN(mean) {
			t.Errorf("%s differs from a picture of all samples by %.2f in the mean and %.2f at the most, one of 16 samples by %.2f", name, mean, worst, worst16)
		}
		if mean, worst := difference(t, img, sixteen); mean > goldenMean || worst > goldenWorst {
			t.Errorf("%s differs from a picture of the same 16 samples, none spared, by %.2f in the mean and %.2f at the most", name, mean, worst)
		}
	}
}
