package terminal

import (
	"fmt"
	"io"
	"slices"
	"strings"

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
			text = strings.Join(words.Names(f.Parts), ", ") + ": " + text
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

// checks lists what was looked at: of each kind how many hold, and each that does
// not.
func (r *report) checks() {
	if len(r.Checks) == 0 {
		return
	}
	r.heading("Checks")
	w := r.words()
	t := table{columns: []column{{}, {}}}
	var kinds []check.ID
	holds := make(map[check.ID]int)
	for _, c := range r.Checks {
		if !slices.Contains(kinds, c.ID) {
			kinds = append(kinds, c.ID)
		}
		if c.Verdict == check.Holds {
			holds[c.ID]++
		}
	}
	for _, id := range kinds {
		if n := holds[id]; n > 0 {
			c, _ := worst(slices.DeleteFunc(slices.Clone(r.Checks), func(c check.Check) bool { return c.Verdict != check.Holds }), id)
			t.add(false, string(check.Holds), r.verdict(c, n))
		}
		for _, c := range r.Checks {
			if c.ID == id && c.Verdict != check.Holds {
				t.add(c.Verdict == check.Fails, string(c.Verdict), w.Check(c))
			}
		}
	}
	r.table(t)
}
