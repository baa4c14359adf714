package pack

import (
	"fmt"

	"stabile/fab/ground"
	"stabile/fab/strength"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// held is what holds the piece down: anchors in concrete, a footing, pads, and posts in
// concrete in the ground.
func (c *workings) held() {
	s := c.job.Strength
	c.grips(s)
	c.footing(s)
	c.sunk(s)
}

// grips is what the concrete holds of the anchors of a base and of pads, each in its worst case,
// and what bends the plates of pads.
func (c *workings) grips(s *strength.Strength) {
	u := c.units
	t := &sheet.Table{Columns: []sheet.Column{
		{Header: "Plate", Wrap: true}, {Header: "Pull", Align: ink.End}, {Header: "Shear", Align: ink.End}, {Header: "Bolt", Align: ink.End}, {Header: "Breakout", Align: ink.End},
		{Header: "Pull-out", Align: ink.End}, {Header: "Edge", Align: ink.End}, {Header: "Pry-out", Align: ink.End}, {Header: "Both", Align: ink.End}, {Header: "Plate", Align: ink.End}, {Header: "Case", Wrap: true},
	}}
	source := ""
	add := func(name string, a *strength.Anchors, plate *strength.Plate) {
		row := []string{short(name), "–", "–", "–", "–", "–", "–", "–", "–", "–", "–"}
		if a != nil {
			row[1], row[2], row[3] = u.Force(a.ForTarget), u.Force(a.ShearForTarget), words.Use(a.Worst())
			row[10] = c.brief(a.WorstCase())
		}
		if a != nil && a.Grip != nil {
			g := a.Grip
			source = g.Source
			row[4], row[7], row[8], row[10] = words.Use(g.BreakoutUse), words.Use(g.PryOutUse), words.Use(g.Interaction), c.brief(g.Case)
			if !g.PullOutOpen {
				row[5] = words.Use(g.PullOutUse)
			}
			if g.EdgeNear {
				row[6] = words.Use(g.EdgeUse)
			}
		}
		if plate != nil {
			row[9] = words.Use(plate.Ratio)
		}
		t.Rows = append(t.Rows, row)
	}
	if a := s.Anchors; a != nil && a.Grip != nil {
		add(c.job.Design.Base().Name, a, s.Plate)
	}
	for i := range s.Pads {
		add(s.Pads[i].Part.Name, s.Pads[i].Anchors, s.Pads[i].Plate)
	}
	if len(t.Rows) == 0 {
		return
	}
	c.section("Anchors in concrete", ", each plate in its worst case")
	headUnits(t, 1, 2)
	c.table(t)
	at := " at the target against tipping"
	if c.job.Design.Wall() != nil {
		at = ""
	}
	text := "Pull and shear are those of one anchor" + at + "; the rest are shares used, 1 the limit."
	if source != "" {
		text += " Concrete by " + source + ", cracked; bolts of the weakest grade in use."
	}
	if len(s.Pads) > 0 {
		text += " A pad is checked as a base plate under what its post alone brings down, without its own weight."
	}
	c.paragraph(text)
}

// footing is how a footing under the base presses on the ground.
func (c *workings) footing(s *strength.Strength) {
	if s.Anchors == nil || s.Anchors.Bed == nil {
		return
	}
	b, u := s.Anchors.Bed, c.units
	c.section("Footing", ", in "+c.load(b.Case))
	t := &sheet.Table{Columns: []sheet.Column{{Header: "Symbol"}, {Header: "Term", Wrap: true}, {Header: "Value", Align: ink.End}}}
	t.Rows = [][]string{
		{"W", "weight with the footing's own", u.Force(b.Weight)},
		{"M", "moment at its underside", u.Moment(b.Moment)},
		{"e", "M / W, off the middle", u.Exact(b.Off)},
		{"", "factor against tipping, " + words.Factor(ground.LeastTipping) + " needed", words.Factor(b.Factor)},
		{"q", "greatest pressure on the ground", u.Pressure(1e3 * b.Pressure)},
		{"", "allowed", u.Pressure(1e3 * b.Allowed)},
		{"", "share used of what friction holds, over " + words.Factor(ground.LeastSliding), words.Use(b.Sliding)},
	}
	c.table(t)
	c.paragraph("Linear pressure without tension: q = W/(L B) (1 + 6 e/L) up to e = L/6, beyond it 2 W / (3 B (L/2 - e)). All of the moment is taken across the shorter side.")
}

// sunk is what the ground holds of posts in concrete.
func (c *workings) sunk(s *strength.Strength) {
	u := c.units
	t := &sheet.Table{Columns: []sheet.Column{
		{Header: "Post", Wrap: true}, {Header: "Concrete", Align: ink.End}, {Header: "P", Align: ink.End}, {Header: "M", Align: ink.End}, {Header: "Depth", Align: ink.End},
		{Header: "Needed", Align: ink.End}, {Header: "Bearing", Align: ink.End}, {Header: "Use", Align: ink.End}, {Header: "Case", Wrap: true},
	}}
	for i := range s.Sunk {
		p := &s.Sunk[i]
		if p.Unknown {
			continue
		}
		post := p.Part.Post
		t.Rows = append(t.Rows, []string{
			short(p.Part.Name), "Ø" + c.length(post.Pier), u.Force(p.Force), u.Moment(p.Moment), c.length(post.Sunk), c.say().AtLeast(p.Depth), words.Use(p.Bearing), words.Use(p.Use), c.brief(p.Case),
		})
	}
	if len(t.Rows) == 0 {
		return
	}
	c.section("Posts in concrete in the ground", ", each in its worst case")
	headUnits(t, 2, 3)
	c.table(t)
	c.paragraph(fmt.Sprintf("P and M are the level force and the moment at the ground, of allowable-stress loads; d = A/2 (1 + √(1 + 4.36 h/A)), A = 2.34 P / (S1 b), h = M/P, S1 the lateral bearing at d/3 of %s: IBC 1807.3.2.1, not held at grade. Bearing is the weight, with the concrete's, over the area of its underside, as a share of IBC 1806.2. A twist about the upright, and the give of the ground in sway and frequency, are left out.",
		c.job.Design.Site.Soil))
}
