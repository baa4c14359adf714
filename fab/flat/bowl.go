package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
)

// bowl weighs a bowl, whose blanks are made: its centre of gravity lies below the centre of
// its ball. A rim that is ground flat loses what stands above its outer edge.
func (d *developer) bowl() {
	b := d.part.Ball
	var sum moment
	if b.RimFlat {
		off := d.grind()
		high := b.RimHeight() + d.part.Metal.Thickness*math.Sin(-b.Rim)/3
		sum = moment{-off, r3.Scale(-off*high, b.Pole)}
	}
	for _, p := range d.pieces() {
		sum = sum.plus(p.measure(p.finished()))
	}
	// Polygons tell where the true area lies.
	d.whole = r3.Scale(d.Mass/d.weigh(1)/sum.area, sum.first)
	d.CG = r3.Add(b.Center, r3.Scale(1/sum.area, sum.first))
}

// grind returns the area of sheet that what is ground off comes to, and takes it from the
// blanks that have the rim. Between the square end of the sheet and the plane of the rim that
// is a triangle, as high as the sheet is thick and as wide as the thickness times the tangent
// of the rim's latitude.
func (d *developer) grind() (all float64) {
	b, t := d.part.Ball, d.part.Metal.Thickness
	tan := -math.Tan(b.Rim)
	mean := b.Radius - t/2
	rim := 2 * math.Pi * mean * math.Cos(b.Rim)
	if s, ok := d.segment(); ok && b.Build != design.Halves {
		rim = 2 * s.width(s.End[design.UpperPole])
	}
	blank := &d.Blanks[0]
	off := rim * t / 2 * tan
	d.Mass -= d.weigh(off) * float64(blank.Quantity)
	blank.Area -= off
	blank.Mass -= d.weigh(off)
	blank.Notes = append(blank.Notes, GrindRim{-t * math.Sin(b.Rim)})
	return off * float64(blank.Quantity)
}

// rain says how much rain a bowl without a drain holds: up to the lowest point of its rim,
// of the sphere that its inside touches.
func (d *developer) rain() {
	b := d.part.Ball
	if b.Drain > 0 {
		return
	}
	inside := b.Radius
	if d.part.Metal != nil && b.Build != design.Bought {
		inside -= d.part.Metal.Thickness
	}
	tilt := math.Acos(max(-1, min(1, b.Pole.Z)))
	deep := inside * (1 + math.Sin(max(-math.Pi/2, b.Rim-tilt)))
	if weight := waterDensity * math.Pi * deep * deep * (inside - deep/3) * 1e-9; weight >= leastRain {
		d.note(finding.Caution, HoldsRain{weight})
	}
}

const (
	waterDensity = 1000.0 // kg/m3
	leastRain    = 0.1    // kg, of rain that is worth naming
)
