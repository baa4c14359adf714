package pack

import (
	"fmt"
	"strconv"

	"stabile/fab/check"
	"stabile/fab/strength"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// frame is the posts as a frame in space: how it was worked out, each post at its
// worst, and the worst of all line by line.
func (c *workings) frame() {
	s := c.job.Strength
	if s == nil || len(s.Members) == 0 {
		return
	}
	u := c.units
	c.section("Posts", "")
	c.paragraph(fmt.Sprintf("A linear frame in space, with shear: each post of a few beams of tube, balls and joints stiff with their true eccentricities, the base clamped. "+
		"%d beams, %d unknowns, %s: weight on level ground and on the slope, wind with the slope, the push on every part at its height. "+
		"Every station of each post was checked.", len(s.Frame.Beams), s.Frame.Unknowns, words.Count(s.Cases, "load case")))
	c.lines("Rules of strength", s.Lines())
	t := &sheet.Table{Title: "Each post at its worst", Columns: []sheet.Column{
		{Header: "Post", Wrap: true}, {Header: "Where", Wrap: true}, {Header: "P", Align: ink.End}, {Header: "V", Align: ink.End}, {Header: "M", Align: ink.End}, {Header: "T", Align: ink.End},
		{Header: "D/t", Align: ink.End}, {Header: "Class", Wrap: true}, {Header: "Ratio", Align: ink.End}, {Header: "Worst case", Wrap: true},
	}}
	for i := 0; i < len(s.Members); {
		worst := &s.Members[i]
		for p := worst.Part; i < len(s.Members) && s.Members[i].Part == p; i++ {
			if s.Members[i].Ratio > worst.Ratio {
				worst = &s.Members[i]
			}
		}
		t.Rows = append(t.Rows, []string{
			short(worst.Part.Name), words.Place(worst.Where, worst.Joint), u.Force(worst.Axial), u.Force(worst.Shear), u.Moment(worst.Bending), u.Moment(worst.Twist),
			quantity.Decimal(worst.Section.Slenderness(), 0), string(worst.Class), words.Use(worst.Ratio), c.brief(worst.Case),
		})
	}
	headUnits(t, 2, 3, 4, 5)
	c.table(t)
	if m := s.WorstMember(); m != nil {
		c.lines(fmt.Sprintf("The worst of all: %s, %s, %s", short(m.Part.Name), words.Place(m.Where, m.Joint), c.brief(m.Case)), s.Worked(m))
	}
}

// joints is the welds, the plate, the anchors and the walls of balls.
func (c *workings) joints() {
	s := c.job.Strength
	if s == nil {
		return
	}
	u := c.units
	if len(s.Welds) > 0 {
		c.section("Ring welds", ", each at its worst")
		t := &sheet.Table{Columns: []sheet.Column{
			{Header: "Post", Wrap: true}, {Header: "End"}, {Header: "To", Wrap: true}, {Header: "f", Align: ink.End}, {Header: "Throat", Align: ink.End},
			{Header: "Stress", Align: ink.End}, {Header: "Allowed", Align: ink.End}, {Header: "Ratio", Align: ink.End}, {Header: "Worst case", Wrap: true},
		}}
		for _, w := range s.Welds {
			t.Rows = append(t.Rows, []string{
				short(w.Part.Name), string(w.Where), short(w.With), c.along(w.Line), u.Exact(w.Throat), u.Stress(w.Stress), u.Stress(w.Allowed), words.Use(w.Ratio), c.brief(w.Case),
			})
		}
		headUnits(t, 3, 4, 5, 6)
		c.table(t)
	}
	if p := s.Plate; p != nil {
		c.section("Base plate", " beside "+short(p.Post.Name)+", in "+c.load(p.Case))
		c.lines("", p.Lines())
	}
	if a := s.Anchors; a != nil {
		name, in := "Anchors", "held down by weight in every case"
		switch {
		case a.Tension > 0:
			in = "worst in " + c.load(a.Case)
		case a.ForTarget > 0:
			name, in = "Anchors for the target", "in "+c.load(a.ForCase)
		}
		c.section(name, ", "+in)
		c.lines("", a.Lines())
		c.paragraph("Left out, and so not checked: " + c.say().Fact(strength.AnchorsLeaveOut) + ".")
	}
	c.held()
	if len(s.Shells) > 0 {
		c.shells(s)
	}
}

// shells is what the walls of balls are checked for at every joint on them.
func (c *workings) shells(s *strength.Strength) {
	u := c.units
	c.section("Walls of balls at their joints", ", each at its worst")
	c.paragraph("EN 13445-3 16.4: |F| / F_max + |M| / M_max ≤ 1, with F_max = f t² (1.82 + 2.4 √(1 + κ) λ + 0.91 κ λ²), M_max = f t² d/4 (4.90 + 2.0 √(1 + κ) λ + 0.91 κ λ²), " +
		"λ = d / √(R t), κ = 2 (f_b e_b / f t) √(e_b / d) ≤ 1, 0 at a seat, f the yield over 1.5. For a force inward e_b is t at most. " +
		"Its constants are from memory; elastic-plastic finite elements confirm them as a lower bound. Where no use is given the rule does not cover the joint: not decided.")
	t := &sheet.Table{Columns: []sheet.Column{
		{Header: "Ball", Wrap: true}, {Header: "At", Wrap: true}, {Header: "End"}, {Header: "Force", Align: ink.End}, {Header: "of", Align: ink.End}, {Header: "Moment", Align: ink.End}, {Header: "of", Align: ink.End}, {Header: "Use", Align: ink.End}, {Header: "Case", Wrap: true},
	}}
	for _, sh := range s.Shells {
		force, moment, use := "–", "–", "–"
		if sh.Ruled() {
			force, moment, use = u.Force(sh.Axial()), u.Moment(sh.Capacity.Moment), words.Use(sh.Ratio)
		}
		t.Rows = append(t.Rows, []string{short(sh.Ball.Name), short(sh.With.Name), string(sh.Where), u.Force(sh.Load.Force), force, u.Moment(sh.Load.Moment), moment, use, c.brief(sh.Case)})
	}
	headUnits(t, 3, 4, 5, 6)
	c.table(t)
}

// along returns a force along a weld given in N/mm.
func (c *workings) along(x float64) string {
	if c.units == quantity.Inch {
		return c.units.Force(25.4*x) + "/in"
	}
	return c.units.Force(x) + "/mm"
}

// swaying is the sway, the modes and the winds that make parts hum.
func (c *workings) swaying() {
	s := c.job.Strength
	if s == nil || (s.Sway.Part == nil || s.Sway.Case.Kind == check.NoLoad) && len(s.Modes) == 0 {
		return
	}
	u := c.units
	c.section("Sway and vibration", "")
	if s.Sway.Part != nil && s.Sway.Case.Kind != check.NoLoad {
		c.paragraph(fmt.Sprintf("The highest part, %s, sways %s (%s), besides its sway under its own weight.", short(s.Sway.Part.Name), u.Exact(s.Sway.Moved), c.brief(s.Sway.Case)))
	}
	if len(s.Modes) > 0 {
		t := &sheet.Table{Columns: []sheet.Column{{Header: "Lowest modes", Align: ink.End}, {Header: "Frequency", Align: ink.End}, {Header: "Shape", Wrap: true}}}
		for i := range s.Modes {
			m := &s.Modes[i]
			t.Rows = append(t.Rows, []string{strconv.Itoa(i + 1), words.Coefficient(m.Frequency) + " Hz", c.say().Fact(s.Shape(m))})
		}
		c.table(t)
		text := "Subspace iteration on the same frame, consistent mass (Bathe, Finite Element Procedures, 11.6); "
		if s.Complete {
			text += "a Sturm count shows that none was missed."
		} else {
			text += "a Sturm count does not show that none was missed."
		}
		c.paragraph(text + " Modes of nearly the same frequency mix: their bearings mean little.")
	}
	if len(s.Shedding) == 0 {
		return
	}
	t := &sheet.Table{Title: "Wind at which vortex shedding meets a natural frequency", Columns: []sheet.Column{
		{Header: "Part", Wrap: true}, {Header: "Mode"}, {Header: "f", Align: ink.End}, {Header: "b", Align: ink.End}, {Header: "St", Align: ink.End}, {Header: "vcrit", Align: ink.End},
		{Header: "Design", Align: ink.End}, {Header: "Ratio", Align: ink.End}, {Header: "Hums"},
	}}
	for _, sh := range s.Shedding {
		design, of, hums := "–", "–", "no wind given"
		if sh.Design > 0 {
			design, of, hums = u.Speed(sh.Design), words.Coefficient(sh.Of), "may"
			if sh.Of > strength.SheddingLimit {
				hums = "no"
			}
		}
		about := "lowest"
		if sh.Estimated {
			about = "own, about"
		}
		t.Rows = append(t.Rows, []string{short(sh.Part.Name), about, words.Coefficient(sh.Frequency) + " Hz", u.Exact(sh.Width), words.Coefficient(sh.Strouhal), u.Speed(sh.Critical), design, of, hums})
	}
	headUnits(t, 2, 3, 5, 6)
	c.table(t)
	c.paragraph(fmt.Sprintf("vcrit = f b / St, EN 1991-1-4, E.1.3, Table E.1 (0.20 for a ball: from memory). By E.1.2 no check is needed above %s of the design wind (mean of 10 min), nor on a post up to %s times as long as wide.", words.Coefficient(strength.SheddingLimit), words.Coefficient(strength.StockyLimit)))
}
