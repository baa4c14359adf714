package pack

import (
	"slices"
	"strconv"
	"strings"

	"stabile/fab/saw"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

const sawCaution = "Clamp pipe before it is sawn, and hold what drops. Cut ends are sharp and hot: wear gloves, and a mask against the dust of abrasive discs."

// sawList draws what is sawn from pipe and tube, length by length.
func (k *pack) sawList(f *actFlow) {
	plan := k.job.Plan.Saw
	if plan == nil || !slices.ContainsFunc(plan.Stacks, k.wantsStack) {
		return
	}
	f.act("saw", sheet.Block{Subtitle: "Saw list: pipe and tube", Document: "Saw list", Caution: sawCaution, Tolerances: k.flatTolerance(), DoNotScale: true})
	f.Paragraph("Lengths are from tip to tip, the longest side of a mitred end. Each cut takes " + k.both(plan.Kerf) +
		", which is counted. Saw in the order of the list, write its name on every piece as it drops, then trim coped ends to their templates.")
	for i := range plan.Stacks {
		if s := &plan.Stacks[i]; k.wantsStack(*s) {
			f.Table(k.sawTable(s))
			for _, q := range s.Pieces {
				if k.sheetOf[q.Part] == nil {
					k.sheetOf[q.Part] = k.pages[len(k.pages)-1]
				}
			}
		}
	}
	f.Table(k.findingsTable("Before sawing", plan.Findings))
}

// wantsStack reports whether something of a size of pipe belongs in the book.
func (k *pack) wantsStack(s saw.Stack) bool {
	return slices.ContainsFunc(s.Pieces, func(q saw.Piece) bool { return k.wantsPart(q.Part) })
}

// sawTable lists the lengths of one size, cut up.
func (k *pack) sawTable(s *saw.Stack) *sheet.Table {
	t := &sheet.Table{
		Tight: true,
		Title: words.Capital(s.Size.Metal.Name) + ", " + strings.ReplaceAll(s.Size.Metal.Alloy, "-", " ") + ": " + k.say().Lengths(s),
		Columns: []sheet.Column{
			{Header: "Length", Align: ink.End}, {Header: "Piece"}, {Header: "Saw to, " + k.unit(), Align: ink.End},
			{Header: "Foot", Wrap: true}, {Header: "Head", Wrap: true}, {Header: "Left, " + k.unit(), Align: ink.End},
		},
	}
	row := func(number string, q *saw.Piece, left string) {
		t.Rows = append(t.Rows, []string{number, q.Part, k.fine(q.Length), k.say().SawEnd(q.Ends[0]), k.say().SawEnd(q.Ends[1]), left})
	}
	for i, bar := range s.Bars {
		for n, p := range bar.Pieces {
			number, left := "", ""
			if n == 0 {
				number = strconv.Itoa(i + 1)
			}
			if n == len(bar.Pieces)-1 {
				left = k.rule(bar.Rest)
			}
			row(number, &s.Pieces[p], left)
		}
	}
	for _, p := range s.Long {
		row("–", &s.Pieces[p], "TOO LONG")
	}
	return t
}

// lengthsTable lists the pipe and tube to buy; nil for nothing.
func (k *pack) lengthsTable(plan *saw.Plan) *sheet.Table {
	if plan == nil {
		return nil
	}
	t := &sheet.Table{Tight: true, Title: "Pipe and tube", Columns: []sheet.Column{
		{Header: "Take", Align: ink.End}, {Header: "At least", Align: ink.End}, {Header: "Size", Wrap: true}, {Header: "Alloy", Wrap: true}, {Header: "Outside × wall, " + k.unit()},
		{Header: "Length, " + k.unit(), Align: ink.End}, {Header: "Weight of one", Align: ink.End}, {Header: "By", Wrap: true},
	}}
	for i := range plan.Stacks {
		s := &plan.Stacks[i]
		by := "own sizes"
		if s.Size.Pipe.NPS != "" {
			by = s.Size.Pipe.Standard()
		}
		t.Rows = append(t.Rows, []string{
			strconv.Itoa(len(s.Bars)), strconv.Itoa(s.Bound), s.Size.Metal.Name, strings.ReplaceAll(s.Size.Metal.Alloy, "-", " "), k.fine(s.Size.Outside) + " × " + k.thickness(s.Size.Metal),
			k.rule(s.Length), k.units.Weight(s.Weight()), by,
		})
	}
	return t
}
