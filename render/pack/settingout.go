package pack

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// settingOut draws the table of places in the corner over or under the side
// elevation, beside the plan, and returns what found no room there.
func (g *general) settingOut() []*sheet.Table {
	tables := g.settingTables()
	side := g.lay.boxes[draft.Side]
	plan := g.lay.boxes[draft.Plan]
	corner := sheet.Box(max(plan.Max.X+tableGap, side.Min.X-10-betweenGap), side.Max.Y+14, g.lay.free.Max.X, g.lay.free.Max.Y)
	if g.firstAngle() {
		corner.Max.Y = g.under(draft.Side) - stackRoom - levelRoom - titleRoom - 10
		corner.Min.Y = g.lay.free.Min.Y
	}
	if corner.Max.X-corner.Min.X < 60 || corner.Max.Y-corner.Min.Y < 20 {
		return tables
	}
	for _, t := range tables {
		trial := &ink.Sheet{}
		if used, rest := t.Draw(trial, corner); rest == nil && t.Whole(corner.Max.X-corner.Min.X) {
			g.draw.Reserve(used)
			g.page.Add(trial.Items...)
			return nil
		}
	}
	return tables
}

// tableElsewhere draws a table where there is room for it among the views, in up to
// three parts side by side or in two places. It reports whether it found room.
func (g *general) tableElsewhere(t *sheet.Table) bool {
	const tall, least = 1e4, 20.0 // mm
	whole, _ := t.Draw(&ink.Sheet{}, sheet.Box(0, 0, g.lay.free.Max.X-g.lay.free.Min.X, tall))
	width, height := whole.Max.X, tall-whole.Min.Y
	// place finds room for as much of a table as goes into a box of a size.
	place := func(t *sheet.Table, w, h float64) (at r2.Box, rest *sheet.Table, ok bool) {
		used, rest := t.Draw(&ink.Sheet{}, sheet.Box(0, 0, w, h))
		if rest == t || !t.Whole(w) {
			return at, t, false
		}
		at, ok = g.spare.Room(used.Max.X-used.Min.X, used.Max.Y-used.Min.Y, spareRoom)
		return at, rest, ok
	}
	for parts := 1.0; parts <= 3; parts++ {
		// The parts are as even as whole rows let them be.
		at, rest, ok := place(t, parts*(width+tableGap), height/parts+least)
		if ok && rest == nil {
			t.Draw(g.page.Sheet, at)
			return true
		}
		if ok {
			g.spare.Return()
		}
	}
	for _, share := range [...]float64{0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9} {
		first, rest, ok := place(t, width, height*share)
		if !ok {
			break
		}
		second, none, ok := place(rest, width, height)
		if ok && none == nil {
			_, rest = t.Draw(g.page.Sheet, first)
			rest.Draw(g.page.Sheet, second)
			return true
		}
		if ok {
			g.spare.Return()
		}
		g.spare.Return()
	}
	return false
}

const (
	tableGap  = 8.0 // between parts of a table
	spareRoom = 5.0 // about what goes where there is room
)

// settingTables returns the table for setting out, in the forms that it may have:
// where each foot and centre is from the middle of the base. Of many parts it has
// what the views do not say then: in columns, or narrower, in the part's cell.
func (k *pack) settingTables() []*sheet.Table {
	few := &sheet.Table{Title: "Setting out, " + k.unit()}
	wide := &sheet.Table{Title: "Setting out of feet and centres, " + k.unit()}
	narrow := &sheet.Table{Title: wide.Title}
	columns := func(t *sheet.Table, figures ...string) {
		for _, h := range figures {
			t.Columns = append(t.Columns, sheet.Column{Header: h, Align: ink.End})
		}
	}
	for _, t := range [...]*sheet.Table{few, wide, narrow} {
		columns(t, "No.")
		t.Columns = append(t.Columns, sheet.Column{Header: "Part"})
	}
	few.Columns = append(few.Columns, sheet.Column{Header: "Point"})
	places := []string{"Right", "Back"}
	wall := k.job.Design.Wall()
	if wall != nil {
		places = []string{"Right", "Up", "Out"}
	}
	columns(few, places...)
	columns(wide, append([]string{"Ø", "Length", "Lean", "Toward", "Height"}, places...)...)
	columns(narrow, append([]string{"Height"}, places...)...)
	for i := range k.job.Parts {
		p := &k.job.Parts[i]
		if p.Base != nil {
			continue
		}
		var at r3.Vec
		var point, across, length, lean, toward, cell string
		no, name := fmt.Sprint(i+1), short(p.Name)
		r, first := ringOf(p)
		if r != nil && !first {
			continue
		}
		if r != nil {
			name = r.Name
			at, point, across, length, cell = k.ringSetting(r)
		} else if p.Post != nil {
			at, point = p.Post.Ends[design.Foot].At, "foot"
			across, length = k.diameters(p.Post), k.fine(p.Post.Length)
			cell = name + "\nØ" + across + " × " + length
			if p.Post.Lean > 0 {
				lean, toward = degrees(p.Post.Lean), bearing(p.Post.LeanBearing)
				cell += ", lean " + lean + " to " + toward
			}
		} else {
			at, point = p.Ball.Mouth(), "centre"
			if p.Ball.Bowl {
				point = "rim"
			}
			across = k.fine(2 * p.Ball.RimRadius())
			cell = name + ", Ø" + across
			if p.Ball.IsEgg() {
				length = k.fine(p.Ball.Tall)
				cell += " × " + length + " tall"
				if tilt := math.Acos(max(-1, min(1, p.Ball.Pole.Z))); tilt > 1e-9 {
					lean, toward = degrees(tilt), bearing(design.BearingOf(p.Ball.Pole))
					cell += ", pole " + lean + " to " + toward
				}
			}
		}
		own, high := k.own(at), k.rule(at.Z)
		places := []string{k.rule(own.X), k.rule(own.Y)}
		if wall != nil {
			places = append(places, k.rule(own.Z))
		}
		few.Rows = append(few.Rows, append([]string{no, name, point}, places...))
		wide.Rows = append(wide.Rows, append([]string{no, name, across, length, lean, toward, high}, places...))
		narrow.Rows = append(narrow.Rows, append([]string{no, cell, high}, places...))
	}
	if k.listed() <= crowded {
		if k.plumb() {
			return nil
		}
		return []*sheet.Table{few}
	}
	return []*sheet.Table{wide, narrow}
}

// plumb reports whether all feet and centres stand over the middle of the base, so
// that there is nothing to set out.
func (k *pack) plumb() bool {
	return k.job.Design.Wall() == nil && !slices.ContainsFunc(k.job.Parts, func(p fab.Part) bool {
		var at r3.Vec
		switch r, _ := ringOf(&p); {
		case r != nil:
			at = r.Center
		case p.Post != nil:
			at = p.Post.Ends[design.Foot].At
		case p.Ball != nil:
			at = p.Ball.Center
		}
		return k.rule(at.X) != "0" || k.rule(at.Y) != "0"
	})
}

// diameters returns the diameter of a post, or of a taper both.
func (k *pack) diameters(p *design.Post) string {
	s := k.fine(p.Ends[design.Foot].Diameter)
	switch {
	case p.IsPointed():
		s += " to a point"
	case p.IsTaper():
		s += " to " + k.fine(p.Ends[design.Head].Diameter)
	}
	return s
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
