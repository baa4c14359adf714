package picture

import (
	"image/color"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/quantity"
)

// Options are how a piece is to be looked at. The zero Options are a
// three-quarter view under open sky, without a figure. Lengths are in mm, angles
// in rad.
type Options struct {
	From     *float64 // the bearing at which the viewer stands; nil for a three-quarter view
	Eye      float64  // height of the eye above the ground; 0 for that of a standing viewer, lower for a small piece
	Distance float64  // in plan, from the eye to the middle of the piece; 0 for one that suits its size
	Person   float64  // height of the standing figure; 0 for none
	Sun      *float64 // the bearing at which the sun stands; nil for over the viewer's shoulder

	Units    quantity.System // of the figure's height as it is written; none for those of the design
	Backdrop color.Color     // in the place of the sky; nil for the sky
	Paint    color.Color     // of a painted finish; nil for what its name says
	Seed     uint64          // of the irregularities of surfaces
	Sketch   bool            // with fewer samples; a small picture is made so by itself

	// Frame is the box that is to fill the picture in the place of the piece, so
	// that several pieces come out to one scale; empty for the piece. Round
	// frames the piece as seen from all round, so that it keeps its place when it
	// is turned.
	Frame r3.Box
	Round bool
}

// Heights of a standing adult, in mm, for work in inches (5 ft 9 in) and in
// millimetres. Common practice, no source.
const (
	adultInch = 1752.6
	adult     = 1750
)

// Adult returns the height in mm of a standing adult, as a round figure in the
// shop's units.
func Adult(s quantity.System) float64 {
	if s == quantity.Inch {
		return adultInch
	}
	return adult
}
