package picture

import (
	"image/color"
	"math"
)

// An rgb is light of the three primaries of sRGB, in linear measure.
type rgb struct{ r, g, b float64 }

func (c rgb) add(d rgb) rgb       { return rgb{c.r + d.r, c.g + d.g, c.b + d.b} }
func (c rgb) times(d rgb) rgb     { return rgb{c.r * d.r, c.g * d.g, c.b * d.b} }
func (c rgb) scale(f float64) rgb { return rgb{f * c.r, f * c.g, f * c.b} }
func (c rgb) mix(d rgb, f float64) rgb {
	return rgb{c.r + f*(d.r-c.r), c.g + f*(d.g-c.g), c.b + f*(d.b-c.b)}
}

// luminance is that of ITU-R BT.709.
func (c rgb) luminance() float64 { return 0.2126*c.r + 0.7152*c.g + 0.0722*c.b }

// linear returns the light that a colour of the screen stands for, by the
// transfer function of IEC 61966-2-1.
func linear(c color.Color) rgb {
	r, g, b, _ := c.RGBA()
	f := func(v uint32) float64 {
		x := float64(v) / 0xffff
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return rgb{f(r), f(g), f(b)}
}

// screen is the inverse of linear for one primary, from 0 to 1.
func screen(x float64) float64 {
	if x <= 0.0031308 {
		return 12.92 * x
	}
	return 1.055*math.Pow(x, 1/2.4) - 0.055
}

// film bends light to what paper and screen can show: straight in the shadows,
// with a long shoulder to white. It is the rational fit by K. Narkowicz (2015)
// of the ACES reference, from memory.
func film(x float64) float64 {
	return min(1, x*(2.51*x+0.03)/(x*(2.43*x+0.59)+0.14))
}

// tones is a table of screen(film(x)) over the root of x, in which the curve is
// nearly straight.
type tones [1025]float32

// brightest is the light that comes out white.
const brightest = 12.0

func newTones() *tones {
	t := new(tones)
	for i := range t {
		x := float64(i) / float64(len(t)-1)
		t[i] = float32(screen(film(brightest * x * x)))
	}
	return t
}

// of returns how bright light is on the screen, from 0 to 1.
func (t *tones) of(x float64) float32 {
	if !(x > 0) {
		return t[0]
	}
	f := math.Sqrt(min(x, brightest)*(1/brightest)) * float64(len(t)-1)
	i := min(int(f), len(t)-2)
	return t[i] + float32(f-float64(i))*(t[i+1]-t[i])
}
