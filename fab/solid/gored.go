package solid

import (
	"math"

	"stabile/fab/shop"
	"stabile/param/design"
)

// A Gored is a ball of gores at the middle of its sheet. Lengths are in mm.
type Gored struct {
	Mean   float64 // radius of the sphere that the gores touch
	Half   float64 // half width of a gore at the equator
	Blunt  bool    // ends short of the poles with nothing to close it
	Narrow float64 // the narrowest end that can be welded: tips are cut blunt there

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
	g := Gored{Mean: b.Radius - p.Metal.Thickness/2, Narrow: shop.Narrowest(b.Narrow)}
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
			g.End[pole] = g.Mean * latitude
			sin := math.Sin((math.Pi/2 - latitude) / 2)
			g.CapRise[pole] = 2 * g.Mean * sin * sin // mean (1 - cos), without cancelling
			g.CapFlat[pole] = p.CapIsFlat(pole)
		}
	} else {
		g.Blunt = true
		end := g.Mean * math.Acos((g.Narrow+p.GoreGap())/2/g.Half)
		g.End = [2]float64{end, end}
	}
	if b.Bowl {
		const up = design.UpperPole
		g.End[up] = g.Mean * b.Rim
	}
	return g, g.End[0]+g.End[1] > 0
}
