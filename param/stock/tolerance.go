package stock

// A band is the tolerance in mm, plus and minus, on thicknesses above that of
// the band before it and up to its own.
type band struct{ upTo, tolerance float64 }

var (
	// steelBands: cold-rolled sheet to 3 mm is EN 10131:2006, yield class
	// under 260 MPa, widths to 1200 mm, normal tolerances; under 0.6 mm from
	// memory. Above 3 mm hot-rolled sheet, EN 10051, widths to 1200 mm, from
	// memory.
	steelBands = []band{
		{0.60, 0.03}, {0.80, 0.04}, {1.00, 0.05}, {1.20, 0.06}, {1.60, 0.08},
		{2.00, 0.10}, {2.50, 0.12}, {3.00, 0.15},
		{4, 0.22}, {5, 0.24}, {6, 0.26}, {8, 0.29}, {10, 0.32}, {12.5, 0.35},
		{15, 0.37}, {25, 0.40},
	}

	// stainlessBands: EN ISO 9445 (formerly EN 10259), widths under 1000 mm.
	stainlessBands = []band{{1.20, 0.06}, {1.50, 0.07}, {2.00, 0.08}, {2.50, 0.09}}
)

const (
	stainlessFrom = 1.00 // mm, the least thickness that stainlessBands covers

	// thickShare is the tolerance of sheet beyond the last band as a share of
	// its thickness: that of the last band, 0.40 in 25 mm, carried on.
	thickShare = 0.40 / 25
)

// Tolerance returns the tolerance in mm, plus and minus, on sheet of the given
// nominal thickness.
//
// Stainless from 1.0 to 2.5 mm has a standard of its own. Everything else
// takes the tolerance of low-carbon sheet, which stands in for the standards of
// galvanized sheet, thin and thick stainless, and aluminium and copper alloys.
// Sheet thicker than 25 mm takes the same share of its thickness as at 25 mm.
func (f Family) Tolerance(thickness float64) float64 {
	if f == Stainless && thickness >= stainlessFrom {
		for _, b := range stainlessBands {
			if thickness <= b.upTo {
				return b.tolerance
			}
		}
	}
	for _, b := range steelBands {
		if thickness <= b.upTo {
			// No sheet is so thin that nothing could be left of it.
			return min(b.tolerance, thickness/2)
		}
	}
	return thickness * thickShare
}
