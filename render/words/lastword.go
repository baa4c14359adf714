package words

import (
	"fmt"
	"strings"

	"stabile/fab"
	"stabile/fab/check"
)

// reasonsShown is how many failures the last word gives with their figures; the
// rest it counts by kind.
const reasonsShown = 3

// LastWord returns the sentence with which every output ends.
func (w Writer) LastWord(j *fab.Job) string { return w.Verdict(j.Verdict, j.Reasons) }

// Verdict returns a verdict with the checks on which it rests in one sentence.
func (w Writer) Verdict(v check.Verdict, reasons []check.Check) string {
	switch v {
	case check.Fails:
		return "Fails: " + w.failures(reasons) + "."
	case check.Undecided:
		return "Not decided: " + w.open(reasons) + ". Holds in all else."
	}
	return "Stands and holds as far as it was checked."
}

// failures writes the first failures with their figures, and what else fails.
func (w Writer) failures(list []check.Check) string {
	var says []string
	for _, c := range list[:min(len(list), reasonsShown)] {
		text := w.Subject(c)
		if f := w.Figures(c); f != "" {
			text += " (" + f + ")"
		}
		says = append(says, text)
	}
	text := strings.Join(says, "; ")
	if len(list) > reasonsShown {
		text += "; and " + w.open(list[reasonsShown:])
	}
	return text
}

// open names the topics of checks, those of one kind together.
func (w Writer) open(list []check.Check) string {
	var says []string
	wishes := 0
	for _, group := range byKind(list) {
		s := topics[group[0].ID]
		switch n := len(group); {
		case group[0].ID == check.Require:
			wishes += n
		case n > 1 && s.many != "":
			says = append(says, fmt.Sprintf(s.many, n))
		default:
			says = append(says, w.Subject(group[0]))
		}
	}
	if wishes > 0 {
		says = append(says, count(wishes, "requirement"))
	}
	return And(says)
}
