package pack

import (
	"strconv"

	"stabile/fab/sheets"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// buying lists what to buy.
func (k *pack) buying(f *sheet.Flow, plan *sheets.Plan) {
	if t := k.orderTable(plan); t != nil {
		f.Beside(k.stockTable(plan), t)
	} else {
		f.Table(k.stockTable(plan))
	}
	f.Table(k.leftTable(plan))
}

// stockTable lists the sheets to take, metal by metal.
func (k *pack) stockTable(plan *sheets.Plan) *sheet.Table {
	t := &sheet.Table{
		Tight: true,
		Title: "Sheets",
		Columns: []sheet.Column{
			{Header: "Take", Align: ink.End}, {Header: "Metal", Wrap: true}, {Header: "Size, " + k.unit()},
			{Header: "Used", Align: ink.End}, {Header: "Cut by"}, {Header: "In all", Wrap: true},
		},
	}
	for i := range plan.Stacks {
		st := &plan.Stacks[i]
		for n, row := range k.taken(st) {
			used, all := "as above", "as above"
			if n == 0 {
				used, all = k.say().Percent(st.Used), "–"
				if st.Count > 0 && st.Bound > 0 {
					all = proven(strconv.Itoa(st.Count), st)
				}
			}
			t.Rows = append(t.Rows, []string{strconv.Itoa(row.count), row.metal, row.size, used, string(st.Way), all})
		}
	}
	return t
}

// A takenSheet is a number of sheets of a size.
type takenSheet struct {
	count       int
	metal, size string
}

// taken lists the sizes of a stack's sheets in the order in which they are cut.
func (k *pack) taken(st *sheets.Stack) (list []takenSheet) {
	for i := range st.Sheets {
		s := &st.Sheets[i]
		row := takenSheet{s.Copies, st.Metal.Name + ": " + k.metal(st.Metal), k.sheetSize(s)}
		if s.Offcut {
			row.metal += ", offcut at hand"
		}
		if n := len(list) - 1; n >= 0 && list[n].metal == row.metal && list[n].size == row.size {
			list[n].count += row.count
			continue
		}
		list = append(list, row)
	}
	return list
}

// sheetSize writes a sheet's width and length, without the unit.
func (k *pack) sheetSize(s *sheets.Sheet) string { return k.rule(s.Width) + " × " + k.rule(s.Length) }

// orderTable lists what is to be bought cut to size; nil for nothing.
func (k *pack) orderTable(plan *sheets.Plan) *sheet.Table {
	if len(plan.Orders) == 0 {
		return nil
	}
	t := &sheet.Table{Tight: true, Title: "To buy cut to size", Columns: []sheet.Column{
		{Header: "Take", Align: ink.End}, {Header: "Piece", Wrap: true}, {Header: "Metal", Wrap: true}, {Header: "Size, " + k.unit()}, {Header: "Why", Wrap: true},
	}}
	for i := range plan.Orders {
		o := &plan.Orders[i]
		t.Rows = append(t.Rows, []string{strconv.Itoa(o.Quantity), o.Name, k.metal(o.Metal), k.fine(o.Width) + " × " + k.fine(o.Length), words.WhyOrdered(o.Why)})
	}
	return t
}

// leftTable lists what has no place on any sheet; nil for nothing.
func (k *pack) leftTable(plan *sheets.Plan) *sheet.Table {
	t := &sheet.Table{Tight: true, Title: "NO PLACE on any sheet", Columns: []sheet.Column{
		{Header: "Pieces", Align: ink.End}, {Header: "Blank", Wrap: true}, {Header: "Metal"}, {Header: "Size, " + k.unit()}, {Header: "Why", Wrap: true},
	}}
	for i := range plan.Stacks {
		for _, l := range plan.Stacks[i].Left {
			b := plan.Blanks[l.Blank]
			t.Rows = append(t.Rows, []string{strconv.Itoa(l.Count), b.Name, plan.Stacks[i].Metal.Name, k.fine(b.Width) + " × " + k.fine(b.Length), words.WhyLeft(l.Why)})
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return t
}

// cuttingRules say how the layouts are read, some cuts of which may be past the reach
// of the stop.
func cuttingRules(scribed bool) []string {
	rules := []string{
		"Lay the sheet as drawn, outside face up, its rolling direction to the right. Chalk an arrow to the right on every piece before it is cut off: left, right, top and bottom are as drawn.",
		"Make the cuts in the order of their numbers. Each goes from edge to edge of the part in hand.",
		"Put the edge that is named against the stop. The stop's setting is from the stop to the blade, and that much drops off.",
		"“Turn” means: turn the part in hand before the cut, a quarter or end for end.",
		"Write its name on every piece as it drops. Keep a strip until the cut after its arrow; chalk that number on it.",
		"Where several pieces lie in one rectangle, or an edge is curved, scribe from the blank's sheet and part by hand.",
	}
	if scribed {
		rules = append(rules, "“Scribe” means: the stop does not go so far. Measure that much from the edge that is named, scribe a line across, and cut to it.")
	}
	return rules
}
