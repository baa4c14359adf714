package wind

import (
	"cmp"
	"slices"

	"stabile/fab/calculation"
)

// The terms of both methods.
const (
	TermBasicSpeedASCE calculation.Term = "asce-basic-speed"
	TermTopographic    calculation.Term = "asce-topographic"
	TermElevation      calculation.Term = "asce-elevation"
	TermDirectionality calculation.Term = "asce-directionality"
	TermGust           calculation.Term = "asce-gust"
	TermPressureASCE   calculation.Term = "asce-pressure"
	TermLeastPressure  calculation.Term = "asce-least-pressure"
	TermBasicSpeedEN   calculation.Term = "en-basic-speed"
	TermTerrain        calculation.Term = "en-terrain"
	TermRoughness      calculation.Term = "en-roughness"
	TermOrography      calculation.Term = "en-orography"
	TermMeanWind       calculation.Term = "en-mean-wind"
	TermTurbulence     calculation.Term = "en-turbulence"
	TermDensity        calculation.Term = "en-density"
	TermPeakPressure   calculation.Term = "en-peak-pressure"
	TermStructural     calculation.Term = "en-structural"
	TermConsequence    calculation.Term = "en-consequence"
	TermForce          calculation.Term = "wind-force"
)

// What is assumed: by ASCE 7, by EN 1991-1-4, and by both.
const (
	SpeedAsGiven    calculation.Assumption = "asce-speed-as-given"
	RiskInSpeed     calculation.Assumption = "asce-risk-in-speed"
	StacksForTubes  calculation.Assumption = "asce-stacks-for-tubes"
	DiscOnHead      calculation.Assumption = "asce-disc-on-head"
	LeastForceTaken calculation.Assumption = "asce-least-force"

	BasicVelocity     calculation.Assumption = "en-basic-velocity"
	NoEndEffect       calculation.Assumption = "en-no-end-effect"
	LeaningAsCylinder calculation.Assumption = "en-leaning-as-cylinder"
	DiscAndEdge       calculation.Assumption = "en-disc-and-edge"
	FullTurbulence    calculation.Assumption = "en-full-turbulence"

	NoShelter  calculation.Assumption = "wind-no-shelter"
	AlongWind  calculation.Assumption = "wind-along"
	LevelSite  calculation.Assumption = "wind-level-site"
	BesideWall calculation.Assumption = "wind-beside-wall"
	StiffClear calculation.Assumption = "wind-stiff-and-clear"
)

// A GroundTerm is a figure that goes with the ground, such as exposure C or
// terrain II.
type GroundTerm struct {
	Of     GroundFigure
	Ground string
}

// A GroundFigure is which.
type GroundFigure string

// The figures that go with the ground.
const (
	PowerLaw        GroundFigure = "power-law"        // of an exposure
	GradientHeight  GroundFigure = "gradient-height"  // of an exposure
	RoughnessLength GroundFigure = "roughness-length" // of a terrain
	LeastHeight     GroundFigure = "least-height"     // of a terrain
)

// A CoefficientTerm is the force coefficient of a kind of part, "post", "ball" or
// "base".
type CoefficientTerm struct {
	Kind string
	Rule Rule
}

// Fact marks the terms.
func (GroundTerm) Fact()      {}
func (CoefficientTerm) Fact() {}

// heights returns the pressures at the reference heights of items, lowest first.
func heights(m method, items []Item) []Pressure {
	var z []float64
	for i := range items {
		z = append(z, items[i].Reference)
	}
	slices.SortFunc(z, cmp.Compare)
	z = slices.Compact(z)
	list := make([]Pressure, len(z))
	for i, h := range z {
		list[i] = m.pressure(h)
	}
	return list
}

// coefficientLines returns the coefficients in use, each once, in the order of
// the items.
func coefficientLines(items []Item) []calculation.Line {
	var list []calculation.Line
	for i := range items {
		it := &items[i]
		l := calculation.Line{Symbol: "C_f", Name: CoefficientTerm{it.Part.Kind(), it.Rule}, Value: it.Coefficient, Source: it.Rule.Source()}
		if !slices.Contains(list, l) {
			list = append(list, l)
		}
	}
	return list
}
