package strength

import (
	"stabile/fab/calculation"
)

// Lines returns the rules, with what each comes to where that is one figure for
// the whole.
func (s *Strength) Lines() []calculation.Line {
	return []calculation.Line{
		{Symbol: "Omega", Name: "factor of safety on members", Value: omega, Source: "AISC 360 D2, E1, F1, G1, H3"},
		{Symbol: "M_n", Name: "nominal bending moment of a tube", Formula: "Fy Z up to D/t = 0.07 E/Fy; (0.021 E/(D/t) + Fy) S up to 0.31 E/Fy; 0.33 E/(D/t) S up to 0.45 E/Fy", Unit: "N m", Source: "AISC 360 F8, Table B4.1b case 20", Varies: true},
		{Symbol: "P_n", Name: "nominal push of a tube", Formula: "F_n A_e; F_n = 0.658^(Fy/Fe) Fy, or 0.877 Fe where Fy/Fe > 2.25; A_e = A up to D/t = 0.11 E/Fy, else (0.038 E/(Fy D/t) + 2/3) A", Unit: "N", Source: "AISC 360 E3, E7.2", Varies: true},
		{Symbol: "F_e", Name: "elastic buckling stress", Formula: "buckling factor of the frame x greatest push in the post / A", Unit: "MPa", Source: "AISC 360 E3, by analysis of the frame", Varies: true},
		{Symbol: "lambda", Name: "buckling factor of the frame under the greatest pushes of all cases at once", Value: finite(s.Buckling), Source: "linear buckling of the frame; 0 stands for none"},
		{Symbol: "B", Name: "growth of bending because the frame gives way", Formula: "1 / (1 - 1.6 / lambda)", Value: finite(s.Amplification), Source: "AISC 360 Appendix 8, (A-8-6)"},
		{Symbol: "V_n", Name: "nominal shear", Formula: "F_cr A / 2, F_cr the greater of 1.60 E/(sqrt(L/D) (D/t)^(5/4)) and 0.78 E/(D/t)^(3/2), at most 0.6 Fy", Unit: "N", Source: "AISC 360 G5", Varies: true},
		{Symbol: "T_n", Name: "nominal twist", Formula: "F_cr pi (D - t)^2 t / 2, F_cr the greater of 1.23 E/(sqrt(L/D) (D/t)^(5/4)) and 0.60 E/(D/t)^(3/2), at most 0.6 Fy", Unit: "N m", Source: "AISC 360 H3.1", Varies: true},
		{Symbol: "ratio", Name: "all together", Formula: "P/Pc + 8/9 M/Mc where P/Pc is 0.2 or more, else P/(2 Pc) + M/Mc; with twist above 0.2 Tc: P/Pc + M/Mc + (V/Vc + T/Tc)^2", Source: "AISC 360 H1.1, H3.2", Varies: true},
		{Symbol: "f", Name: "force on the line of a ring weld", Formula: "sqrt((N/(pi d) + 4 M/(pi d^2))^2 + (V/(pi d) + 2 T/(pi d^2))^2)", Unit: "N/mm", Source: "Blodgett, weld as a line", Varies: true},
		{Symbol: "f_a", Name: "allowed on a weld's throat", Formula: "the lesser of 0.30 x 482 MPa (70 ksi weld metal) and 0.40 Fy leg/throat = 0.566 Fy (base metal beside the leg)", Value: throatShear * electrode, Unit: "MPa", Source: "AISC 360 J2.4, J4.2"},
		{Symbol: "T_i", Name: "pull on an anchor", Formula: "M y_i / sum of y^2 about the edge, M less what the weight holds", Unit: "N", Source: "stiff plate about its edge", Varies: true},
		{Symbol: "v_crit", Name: "wind that makes a part hum", Formula: "f b / S, S = 0.18 for posts, 0.20 for balls", Unit: "m/s", Source: "EN 1991-1-4 E.1.3, Table E.1", Varies: true},
	}
}

// Assumptions returns what was assumed.
func (s *Strength) Assumptions() []string {
	return []string{
		"posts are tubes without dents, out of round by no more than 1 %, their seams welded through; balls and joints do not give; the base does not lift or give",
		"the frame is clamped to the ground, so forces between posts that stand apart are those of a base that is held down",
		"the wind is taken whole, without the 0.6 that ASCE 7 allows with allowable stresses",
		"a post's elastic buckling stress comes from the frame's own buckling factor, with the greatest pushes of all cases at once, which is on the safe side",
		"a ring weld is taken as a circle of the post's outside diameter and a fillet whose leg is the thinner sheet's thickness",
		"the weight acts with the slope of the ground along the wind or the push",
		"the rules of AISC 360 are for carbon steel; for other metals they stand in with the metal's own yield and modulus, and, where sheet is hard by rolling or heat treatment (aluminium, copper alloys and stainless steel above their soft yield), with that of soft sheet, as beside a weld",
		"a part that keeps still in the modes that were worked out is taken to hum as it swings on its own foot with what it bears, about, by Rayleigh's quotient of how it gives under its weight laid sideways",
		"fatigue of welds by wind is not reckoned; neither is how far a part swings when it hums",
	}
}

// finite returns x, or 0 for infinity, which no paper shows.
func finite(x float64) float64 {
	if x > 1e300 {
		return 0
	}
	return x
}
