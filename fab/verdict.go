package fab

import (
	"slices"

	"stabile/fab/check"
	"stabile/fab/finding"
)

// OK reports whether nothing fails. What was not decided does not count: see
// Verdict.
func (j *Job) OK() bool { return j.Verdict != check.Fails }

// judge gives the job its verdict and the checks on which it rests.
//
// It fails where any check fails. It is not decided where a check of what may
// injure, or a requirement of the design, is not. Money that cannot be worked out
// and what the shop did not say leave it as it is.
func (j *Job) judge() {
	var fails, open []check.Check
	for _, c := range j.Checks {
		switch {
		case c.Verdict == check.Fails:
			fails = append(fails, c)
		case c.Verdict == check.Undecided && (c.Concern == finding.Life || c.Concern == finding.Wish):
			open = append(open, c)
		}
	}
	j.Verdict, j.Reasons = check.Holds, nil
	switch {
	case len(fails) > 0:
		j.Verdict, j.Reasons = check.Fails, fails
	case len(open) > 0:
		j.Verdict, j.Reasons = check.Undecided, open
	}
	if j.Verdict != check.Fails && !j.sound() {
		j.Verdict = check.Fails
	}
	slices.SortStableFunc(j.Reasons, func(a, b check.Check) int {
		return slices.Index(finding.Concerns[:], a.Concern) - slices.Index(finding.Concerns[:], b.Concern)
	})
}

// sound reports whether no finding is a fault, tipping reaches its target or is
// held, and no part is over its limit.
func (j *Job) sound() bool {
	if slices.ContainsFunc(j.Findings, func(f finding.Finding) bool { return f.Level == finding.Fault }) {
		return false
	}
	if j.Strength != nil && j.Strength.Worst > 1 {
		return false
	}
	return !j.Tipping.Loaded || j.Tipping.Reached() || j.Tipping.Held()
}

// rests are the checks on which a result rests, by the name that requirements
// know it by: a requirement is no more decided than they are.
var rests = map[string][]check.ID{
	"strength": {
		check.Post, check.Weld, check.BallWall, check.PostWall, check.Plate, check.Buckling, check.AnchorSteel,
	},
	"frequency": {check.Frequency},
}

// requirement returns the check of a requirement, and of what it rests on that is
// not decided.
func (j *Job) requirement(r *Requirement) check.Check {
	c := check.Check{ID: check.Require, Concern: finding.Wish, Verdict: check.Fails, Of: r.Text}
	switch {
	case r.Outcome.Unchecked:
		c.Verdict, c.Why = check.Undecided, Unread{r.Outcome.Value}
	case r.Outcome.Holds:
		c.Verdict = check.Holds
		for _, o := range j.Checks {
			if o.Verdict == check.Undecided && slices.ContainsFunc(r.Reads, func(name string) bool { return slices.Contains(rests[name], o.ID) }) {
				r.Open = append(r.Open, o)
			}
		}
		if len(r.Open) > 0 {
			c.Verdict, c.Why = check.Undecided, RestsOn{r.Open}
		}
	}
	r.Verdict = c.Verdict
	return c
}

// Unread is why a requirement is not decided: a result that it reads was not
// worked out.
type Unread struct{ Reason string }

// RestsOn is why a requirement is not decided: it rests on checks that are not.
type RestsOn struct{ Checks []check.Check }

// Fact marks the type.
func (Unread) Fact()  {}
func (RestsOn) Fact() {}
