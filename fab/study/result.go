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

	// Err reports why the design cannot be made with these values; nothing below
	// is then known.
	Err error

	Adjust    []design.Adjustable
	Mass      fab.Mass
	Size      fab.Size
	Tipping   Figure // the factor against tipping
	Wind      Figure // N, the greatest level force on the whole
	Strength  Figure // the greatest share used of what any section carries
	Frequency Figure // Hz, the lowest at which the whole swings; known where a question or a requirement needs it

	Sheets Figure // how many the shop's plan takes; not known unless the plan was asked for
	Cost   Figure // in Currency, the likely one
	// Currency is that of the cost.
	Currency string

	Verdict check.Verdict     // as a report has it
	Reasons []check.Group     // on which it rests
	Grave   []finding.Finding // all dangers and faults of a report
	Answers []fab.Answer      // without the checks on which they rest
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
		Mass: j.Mass, Size: j.Size,
		Verdict: j.Verdict, Reasons: check.Groups(j.Reasons), Answers: slices.Clone(j.Answers),
	}
	if j.Tipping.Loaded && len(j.Tipping.Edges) > 0 {
		r.Tipping = Figure{j.Tipping.Factor, true}
	}
	if j.Wind != nil {
		r.Wind = Figure{j.Wind.Greatest(), true}
	}
	for _, f := range []struct {
		name string
		into *Figure
	}{{"strength", &r.Strength}, {"frequency", &r.Frequency}, {"sheets", &r.Sheets}, {"cost", &r.Cost}} {
		if q, why := j.Result(f.name); why == nil {
			*f.into = Figure{q.Number, true}
		}
	}
	for _, f := range j.Findings {
		if f.Level.Fails() {
			r.Grave = append(r.Grave, f)
		}
	}
	if j.Plan != nil {
		r.Currency = j.Plan.Shop.Currency
	}
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
