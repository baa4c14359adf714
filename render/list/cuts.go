package list

import (
	"fmt"

	"stabile/fab/saw"
	"stabile/fab/sheets"
	"stabile/param/quantity"
)

// Cuts returns the cut list of a plan as a table in a system of units: a line for
// each thing that a cut sets free, in the order of the work, and then one for each piece that
// is sawn from pipe or tube, nil for none. What a line has not is empty.
func Cuts(p *sheets.Plan, sawn *saw.Plan, units quantity.System) [][]Cell {
	length, _ := units.UnitOf(quantity.Length)
	in := func(what string) Cell { return Text(with(what, length.Name)) }
	rows := [][]Cell{{
		Text("sheet"), Text("metal"), in("sheet width"), in("sheet length"), Text("sheets alike"),
		Text("cut"), in("stop"), in("length of cut"), Text("what comes free"), Text("piece"), Text("part"),
		in("across the sheet"), in("along the sheet"), Text("pieces"), Text("set by"),
	}}
	// Inches to a thousandth, millimetres to a hundredth: finer than a stop is set.
	decimals := 2
	if units == quantity.Inch {
		decimals = 3
	}
	long := func(mm float64) Cell {
		if mm == 0 {
			return Cell{}
		}
		return Decimals(mm/length.Scale, decimals)
	}
	count := func(n int) Cell {
		if n == 0 {
			return Cell{}
		}
		return Count(n)
	}
	for _, l := range p.CutList() {
		rows = append(rows, []Cell{
			Text(l.Sheet), Text(l.Metal), long(l.Width), long(l.Length), count(l.Copies),
			count(l.Cut), long(l.Stop), long(l.Reach), Text(string(l.What)), Text(l.Name), Text(l.Part),
			long(l.SizeY), long(l.SizeX), Count(l.Quantity), Text(setBy(&l)),
		})
	}
	if sawn == nil {
		return rows
	}
	for i := range sawn.Stacks {
		s := &sawn.Stacks[i]
		for n, bar := range s.Bars {
			for k, at := range bar.Pieces {
				piece := &s.Pieces[at]
				rows = append(rows, []Cell{
					Text(fmt.Sprintf("%s %d", s.Size.Metal.Name, n+1)), Text(s.Size.Metal.Alloy), {}, long(s.Length), Count(1),
					Count(k + 1), {}, {}, Text(string(sheets.APiece)), Text(piece.Part), Text(piece.Part),
					{}, long(piece.Length), Count(1), Text("saw"),
				})
			}
		}
	}
	return rows
}

// setBy says what a cut from edge to edge is set by: the stop, or a scribed line where
// the stop does not go so far.
func setBy(l *sheets.Line) string {
	switch {
	case l.Cut == 0:
		return ""
	case l.Scribed:
		return "scribed line"
	}
	return "stop"
}
