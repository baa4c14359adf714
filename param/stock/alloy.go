// Package stock has what the metal merchant's lists say: alloys with their
// weight and strength, sheet gauges, thickness tolerances and standard pipe.
// Lengths are in mm, densities in kg/m3, stresses in MPa.
package stock

import "slices"

// An Alloy is a sheet metal as it is ordered. The yield is the least that the
// named standard asks for, or the low end of the usual range where the
// standard promises none; it is for strength, not for springback.
type Alloy struct {
	Name    string
	Aliases []string
	Family  Family
	Density float64 // kg/m3
	Yield   float64 // MPa
	Modulus float64 // MPa

	// Soft is the yield in MPa to which sheet that is hard by rolling or by heat
	// treatment falls back beside a weld, which anneals it; 0 for steels that are
	// strong by what they are made of and stay so.
	Soft float64
}

// The values are those of the standards named beside them, for sheet at room
// temperature. The yields of low-carbon and galvanized sheet are typical
// ranges which their standards print but do not promise; the low end is taken.
var alloys = []Alloy{
	// ASTM A1008 CS Type B, typical 140 to 275 MPa; density 7850 as implied by
	// the SI weight formula of ASME B36.10M; modulus 29,000 ksi, AISC 360.
	{"low-carbon-steel", []string{"mild-steel"}, Steel, 7850, 140, 200e3, 0},
	// ASTM A606 Type 4, cold-rolled and annealed.
	{"weathering-steel", nil, Steel, 7850, 310, 200e3, 0},
	// ASTM A653 CS Type B on the same base metal as low-carbon sheet.
	{"galvanized-steel", []string{"galvanised-steel"}, Galvanized, 7850, 140, 200e3, 0},
	// ASTM A240, annealed, to which the rolled tempers of ASTM A666 fall back;
	// densities from mill data sheets, 7.93 and 7.98.
	{"stainless-304", []string{"stainless-304L"}, Stainless, 7930, 205, 193e3, 205},
	{"stainless-316", []string{"stainless-316L"}, Stainless, 7980, 205, 193e3, 205},
	// ASTM B209: 3003-H14, 5052-H32 and 6061-T6. Beside a weld 3003-O (5 ksi) and
	// 5052-O (9.5 ksi), and for 6061 what the Aluminum Design Manual gives welded
	// (15 ksi), all from memory.
	{"aluminium-3003", []string{"aluminum-3003"}, Aluminium, 2730, 115, 69e3, 35},
	{"aluminium-5052", []string{"aluminum-5052"}, Aluminium, 2680, 160, 70.3e3, 65},
	{"aluminium-6061", []string{"aluminum-6061"}, Aluminium, 2700, 240, 68.9e3, 105},
	// ASTM B152 C11000, soft.
	{"copper", nil, Copper, 8890, 69, 117e3, 69},
	// ASTM B96 C65500, soft.
	{"silicon-bronze", nil, Copper, 8530, 150, 105e3, 150},
	// ASTM B36 C26000, soft.
	{"brass", nil, Copper, 8530, 75, 110e3, 75},
}

// LookupAlloy returns the alloy of the given name or alias.
func LookupAlloy(name string) (Alloy, bool) {
	for _, a := range alloys {
		if a.Name == name || slices.Contains(a.Aliases, name) {
			a.Aliases = slices.Clone(a.Aliases)
			return a, true
		}
	}
	return Alloy{}, false
}

// AlloyNames returns the names of all alloys, without aliases.
func AlloyNames() []string {
	names := make([]string, len(alloys))
	for i, a := range alloys {
		names[i] = a.Name
	}
	return names
}
