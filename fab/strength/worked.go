package strength

import (
	"fmt"
	"math"

	"stabile/fab/calculation"
)

// WorstMember returns the member with the greatest ratio, or nil.
func (s *Strength) WorstMember() *Member {
	var worst *Member
	for i := range s.Members {
		if m := &s.Members[i]; worst == nil || m.Ratio > worst.Ratio {
			worst = m
		}
	}
	return worst
}

// The terms of the check of a member.
const (
	TermDiameter         calculation.Term = "member-diameter"
	TermWall             calculation.Term = "member-wall"
	TermArea             calculation.Term = "member-area"
	TermElastic          calculation.Term = "member-elastic"
	TermPlastic          calculation.Term = "member-plastic"
	TermModulus          calculation.Term = "member-modulus"
	TermYield            calculation.Term = "member-yield"
	TermCompact          calculation.Term = "member-compact"
	TermNoncompact       calculation.Term = "member-noncompact"
	TermRuleEnds         calculation.Term = "member-rule-ends"
	TermAllowableBending calculation.Term = "member-allowable-bending"
	TermColumnStress     calculation.Term = "member-column-stress"
	TermAllowableCompr   calculation.Term = "member-allowable-compression"
	TermAllowableTension calculation.Term = "member-allowable-tension"
	TermAllowableShear   calculation.Term = "member-allowable-shear"
	TermAllowableTwist   calculation.Term = "member-allowable-twist"
	TermAxial            calculation.Term = "member-axial"
	TermShear            calculation.Term = "member-shear"
	TermBending          calculation.Term = "member-bending"
	TermTwist            calculation.Term = "member-twist"
	TermOutsideStress    calculation.Term = "member-outside-stress"
	TermHolesHigh        calculation.Term = "member-holes-high"
	TermShift            calculation.Term = "member-shift"
	TermStrips           calculation.Term = "member-strips"
	TermAllowableStrip   calculation.Term = "member-allowable-strip"
	TermUse              calculation.Term = "use"
)

// The terms of the check of the plate.
const (
	TermLever           calculation.Term = "plate-lever"
	TermSpread          calculation.Term = "plate-spread"
	TermWidth           calculation.Term = "plate-width"
	TermPlateMoment     calculation.Term = "plate-moment"
	TermAllowableMoment calculation.Term = "plate-allowable-moment"
)

// The terms of the check of the anchors.
const (
	TermTension       calculation.Term = "anchor-tension"
	TermLift          calculation.Term = "anchor-lift"
	TermEvenShear     calculation.Term = "anchor-even-shear"
	TermTargetTension calculation.Term = "anchor-target-tension"
	TermBolt          calculation.Term = "anchor-bolt"
	TermBoltTension   calculation.Term = "anchor-bolt-tension"
	TermBoltShear     calculation.Term = "anchor-bolt-shear"
	TermUseTension    calculation.Term = "anchor-use-tension"
	TermUseShear      calculation.Term = "anchor-use-shear"
	TermUseBoth       calculation.Term = "anchor-use-both"
)

// WallTerm is the slenderness of a wall, with its class.
type WallTerm struct{ Class Class }

// PlateForceTerm is the force at the end of a strip of the plate.
type PlateForceTerm struct{ How PlateBending }

// SharingTerm is the shear on one of the anchors that carry it.
type SharingTerm struct{ Sharing int }

// Fact marks the terms.
func (WallTerm) Fact()       {}
func (PlateForceTerm) Fact() {}
func (SharingTerm) Fact()    {}

// Worked returns the check of a member line by line.
func (s *Strength) Worked(m *Member) []calculation.Line {
	metal := m.Part.Metal
	compact, slender, most := Walls(m.Yield, metal.Modulus)
	given, alloy, frame := "given", "of the alloy", "frame"
	why := alloy
	if _, soft := Yield(metal); soft {
		why = "yield beside a weld, of soft sheet"
	}
	ring := []string{"pi/4 (D^2 - (D - 2 t)^2)", "pi/32 (D^4 - (D - 2 t)^4) / D", "(D^3 - (D - 2 t)^3) / 6"}
	of := "ring"
	if m.Net != nil {
		ring, of = []string{"", "", ""}, "net, at holes"
	}
	lines := []calculation.Line{
		{Symbol: "D", Name: TermDiameter, Value: m.Section.Diameter, Unit: "mm", Source: given},
		{Symbol: "t", Name: TermWall, Value: m.Section.Thickness, Unit: "mm", Source: given},
		{Symbol: "A", Name: TermArea, Formula: ring[0], Value: m.Section.Area, Unit: "mm2", Source: of},
		{Symbol: "S", Name: TermElastic, Formula: ring[1], Value: m.Section.Elastic, Unit: "mm3", Source: of},
		{Symbol: "Z", Name: TermPlastic, Formula: ring[2], Value: m.Section.Plastic, Unit: "mm3", Source: of},
		{Symbol: "E", Name: TermModulus, Value: metal.Modulus, Unit: "MPa", Source: alloy},
		{Symbol: "Fy", Name: TermYield, Value: m.Yield, Unit: "MPa", Source: why},
		{Symbol: "D/t", Name: WallTerm{m.Class}, Value: m.Section.Slenderness(), Source: "Table B4.1b"},
		{Symbol: "", Name: TermCompact, Formula: fmt.Sprintf("%v E/Fy", compactWall), Value: compact, Source: "Table B4.1b"},
		{Symbol: "", Name: TermNoncompact, Formula: fmt.Sprintf("%v E/Fy", slenderWall), Value: slender, Source: "Table B4.1b"},
		{Symbol: "", Name: TermRuleEnds, Formula: fmt.Sprintf("%v E/Fy", thinnestWall), Value: most, Source: "F8"},
		{Symbol: "M_n/Omega", Name: TermAllowableBending, Value: m.Allowed.Bending, Unit: "N mm", Source: "F8"},
	}
	if m.Axial < 0 && !math.IsInf(m.Elastic, 1) {
		lines = append(lines,
			calculation.Line{Symbol: "F_e", Name: TermElasticBuckling, Value: m.Elastic, Unit: "MPa", Source: frame},
			calculation.Line{Symbol: "F_n", Name: TermColumnStress, Value: m.Allowed.Column, Unit: "MPa", Source: "E3"},
			calculation.Line{Symbol: "P_n/Omega", Name: TermAllowableCompr, Value: m.Allowed.Compression, Unit: "N", Source: "E3, E7.2"})
	} else {
		lines = append(lines, calculation.Line{Symbol: "P_n/Omega", Name: TermAllowableTension, Formula: "Fy A / Omega", Value: m.Allowed.Tension, Unit: "N", Source: "D2"})
	}
	outside := "|P|/A + B M/S"
	if n := m.Net; n != nil {
		outside += " + |P| e/S + f"
		lines = append(lines,
			calculation.Line{Symbol: "h", Name: TermHolesHigh, Value: n.High, Unit: "mm", Source: "given"},
			calculation.Line{Symbol: "e", Name: TermShift, Value: n.Shift, Unit: "mm", Source: of},
			calculation.Line{Symbol: "f", Name: TermStrips, Formula: "V and T past the holes, strips held at both ends", Value: m.Shear*n.PerShear + m.Twist*n.PerTwist, Unit: "MPa", Source: "derived"},
			calculation.Line{Symbol: "F_s/Omega", Name: TermAllowableStrip, Formula: "pi^2/12 E (t/h)^2, then E3", Value: m.Allowed.Strip, Unit: "MPa", Source: "pinned strips"})
	}
	return append(lines,
		calculation.Line{Symbol: "V_n/Omega", Name: TermAllowableShear, Value: m.Allowed.Shear, Unit: "N", Source: "G5"},
		calculation.Line{Symbol: "T_n/Omega", Name: TermAllowableTwist, Value: m.Allowed.Twist, Unit: "N mm", Source: "H3.1"},
		calculation.Line{Symbol: "P", Name: TermAxial, Value: m.Axial, Unit: "N", Source: frame},
		calculation.Line{Symbol: "V", Name: TermShear, Value: m.Shear, Unit: "N", Source: frame},
		calculation.Line{Symbol: "M", Name: TermBending, Value: m.Bending, Unit: "N mm", Source: frame},
		calculation.Line{Symbol: "T", Name: TermTwist, Value: m.Twist, Unit: "N mm", Source: frame},
		calculation.Line{Symbol: "B", Name: TermAmplification, Formula: amplificationFormula(), Value: finite(s.Amplification), Source: "(A-8-6)"},
		calculation.Line{Symbol: "", Name: TermOutsideStress, Formula: outside, Value: m.Stress, Unit: "MPa", Source: "elastic"},
		calculation.Line{Symbol: "ratio", Name: TermUse, Formula: "P, B M, V and T together", Value: m.Ratio, Source: "H1.1, H3.2"},
	)
}

// Lines returns the check of the plate line by line.
func (p *Plate) Lines() []calculation.Line {
	spread := "2 l, at least D"
	if p.anchor {
		spread = "2 l"
	}
	return []calculation.Line{
		{Symbol: "P", Name: PlateForceTerm{p.How}, Value: p.Force, Unit: "N", Source: "statics"},
		{Symbol: "l", Name: TermLever, Value: p.Lever, Unit: "mm", Source: "given"},
		{Symbol: "b_0", Name: TermSpread, Formula: spread, Value: p.Spread, Unit: "mm", Source: "assumed"},
		{Symbol: "b", Name: TermWidth, Value: p.Width, Unit: "mm", Source: "given"},
		{Symbol: "M", Name: TermPlateMoment, Formula: "P l", Value: p.Moment, Unit: "N mm", Source: "statics"},
		{Symbol: "M_n/Omega", Name: TermAllowableMoment, Formula: "Fy b t^2 / 4 / Omega", Value: p.Allowed, Unit: "N mm", Source: "AISC 360 F11"},
		{Symbol: "ratio", Name: TermUse, Formula: "M / (M_n/Omega)", Value: p.Ratio, Source: "AISC 360 F11"},
	}
}

// Lines returns the check of the anchors line by line.
func (a *Anchors) Lines() []calculation.Line {
	lines := []calculation.Line{
		{Symbol: "T", Name: TermTension, Formula: "M y / sum of y^2 about an edge, M less what the weight holds", Value: a.Tension, Unit: "N", Source: "stiff plate"},
		{Symbol: "V", Name: TermEvenShear, Value: a.Shear, Unit: "N", Source: "frame"},
		{Symbol: "T_t", Name: TermTargetTension, Formula: "likewise, overturning times the target", Value: a.ForTarget, Unit: "N", Source: "stiff plate"},
		{Symbol: "V_t", Name: SharingTerm{a.Sharing}, Formula: fmt.Sprintf("n / %d (V + twist r / sum of r^2), times the target", a.Sharing), Value: a.ShearForTarget, Unit: "N", Source: "elastic group; AISC Design Guide 1, 3.5"},
	}
	if a.Wall {
		pull := calculation.Line{Symbol: "F", Name: TermLift, Value: a.Lift, Unit: "N", Source: "frame"}
		lines[0].Formula = "M y / sum of y^2 about an edge + F / n, M with the weight and less F"
		lines[3].Formula = fmt.Sprintf("n / %d (V + twist r / sum of r^2)", a.Sharing)
		lines = []calculation.Line{lines[0], pull, lines[1], lines[3]}
	}
	if a.Allowed > 0 {
		limit := func(stress float64) string { return fmt.Sprintf("%v MPa pi d^2 / 4 / %v", stress, boltSafety) }
		lines = append(lines,
			calculation.Line{Symbol: "d", Name: TermBolt, Formula: fmt.Sprintf("hole - %v mm", boltPlay), Value: a.Bolt, Unit: "mm", Source: "assumed; AISC 360 Table J3.3"},
			calculation.Line{Symbol: "R_n/Omega", Name: TermBoltTension, Formula: limit(boltStress), Value: a.Allowed, Unit: "N", Source: "AISC 360 J3.6, Table J3.2"},
			calculation.Line{Symbol: "ratio", Name: TermUseTension, Formula: "T_t / (R_n/Omega)", Value: a.Ratio, Source: "AISC 360 J3.6"},
			calculation.Line{Symbol: "V_n/Omega", Name: TermBoltShear, Formula: limit(boltShear), Value: a.ShearAllowed, Unit: "N", Source: "AISC 360 J3.6, Table J3.2"},
			calculation.Line{Symbol: "ratio", Name: TermUseShear, Formula: "V_t / (V_n/Omega)", Value: a.ShearRatio, Source: "AISC 360 J3.6"},
			calculation.Line{Symbol: "ratio", Name: TermUseBoth, Formula: fmt.Sprintf("greatest of t, v, (t + v) / %v of the two", boltBoth), Value: a.Interaction, Source: "AISC 360 J3.7"})
	}
	return lines
}
