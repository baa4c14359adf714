package solid

import (
	"math"

	"stabile/fab/shop"
	"stabile/param/design"
)

// A Gored is a ball of gores at the middle of its sheet. Lengths are in mm.
type Gored struct {
	Mean   float64 // radius of the sphere that the gores touch; of an egg at its equator
	Half   float64 // half width of a gore at the equator
	Blunt  bool    // ends short of the poles with nothing to close it
	Narrow float64 // the narrowest end that can be welded: tips are cut blunt there

	profile design.Profile // of the outside
	depth   float64        // of the middle of the sheet under it
	meet    float64        // of where gores are as wide as the planes between them leave room for

	// Of the lower pole and the upper, where a bowl has its rim.
	End     [2]float64 // along the meridian from the equator to where a gore ends; of a rim less than 0, or 0
	CapEdge [2]float64 // radius of a cap's edge; 0 without caps
	CapRise [2]float64 // of a dished cap at its middle over its edge
	CapFlat [2]bool
}

// GoredOf works out the gores of a ball. It reports false where there can be
// none: caps as wide as the ball, or gores narrower than can be welded.
//
// Half width at a distance s from the equator is half times cos(s / mean): see
// design.Part.GoreHalf.
func GoredOf(p *design.Part) (Gored, bool) {
	b := p.Ball
	g := Gored{
		Mean: b.Radius - p.Metal.Thickness/2, Narrow: shop.Narrowest(b.Narrow),
		profile: b.Profile(), depth: p.Metal.Thickness / 2, meet: p.GoreMeet(),
	}
	if !(g.Mean > 0) || b.Gores < 3 || b.Caps < 0 || max(b.Caps, b.UpperCap)/2 >= g.Mean {
		return g, false
	}
	g.Half = p.GoreHalf()
	if 2*g.Half-p.GoreGap() <= g.Narrow {
		return g, false
	}
	if b.Caps > 0 {
		for pole := range g.End {
			g.CapEdge[pole] = b.CapAt(pole) / 2
			latitude := p.CapLatitude(pole)
			g.End[pole] = g.profile.Arc(latitude, g.depth)
			sin := math.Sin((math.Pi/2 - latitude) / 2)
			g.CapRise[pole] = 2 * g.Mean * sin * sin // mean (1 - cos), without cancelling
			if b.IsEgg() {
				_, edge := g.profile.At(latitude, g.depth)
				g.CapRise[pole] = b.Polar() - g.depth - edge
			}
			g.CapFlat[pole] = p.CapIsFlat(pole)
		}
	} else {
		g.Blunt = true
		end := g.Mean * math.Acos((g.Narrow+p.GoreGap())/2/g.Half)
		if b.IsEgg() {
			end = g.profile.Arc(p.GoreEnd((g.Narrow+p.GoreGap())/2), g.depth)
		}
		g.End = [2]float64{end, end}
	}
	if b.Bowl {
		const up = design.UpperPole
		g.End[up] = g.Mean * b.Rim
	}
	return g, g.End[0]+g.End[1] > 0
}

// Latitude returns the latitude in rad of the line square to the sheet at a distance along the
// meridian from the equator.
func (g *Gored) Latitude(along float64) float64 { return g.profile.Latitude(along, g.depth) }

// At returns how far the middle of the sheet is from the axis through the poles, and its height
// from the equator, at a distance along the meridian.
func (g *Gored) At(along float64) (radius, height float64) {
	return g.profile.At(g.Latitude(along), g.depth)
}

// Wide returns half of the width that a gore has at a distance along the meridian.
func (g *Gored) Wide(along float64) float64 {
	if g.profile.Round() {
		return g.Half * math.Cos(along/g.Mean)
	}
	return g.WideAt(g.Latitude(along))
}

// WideAt is Wide by latitude.
func (g *Gored) WideAt(latitude float64) float64 {
	radius, _ := g.profile.At(latitude, g.meet)
	return g.Half * radius / (g.profile.Across - g.meet)
}

// Bends returns the radii to which the middle of the sheet is bent at a latitude, along the
// meridian and square to it.
func (g *Gored) Bends(latitude float64) (along, across float64) {
	along, across = g.profile.Bends(latitude)
	return along - g.depth, across - g.depth
}
