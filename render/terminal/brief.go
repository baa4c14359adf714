package terminal

import (
	"fmt"
	"io"
	"strings"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/render/words"
)

// Brief writes what matters of a job on one screen: the last word, what may
// injure and what fails with their cures, weight and size, how it stands,
// what the design requires, and what it takes to make. The error is that of w.
func Brief(w io.Writer, j *fab.Job, style Style) error {
	r := &report{Job: j, page: page{style: style}}
	r.title()
	r.blank()
	r.strong(0, r.words().LastWord(j))
	r.grave()
	r.summary()
	r.requirements()
	r.rest()
	_, err := w.Write(r.buf.Bytes())
	return err
}

// grave lists the findings that are dangers or faults.
func (r *report) grave() {
	var list []finding.Finding
	for _, f := range r.Findings {
		if f.Level == finding.Danger || f.Level == finding.Fault {
			list = append(list, f)
		}
	}
	if len(list) > 0 {
		r.blank()
		r.list(list)
	}
}

// summary says in a line each what it weighs, how it stands, how far it is worked,
// and what it takes.
func (r *report) summary() {
	w := r.words()
	r.blank()
	t := table{columns: []column{{}, {}}}
	weight := fmt.Sprintf("%s (%s to %s)", w.Weight(r.Mass.Total), w.Weight(r.Mass.Low), w.Weight(r.Mass.High))
	if r.Mass.Ballast > 0 {
		weight += ", and " + w.Weight(r.Mass.Ballast) + " of ballast on the base"
	}
	if r.Mass.Block > 0 {
		weight += ", and a block of " + w.Weight(r.Mass.Block)
	}
	t.add(false, "weight", weight)
	for _, l := range w.Lines(r.Checks, check.Balance, check.Tipping, check.Sliding, check.Wind, check.Post, check.Weld, check.BallWall, check.Plate, check.AnchorSteel, check.Frequency) {
		t.add(l.Fails, l.Kind, l.Text)
	}
	r.makes(&t)
	r.table(t)
}

// makes says in a few lines what it takes to make.
func (r *report) makes(t *table) {
	p := r.Plan
	if p == nil {
		return
	}
	w := r.words()
	var buy []string
	for i := range p.Sheets.Stacks {
		st := &p.Sheets.Stacks[i]
		buy = append(buy, fmt.Sprintf("%s of %s (%s)", words.Count(st.Count, "sheet"), st.Metal.Name, w.Sheet(st.Metal)))
	}
	if p.Saw != nil {
		for i := range p.Saw.Stacks {
			s := &p.Saw.Stacks[i]
			buy = append(buy, fmt.Sprintf("%s of %s of %s", words.Count(len(s.Bars), "length"), w.StockLength(s.Length), s.Size.Metal.Name))
		}
	}
	var ordered kinds
	for _, o := range p.Sheets.Orders {
		ordered.add(o.Name, o.Quantity)
	}
	if ordered.pieces > 0 {
		buy = append(buy, ordered.counted()+" cut to size: "+ordered.listed())
	}
	if len(buy) > 0 {
		t.add(false, "buy", strings.Join(buy, ", "))
	}
	r.estimate(t, p)
}

// rest says what is left out, and how to see it.
func (r *report) rest() {
	var cautions, notes int
	for _, f := range r.Findings {
		switch f.Level {
		case finding.Caution:
			cautions++
		case finding.Note:
			notes++
		}
	}
	r.blank()
	text := "Also: " + words.Count(cautions, "caution") + " and " + words.Count(notes, "note") + "."
	r.faint(0, text+" See them with --show findings, and parts, standing, strength, shop or cuts in the same way; --all shows everything.")
}
