package terminal

import (
	"fmt"
	"io"
	"math"
	"strings"

	"stabile/fab/check"
	"stabile/fab/study"
	"stabile/param/quantity"
	"stabile/render/words"
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
	switch {
	case s.Found:
		s.found(&p, which)
	case !s.Checked() && len(s.Unanswered()) > 0:
		p.strong(0, fmt.Sprintf("Not known: whether %s could not be checked with any %s from %s to %s.", s.Condition, s.Name, first.Value, last.Value))
	case !s.Checked():
		p.strong(0, fmt.Sprintf("There is no %s from %s to %s with which it can be made.", s.Name, first.Value, last.Value))
	default:
		p.strong(0, fmt.Sprintf("There is no %s from %s to %s with which %s.", s.Name, first.Value, last.Value, s.checked()))
		for _, r := range []*study.Result{&s.Scanned[0], &s.Scanned[len(s.Scanned)-1]} {
			p.hanging(margin, "", fmt.Sprintf("%s: %s", r.Set[0].Value, s.cameTo(r)))
		}
	}
	s.unanswered(&p)
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
	how := fmt.Sprintf("Tried %s from %s to %s", words.Count(s.Tried, "value"), first.Value, last.Value)
	if s.Whole {
		how += ": every step"
	} else {
		how += "; what lies between two that were tried is not known"
	}
	p.faint(0, how+".")
	if s.Found {
		p.blank()
		p.hanging(0, "", fmt.Sprintf("It then weighs %s. See it with --set %q", s.Units.Weight(s.Trial.Mass.Total), s.Value.String()))
		s.flaws(&p)
	}
	_, err := w.Write(p.buf.Bytes())
	return err
}

// found tells the answer, and what is beyond it.
func (s *Solution) found(p *page, which string) {
	w := words.In(s.Units)
	here, beyond := w.Sides(s.Trial.Answers[0].Sides), ""
	if !s.Bound {
		beyond = s.cameTo(&s.Beyond)
		if r := &s.Beyond; r.Err == nil && !r.Answers[0].Unchecked {
			here, beyond = s.apart(&s.Trial, r)
			if beyond != "" {
				beyond = "it comes to " + beyond
			}
		}
	}
	if here != "" {
		here = " (" + here + ")"
	}
	verdict := "."
	if s.Trial.Verdict == check.Fails {
		verdict = "; but the design then fails, see below."
	}
	p.strong(0, fmt.Sprintf("%s = %s is the %s with which %s%s%s", s.Name, s.Value.Value, which, s.Condition, here, verdict))
	switch r := &s.Beyond; {
	case s.Bound:
		p.hanging(0, "", "It is the end of the range: nothing beyond it was tried.")
	case r.Err != nil || r.Answers[0].Unchecked:
		p.hanging(0, "", fmt.Sprintf("With %s: %s.", s.Fails.Value, beyond))
	case beyond == "":
		p.hanging(0, "", fmt.Sprintf("At %s it fails.", s.Fails.Value))
	default:
		p.hanging(0, "", fmt.Sprintf("At %s it fails: %s.", s.Fails.Value, beyond))
	}
}

// checked returns the condition, as it was tried: not with all values where it
// could not be checked with some.
func (s *Solution) checked() string {
	if len(s.Unanswered()) > 0 {
		return s.Condition + ", of those with which it could be checked"
	}
	return s.Condition
}

// unanswered reports with how many values there is no answer, and why.
func (s *Solution) unanswered(p *page) {
	for _, k := range []struct {
		what string
		list []study.Reason
	}{{"could not be checked", s.Unanswered()}, {"cannot be made", s.Unmade()}} {
		for _, r := range k.list[:min(mostWrong, len(k.list))] {
			p.hanging(margin, "", fmt.Sprintf("%s with %s: %s", k.what, words.Count(r.Values, "value"), s.reason(r)))
		}
		if n := len(k.list) - mostWrong; n > 0 {
			p.hanging(margin, "", fmt.Sprintf("and for %s", words.Count(n, "other reason")))
		}
	}
}

// reason says why values do not answer.
func (s *Solution) reason(r study.Reason) string {
	if r.Fact != nil {
		return words.In(s.Units).Fact(r.Fact)
	}
	return r.Text
}

// flaws gives the last word on the design at the answer: a condition that holds says
// nothing of the rest.
func (s *Solution) flaws(p *page) {
	p.blank()
	p.hanging(0, "", words.In(s.Units).Verdict(s.Trial.Verdict, s.Trial.Reasons))
}

// cameTo says why a value does not hold.
func (s *Solution) cameTo(r *study.Result) string {
	w := words.In(s.Units)
	switch {
	case r.Err != nil:
		return "it cannot be made, " + study.Why(r.Err)
	case r.Answers[0].Missing != nil:
		return "not checked, " + w.Fact(r.Answers[0].Missing)
	}
	return "it comes to " + w.Sides(r.Answers[0].Sides)
}

// apart returns what a condition came to with two values, one that holds and one
// that does not, with as many digits as tell the two apart and one more, so that
// neither is rounded to the limit between them. The result with the second is
// "" where they cannot be distinguished.
func (s *Solution) apart(a, b *study.Result) (string, string) {
	w := words.In(s.Units)
	one, other := w.Sides(a.Answers[0].Sides), w.Sides(b.Answers[0].Sides)
	x, y, unit, ok := measured(a, b, s.Units)
	if !ok || x == y {
		if one == other {
			other = ""
		}
		return one, other
	}
	const most = 9 // decimals: past what any figure is worked out to
	decimals := 0
	if x != math.Trunc(x) || y != math.Trunc(y) {
		decimals = int(max(0, min(most, math.Ceil(1-math.Log10(math.Abs(x-y))))))
	}
	write := func(v float64) string {
		return strings.TrimSpace(quantity.Decimal(v, decimals) + " " + unit)
	}
	if write(x) == write(y) {
		return one, ""
	}
	return write(x), write(y)
}

// measured returns the figure of a condition that compares one result, as two
// results of a study have it, in the design's unit.
func measured(a, b *study.Result, units quantity.System) (x, y float64, unit string, ok bool) {
	p, q := a.Answers[0].Sides, b.Answers[0].Sides
	if len(p) != 1 || len(q) != 1 || p[0].Result == "" || p[0].Result != q[0].Result {
		return 0, 0, "", false
	}
	switch p[0].Quantity.Dim {
	case quantity.Mass, quantity.Length, quantity.Rate:
	case quantity.Number:
		return p[0].Quantity.Number, q[0].Quantity.Number, "", true
	default:
		return 0, 0, "", false
	}
	u, ok := units.UnitOf(p[0].Quantity.Dim)
	return p[0].Quantity.Number / u.Scale, q[0].Quantity.Number / u.Scale, u.Name, ok
}
