// Package stock has what the metal merchant's lists say: alloys with all that
// depends on them, sheet gauges, thickness tolerances and standard pipe.
// Lengths are in mm, densities in kg/m3, stresses in MPa.
package stock

import "slices"

// An Alloy is a sheet metal as it is ordered, with everything that the house
// decides by it: a new alloy is one entry in the table below, and nothing else.
// The yield is the least that the named standard requires, or the low end of the
// usual range where the standard promises none; it is for strength, not for
// springback.
type Alloy struct {
	Name    string
	Aliases []string // shared by all copies: not to be written to
	Family  Family   // the gauge table and the tolerances
	Density float64  // kg/m3
	Yield   float64  // MPa
	Modulus float64  // MPa
	Poisson float64

	// Soft is the yield in MPa to which sheet that is hard by rolling or by heat
	// treatment falls back beside a weld, which anneals it; 0 for steels that are
	// strong by what they are made of and stay so.
	Soft float64

	// Rolled is the yield in MPa that sheet really has when it comes to the rolls,
	// by which it springs back; 0 where the standard's is the best that is known.
	Rolled float64

	// Tensile is the tensile strength in MPa. The force of a shear goes by it: the
	// shearing strength is about the same share of it in all these metals.
	Tensile float64

	Outdoors  Skin    // what a bare surface becomes in the open
	Care      Care    // how it is kept there
	Roughness float64 // mm, of that surface: EN 1991-1-4 Table 7.13 (not confirmed)
	Look      Look

	Group  Group // the metals that it is welded to as to itself
	Joint  Joint // how it is joined to metals of another group
	Purge  bool  // its seams burn at the back without argon there
	Coat   bool  // has a coat of zinc, which comes off before welding
	Fumes  Fumes // what it gives off under the arc and the wheel
	Dust   bool  // its dust burns together with that of steel
	Dip    Dip   // what a bath of molten zinc does to it
	Ounces bool  // its sheet is sold by the ounces that a square foot of it weighs
	Pipe   bool  // steel pipe of standard size may stand in for a tube of it
}

// A Skin is a kind of surface.
type Skin string

// The skins.
const (
	Bright Skin = "bright metal" // as ground and wiped; it stays so
	Zinced Skin = "galvanized"
	Rusted Skin = "rust"
)

// A Look is how a bare surface looks.
type Look struct {
	// Mirror is the reflectance at normal incidence: red, green and blue, linear,
	// from 0 to 1. A worked surface is darker than a polished one. Those of iron,
	// 18-8 stainless, aluminium, copper, brass and zinc are from memory of lists
	// made from measured optical constants, rounded, and of copper, bronze and brass
	// deepened as a dressed surface that air has touched is.
	Mirror [3]float64

	// New is the skin of the finished piece where the design gives no finish.
	New Skin
}

// A Group is metals that are welded to each other as to themselves.
type Group string

// The groups.
const (
	CarbonSteel    Group = "carbon steel"
	StainlessSteel Group = "stainless steel"
	AluminiumAlloy Group = "aluminium"
	CopperAlloy    Group = "copper alloy"
)

// A Joint is how a metal is joined to one of another group. Of two metals the
// greater decides.
type Joint int

// The joints.
const (
	Fused  Joint = iota // welded, with a filler that suits both
	Brazed              // brazed with silicon bronze
	Apart               // does not fuse with it: bolted or bonded
)

// Fumes are what a metal gives off when it is welded or ground.
type Fumes int

// The fumes that need more than usual care.
const (
	NoFumes       Fumes = iota
	ZincFumes           // fever
	ChromiumFumes       // cancer
	CopperFumes         // fever
	BrassFumes          // those of zinc, and of lead in some
	BronzeFumes         // those of copper, and of lead or beryllium in some
)

// Care is what a bare surface asks of whoever keeps the piece out of doors.
type Care int

// The ways in which surfaces age.
const (
	KeepsItself Care = iota
	Rusts            // within days
	RustSkin         // to a brown skin, whose water stains
	TeaStains        // brown, near the sea, unless it is rinsed
	Patina           // brown, then green
	Dulls            // grey
)

// A Dip is what a bath of molten zinc does to a metal. From memory of trade
// knowledge.
type Dip int

// What the bath does.
const (
	Coats     Dip = iota // coats it
	Cracks               // goes into it along the grains where it is stressed
	Dissolves            // eats it away
	Spoils               // dissolves it, and the metal spoils the bath
)

// The values are those of the standards named beside them, for sheet at room
// temperature. The yields of low-carbon and galvanized sheet are typical
// ranges which their standards print but do not promise; the low end is taken.
// Tensile strengths are those of the same standards. Rolled yields: low-carbon
// sheet, for which ASTM A1008 and A1011 print 140 to 340 MPa, about 250, and
// stainless, whose proof stress lies at 260 to 330, about 310 (common practice,
// no source). Poisson's ratios are from memory of handbook tables.
var alloys = Table{
	// ASTM A1008 CS Type B, typical yield 140 to 275 MPa, tensile 300 to 360;
	// density 7850 as implied by the SI weight formula of ASME B36.10M; modulus
	// 29,000 ksi, AISC 360.
	steel(Alloy{Name: "low-carbon-steel", Aliases: []string{"mild-steel"}, Yield: 140, Rolled: 250, Tensile: 330}),
	// ASTM A606 Type 4, cold-rolled and annealed. Bought to rust.
	steel(Alloy{Name: "weathering-steel", Yield: 310, Tensile: 450, Look: Look{iron, Rusted}}),
	// ASTM A653 CS Type B on the same base metal as low-carbon sheet.
	{
		Name: "galvanized-steel", Aliases: []string{"galvanised-steel"}, Family: Galvanized, Density: 7850,
		Yield: 140, Modulus: 200e3, Poisson: 0.30, Rolled: 250, Tensile: 330,
		Outdoors: Zinced, Roughness: 0.2, Look: Look{[3]float64{0.60, 0.61, 0.63}, Zinced},
		Group: CarbonSteel, Coat: true, Fumes: ZincFumes,
	},
	// ASTM A240, annealed, to which the rolled tempers of ASTM A666 fall back;
	// densities from mill data sheets, 7.93 and 7.98.
	stainless("304", 7930),
	stainless("316", 7980),
	// ASTM B209: 3003-H14, 5052-H32 and 6061-T6. Beside a weld 3003-O (5 ksi) and
	// 5052-O (9.5 ksi), and for 6061 what the Aluminum Design Manual gives welded
	// (15 ksi), all from memory.
	aluminium(Alloy{Name: "aluminium-3003", Density: 2730, Yield: 115, Modulus: 69e3, Soft: 35, Tensile: 140}),
	aluminium(Alloy{Name: "aluminium-5052", Density: 2680, Yield: 160, Modulus: 70.3e3, Soft: 65, Tensile: 215}),
	aluminium(Alloy{Name: "aluminium-6061", Density: 2700, Yield: 240, Modulus: 68.9e3, Soft: 105, Tensile: 290}),
	// ASTM B152 C11000, soft.
	copper(Alloy{Name: "copper", Ounces: true, Fumes: CopperFumes, Density: 8890, Yield: 69, Modulus: 117e3, Tensile: 220, Look: Look{Mirror: [3]float64{0.86, 0.385, 0.230}}}),
	// ASTM B96 C65500, soft.
	copper(Alloy{Name: "silicon-bronze", Fumes: BronzeFumes, Density: 8530, Yield: 150, Modulus: 105e3, Tensile: 390, Look: Look{Mirror: [3]float64{0.56, 0.325, 0.165}}}),
	// ASTM B36 C26000, soft.
	copper(Alloy{Name: "brass", Fumes: BrassFumes, Density: 8530, Yield: 75, Modulus: 110e3, Tensile: 330, Look: Look{Mirror: [3]float64{0.84, 0.655, 0.265}}}),
}

var iron = [3]float64{0.44, 0.437, 0.430}

// steel returns a carbon steel with what all of them share.
func steel(a Alloy) Alloy {
	a.Family, a.Density, a.Modulus, a.Poisson = Steel, 7850, 200e3, 0.30
	a.Outdoors, a.Roughness = Rusted, 2
	if a.Look == (Look{}) {
		a.Look = Look{iron, Bright}
	}
	a.Group, a.Pipe = CarbonSteel, true
	if a.Care = Rusts; a.Look.New == Rusted {
		a.Care = RustSkin
	}
	return a
}

// stainless returns a chromium-nickel steel of a grade and a density.
func stainless(grade string, density float64) Alloy {
	return Alloy{
		Name: "stainless-" + grade, Aliases: []string{"stainless-" + grade + "L"}, Family: Stainless, Density: density,
		Yield: 205, Modulus: 193e3, Poisson: 0.30, Soft: 205, Rolled: 310, Tensile: 515,
		Outdoors: Bright, Roughness: 0.05, Look: Look{[3]float64{0.605, 0.605, 0.595}, Bright},
		Group: StainlessSteel, Purge: true, Care: TeaStains, Fumes: ChromiumFumes, Dip: Cracks,
	}
}

// aluminium returns an aluminium alloy, by either spelling of its name.
func aluminium(a Alloy) Alloy {
	a.Aliases = []string{"aluminum" + a.Name[len("aluminium"):]}
	a.Family, a.Poisson = Aluminium, 0.33
	a.Outdoors, a.Roughness, a.Look = Bright, 0.05, Look{[3]float64{0.80, 0.81, 0.82}, Bright}
	a.Group, a.Joint, a.Dust, a.Dip = AluminiumAlloy, Apart, true, Dissolves
	a.Care = Dulls
	return a
}

// copper returns a copper alloy, annealed: a weld softens it no further.
func copper(a Alloy) Alloy {
	a.Family, a.Poisson, a.Soft = Copper, 0.34, a.Yield
	a.Outdoors, a.Roughness, a.Look.New = Bright, 0.05, Bright
	a.Group, a.Joint, a.Care, a.Dip = CopperAlloy, Brazed, Patina, Spoils
	return a
}

// RolledYield returns the yield in MPa of sheet at the rolls, given the yield
// that the design calculates with: one that is not the standard's is taken as it
// is, since the user knows better.
func (a *Alloy) RolledYield(given float64) float64 {
	switch {
	case given > 0 && given != a.Yield:
		return given
	case a.Rolled > 0:
		return a.Rolled
	}
	return a.Yield
}

// A Table is a list of alloys.
type Table []Alloy

// Alloys returns the alloys of the house.
func Alloys() Table { return slices.Clone(alloys) }

// Lookup returns the alloy of the given name or alias.
func (t Table) Lookup(name string) (Alloy, bool) {
	for i := range t {
		if a := &t[i]; a.Name == name || slices.Contains(a.Aliases, name) {
			return *a, true
		}
	}
	return Alloy{}, false
}

// Names returns the names of all alloys, without aliases.
func (t Table) Names() []string {
	names := make([]string, len(t))
	for i, a := range t {
		names[i] = a.Name
	}
	return names
}

// LookupAlloy returns the house's alloy of the given name or alias.
func LookupAlloy(name string) (Alloy, bool) { return alloys.Lookup(name) }

// AlloyNames returns the names of the house's alloys, without aliases.
func AlloyNames() []string { return alloys.Names() }

// Unknown returns what a metal of an alloy that no table has is taken for: mild
// steel of that name, of a yield that only its user knows.
func Unknown(name string) Alloy {
	a := alloys[0]
	a.Name, a.Aliases, a.Yield, a.Rolled = name, nil, 0, 0
	return a
}
