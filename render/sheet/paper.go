package sheet

import "strings"

// A Paper is a size of sheet as it lies, in mm.
type Paper struct {
	Name          string
	Width, Height float64
}

// inch is the inch in mm, by which the ANSI sizes are defined.
const inch = 25.4

// Papers returns the sizes there are, upright: A4 to A1 of ISO 216 and A to D
// of ASME Y14.1.
func Papers() []Paper {
	return []Paper{
		{"A4", 210, 297},
		{"A3", 297, 420},
		{"A2", 420, 594},
		{"A1", 594, 841},
		{"ANSI A", 8.5 * inch, 11 * inch},
		{"ANSI B", 11 * inch, 17 * inch},
		{"ANSI C", 17 * inch, 22 * inch},
		{"ANSI D", 22 * inch, 34 * inch},
	}
}

// LookupPaper returns the paper of a name, upright. Letters may be small, a
// space may be a hyphen or nothing, and "letter" and "tabloid" are what
// printers call ANSI A and B.
func LookupPaper(name string) (Paper, bool) {
	key := paperKey(name)
	switch key {
	case "letter":
		key = "ansia"
	case "tabloid":
		key = "ansib"
	}
	for _, p := range Papers() {
		if paperKey(p.Name) == key {
			return p, true
		}
	}
	return Paper{}, false
}

func paperKey(name string) string {
	return strings.NewReplacer(" ", "", "-", "").Replace(strings.ToLower(name))
}

// Portrait returns the paper upright.
func (p Paper) Portrait() Paper {
	return Paper{p.Name, min(p.Width, p.Height), max(p.Width, p.Height)}
}

// Landscape returns the paper lying on its long side.
func (p Paper) Landscape() Paper {
	return Paper{p.Name, max(p.Width, p.Height), min(p.Width, p.Height)}
}
