package rolling

import (
	"stabile/param/design"
	"stabile/param/stock"
)

// Scatter is the share by which the yield of sheet as bought may differ either
// way from the one reckoned with; common practice, no source.
const Scatter = 0.2

// Poisson's ratios, from memory of handbook tables.
const (
	poissonSteel     = 0.30
	poissonAluminium = 0.33
	poissonCopper    = 0.34
)

// yield returns the yield in MPa that an alloy's sheet really has. A design
// reckons strength with the least that a standard promises; real sheet is
// stronger, and springs back more: low-carbon sheet, for which ASTM A1008 and
// A1011 print 140 to 340 MPa, about 250, and stainless, whose proof stress lies
// at 260 to 330, about 310 (common practice, no source). Others are taken as
// they are given.
func yield(alloy string, given float64) float64 {
	const carbon, stainless = 250, 310
	a, ok := stock.LookupAlloy(alloy)
	if !ok || given > 0 && given != a.Yield {
		return given // not the standard's: the user knows better
	}
	switch a.Name {
	case "low-carbon-steel", "galvanized-steel":
		return carbon
	case "stainless-304", "stainless-316":
		return stainless
	}
	return a.Yield
}

// yieldOf returns the yield reckoned with for a metal in the rolls.
func yieldOf(m *design.Metal) float64 { return yield(m.Alloy, m.Yield) }

// wide is the width in thicknesses from which a strip bends as wide sheet does,
// its edges being too far apart to let it narrow; common practice, no source.
const wide = 8

// stripOf returns a piece in bending.
func stripOf(p *Piece) Strip {
	m := p.Metal
	if p.Across < wide*m.Thickness {
		return Strip{m.Thickness, yieldOf(m), m.Modulus}
	}
	poisson := poissonSteel
	if a, ok := stock.LookupAlloy(m.Alloy); ok {
		switch a.Family {
		case stock.Aluminium:
			poisson = poissonAluminium
		case stock.Copper:
			poisson = poissonCopper
		}
	}
	return PlaneStrain(m.Thickness, yieldOf(m), m.Modulus, poisson)
}
