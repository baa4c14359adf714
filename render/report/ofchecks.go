package report

import (
	"stabile/fab"
	"stabile/fab/check"
	"stabile/render/words"
)

func checkOf(w words.Writer, c *check.Check) Check {
	out := Check{
		ID: string(c.ID), Part: c.Part, With: c.With, Verdict: string(c.Verdict), AtLeast: c.AtLeast, Held: c.Held, Unit: string(c.Unit),
		Source: c.Source, Concern: string(c.Concern),
	}
	if c.Verdict != check.Undecided && (c.Found != 0 || c.Limit != 0) {
		scale := 1.0
		if c.Unit == check.Radian {
			scale, out.Unit = *degrees(1), "deg"
		}
		out.Found, out.Limit = pointer(c.Found*scale), pointer(c.Limit*scale)
	}
	if c.Case.Kind != check.NoLoad {
		out.Case = caseOf(w, c.Case)
	}
	if c.Why != nil {
		out.Why = w.Fact(c.Why)
	}
	return out
}

func caseOf(w words.Writer, c check.Case) *Case {
	out := &Case{
		Kind: string(c.Kind), Speed: six(c.Speed), Sloping: c.Sloping, Least: c.Least, Part: c.Part, Text: w.Case(c),
	}
	if !c.Around && c.Kind != check.OwnWeight {
		out.Bearing = degrees(c.Bearing)
	}
	return out
}

func requirementOf(w words.Writer, q *fab.Requirement) Requirement {
	out := Requirement{Text: q.Text, Why: q.Why, Verdict: string(q.Verdict), Value: w.Sides(q.Sides)}
	if q.Missing != nil {
		out.Value = w.Fact(q.Missing)
	}
	for _, c := range q.Open {
		text := string(c.ID)
		if c.Part != "" {
			text += " " + c.Part
		}
		if c.With != "" {
			text += "/" + c.With
		}
		out.UndecidedBy = append(out.UndecidedBy, text)
	}
	return out
}
