// Package terminal writes the report of a job for reading in a terminal: plain
// text in at most 100 columns, in the design's own units. It works nothing out;
// every number is the job's.
package terminal

import (
	"fmt"
	"strings"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/render/words"
)

// A Style reports how the report may be marked up. The zero Style is plain text.
type Style struct {
	ANSI bool // bold and dim by the SGR codes of ECMA-48
}

// A report is one report being written, with its job at hand.
type report struct {
	*fab.Job
	page
}

func (r *report) title() {
	d := r.Design
	r.strong(0, d.Title)
	from := ""
	if d.Source != nil {
		from = d.Source.Name + ", "
	}
	if d.Variation != "" {
		from += fmt.Sprintf("variation %q, ", d.Variation)
	}
	if len(d.Set) > 0 {
		from += "with " + strings.Join(d.Set, ", ") + ", "
	}
	r.faint(0, from+"revision "+d.Revision())
	r.blank()
	r.hanging(0, "", inOneLine(r.Job))
}

// requirements lists what the design requires and what came of it.
func (r *report) requirements() {
	if len(r.Requirements) == 0 {
		return
	}
	r.heading("Required")
	t := table{columns: []column{{}, {}, {}, {}}}
	w := r.words()
	for _, q := range r.Requirements {
		came := w.Sides(q.Sides)
		if q.Missing != nil {
			came = w.Fact(q.Missing)
		}
		t.add(q.Verdict == check.Fails, words.Condition(q.Verdict), q.Text, came, q.Why)
	}
	r.table(t)
}

// adjustables lists the values that may be changed, with their ranges, and the
// variations that change them.
func (r *report) adjustables() {
	if len(r.Design.Adjust) == 0 {
		return // and so no variation has anything to change
	}
	r.heading("To adjust")
	t := table{columns: []column{{}, {right: true}, {}}}
	w := r.words()
	for _, a := range r.Design.Adjust {
		within := "from " + w.Value(a.From) + " to " + w.Value(a.To)
		if a.Step.Number != 0 {
			within += " in steps of " + w.Value(a.Step)
		}
		t.add(false, a.Name, w.Value(a.Value), within)
	}
	r.table(t)
	if len(r.Design.Variations) > 0 {
		r.faint(margin, "Variations: "+strings.Join(r.Design.Variations, ", ")+".")
	}
}
