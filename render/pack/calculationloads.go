package pack

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"stabile/fab/stand"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// wind is the terms of the method, the pressure at each height, and the force on
// each part.
func (c *workings) wind() {
	w := c.job.Wind
	if w == nil || len(w.Bearings) == 0 {
		return
	}
	u := c.units
	c.section("Wind", ", "+string(w.Edition))
	c.lines("", w.Lines())

	pressures := &sheet.Table{Title: "Pressure at each height in use"}
	add := func(title string, cell func(i int) string) {
		n := len(pressures.Columns)
		pressures.Columns = append(pressures.Columns, sheet.Column{Header: title, Align: ink.End})
		for i := range w.Heights {
			if n == 0 {
				pressures.Rows = append(pressures.Rows, nil)
			}
			pressures.Rows[i] = append(pressures.Rows[i], cell(i))
		}
		headUnits(pressures, n)
	}
	add("Height", func(i int) string { return c.length(w.Heights[i].Height) })
	if w.Heights[0].Exposure > 0 {
		add("Kz", func(i int) string { return quantity.Decimal(w.Heights[i].Exposure, 3) })
		add("qz", func(i int) string { return squared(u.Pressure(w.Heights[i].Pressure)) })
	} else {
		add("cr", func(i int) string { return quantity.Decimal(w.Heights[i].Roughness, 3) })
		add("Iv", func(i int) string { return quantity.Decimal(w.Heights[i].Turbulence, 3) })
		add("vm", func(i int) string { return u.Speed(w.Heights[i].Mean) })
		add("qp", func(i int) string { return squared(u.Pressure(w.Heights[i].Pressure)) })
	}
	pressures.Rows = alike(pressures.Rows)

	b := w.Bearings[w.Worst]
	t := &sheet.Table{
		Title: "Force on each part, wind from " + bearing(b.From), Abreast: true,
		Columns: []sheet.Column{
			{Header: "Part", Wrap: true}, {Header: "Height", Align: ink.End}, {Header: "Area", Align: ink.End}, {Header: "Pressure", Align: ink.End},
			{Header: "Coefficient", Align: ink.End}, {Header: "Gust", Align: ink.End}, {Header: "Force", Align: ink.End},
		},
	}
	for i := range w.Items {
		it := &w.Items[i]
		coefficient := words.Coefficient(it.Coefficient)
		if b.Cap[i] > 0 {
			coefficient += ", head " + words.Coefficient(it.CapCoefficient)
		}
		t.Rows = append(t.Rows, []string{
			short(it.Part.Name), c.length(it.Height), c.area(it.Area), squared(u.Pressure(it.Pressure)), coefficient, words.Coefficient(it.Gust), u.Force(it.Force),
		})
	}
	headUnits(t, 1, 2, 3, 6)
	for _, t := range [...]*sheet.Table{t, pressures} { // narrow enough to stand beside each other
		for i := range t.Columns {
			t.Columns[i].Header = strings.Replace(t.Columns[i].Header, ", ", ",\n", 1)
		}
	}
	c.table(t, pressures)

	text := fmt.Sprintf("All bearings were tried; from %s the wind tips it most: %s, level, %s above the ground, %s about the middle of the base.",
		bearing(b.From), u.Force(math.Hypot(b.Force.X, b.Force.Y)), c.length(b.Center), u.Moment(math.Hypot(b.Moment.X, b.Moment.Y)))
	if c.job.Design.Wall() != nil {
		text = fmt.Sprintf("All bearings were tried, out of the wall too; from %s the wind turns it most about its plate: %s, level, %s above the floor.",
			bearing(b.From), u.Force(math.Hypot(b.Force.X, b.Force.Y)), c.length(b.Center))
	}
	if b.Force.Z > 0 {
		text += fmt.Sprintf(" It also lifts with %s.", u.Force(b.Force.Z))
	}
	if b.Scale > 1 {
		text += fmt.Sprintf(" The least design force is %s; tipping, sliding and strength use it.", u.Force(b.Scale*math.Hypot(b.Force.X, b.Force.Y)))
	}
	c.paragraph(text)
}

// alike returns rows of which those that differ in their first cell alone, one after
// the other, are one: from the first to the last.
func alike(rows [][]string) [][]string {
	var out [][]string
	from := ""
	for _, r := range rows {
		if n := len(out) - 1; n >= 0 && slices.Equal(out[n][1:], r[1:]) {
			if r[0] != from {
				out[n][0] = from + " to " + r[0]
			}
			continue
		}
		from = r[0]
		out = append(out, slices.Clone(r))
	}
	return out
}

// area returns an area given in mm2.
func (c *workings) area(mm2 float64) string {
	if c.units == quantity.Inch {
		return strconv.FormatFloat(mm2/(304.8*304.8), 'f', 3, 64) + " ft²"
	}
	return strconv.FormatFloat(mm2/1e6, 'f', 4, 64) + " m²"
}

// mostEdges is the number of edges of a footprint up to which all are listed; of
// more, as of a round plate, only that many of the worst.
const mostEdges = 8

// tipping is the moments about each edge.
func (c *workings) tipping() {
	t := c.job.Tipping
	if t == nil || len(t.Edges) == 0 {
		return
	}
	u := c.units
	c.section("Tipping and sliding", "")
	c.lines("", t.Lines())
	order := make([]int, len(t.Edges))
	for i := range order {
		order[i] = i
	}
	title := "Moments about each edge"
	if len(order) > mostEdges {
		title = fmt.Sprintf("Moments about the worst %d of %d edges", mostEdges, len(order))
		slices.SortStableFunc(order, func(a, b int) int {
			ea, eb := t.Edges[a], t.Edges[b]
			if t.Loaded && (ea.Overturning > 0 || eb.Overturning > 0) {
				return cmp.Compare(factor(ea), factor(eb))
			}
			return cmp.Compare(ea.TipAngle, eb.TipAngle)
		})
		order = order[:mostEdges]
	}
	table := &sheet.Table{Title: title, Columns: []sheet.Column{
		{Header: "Edge", Align: ink.End}, {Header: "Toward"}, {Header: "d", Align: ink.End}, {Header: "Tips at", Align: ink.End},
		{Header: "Mr", Align: ink.End}, {Header: "Mo", Align: ink.End}, {Header: "Factor", Align: ink.End}, {Header: "Worst case", Wrap: true},
	}}
	for _, i := range order {
		e := t.Edges[i]
		over, f := "none", "–"
		if e.Overturning > 0 {
			over, f = u.Moment(e.Overturning), words.Factor(e.Factor)
		}
		table.Rows = append(table.Rows, []string{
			strconv.Itoa(i + 1), bearing(e.Bearing()), c.length(e.Lever), degrees(e.TipAngle), u.Moment(e.Restoring), over, f, c.brief(e.Case),
		})
	}
	headUnits(table, 2, 4, 5)
	c.table(table)
	text := fmt.Sprintf("It tips by its own weight at a tilt of %s.", degrees(t.TipAngle))
	if t.Loaded {
		text = fmt.Sprintf("The least factor is %s about edge %d (%s); the target is %s. ", words.Factor(t.Factor), t.WorstEdge+1, c.brief(t.WorstCase), words.Factor(t.Target)) + text
	}
	if s := t.Sliding; s != nil {
		text += fmt.Sprintf(" Sliding at its worst (%s): friction holds %s against %s, factor %s.",
			c.brief(s.Case), u.Force(s.Holding), u.Force(s.Driving), words.Factor(s.Factor))
	}
	c.paragraph(text)
}

// factor orders edges: those that nothing tips over come last.
func factor(e stand.Edge) float64 {
	if e.Overturning > 0 {
		return e.Factor
	}
	return math.Inf(1)
}
