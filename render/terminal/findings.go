package terminal

import (
	"fmt"
	"io"
	"slices"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/render/words"
)

// findings lists what there is to say, in its order.
func (r *report) findings() {
	if len(r.Findings) > 0 {
		r.heading("Findings")
		r.list(r.Findings)
	}
}

// list writes findings, each with its level and its parts.
func (r *report) list(list []finding.Finding) {
	w := r.words()
	for _, f := range list {
		code := ""
		if f.Level == finding.Danger || f.Level == finding.Fault {
			code = bold
		}
		text := w.Finding(f)
		if len(f.Parts) > 0 {
			text = words.Names(f.Parts) + ": " + text
		}
		r.lines(code, margin, fmt.Sprintf("%-9s", f.Level), text)
	}
}

// Verdict writes the last word on a job, broken to the width of the report. The
// error is that of w.
func Verdict(w io.Writer, j *fab.Job, style Style) error {
	p := page{style: style}
	p.strong(0, words.In(j.Design.Units).LastWord(j))
	_, err := w.Write(p.buf.Bytes())
	return err
}

// checks lists what was looked at: of each kind how those that hold came out, and
// each that does not.
func (r *report) checks() {
	if len(r.Checks) == 0 {
		return
	}
	r.heading("Checks")
	t := table{columns: []column{{}, {}, {}}}
	for _, row := range r.words().Rows(r.Checks) {
		t.add(row.Verdict == check.Fails, words.Condition(row.Verdict), row.What, row.Text())
	}
	r.table(t)
}

// failing reports whether a check of one of the kinds fails.
func (r *report) failing(kinds ...check.ID) bool {
	return slices.ContainsFunc(r.Checks, func(c check.Check) bool { return c.Verdict == check.Fails && slices.Contains(kinds, c.ID) })
}

// failingPart reports whether a check of a kind fails for a part.
func (r *report) failingPart(kind check.ID, part string) bool {
	return slices.ContainsFunc(r.Checks, func(c check.Check) bool { return c.Verdict == check.Fails && c.ID == kind && c.Part == part })
}
