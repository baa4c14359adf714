package pack

import (
	"reflect"
	"slices"
	"strings"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/render/sheet"
	"stabile/render/words"
)

// checks writes what was checked: first what fails and what was not decided, with the
// cure, then what holds, each at its worst.
func (c *workings) checks() {
	c.section("What was checked", "")
	rows := c.say().Summary(c.job.Checks)
	open := func(title string, verdict check.Verdict) {
		t := &sheet.Table{Title: title, Columns: []sheet.Column{{Header: "Check", Wrap: true}, {Header: "What was found, and what can be done", Wrap: true}}}
		for _, r := range rows {
			if r.Verdict == verdict {
				t.Rows = append(t.Rows, []string{words.Capital(r.What), words.Capital(r.Text())})
			}
		}
		if len(t.Rows) > 0 {
			c.table(t)
		}
	}
	open("FAILS", check.Fails)
	open("NOT DECIDED: has not passed", check.Undecided)
	t := &sheet.Table{Title: "Holds", Tight: true, Columns: []sheet.Column{
		{Header: "Check", Wrap: true}, {Header: "Found", Wrap: true}, {Header: "Needed", Wrap: true}, {Header: "Governing load", Wrap: true},
	}}
	var plain []string // that hold, without a figure
	for _, r := range rows {
		switch {
		case r.Verdict != check.Holds:
		case r.Found == "" && r.Limit == "" && r.Case == "":
			what := r.What
			if r.Why != "" {
				what += ", " + r.Why
			}
			plain = append(plain, what)
		default:
			t.Rows = append(t.Rows, []string{words.Capital(r.What), orDash(r.Found), orDash(r.Limit), orDash(r.Brief)})
		}
	}
	if len(t.Rows) > 0 {
		c.table(t)
	}
	text := "Factors are rounded down and shares of a limit up. " + tableWords
	if len(plain) > 0 {
		text = "Without a figure these hold: " + strings.Join(plain, "; ") + ". " + text
	}
	c.paragraph(text)
	said := map[string]bool{}
	for _, r := range rows {
		said[r.Why] = true
	}
	t = &sheet.Table{Title: "What else to know", Columns: []sheet.Column{{Header: "Level"}, {Header: "Finding", Wrap: true}}}
	for _, r := range c.say().Remarks(c.unsaid()) {
		if !said[r.Text] {
			text := words.Capital(r.Text) + "."
			if len(r.Parts) > 0 {
				text = words.Capital(shortNames(r.Parts)) + ": " + r.Text + "."
			}
			t.Rows = append(t.Rows, []string{string(r.Level), text})
		}
	}
	if len(t.Rows) > 0 {
		c.table(t)
	}
}

// tableWords says what the words of loads in tables mean.
const tableWords = "In tables “least” is wind with the least design force, “slope” with the ground sloping under it."

// unsaid returns the findings that no sheet of the bench has.
func (k *pack) unsaid() []finding.Finding {
	plan := k.job.Plan
	said := slices.Concat(plan.Sheets.Findings, plan.Rolling.Findings, plan.Assembly.Findings)
	return slices.DeleteFunc(slices.Clone(k.job.Findings), func(f finding.Finding) bool {
		return slices.ContainsFunc(said, func(s finding.Finding) bool { return reflect.DeepEqual(s, f) })
	})
}

// orDash returns what a cell says, or the sign that there is nothing to say.
func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}
