package words

import (
	"fmt"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/finding"
)

// Client returns, in a client's words, what came of the checks of what may injure,
// and whether the drawing is ready to be built. What concerns the shop alone, and
// what it costs, is left out.
func (w Writer) Client(j *fab.Job) []string {
	var fails, open []check.Check
	for _, c := range j.Checks {
		if c.Concern != finding.Life {
			continue
		}
		switch c.Verdict {
		case check.Fails:
			fails = append(fails, c)
		case check.Undecided:
			open = append(open, c)
		}
	}
	var says []string
	for _, c := range fails {
		text := w.Subject(c)
		if f := w.Figures(c); f != "" {
			text += " (" + f + ")"
		}
		says = append(says, "Fails as drawn: "+text+".")
	}
	if len(open) > 0 {
		says = append(says, "Not decided: "+w.open(open)+".")
	}
	if len(fails)+len(open) == 0 {
		says = append(says, w.standsBy(j))
	}
	if j.Verdict == check.Fails {
		says = append(says, "The drawing is not ready to be built.")
	}
	return says
}

// standsBy says what keeps the piece upright.
func (w Writer) standsBy(j *fab.Job) string {
	switch t := j.Tipping; {
	case t.Anchors > 0:
		return "It stands and holds against these, held down by its anchors."
	case j.Mass.Ballast > 0:
		return fmt.Sprintf("It stands and holds against these with %s of ballast.", w.Weight(j.Mass.Ballast))
	}
	return "It stands and holds against these by its own weight."
}
