package solid

import (
	"math"

	"stabile/fab/shop"
	"stabile/param/design"
)

// A Gored is a ball of gores at the middle of its sheet. Lengths are in mm.
type Gored struct {
	Mean    float64 // radius of the sphere that the gores touch
	Half    float64 // half width of a gore at the equator
	End     float64 // along the meridian from the equator to where a gore ends
	Blunt   bool    // ends short of the pole with nothing to close it
	CapEdge float64 // radius of a cap's edge; 0 without caps
	CapRise float64 // of a dished cap at its middle over its edge
	CapFlat bool
	Narrow  float64 // the narrowest end that can be welded: tips are cut blunt there
}

// GoredOf works out the gores of a ball. It reports false where there can be
// none: caps as wide as the ball, or gores narrower than can be welded.
//
// Half width at a distance s from the equator is half times cos(s / mean): see
// design.Part.GoreHalf.
func GoredOf(p *design.Part) (Gored, bool) {
	b := p.Ball
	g := Gored{Mean: b.Radius - p.Metal.Thickness/2, Narrow: shop.Narrowest(b)}
	if !(g.Mean > 0) || b.Gores < 3 || b.Caps < 0 || b.Caps/2 >= g.Mean {
		return g, false
	}
	g.Half = p.GoreHalf()
	if 2*g.Half <= g.Narrow {
		return g, false
	}
	if b.Caps > 0 {
		g.CapEdge = b.Caps / 2
		latitude := p.CapLatitude()
		g.End = g.Mean * latitude
		sin := math.Sin((math.Pi/2 - latitude) / 2)
		g.CapRise = 2 * g.Mean * sin * sin // mean (1 - cos), without cancelling
		g.CapFlat = p.CapIsFlat()
		return g, true
	}
	g.Blunt = true
	g.End = g.Mean * math.Acos(g.Narrow/2/g.Half)
	return g, true
}
