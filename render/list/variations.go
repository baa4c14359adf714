package list

import (
	"strings"

	"stabile/fab/study"
	"stabile/param/quantity"
	"stabile/render/words"
)

// Variations returns the results of a study as a table in a system of units: a
// column for each name that was changed, and one for each figure. What was not
// worked out is empty.
func Variations(results []study.Result, units quantity.System) [][]Cell {
	if len(results) == 0 {
		return nil
	}
	head := []Cell{Text("no"), Text("variation")}
	first := &results[0]
	for _, s := range first.Set {
		_, unit := s.Number()
		head = append(head, Text(with(s.Name, unit)))
	}
	length, _ := units.UnitOf(quantity.Length)
	mass, _ := units.UnitOf(quantity.Mass)
	force, _ := units.UnitOf(quantity.Force)
	head = append(head,
		Text(with("weight", mass.Name)), Text(with("low", mass.Name)), Text(with("high", mass.Name)),
		Text("tipping factor"), Text(with("wind", force.Name)), Text("strength used"), Text("natural frequency, Hz"),
		Text(with("height", length.Name)), Text(with("width", length.Name)), Text(with("depth", length.Name)),
		Text("sheets"), Text("cost"),
		Text("verdict"), Text("last word"), Text("dangers and faults"), Text("cannot be made"))
	rows := [][]Cell{head}
	w := words.In(units)
	for i := range results {
		r := &results[i]
		row := []Cell{Count(r.Number), Text(r.Variation)}
		for _, s := range r.Set {
			n, _ := s.Number()
			row = append(row, Number(n))
		}
		if r.Err != nil {
			for len(row) < len(head)-1 {
				row = append(row, Cell{})
			}
			rows = append(rows, append(row, Text(study.Why(r.Err))))
			continue
		}
		of := func(kg float64) Cell { return Decimals(kg/mass.Scale, 3) }
		long := func(mm float64) Cell { return Decimals(mm/length.Scale, 3) }
		rows = append(rows, append(row,
			of(r.Mass.Total), of(r.Mass.Low), of(r.Mass.High),
			figure(r.Tipping, 1, 4), figure(r.Wind, force.Scale/1e3, 3), figure(r.Strength, 1, 4), figure(r.Frequency, 1, 3),
			long(r.Size.Height), long(r.Size.Width), long(r.Size.Depth),
			figure(r.Sheets, 1, 0), figure(r.Cost, 1, 2),
			Text(words.Condition(r.Verdict)), Text(w.Verdict(r.Verdict, r.Reasons)), Text(strings.Join(w.Named(r.Grave), " | ")), Cell{}))
	}
	return rows
}

// with writes what a column holds and its unit.
func with(what, unit string) string {
	if unit == "" {
		return what
	}
	return what + ", " + unit
}

// figure returns a figure over its unit, or nothing.
func figure(f study.Figure, scale float64, decimals int) Cell {
	if !f.Known {
		return Cell{}
	}
	return Decimals(f.Value/scale, decimals)
}
