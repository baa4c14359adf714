package wind

import (
	"fmt"
	"math"

	"stabile/fab/calculation"
	"stabile/param/design"
)

const (
	euDensity   = 1.25  // kg/m3, 4.5 (1) note 2, recommended
	euViscosity = 15e-6 // m2/s, 7.9.1 (1)
	euGust      = 1.0   // c_s c_d below 15 m, 6.2 (1)
	euPeak      = 7     // the factor on turbulence, (4.8)

	// The terrain factor, (4.5): k_r = 0.19 (z_0 / 0.05 m)^0.07.
	euTerrain   = 0.19
	euReference = 0.05
	euExponent  = 0.07

	// euHigh is the height in mm above which c_s c_d = 1 is no longer allowed
	// without a further calculation, 6.2 (1) a.
	euHigh = 15e3

	// euBall is a bound on c_f,x of a sphere below the drop of its drag, Fig.
	// 7.30; the figure's own lower values are not taken.
	euBall = 0.6

	// euLift is c_f,z of a sphere whose clear gap to the ground is less than its
	// radius, 7.11 (2).
	euLift = 0.6
)

// A terrain is a category of Table 4.1.
type terrain struct {
	length float64 // m, z_0
	low    float64 // m, z_min
}

// eurocode is EN 1991-1-4.
type eurocode struct {
	category string
	terrain  terrain
	speed    float64 // m/s, v_b
	hill     float64 // on the pressure of the mean wind: c_o squared
	risk     float64 // K_FI, on the pressure
}

func newEurocode(category string, speed float64) (*eurocode, error) {
	table := map[string]terrain{
		"0": {0.003, 1}, "I": {0.01, 1}, "II": {0.05, 2}, "III": {0.3, 5}, "IV": {1, 10},
	}
	t, ok := table[category]
	if !ok {
		return nil, fmt.Errorf("terrain %q is not known; there are 0, I, II, III and IV", category)
	}
	return &eurocode{category, t, speed, 1, 1}, nil
}

// PeakPressure returns the peak velocity pressure of EN 1991-1-4 and what it is
// made of, for a terrain category, a basic wind speed in m/s and a height in mm:
//
//	c_r = k_r ln(z / z_0), k_r = 0.19 (z_0 / 0.05)^0.07     (4.4), (4.5)
//	I_v = 1 / ln(z / z_0)                                   (4.7), k_I = c_o = 1
//	q_p = (1 + 7 I_v) rho / 2 (c_r v_b)^2                   (4.8)
//
// Below z_min of the category it is that at z_min.
func PeakPressure(category string, speed, height float64) (Pressure, error) {
	e, err := newEurocode(category, speed)
	if err != nil {
		return Pressure{}, err
	}
	return e.pressure(height), nil
}

func (e *eurocode) factor() float64 {
	return euTerrain * math.Pow(e.terrain.length/euReference, euExponent)
}

func (e *eurocode) pressure(height float64) Pressure {
	log := math.Log(max(e.terrain.low, height/1e3) / e.terrain.length)
	p := Pressure{Height: height, Roughness: e.factor() * log, Turbulence: 1 / log}
	p.Mean = p.Roughness * math.Sqrt(e.hill) * e.speed
	p.Pressure = e.risk * (1 + euPeak*p.Turbulence) * euDensity / 2 * p.Mean * p.Mean
	return p
}

func (e *eurocode) edition() Edition { return EN2005 }
func (e *eurocode) ground() string   { return e.category }
func (e *eurocode) gust() float64    { return euGust }
func (e *eurocode) least() float64   { return 0 }

// Cylinder returns c_f,0 of a circular cylinder without free-end flow, EN
// 1991-1-4 Fig. 7.28, for Reynolds' number and the ratio of the roughness to the
// diameter. It is 1.2 up to Re = 1.8e5; above that the greater of
//
//	0.11 / (Re / 1e6)^1.4, at least 0.4
//	1.2 + 0.18 log10(10 k/b) / (1 + 0.4 log10(Re / 1e6))
//
// and not above 1.2.
func Cylinder(re, roughness float64) float64 {
	const subcritical, highest, lowest = 1.8e5, 1.2, 0.4
	if re < subcritical {
		return highest
	}
	c := max(lowest, 0.11/math.Pow(re/1e6, 1.4))
	if roughness > 0 {
		c = max(c, 1.2+0.18*math.Log10(10*roughness)/(1+0.4*math.Log10(re/1e6)))
	}
	return min(c, highest)
}

// Roughness returns the equivalent roughness in mm of a part's surface, EN
// 1991-1-4 Table 7.13 (not confirmed), and what the surface counts as. Bare or
// weathering steel counts as rusty, since it will be.
func Roughness(p *design.Part, finish *design.Finish) (float64, Covering) {
	if finish != nil {
		switch finish.Kind {
		case design.Paint:
			return 0.02, SprayPaint
		case design.Galvanize:
			return 0.2, Galvanised
		case design.Weather:
			return 2, Rust
		case design.Brushed:
			return 0.05, BrightMetal
		}
	}
	if p.Metal != nil {
		a := p.Metal.Is()
		return a.Roughness, Covering(a.Outdoors)
	}
	return 2, RustAssumed
}

func (e *eurocode) load(it *Item, finish *design.Finish) {
	it.Reference = it.Part.Top()
	if b := it.Part.Ball; b != nil {
		it.Reference = b.Center.Z // 7.11 (3)
	}
	p := e.pressure(it.Reference)
	it.Pressure, it.Mean, it.Gust, it.CapCoefficient = p.Pressure, p.Mean, euGust, flatOn
	it.Regime = it.width() / 1e3 * p.Speed(euDensity) / euViscosity
	switch {
	case it.onWall():
		it.Regime = 0
		it.Coefficient, it.Rule.Kind = flatOn, WallPlate
	case it.Part.Base != nil:
		it.Regime = 0
		it.Coefficient, it.Rule.Kind = edgeOn, ENEdge
	case it.isBowl():
		it.open()
	case it.isEgg():
		it.egg()
	case it.Part.Ball != nil:
		it.Coefficient, it.Rule.Kind = euBall, ENSphere
		if it.nearGround() {
			it.Coefficient *= groundEffect
			it.Lift = euLift
			it.Rule.NearGround = true
		} else if it.nearWall() {
			it.Coefficient *= groundEffect
			it.Rule.NearWall = true
		}
	default:
		k, surface := Roughness(it.Part, finish)
		it.Roughness = k
		it.Coefficient = Cylinder(it.Regime, k/it.width())
		it.Rule = Rule{Kind: ENCylinder, Covering: surface}
	}
}

func (e *eurocode) lines() []calculation.Line {
	const std = "EN 1991-1-4 "
	p := e.pressure(0)
	list := []calculation.Line{
		{Symbol: "v_b", Name: TermBasicSpeedEN, Value: e.speed, Unit: "m/s", Source: "given"},
		{Symbol: "z_0", Name: GroundTerm{RoughnessLength, e.category}, Value: e.terrain.length, Unit: "m", Source: std + "Table 4.1"},
		{Symbol: "z_min", Name: GroundTerm{LeastHeight, e.category}, Value: e.terrain.low, Unit: "m", Source: std + "Table 4.1"},
		{Symbol: "k_r", Name: TermTerrain, Formula: fmt.Sprintf("%v (z_0 / %v)^%v", euTerrain, euReference, euExponent), Value: e.factor(), Source: std + "(4.5)"},
		{Symbol: "c_r", Name: TermRoughness, Formula: "k_r ln(z / z_0)", Value: p.Roughness, Source: std + "(4.4)"},
		{Symbol: "c_o", Name: TermOrography, Value: math.Sqrt(e.hill), Source: hillSource(e.hill, std+"4.3.3, A.3")},
		{Symbol: "v_m", Name: TermMeanWind, Formula: "c_r c_o v_b", Value: p.Mean, Unit: "m/s", Source: std + "(4.3)"},
		{Symbol: "I_v", Name: TermTurbulence, Formula: "1 / ln(z / z_0)", Value: p.Turbulence, Source: std + "(4.7)"},
		{Symbol: "rho", Name: TermDensity, Value: euDensity, Unit: "kg/m3", Source: std + "4.5"},
		{Symbol: "q_p", Name: TermPeakPressure, Formula: fmt.Sprintf("(1 + %v I_v) rho / 2 v_m^2", euPeak), Value: p.Pressure / e.risk, Unit: "Pa", Source: std + "(4.8)"},
		{Symbol: "c_s c_d", Name: TermStructural, Value: euGust, Source: std + "6.2"},
		{Symbol: "F_w", Name: TermForce, Formula: "c_s c_d c_f q_p(z_e) A_ref", Unit: "N", Source: std + "(5.3)", Varies: true},
	}
	if e.risk != 1 {
		list = append(list, calculation.Line{Symbol: "K_FI", Name: TermConsequence, Value: e.risk, Source: "EN 1990 Table B3 (from memory), on q_p"})
	}
	return list
}

func (e *eurocode) assumptions(*Wind) []calculation.Assumption {
	list := []calculation.Assumption{BasicVelocity, NoEndEffect, LeaningAsCylinder, DiscAndEdge}
	if e.hill > 1 {
		list = append(list, FullTurbulence)
	}
	return list
}

// consequence returns K_FI of EN 1990 Table B3 (from memory) by risk category, of which 3 and 4
// are its consequence class CC3. That of CC1, 0.9, is not used.
func consequence(risk int) float64 {
	if risk >= 3 {
		return 1.1
	}
	return 1
}
