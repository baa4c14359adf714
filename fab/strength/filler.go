package strength

import (
	"stabile/param/design"
	"stabile/param/stock"
)

// What the usual fillers allow in shear on the throat, in MPa, besides E70 for steel:
// 4043 on aluminium has a shear strength of 11.5 ksi (Aluminum Design Manual Table J.2.1, from
// memory) over a safety factor of 1.95; silicon bronze ERCuSi-A a tensile strength of 345 MPa
// (AWS A5.7, from memory), of which AISC's share is taken.
const (
	filler4043   = 79.3 / 1.95
	fillerBronze = throatShear * 345
)

// fillerStress returns what the usual filler between two metals, the second of which may be
// nil, allows in shear on the throat of a weld in MPa.
func fillerStress(a, b *design.Metal) float64 {
	least := throatShear * electrode
	for _, m := range []*design.Metal{a, b} {
		if m == nil {
			continue
		}
		switch m.Is().Group {
		case stock.AluminiumAlloy:
			least = min(least, filler4043)
		case stock.CopperAlloy:
			least = min(least, fillerBronze)
		}
	}
	return least
}
