package strength

import (
	"fmt"
	"math"

	"stabile/fab/calculation"
)

// The terms of the rules.
const (
	TermSafety          calculation.Term = "strength-safety"
	TermNominalBending  calculation.Term = "strength-nominal-bending"
	TermNominalCompress calculation.Term = "strength-nominal-compression"
	TermElasticBuckling calculation.Term = "strength-elastic-buckling"
	TermBucklingFactor  calculation.Term = "strength-buckling-factor"
	TermAmplification   calculation.Term = "strength-amplification"
	TermNominalShear    calculation.Term = "strength-nominal-shear"
	TermNominalTwist    calculation.Term = "strength-nominal-twist"
	TermInteraction     calculation.Term = "strength-interaction"
	TermWeldLine        calculation.Term = "strength-weld-line"
	TermWeldAllowed     calculation.Term = "strength-weld-allowed"
	TermAnchorTension   calculation.Term = "strength-anchor-tension"
	TermCriticalWind    calculation.Term = "strength-critical-wind"
)

// What is assumed.
const (
	PerfectTubes     calculation.Assumption = "strength-perfect-tubes"
	ClampedBase      calculation.Assumption = "strength-clamped-base"
	WholeWind        calculation.Assumption = "strength-whole-wind"
	FrameBuckling    calculation.Assumption = "strength-frame-buckling"
	RingWelds        calculation.Assumption = "strength-ring-welds"
	SlopeWithLoad    calculation.Assumption = "strength-slope-with-load"
	CarbonSteelRules calculation.Assumption = "strength-carbon-steel-rules"
	OwnFrequency     calculation.Assumption = "strength-own-frequency"
	NoFatigue        calculation.Assumption = "strength-no-fatigue"
	AnchorsLeaveOut  calculation.Assumption = "strength-anchors-leave-out" // of anchors, and so not checked
)

// Lines returns the rules, with what each comes to where that is one figure for
// the whole.
func (s *Strength) Lines() []calculation.Line {
	return []calculation.Line{
		{Symbol: "Omega", Name: TermSafety, Value: omega, Source: "AISC 360 D2, E1, F1, G1, H3"},
		{Symbol: "M_n", Name: TermNominalBending, Formula: fmt.Sprintf("Fy Z up to D/t = %v E/Fy; (%v E/(D/t) + Fy) S up to %v E/Fy; %v E/(D/t) S up to %v E/Fy",
			compactWall, noncompactBending, slenderWall, slenderBending, thinnestWall), Unit: "N mm", Source: "AISC 360 F8, Table B4.1b case 20", Varies: true},
		{Symbol: "P_n", Name: TermNominalCompress, Formula: fmt.Sprintf("F_n A_e; F_n = %v^(Fy/Fe) Fy, or %v Fe where Fy/Fe > %v; A_e = A up to D/t = %v E/Fy, else (%v E/(Fy D/t) + %s) A",
			columnBase, columnElastic, columnSlender, wholeArea, areaSlope, share(areaLeast)), Unit: "N", Source: "AISC 360 E3, E7.2", Varies: true},
		{Symbol: "F_e", Name: TermElasticBuckling, Formula: "buckling factor of the frame x greatest compression in the post / A", Unit: "MPa", Source: "AISC 360 E3, by analysis of the frame", Varies: true},
		{Symbol: "lambda", Name: TermBucklingFactor, Value: finite(s.Buckling), Source: "linear buckling of the frame; 0 stands for none"},
		{Symbol: "B", Name: TermAmplification, Formula: amplificationFormula(), Value: finite(s.Amplification), Source: "AISC 360 Appendix 8, (A-8-6)"},
		{Symbol: "V_n", Name: TermNominalShear, Formula: fmt.Sprintf("F_cr A / 2, F_cr the greater of %.2f E/(sqrt(L/D) (D/t)^(5/4)) and %.2f E/(D/t)^(3/2), at most %v Fy", shearLong, shearShort, shearYield), Unit: "N", Source: "AISC 360 G5", Varies: true},
		{Symbol: "T_n", Name: TermNominalTwist, Formula: fmt.Sprintf("F_cr pi (D - t)^2 t / 2, F_cr the greater of %.2f E/(sqrt(L/D) (D/t)^(5/4)) and %.2f E/(D/t)^(3/2), at most %v Fy", twistLong, twistShort, shearYield), Unit: "N mm", Source: "AISC 360 H3.1", Varies: true},
		{Symbol: "ratio", Name: TermInteraction, Formula: fmt.Sprintf("P/Pc + %s M/Mc where P/Pc is %v or more, else P/(2 Pc) + M/Mc; with twist above %v Tc: P/Pc + M/Mc + (V/Vc + T/Tc)^2", share(bendingShare), axialCounts, twistCounts), Source: "AISC 360 H1.1, H3.2", Varies: true},
		{Symbol: "f", Name: TermWeldLine, Formula: "sqrt((N/(pi d) + 4 M/(pi d^2))^2 + (V/(pi d) + 2 T/(pi d^2))^2)", Unit: "N/mm", Source: "Blodgett, weld as a line", Varies: true},
		{Symbol: "f_a", Name: TermWeldAllowed, Formula: fmt.Sprintf("the lesser of %.2f x %v MPa (%.0f ksi weld metal) and %.2f Fy leg/throat = %.3f Fy (base metal beside the leg); of aluminium with 4043 at most %.1f MPa, of copper alloys with silicon bronze %.1f MPa", throatShear, electrode, electrode/ksi, baseShear, baseShear/fillet, filler4043, fillerBronze),
			Value: throatShear * electrode, Unit: "MPa", Source: "AISC 360 J2.4, J4.2"},
		{Symbol: "T_i", Name: TermAnchorTension, Formula: "M y_i / sum of y^2 about the edge, M less what the weight holds", Unit: "N", Source: "stiff plate about its edge", Varies: true},
		{Symbol: "v_crit", Name: TermCriticalWind, Formula: fmt.Sprintf("f b / S, S = %.2f for posts, %.2f for balls", strouhalPost, strouhalBall), Unit: "m/s", Source: "EN 1991-1-4 E.1.3, Table E.1", Varies: true},
	}
}

// amplificationFormula is the formula of the growth of bending.
func amplificationFormula() string {
	return fmt.Sprintf("1 / (1 - %v / lambda)", allowableGrowth)
}

// Assumptions returns what is assumed.
func (s *Strength) Assumptions() []calculation.Assumption {
	return []calculation.Assumption{
		PerfectTubes, ClampedBase, WholeWind, FrameBuckling, RingWelds, SlopeWithLoad, CarbonSteelRules, OwnFrequency, NoFatigue,
	}
}

// finite returns x, or 0 for infinity, which no paper shows.
func finite(x float64) float64 {
	if x > 1e300 {
		return 0
	}
	return x
}

// ksi is a thousand pounds-force per square inch, in MPa.
const ksi = 6.894757

// share writes a share as the rule has it, as a fraction of small numbers.
func share(x float64) string {
	for under := 2.0; under < 12; under++ {
		if over := math.Round(x * under); math.Abs(over/under-x) < 1e-12 {
			return fmt.Sprintf("%.0f/%.0f", over, under)
		}
	}
	return fmt.Sprint(x)
}
