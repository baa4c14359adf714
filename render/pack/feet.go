package pack

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// feet draws where things stand on a base plate: the axes of each foot, and the place of
// its seam as a tick across the outline.
func (f *flatDrawing) feet() {
	c := f.blank
	if len(c.Feet) == 0 {
		return
	}
	lo, hi := bounds(c.Outline)
	// The centre lines of the plate, from which feet are set out.
	mid := r2.Scale(0.5, r2.Add(lo, hi))
	const past = 3 // mm on paper
	for _, l := range [2][2]r2.Vec{{{X: lo.X, Y: mid.Y}, {X: hi.X, Y: mid.Y}}, {{X: mid.X, Y: lo.Y}, {X: mid.X, Y: hi.Y}}} {
		a, b := f.at(l[0]), f.at(l[1])
		u := r2.Scale(past, r2.Unit(r2.Sub(b, a)))
		f.draw.Put(&ink.Stroke{Line: ink.Centre, Path: []r2.Vec{r2.Sub(a, u), r2.Add(b, u)}, Group: markGroup})
	}
	for i := range c.Feet {
		foot := &c.Feet[i]
		radius := 0.0
		for _, q := range foot.Outline {
			radius = max(radius, r2.Norm(r2.Sub(q, foot.At)))
		}
		f.draw.CentreMark(f.at(foot.At), radius*f.scale)
		if radius == 0 || !foot.Turned {
			continue
		}
		sin, cos := math.Sincos(foot.Bearing)
		q := f.at(foot.Seam)
		out := r2.Vec{X: cos, Y: sin}
		f.draw.Put(&ink.Stroke{Line: ink.Outline, Path: []r2.Vec{r2.Add(q, r2.Scale(-1.2, out)), r2.Add(q, r2.Scale(2.2, out))}, Group: markGroup})
	}
}

// feetTable lists where things stand on a base plate: from its centre lines, and from
// its left and lower edges, for a rule to reach.
func (k *pack) feetTable(c *flat.Blank) *sheet.Table {
	if len(c.Feet) == 0 {
		return nil
	}
	end := func(header string) sheet.Column { return sheet.Column{Header: header, Align: ink.End} }
	face, up, edge := "upper face", "Back\nof middle", "From\nfront edge"
	if k.job.Design.Wall() != nil {
		face, up, edge = "front face", "Up from\nmiddle", "From\nlower edge"
	}
	t := &sheet.Table{Title: "Feet: centres on the " + face + ", " + k.unit(), Tight: true, Columns: []sheet.Column{
		{Header: "Foot", Wrap: true}, end("Right\nof middle"), end(up), end("From\nleft edge"), end(edge), end("Across"),
	}}
	turned := slices.ContainsFunc(c.Feet, func(f flat.Foot) bool { return f.Turned })
	if turned {
		header := "Seam\ntoward"
		if k.job.Plan != nil && k.job.Plan.Saw != nil {
			header = "Seam or\ntemplate"
		}
		t.Columns = append(t.Columns, end(header))
	}
	lo, hi := bounds(c.Outline)
	mid := r2.Scale(0.5, r2.Add(lo, hi))
	for i := range c.Feet {
		foot := &c.Feet[i]
		across := "rests here"
		if len(foot.Outline) > 0 {
			low, high := bounds(foot.Outline)
			across = k.fine(high.X-low.X) + " × " + k.fine(high.Y-low.Y)
			if k.fine(high.X-low.X) == k.fine(high.Y-low.Y) {
				across = "Ø" + k.fine(high.X-low.X)
			}
		}
		row := []string{foot.Part, k.signed(foot.At.X - mid.X), k.signed(foot.At.Y - mid.Y), k.fine(foot.At.X - lo.X), k.fine(foot.At.Y - lo.Y), across}
		switch {
		case foot.Turned:
			row = append(row, bearing(foot.Bearing))
		case turned:
			row = append(row, "–")
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
