package picture

import (
	"image/color"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/quantity"
)

// Options are how a piece is to be looked at. The zero Options are a
// three-quarter view in a yard in a low sun, with nothing beside the piece. Lengths
// are in mm, angles in rad.
type Options struct {
	From     *float64 // the bearing at which the viewer stands; nil for a three-quarter view
	Eye      float64  // height of the eye above what the piece stands on; 0 for that of a standing viewer, lower for a small piece
	Distance float64  // in plan, from the eye to the middle of the piece; 0 for one that suits its size

	Place    Place       // "" for Yard, and for a piece that stands on a table Room
	Backdrop color.Color // of the place Plain; nil for one that sets the piece off
	Light    Light       // "" for Low
	Sun      *float64    // the bearing from which the light comes; nil for over the viewer's left shoulder

	Beside Measure         // what shows how large the piece is
	Person float64         // height of a person beside it; 0 for that of Adult
	Units  quantity.System // of the height as it is written; none for those of the design

	Paint  color.Color // of a painted finish; nil for what its name says
	Seed   uint64      // of the irregularities of surfaces
	Sketch bool        // with fewer samples; a small picture is made so by itself
	Even   bool        // without dither: slow gradients may show bands, and a file packs better

	// Frame is the box that is to fill the picture in the place of the piece, so
	// that several pieces come out to one scale; empty for the piece. Round
	// frames the piece as seen from all round, so that it keeps its place when it
	// is turned.
	Frame r3.Box
	Round bool
}

// A Measure is a thing of known size beside a piece.
type Measure uint8

// The measures.
const (
	Nothing Measure = iota
	Fitting         // what fits the piece: a cup up to 0.4 m, a chair up to 1.2 m, a person above
	Cup
	Chair
	Person
)

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
