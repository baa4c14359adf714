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

// Worked returns the check of a member line by line.
func (s *Strength) Worked(m *Member) []calculation.Line {
	metal := m.Part.Metal
	compact, slender, most := Walls(m.Yield, metal.Modulus)
	given, alloy, frame := "given", "of the alloy", "frame"
	_, why := Yield(metal)
	if why == "" {
		why = alloy
	}
	lines := []calculation.Line{
		{Symbol: "D", Name: "outside diameter", Value: m.Section.Diameter, Unit: "mm", Source: given},
		{Symbol: "t", Name: "wall", Value: m.Section.Thickness, Unit: "mm", Source: given},
		{Symbol: "A", Name: "area", Formula: "pi/4 (D^2 - (D - 2 t)^2)", Value: m.Section.Area, Unit: "mm2", Source: "ring"},
		{Symbol: "S", Name: "elastic modulus of the section", Formula: "pi/32 (D^4 - (D - 2 t)^4) / D", Value: m.Section.Elastic, Unit: "mm3", Source: "ring"},
		{Symbol: "Z", Name: "plastic modulus of the section", Formula: "(D^3 - (D - 2 t)^3) / 6", Value: m.Section.Plastic, Unit: "mm3", Source: "ring"},
		{Symbol: "E", Name: "modulus of elasticity", Value: metal.Modulus, Unit: "MPa", Source: alloy},
		{Symbol: "Fy", Name: "yield", Value: m.Yield, Unit: "MPa", Source: why},
		{Symbol: "D/t", Name: "slenderness of the wall: " + string(m.Class), Value: m.Section.Slenderness(), Source: "Table B4.1b"},
		{Symbol: "", Name: "compact up to", Formula: "0.07 E/Fy", Value: compact, Source: "Table B4.1b"},
		{Symbol: "", Name: "noncompact up to", Formula: "0.31 E/Fy", Value: slender, Source: "Table B4.1b"},
		{Symbol: "", Name: "the rule ends at", Formula: "0.45 E/Fy", Value: most, Source: "F8"},
		{Symbol: "M_n/Omega", Name: "allowable bending", Value: m.Allowed.Bending / 1e3, Unit: "N m", Source: "F8"},
	}
	if m.Axial < 0 && !math.IsInf(m.Elastic, 1) {
		lines = append(lines,
			calculation.Line{Symbol: "F_e", Name: "elastic buckling stress", Value: m.Elastic, Unit: "MPa", Source: frame},
			calculation.Line{Symbol: "F_n", Name: "nominal stress of the column", Value: m.Allowed.Column, Unit: "MPa", Source: "E3"},
			calculation.Line{Symbol: "P_n/Omega", Name: "allowable push", Value: m.Allowed.Compression, Unit: "N", Source: "E3, E7.2"})
	} else {
		lines = append(lines, calculation.Line{Symbol: "P_n/Omega", Name: "allowable pull", Formula: "Fy A / Omega", Value: m.Allowed.Tension, Unit: "N", Source: "D2"})
	}
	return append(lines,
		calculation.Line{Symbol: "V_n/Omega", Name: "allowable shear", Value: m.Allowed.Shear, Unit: "N", Source: "G5"},
		calculation.Line{Symbol: "T_n/Omega", Name: "allowable twist", Value: m.Allowed.Twist / 1e3, Unit: "N m", Source: "H3.1"},
		calculation.Line{Symbol: "P", Name: "pull, negative for a push", Value: m.Axial, Unit: "N", Source: frame},
		calculation.Line{Symbol: "V", Name: "shear", Value: m.Shear, Unit: "N", Source: frame},
		calculation.Line{Symbol: "M", Name: "bending", Value: m.Bending / 1e3, Unit: "N m", Source: frame},
		calculation.Line{Symbol: "T", Name: "twist", Value: m.Twist / 1e3, Unit: "N m", Source: frame},
		calculation.Line{Symbol: "B", Name: "growth of bending", Formula: "1 / (1 - 1.6 / lambda)", Value: finite(s.Amplification), Source: "(A-8-6)"},
		calculation.Line{Symbol: "", Name: "stress at the outside", Formula: "|P|/A + B M/S", Value: m.Stress, Unit: "MPa", Source: "elastic"},
		calculation.Line{Symbol: "ratio", Name: "of what may be borne, 1 is the limit", Formula: "P, B M, V and T together", Value: m.Ratio, Source: "H1.1, H3.2"},
	)
}

// Lines returns the check of the plate line by line.
func (p *Plate) Lines() []calculation.Line {
	spread := "2 l, at least D"
	if p.anchor {
		spread = "2 l"
	}
	return []calculation.Line{
		{Symbol: "P", Name: "force at the end of the strip: " + p.How, Value: p.Force, Unit: "N", Source: "statics"},
		{Symbol: "l", Name: "from the face of the post to the force", Value: p.Lever, Unit: "mm", Source: "given"},
		{Symbol: "b_0", Name: "width of the strip, a spread of 45 deg each way", Formula: spread, Value: p.Spread, Unit: "mm", Source: "assumed"},
		{Symbol: "b", Name: "of that on the plate, at the face of the post", Value: p.Width, Unit: "mm", Source: "given"},
		{Symbol: "M", Name: "moment at the face of the post", Formula: "P l", Value: p.Moment / 1e3, Unit: "N m", Source: "statics"},
		{Symbol: "M_n/Omega", Name: "allowable moment", Formula: "Fy b t^2 / 4 / Omega", Value: p.Allowed / 1e3, Unit: "N m", Source: "AISC 360 F11"},
		{Symbol: "ratio", Name: "of what may be borne, 1 is the limit", Formula: "M / (M_n/Omega)", Value: p.Ratio, Source: "AISC 360 F11"},
	}
}

// Lines returns the check of the anchors line by line.
func (a *Anchors) Lines() []calculation.Line {
	lines := []calculation.Line{
		{Symbol: "T", Name: "greatest pull on one anchor", Formula: "M y / sum of y^2 about an edge, M less what the weight holds", Value: a.Tension, Unit: "N", Source: "stiff plate"},
		{Symbol: "V", Name: "greatest shear on one anchor, shared evenly", Value: a.Shear, Unit: "N", Source: "frame"},
		{Symbol: "T_t", Name: "pull for the target against tipping", Formula: "the same, the overturning moment times the target", Value: a.ForTarget, Unit: "N", Source: "stiff plate"},
		{Symbol: "V_t", Name: fmt.Sprintf("shear on one of the %d that bear it, without friction", a.Sharing), Formula: fmt.Sprintf("n / %d (V + twist r / sum of r^2), times the target", a.Sharing), Value: a.ShearForTarget, Unit: "N", Source: "elastic group; AISC Design Guide 1, 3.5"},
	}
	if a.Allowed > 0 {
		lines = append(lines,
			calculation.Line{Symbol: "d", Name: "bolt, by its hole", Formula: "hole - 2 mm", Value: a.Bolt, Unit: "mm", Source: "assumed; AISC 360 Table J3.3"},
			calculation.Line{Symbol: "R_n/Omega", Name: "what the steel of a bolt may bear, A307 or 4.6", Formula: "310 MPa pi d^2 / 4 / 2", Value: a.Allowed, Unit: "N", Source: "AISC 360 J3.6, Table J3.2"},
			calculation.Line{Symbol: "ratio", Name: "of the steel in pull, 1 is the limit", Formula: "T_t / (R_n/Omega)", Value: a.Ratio, Source: "AISC 360 J3.6"},
			calculation.Line{Symbol: "V_n/Omega", Name: "the same in shear", Formula: "186 MPa pi d^2 / 4 / 2", Value: a.ShearAllowed, Unit: "N", Source: "AISC 360 J3.6, Table J3.2"},
			calculation.Line{Symbol: "ratio", Name: "of the steel in shear", Formula: "V_t / (V_n/Omega)", Value: a.ShearRatio, Source: "AISC 360 J3.6"},
			calculation.Line{Symbol: "ratio", Name: "of the steel, pull and shear of one case together", Formula: "the greatest of t, v and (t + v) / 1.3, of the two ratios", Value: a.Interaction, Source: "AISC 360 J3.7"})
	}
	return lines
}
