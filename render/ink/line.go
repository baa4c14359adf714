package ink

// The widths of line, in mm, of group 0.5 of ISO 128: wide to narrow as two to
// one. The frame is 0.7 by ISO 5457. Rules of tables are one step of the
// series of widths under the narrow line, so that the writing stands out. An
// edge at full size is one step over the narrow line: its middle is the cut,
// which a wide line would hide.
const (
	wide   = 0.5
	narrow = 0.25
	frame  = 0.7
	rule   = 0.18
	edge   = 0.35
)

// Width returns the width of a kind of line, in mm.
func (l Line) Width() float64 {
	switch l {
	case Outline:
		return wide
	case Frame:
		return frame
	case Rule:
		return rule
	case Edge:
		return edge
	}
	return narrow
}

// The elements of dashed lines in widths of the line, by ISO 128. A dot is
// drawn as long as the line is wide: the standard's half width is lost on
// an office printer.
const (
	longDash = 24
	dash     = 12
	gap      = 3
	dot      = 1
)

// Dashes returns the lengths, in mm, of the line's dashes and gaps in turn,
// from its start; nil for a continuous line.
func (l Line) Dashes() []float64 {
	var pattern []float64
	switch l {
	case Hidden:
		pattern = []float64{dash, gap}
	case Centre:
		pattern = []float64{longDash, gap, dot, gap}
	case Phantom:
		pattern = []float64{longDash, gap, dot, gap, dot, gap}
	}
	for i := range pattern {
		pattern[i] *= l.Width()
	}
	return pattern
}

// String returns the name of the kind of line, as goldens have it.
func (l Line) String() string {
	switch l {
	case Outline:
		return "outline"
	case Thin:
		return "thin"
	case Hidden:
		return "hidden"
	case Centre:
		return "centre"
	case Phantom:
		return "phantom"
	case Frame:
		return "frame"
	case Rule:
		return "rule"
	case Seam:
		return "seam"
	case BendLines:
		return "bend"
	case Edge:
		return "edge"
	}
	return "unknown"
}
