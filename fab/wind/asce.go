package wind

import (
	"fmt"
	"math"

	"stabile/fab/calculation"
	"stabile/param/design"
)

const (
	foot = 304.8 // mm

	// asceDensity is half the density of air, in kg/m3, of the standard
	// atmosphere at sea level: q = 0.613 V2, eq. (26.10-1).
	asceHalfDensity = 0.613

	// asceLow is the height in ft below which the pressure no longer falls.
	asceLow = 15

	// asceGust is the gust factor of a rigid structure, 26.11.1.
	asceGust = 0.85

	// asceDirectionality is K_d of chimneys, tanks and similar round structures,
	// Table 26.6-1 of 7-16 and 7-22. (7-10 had 0.95.)
	asceDirectionality = 1.0

	// asceLeast is the least design pressure in Pa, 16 lb/ft2, 29.7 of 7-16.
	asceLeast = 16 * 47.88025898

	// asceRegime is the D sqrt(q) in m sqrt(Pa) between the rows of Fig. 29.4-1
	// for round sections.
	asceRegime = 5.3

	// asceSlender is the greatest h/D of Fig. 29.4-1, which is taken for bare tubes
	// with its row of a rough surface: see Round.
	asceSlender = 25

	// asceBall is the row of small D sqrt(q) at h/D up to 7; the lower values
	// that the figure has for large smooth bodies are not used.
	asceBall = 0.7

	// edgeOn and flatOn are for the edge of a plate and a flat disc in the
	// wind: a square section face on at h/D = 1, Fig. 29.4-1, and a long plate
	// square to the flow.
	edgeOn = 1.3
	flatOn = 2.0

	// groundEffect is the factor on a ball whose clear gap to the ground is
	// less than its radius: EN 1991-1-4, 7.11.
	groundEffect = 1.6
)

// An exposure is a kind of ground of Table 26.11-1 (7-16: 26.9-1).
type exposure struct {
	alpha float64 // of the power law
	top   float64 // ft, z_g, where the ground is no longer felt
}

// asce is ASCE 7.
type asce struct {
	year     Edition
	letter   string
	exposure exposure
	factor   float64 // 2.01 or 2.41
	speed    float64 // m/s, 3 s gust
	hill     float64 // K_zt
	risk     int     // risk category; 0 for none given
}

func newASCE(e Edition, letter string, speed float64) (*asce, error) {
	// The factor belongs to the constants of its own edition: mixing the two is
	// wrong by a fifth.
	tables := map[Edition]map[string]exposure{
		ASCE716: {"B": {7, 1200}, "C": {9.5, 900}, "D": {11.5, 700}},
		ASCE722: {"B": {7.5, 3280}, "C": {9.8, 2460}, "D": {11.5, 1935}},
	}
	factor := map[Edition]float64{ASCE716: 2.01, ASCE722: 2.41}
	table, ok := tables[e]
	if !ok {
		return nil, fmt.Errorf("edition %q of ASCE 7 is not known", string(e))
	}
	x, ok := table[letter]
	if !ok {
		return nil, fmt.Errorf("exposure %q is not known; there are B, C and D", letter)
	}
	return &asce{year: e, letter: letter, exposure: x, factor: factor[e], speed: speed, hill: 1}, nil
}

// VelocityExposure returns K_z of ASCE 7 at a height in mm: 2.01 (z/z_g)^(2/a)
// in 7-16, Table 26.10-1, and 2.41 (z/z_g)^(2/a) with other constants in 7-22.
// Below 15 ft it is that at 15 ft.
func VelocityExposure(e Edition, letter string, height float64) (float64, error) {
	a, err := newASCE(e, letter, 0)
	if err != nil {
		return 0, err
	}
	return a.kz(height), nil
}

func (a *asce) kz(height float64) float64 {
	z := max(asceLow, height/foot)
	return a.factor * math.Pow(z/a.exposure.top, 2/a.exposure.alpha)
}

func (a *asce) edition() Edition { return a.year }
func (a *asce) ground() string   { return a.letter }
func (a *asce) gust() float64    { return asceGust }
func (a *asce) least() float64   { return asceLeast }

func (a *asce) pressure(height float64) Pressure {
	k := a.kz(height)
	return Pressure{Height: height, Exposure: k, Pressure: asceHalfDensity * k * a.hill * asceDirectionality * a.speed * a.speed}
}

func (a *asce) load(it *Item, _ *design.Finish) {
	it.Reference = it.body.Middle().Z
	it.Pressure = a.pressure(it.Reference).Pressure
	it.Gust = asceGust
	it.Mean = meanASCE(a.letter, a.speed, it.Reference, a.risk) * math.Sqrt(a.hill)
	it.CapCoefficient = flatOn
	it.Regime = it.width() / 1e3 * math.Sqrt(it.Pressure)
	switch {
	case it.onWall():
		it.Coefficient, it.Rule.Kind = flatOn, WallPlate
	case it.Part.Base != nil:
		it.Coefficient, it.Rule.Kind = edgeOn, ASCEEdge
	case it.isBowl():
		it.open()
	case it.isEgg():
		it.egg()
	case it.Part.Ball != nil:
		it.Coefficient, it.Rule.Kind = asceBall, ASCEBall
		if it.nearGround() {
			it.Coefficient *= groundEffect
			it.Rule.NearGround = true
		} else if it.nearWall() {
			it.Coefficient *= groundEffect
			it.Rule.NearWall = true
		}
	default:
		low, high := RoundCoefficients(Rough, asceSlender)
		f := roundForce(low, high, it.width(), it.Pressure)
		it.Coefficient = f.C
		switch {
		case it.Regime <= asceRegime:
			it.Rule.Kind = ASCESmooth
		case f.Pressure > high*it.Pressure:
			it.Rule.Kind = ASCEHeld
		default:
			it.Rule.Kind = ASCERough
		}
	}
}

func (a *asce) lines() []calculation.Line {
	std := string(a.year)
	return []calculation.Line{
		{Symbol: "V", Name: TermBasicSpeedASCE, Value: a.speed, Unit: "m/s", Source: "given"},
		{Symbol: "alpha", Name: GroundTerm{PowerLaw, a.letter}, Value: a.exposure.alpha, Source: std + ", exposure constants"},
		{Symbol: "z_g", Name: GroundTerm{GradientHeight, a.letter}, Value: a.exposure.top, Unit: "ft", Source: std + ", exposure constants"},
		{Symbol: "K_zt", Name: TermTopographic, Value: a.hill, Source: hillSource(a.hill, std+" 26.8")},
		{Symbol: "K_e", Name: TermElevation, Value: 1, Source: "assumed, safe; " + std + " 26.9"},
		{Symbol: "K_d", Name: TermDirectionality, Value: asceDirectionality, Source: std + " 26.6"},
		{Symbol: "G", Name: TermGust, Value: asceGust, Source: std + " 26.11"},
		{Symbol: "q_z", Name: TermPressureASCE, Formula: fmt.Sprintf("%v K_z K_zt K_d K_e V^2, K_z = %.2f (z / z_g)^(2 / alpha)", asceHalfDensity, a.factor),
			Value: a.pressure(0).Pressure, Unit: "Pa", Source: std + " 26.10"},
		{Symbol: "F", Name: TermForce, Formula: "q_z G C_f A_f, q_z at the centre of A_f", Unit: "N", Source: std + " 29.4", Varies: true},
		{Symbol: "p_min", Name: TermLeastPressure, Value: asceLeast, Unit: "Pa", Source: std + " 29.7 (as in 7-16)"},
	}
}

func (a *asce) assumptions(w *Wind) []calculation.Assumption {
	list := []calculation.Assumption{SpeedAsGiven, RiskInSpeed, StacksForTubes, DiscOnHead}
	for _, b := range w.Bearings {
		if b.Scale > 1 {
			return append(list, LeastForceTaken)
		}
	}
	return list
}
