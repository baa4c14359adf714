package rolling

import "stabile/param/design"

// Scatter is the share by which the yield of sheet as bought may differ either
// way from the one calculated with; common practice, no source.
const Scatter = 0.2

// yieldOf returns the yield in MPa that a metal's sheet really has. A design
// calculates strength with the least that a standard promises; real sheet is
// stronger, and springs back more.
func yieldOf(m *design.Metal) float64 {
	a := m.Is()
	return a.RolledYield(m.Yield)
}

// wide is the width in thicknesses from which a strip bends as wide sheet does,
// its edges being too far apart to let it narrow; common practice, no source.
const wide = 8

// stripOf returns a piece in bending.
func stripOf(p *Piece) Strip {
	m := p.Metal
	if p.Across < wide*m.Thickness {
		return Strip{m.Thickness, yieldOf(m), m.Modulus}
	}
	return PlaneStrain(m.Thickness, yieldOf(m), m.Modulus, m.Is().Poisson)
}
