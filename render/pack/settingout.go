package pack

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// settingOut draws the table of places in the corner over or under the side
// elevation, beside the plan, and returns what found no room there.
func (g *general) settingOut() *sheet.Table {
	t := g.settingTable()
	side := g.lay.boxes[draft.Side]
	plan := g.lay.boxes[draft.Plan]
	corner := sheet.Box(max(plan.Max.X+besideGap, side.Min.X-10-betweenGap), side.Max.Y+14, g.lay.free.Max.X, g.lay.free.Max.Y)
	if g.lay.paper.FirstAngle() {
		corner.Max.Y = g.lay.views[draft.Side].At(r3.Vec{}).Y - stackRoom - levelRoom - titleRoom - 10
		corner.Min.Y = g.lay.free.Min.Y
	}
	if corner.Max.X-corner.Min.X < 60 || corner.Max.Y-corner.Min.Y < 20 {
		return t
	}
	trial := &ink.Sheet{}
	used, rest := t.Draw(trial, corner)
	if rest != nil {
		return t
	}
	g.draw.Reserve(used)
	g.page.Add(trial.Items...)
	return nil
}

// settingTable returns the table for setting out: where each centre is from
// the middle of the base, and how high when the views do not say.
func (k *pack) settingTable() *sheet.Table {
	unit := "mm"
	if k.units == quantity.Inch {
		unit = "in"
	}
	many := len(k.job.Parts) > crowded
	t := &sheet.Table{
		Title: "Setting out, " + unit,
		Columns: []sheet.Column{
			{Header: "No.", Align: ink.End}, {Header: "Part"}, {Header: "Point"},
		},
	}
	if many {
		t.Columns = append(t.Columns, sheet.Column{Header: "Size", Wrap: true}, sheet.Column{Header: "Height", Align: ink.End})
	}
	t.Columns = append(t.Columns, sheet.Column{Header: "Right", Align: ink.End}, sheet.Column{Header: "Back", Align: ink.End})
	for i := range k.job.Parts {
		p := &k.job.Parts[i]
		if p.Base != nil {
			continue
		}
		at, point := r3.Vec{}, "centre"
		if p.Post != nil {
			at, point = p.Post.Foot, "foot"
		} else {
			at = p.Ball.Center
		}
		row := []string{fmt.Sprint(i + 1), short(p.Name), point}
		if many {
			size := k.size(p)
			text := size[0]
			if len(size) > 1 && p.Post != nil && p.Post.Lean > 0 {
				text += ", " + size[1]
			}
			row = append(row, text, k.rule(at.Z))
		}
		t.Rows = append(t.Rows, append(row, k.rule(at.X), k.rule(at.Y)))
	}
	return t
}

// tablePage adds a page with a table alone.
func (k *pack) tablePage(slug, subtitle string, t *sheet.Table) {
	for t != nil {
		p := k.page(k.bench(), slug, sheet.Block{Subtitle: subtitle, Document: "Table", DoNotScale: true})
		var rest *sheet.Table
		if _, rest = t.Draw(p.Sheet, p.Free); rest == t {
			return
		}
		t = rest
	}
}
