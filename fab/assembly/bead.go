package assembly

import "stabile/param/design"

const (
	// buttShare is the section of the bead of a butt weld, as a share of the
	// square of the sheet's thickness. Common practice, no source.
	buttShare = 1.5
	// filletShare is that of a fillet whose leg is the sheet's thickness: half
	// of the square on the leg.
	filletShare = 0.5
)

// ButtBead returns the section in mm2 of the bead of a butt weld in sheet of the
// given thickness in mm, 1.5 t2. Common practice, no source.
func ButtBead(thickness float64) float64 { return buttShare * thickness * thickness }

// FilletBead returns the section in mm2 of a fillet weld whose two legs are the
// given length in mm, a2/2: a right triangle.
func FilletBead(leg float64) float64 { return filletShare * leg * leg }

// rod returns the diameter of filler, in mm, for a thickness in mm, as charts for
// TIG on steel and stainless give it: 1/16 in to 1.6 mm, 3/32 in to 2.5 mm, 1/8 in
// above.
func rod(thickness float64) float64 {
	switch {
	case thickness <= 1.6:
		return 1.6
	case thickness <= 2.5:
		return 2.4
	}
	return 3.2
}

// process returns how the shop welds a thickness and with what rod.
func process(w *design.Welding, thickness float64) (design.WeldProcess, float64) {
	how, diameter := design.TIG, rod(thickness)
	if w != nil {
		if w.Process != "" {
			how = w.Process
		}
		if w.Filler > 0 {
			diameter = w.Filler
		}
	}
	return how, diameter
}

// CleanBand is how far from an edge, in mm, scale, oil and zinc are taken off
// before it is welded. Common practice, no source.
const CleanBand = 25.0
