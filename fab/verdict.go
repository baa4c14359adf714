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
	slices.SortStableFunc(j.Reasons, func(a, b check.Check) int {
		return slices.Index(finding.Concerns[:], a.Concern) - slices.Index(finding.Concerns[:], b.Concern)
	})
}
