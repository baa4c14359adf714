package stand

import "stabile/fab/calculation"

// Lines returns how tipping is worked out about each edge, case by case; the
// figures are those of the edges.
func (t *Tipping) Lines() []calculation.Line {
	return []calculation.Line{
		{Symbol: "d", Name: "lever from the edge in to the centre of gravity", Unit: "mm", Source: "geometry", Varies: true},
		{Symbol: "M_r", Name: "restoring moment of the weight W, ballast included", Formula: "W d cos(slope)", Unit: "N m", Source: "statics", Varies: true},
		{Symbol: "M_o", Name: "overturning moment of a push F at the height h, from 72 bearings and square to the edge", Formula: "F h cos(angle to the edge's normal)", Unit: "N m", Source: "statics", Varies: true},
		{Symbol: "M_o", Name: "of the slope along the normal, the centre of gravity at the height z", Formula: "W z sin(slope)", Unit: "N m", Source: "statics", Varies: true},
		{Symbol: "M_o", Name: "of the wind from 72 bearings, alone and with the slope", Formula: "sum of r_i x F_i about the edge, + W z sin(slope)", Unit: "N m", Source: "statics", Varies: true},
		{Symbol: "factor", Name: "against tipping, the least of the cases", Formula: "M_r / M_o", Source: "statics", Varies: true},
		{Symbol: "mu", Name: "friction, steel on concrete", Value: Friction, Source: "common practice, no source"},
		{Symbol: "factor", Name: "against sliding", Formula: "mu (W cos(slope) - lift) / (F + W sin(slope))", Source: "statics", Varies: true},
	}
}
