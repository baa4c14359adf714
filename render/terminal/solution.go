package terminal

import (
	"fmt"
	"io"
	"strings"

	"stabile/fab/study"
	"stabile/param/quantity"
)

// A Solution is a search for a value to be shown.
type Solution struct {
	*study.Solution
	Name      string // of the adjustable value
	Least     bool
	Condition string
	Units     quantity.System
}

// Write says what came of a search.
func (s *Solution) Write(w io.Writer, style Style) error {
	p := page{style: style}
	first, last := s.Scanned[0].Set[0], s.Scanned[len(s.Scanned)-1].Set[0]
	which := "largest"
	if s.Least {
		which = "least"
	}
	if s.Found {
		p.strong(0, fmt.Sprintf("%s = %s is the %s with which %s%s.", s.Name, s.Value.Value, which, s.Condition, came(&s.Trial)))
		switch {
		case s.Bound:
			p.hanging(0, "", "It is the end of the range: nothing beyond it was tried.")
		default:
			p.hanging(0, "", fmt.Sprintf("With %s it does not hold any more.", s.Fails.Value))
		}
	} else {
		p.strong(0, fmt.Sprintf("There is no %s from %s to %s with which %s.", s.Name, first.Value, last.Value, s.Condition))
		for _, r := range []*study.Result{&s.Scanned[0], &s.Scanned[len(s.Scanned)-1]} {
			p.hanging(margin, "", fmt.Sprintf("%s: %s", r.Set[0].Value, cameTo(r)))
		}
	}
	if len(s.Stretches) > 1 {
		var list []string
		for _, x := range s.Stretches {
			if x[0] == x[1] {
				list = append(list, "at "+x[0].Value)
			} else {
				list = append(list, "from "+x[0].Value+" to "+x[1].Value)
			}
		}
		p.hanging(0, "", fmt.Sprintf("Take care: it holds in %d stretches, %s, and not between them.", len(list), strings.Join(list, ", ")))
	}
	how := fmt.Sprintf("Tried %s from %s to %s", count(s.Tried, "value"), first.Value, last.Value)
	if s.Whole {
		how += ": every step"
	} else {
		how += "; what lies between two that were tried is not known"
	}
	p.faint(0, how+".")
	if s.Found {
		p.blank()
		p.hanging(0, "", fmt.Sprintf("It then weighs %s. See it with --set %q", s.Units.Weight(s.Trial.Mass.Total), s.Value.String()))
	}
	_, err := w.Write(p.buf.Bytes())
	return err
}

// came tells what the condition came to, in brackets.
func came(r *study.Result) string {
	if text := r.Answers[0].Text; text != "" {
		return " (" + text + ")"
	}
	return ""
}

// cameTo tells why a value does not hold.
func cameTo(r *study.Result) string {
	switch {
	case r.Err != nil:
		return "cannot be made, " + study.Why(r.Err)
	case r.Answers[0].Unchecked:
		return "not checked, " + r.Answers[0].Text
	}
	return "it comes to " + r.Answers[0].Text
}
