package terminal

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

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
			p.hanging(margin, "", fmt.Sprintf("%s: %s", r.Set[0].Value, cameTo(r)))
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
		s.flaws(&p)
	}
	_, err := w.Write(p.buf.Bytes())
	return err
}

// found tells the answer, and what is beyond it.
func (s *Solution) found(p *page, which string) {
	here, beyond := s.Trial.Answers[0].Text, ""
	if !s.Bound {
		beyond = cameTo(&s.Beyond)
		if r := &s.Beyond; r.Err == nil && !r.Answers[0].Unchecked {
			here, beyond = apart(&s.Trial, r, s.Condition, s.Units)
			if beyond != "" {
				beyond = "it comes to " + beyond
			}
		}
	}
	if here != "" {
		here = " (" + here + ")"
	}
	verdict := "."
	if n := len(s.Trial.Faults); n > 0 {
		verdict = fmt.Sprintf("; but the design then has %s, see below.", count(n, "fault"))
	}
	p.strong(0, fmt.Sprintf("%s = %s is the %s with which %s%s%s", s.Name, s.Value.Value, which, s.Condition, here, verdict))
	switch r := &s.Beyond; {
	case s.Bound:
		p.hanging(0, "", "It is the end of the range: nothing beyond it was tried.")
	case r.Err != nil || r.Answers[0].Unchecked:
		p.hanging(0, "", fmt.Sprintf("With %s: %s.", s.Fails.Value, beyond))
	case beyond == "":
		p.hanging(0, "", fmt.Sprintf("With %s it does not hold any more.", s.Fails.Value))
	default:
		p.hanging(0, "", fmt.Sprintf("With %s it does not hold any more: %s.", s.Fails.Value, beyond))
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

// unanswered tells with how many values there is no answer, and why.
func (s *Solution) unanswered(p *page) {
	for _, k := range []struct {
		what string
		list []study.Reason
	}{{"could not be checked", s.Unanswered()}, {"cannot be made", s.Unmade()}} {
		for _, r := range k.list[:min(mostWrong, len(k.list))] {
			p.hanging(margin, "", fmt.Sprintf("%s with %s: %s", k.what, count(r.Values, "value"), r.Text))
		}
		if n := len(k.list) - mostWrong; n > 0 {
			p.hanging(margin, "", fmt.Sprintf("and for %s", count(n, "other reason")))
		}
	}
}

// flaws tells what is wrong with the design at the answer, and what of it was not
// checked: a condition that holds says nothing of the rest.
func (s *Solution) flaws(p *page) {
	if list := s.Trial.Faults; len(list) > 0 {
		p.heading(fmt.Sprintf("With %s the condition holds, but the design does not do", s.Value))
		for _, text := range words.In(s.Units).Named(list) {
			p.lines("", margin, "fault  ", text)
		}
	}
	if list := append(slices.Clone(s.Trial.Unchecked), s.Trial.Blank...); len(list) > 0 {
		p.blank()
		p.hanging(0, "", "Not checked: "+strings.Join(list, ", ")+".")
	}
}

// cameTo tells why a value does not hold.
func cameTo(r *study.Result) string {
	switch {
	case r.Err != nil:
		return "it cannot be made, " + study.Why(r.Err)
	case r.Answers[0].Unchecked:
		return "not checked, " + r.Answers[0].Text
	}
	return "it comes to " + r.Answers[0].Text
}

// apart returns what a condition came to with two values, one that holds and one
// that does not, with as many digits as tell the two apart and one more, so that
// neither is rounded to the limit between them. What it comes to with the second is
// "" where they cannot be told apart.
func apart(a, b *study.Result, condition string, units quantity.System) (string, string) {
	one, other := a.Answers[0].Text, b.Answers[0].Text
	x, y, unit, ok := measured(a, b, condition, units)
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

// measured returns the figure that a condition begins with, as two results have
// it, in the design's unit.
func measured(a, b *study.Result, condition string, units quantity.System) (x, y float64, unit string, ok bool) {
	of := map[string]func(*study.Result) study.Figure{
		"weight":    func(r *study.Result) study.Figure { return study.Figure{Value: r.Mass.Total, Known: true} },
		"height":    func(r *study.Result) study.Figure { return study.Figure{Value: r.Size.Height, Known: true} },
		"width":     func(r *study.Result) study.Figure { return study.Figure{Value: r.Size.Width, Known: true} },
		"depth":     func(r *study.Result) study.Figure { return study.Figure{Value: r.Size.Depth, Known: true} },
		"tipping":   func(r *study.Result) study.Figure { return r.Tipping },
		"strength":  func(r *study.Result) study.Figure { return r.Strength },
		"frequency": func(r *study.Result) study.Figure { return r.Frequency },
	}
	name := strings.TrimSpace(condition)
	if i := strings.IndexAny(name, " <>="); i >= 0 {
		name = name[:i]
	}
	figure := of[name]
	if figure == nil || !strings.HasPrefix(strings.TrimLeft(strings.TrimPrefix(strings.TrimSpace(condition), name), " "), "<") &&
		!strings.HasPrefix(strings.TrimLeft(strings.TrimPrefix(strings.TrimSpace(condition), name), " "), ">") {
		return 0, 0, "", false
	}
	p, q := figure(a), figure(b)
	scale := 1.0
	switch name {
	case "weight":
		unit = "kg"
		if units == quantity.Inch {
			unit = "lb"
		}
	case "height", "width", "depth":
		unit = "mm"
		if units == quantity.Inch {
			unit = "in"
		}
	case "frequency":
		unit = "Hz"
	}
	if u, ok := quantity.LookupUnit(unit); ok && unit != "Hz" {
		scale = u.Scale
	}
	return p.Value / scale, q.Value / scale, unit, p.Known && q.Known
}
