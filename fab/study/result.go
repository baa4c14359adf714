package study

import (
	"errors"
	"slices"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/source"
)

// A Result is what a trial came to. It holds no more than these figures, so
// that thousands of them can be kept.
type Result struct {
	Trial
	Number int // from 1, in the order of the trials

	// Err tells why the design cannot be made with these values; nothing below
	// is then known.
	Err error

	Adjust    []design.Adjustable
	Mass      fab.Mass
	Size      fab.Size
	Tipping   Figure // the factor against tipping
	Wind      Figure // N, the greatest level force on the whole
	Strength  Figure // the greatest share used of what any section bears
	Frequency Figure // Hz, the lowest at which the whole swings; known where a question or a requirement asks for it

	Sheets Figure // how many the shop's plan takes; not known unless the plan was asked for
	Cost   Figure // in Currency, the likely one
	// Currency is that of the cost.
	Currency string

	Failed    []string          // the requirements that do not hold, as written
	Unchecked []string          // those that could not be checked
	Blank     []string          // what else was not checked: tipping, wind, strength
	Faults    []finding.Finding // all dangers and faults of a report
	Answers   []design.Answer
	OK        bool // as a report has it
}

// Flaws returns the dangers and faults besides requirements that do not hold.
func (r *Result) Flaws() []finding.Finding {
	return slices.DeleteFunc(slices.Clone(r.Faults), func(f finding.Finding) bool { return f.Check == string(check.Require) })
}

// A Figure is a number that may not have been worked out.
type Figure struct {
	Value float64
	Known bool
}

// Of takes the figures of the job of a trial.
func Of(t Trial, number int, j *fab.Job) Result {
	r := Result{
		Trial: t, Number: number, Adjust: j.Design.Adjust,
		Mass: j.Mass, Size: j.Size, OK: j.OK(),
	}
	if j.Tipping.Loaded && len(j.Tipping.Edges) > 0 {
		r.Tipping = Figure{j.Tipping.Factor, true}
	}
	if j.Wind != nil {
		r.Wind = Figure{j.Wind.Greatest(), true}
	}
	if q, _, ok := j.Result("strength"); ok {
		r.Strength = Figure{q.Number, true}
	}
	for _, f := range []struct {
		name string
		Figure
	}{{"tipping", r.Tipping}, {"wind", r.Wind}, {"strength", r.Strength}} {
		if !f.Known {
			r.Blank = append(r.Blank, f.name)
		}
	}
	for _, q := range j.Requirements {
		switch {
		case q.Outcome.Unchecked:
			r.Unchecked = append(r.Unchecked, q.Text)
		case !q.Outcome.Holds:
			r.Failed = append(r.Failed, q.Text)
		}
	}
	for _, f := range j.Findings {
		if f.Level.Fails() {
			r.Faults = append(r.Faults, f)
		}
	}
	r.Answers = j.Answers
	// A question or a requirement may have had it worked out.
	if j.Strength != nil && len(j.Strength.Modes) > 0 {
		if q, _, ok := j.Result("frequency"); ok {
			r.Frequency = Figure{q.Number, true}
		}
	}
	if j.Plan == nil {
		return r
	}
	for _, f := range []struct {
		name string
		into *Figure
	}{{"sheets", &r.Sheets}, {"cost", &r.Cost}} {
		if q, _, ok := j.Result(f.name); ok {
			*f.into = Figure{q.Number, true}
		}
	}
	r.Currency = j.Plan.Shop.Currency
	return r
}

// Why returns in one line why a design cannot be made: the first of its
// diagnostics, without the place in the text.
func Why(err error) string {
	var wrong *source.Error
	if errors.As(err, &wrong) && len(wrong.List) > 0 {
		return wrong.List[0].Text
	}
	return err.Error()
}
