package picture

import (
	"image"
	"math"
	"testing"
)

// Samples that are spared, since what they would see is known, are not missed:
// beside a picture with 64 samples, each shaded, in every pixel the eye sees no
// difference.
func TestEdgesAgainstAllSamples(t *testing.T) {
	for name, j := range examples(t) {
		s := scene(t, j, Options{Person: 1750})
		const w, h = 240, 180
		s.sketch = false
		img, all := image.NewRGBA(image.Rect(0, 0, w, h)), image.NewRGBA(image.Rect(0, 0, w, h))
		win := s.view.window(w, h)
		f := newFrame(s, &win, img)
		f.side = fine
		f.each((*worker).look)
		f.each((*worker).finish)
		g := newFrame(s, &win, all)
		g.each(func(k *worker, x0, y0 int) {
			k.gather(x0, y0)
			for y := y0; y < min(y0+tile, h); y++ {
				for x := x0; x < min(x0+tile, w); x++ {
					var light several
					for i := range 64 {
						u, v := (float64(i%8)+0.5)/8-0.5, (float64(i/8)+0.5)/8-0.5
						c, _ := k.sample(float64(x)+u, float64(y)+v, win.pixel, new(sky))
						light.add(held(c))
					}
					k.put(x, y, light.mean())
				}
			}
		})
		mean, worst := difference(t, img, all)
		if mean > 0.25 || worst > 2.3 || math.IsNaN(mean) {
			t.Errorf("%s differs from a picture of all samples by %.2f in the mean and %.2f at the most", name, mean, worst)
		}
	}
}
