package pack

import (
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/render/ink"
)

// A stretch is the part of a long tube that is left out of its drawing: it is plain
// metal. Its ends are in mm of the flat, what stands for it in mm on paper.
type stretch struct {
	from, to float64
	gap      float64
}

func (s stretch) length() float64 { return s.to - s.from }

// Measures of a tube that is drawn with its middle left out.
const (
	leftOutGap = 4.0 // mm on paper
	breakWave  = 1.2 // mm on paper, how far a break line swings
	keptEnds   = 0.6 // of the width, that is drawn of each end at least
)

// plain returns the longest stretch of a tube that may be left out of its drawing; none
// for other blanks.
func (b *blankPanel) plain() (from, to float64) {
	if b.table == nil {
		return 0, 0
	}
	kept := keptEnds * b.width
	return plainOf(b.Blank, b.lo, b.hi, kept, kept/2, 0.15*b.width)
}

// plainOf returns the longest stretch of a tube in which nothing is cut or marked but
// lines along it, within corners of the rectangle about it; none for other blanks. So
// much is kept at each end, beyond its curve, and about what is marked, in mm.
func plainOf(b *flat.Blank, lo, hi r2.Vec, kept, beyond, air float64) (from, to float64) {
	if b.Shape != flat.Tube {
		return 0, 0
	}
	low, high := lo.Y+kept, hi.Y-kept
	for _, q := range b.Outline {
		if q.Y < (lo.Y+hi.Y)/2 {
			low = max(low, q.Y+beyond)
		} else {
			high = min(high, q.Y-beyond)
		}
	}
	if high <= low {
		return 0, 0
	}
	taken := [][2]float64{}
	for _, h := range b.Holes {
		lo, hi := bounds(h.Outline)
		taken = append(taken, [2]float64{lo.Y - air, hi.Y + air})
	}
	for i := range b.Marks {
		m := &b.Marks[i]
		if path := markPath(m); m.Kind == flat.Standing && len(path) > 0 {
			lo, hi := bounds(path)
			taken = append(taken, [2]float64{lo.Y - air, hi.Y + air})
		}
	}
	starts := []float64{low}
	for _, t := range taken {
		starts = append(starts, t[1])
	}
	for _, s := range starts {
		end := high
		if s < low || s > high {
			continue
		}
		for _, t := range taken {
			if t[1] > s && t[0] < end {
				end = t[0]
			}
		}
		if end-s > to-from {
			from, to = s, end
		}
	}
	return from, to
}

// shown returns the least length of a flat that must be drawn to scale.
func (b *blankPanel) shown() float64 {
	from, to := b.plain()
	return b.length - (to - from)
}

// breakFor returns what is left out of a flat at a scale, so that it goes into a
// height on paper; nothing where all of it does.
func (b *blankPanel) breakFor(height, scale float64) stretch {
	over := b.length*scale - height
	if over <= 0 {
		return stretch{}
	}
	from, to := b.plain()
	out := min((over+leftOutGap)/scale, to-from)
	middle := (from + to) / 2
	return stretch{middle - out/2, middle + out/2, leftOutGap}
}

// breakLines draws the lines between which a stretch is left out.
func (f *flatDrawing) breakLines() {
	if f.cut.length() <= 0 {
		return
	}
	wave := func(y float64) []r2.Vec {
		p := f.at(r2.Vec{Y: y})
		a, b := f.box.Min.X-2, f.box.Max.X+2
		mid := (a + b) / 2
		return []r2.Vec{{X: a, Y: p.Y}, {X: mid - 2*breakWave, Y: p.Y}, {X: mid - breakWave/2, Y: p.Y + breakWave}, {X: mid + breakWave/2, Y: p.Y - breakWave}, {X: mid + 2*breakWave, Y: p.Y}, {X: b, Y: p.Y}}
	}
	low, high := wave(f.cut.from), wave(f.cut.to)
	y0, y1 := low[0].Y, high[0].Y
	f.draw.Put(&ink.Fill{Path: []r2.Vec{{X: f.box.Min.X - 1, Y: y0}, {X: f.box.Max.X + 1, Y: y0}, {X: f.box.Max.X + 1, Y: y1}, {X: f.box.Min.X - 1, Y: y1}}, Shade: 1})
	f.draw.Put(&ink.Stroke{Line: ink.Thin, Path: low})
	f.draw.Put(&ink.Stroke{Line: ink.Thin, Path: high})
}
