package inspect

import "math"

// thin is the share of a sheet under which it is thin: what is on it should stand on
// another.
const thin = 1.0 / 3

// band is the height, in mm, of the bands in which the use of a sheet is measured.
const band = 5.0

// used returns the share of a framed sheet's height over its title block in which something
// is drawn or written. It reports false for a bare page.
func (p *page) used() (share float64, ok bool) {
	f := p.frame
	if f == nil {
		return 0, false
	}
	// The block's upper edge is the highest line from side to side of the frame.
	low := f.Min.Y
	for i := range p.lines {
		l := &p.lines[i]
		if l.box.Max.Y-l.box.Min.Y < rounded && l.box.Min.X < f.Min.X+1 && l.box.Max.X > f.Max.X-1 && l.box.Max.Y < f.Max.Y-1 {
			low = max(low, l.box.Max.Y)
		}
	}
	bands := make([]bool, int(math.Ceil((f.Max.Y-low)/band)))
	mark := func(from, to float64) {
		for i := range bands {
			a := low + float64(i)*band
			if to > a && from < a+band && to > low && from < f.Max.Y {
				bands[i] = true
			}
		}
	}
	for i := range p.texts {
		if b := p.texts[i].box; within(b, *f, 0) {
			mark(max(b.Min.Y, low), b.Max.Y)
		}
	}
	for i := range p.lines {
		if b := p.lines[i].box; within(b, *f, 0) && b.Max.X-b.Min.X < f.Max.X-f.Min.X-1 && b.Min.Y > low {
			mark(b.Min.Y, b.Max.Y)
		}
	}
	n := 0
	for _, in := range bands {
		if in {
			n++
		}
	}
	return float64(n) / float64(len(bands)), true
}
