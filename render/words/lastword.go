package words

import (
	"fmt"
	"strings"

	"stabile/fab"
	"stabile/fab/check"
)

// reasonsShown is of how many kinds the last word gives a failure with its figures;
// the rest it counts.
const reasonsShown = 3

// LastWord returns the sentence with which every output ends.
func (w Writer) LastWord(j *fab.Job) string { return w.Verdict(j.Verdict, check.Groups(j.Reasons)) }

// Verdict returns a verdict with the checks on which it rests in one sentence.
func (w Writer) Verdict(v check.Verdict, reasons []check.Group) string {
	switch v {
	case check.Fails:
		return "Fails: " + w.failures(reasons) + "."
	case check.Undecided:
		return "Not decided: " + w.groups(reasons) + ". Holds in all else."
	}
	return "Stands and holds as far as it was checked."
}

// failures writes the first failure of each of the first kinds with its figures, and
// what else fails.
func (w Writer) failures(list []check.Group) string {
	var says []string
	for _, g := range list[:min(len(list), reasonsShown)] {
		text := w.Subject(g.First)
		if f := w.Figures(g.First); f != "" {
			text += " (" + f + ")"
		}
		if n := g.Count - 1; n > 0 {
			text += fmt.Sprintf(" and %d more of the kind", n)
		}
		says = append(says, text)
	}
	text := strings.Join(says, "; ")
	if len(list) > reasonsShown {
		text += "; and " + w.groups(list[reasonsShown:])
	}
	return text
}

// open names the subjects of checks, those of one kind together.
func (w Writer) open(list []check.Check) string { return w.groups(check.Groups(list)) }

// groups names the subjects of checks, kind by kind.
func (w Writer) groups(list []check.Group) string {
	var says []string
	for _, g := range list {
		s := topics[g.First.ID]
		switch {
		case g.First.ID == check.Require:
			says = append(says, Count(g.Count, "requirement"))
		case g.Count > 1 && s.many != "":
			says = append(says, fmt.Sprintf(s.many, g.Count))
		default:
			says = append(says, w.Subject(g.First))
		}
	}
	return And(says)
}
