package pack

import (
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// byHand is the check of tipping that anybody can follow.
func (c *workings) byHand() {
	j, u := c.job, c.units
	what, force, height := "Push", 0.0, 0.0
	if s := j.Design.Site; s != nil {
		force, height = s.Push, s.PushHeight
	}
	if w := j.Wind; force == 0 && w != nil && len(w.Bearings) > 0 {
		b := &w.Bearings[w.Worst]
		what, force, height = "Wind", max(b.Scale, 1)*math.Hypot(b.Force.X, b.Force.Y), b.Center
	}
	if j.Tipping != nil {
		if h, ok := j.Tipping.ByHand(j.Mass.Total+j.Mass.Ballast, force, height); ok {
			c.section("Check by hand", "")
			t := &sheet.Table{Tight: true, Columns: []sheet.Column{{Header: "What"}, {Header: "Sum"}, {Header: "Comes to", Align: ink.End}}}
			t.Rows = [][]string{
				{what + " × height", u.Force(h.Push) + " × " + c.length(h.Height), u.Moment(h.Overturning)},
				{"Weight × lever", u.Force(h.Weight) + " × " + c.length(h.Lever), u.Moment(h.Restoring)},
				{"Factor", u.Moment(h.Restoring) + " / " + u.Moment(h.Overturning), words.Factor(h.Factor)},
			}
			c.explained(t, fmt.Sprintf("On level ground, the load square to edge %d, which lies nearest under the centre of gravity; weight with ballast. "+
				"The calculation takes every bearing, the slope and the wind as well, so that its factor may be lower.", h.Edge+1))
			return
		}
	}
}

// explained draws a narrow table with a text at its right.
func (c *workings) explained(t *sheet.Table, text string) {
	const gap = 8.0
	_, rest := c.flow.Rest()
	w, table := t.Size(rest.Max.X - rest.Min.X)
	say := func(f *sheet.Flow) { f.Paragraph(text) }
	height := max(table, wordsHeight(rest.Max.X-rest.Min.X-w-gap, say))
	c.begin(height)
	s, rest := c.flow.Rest()
	t.Draw(s, rest)
	rest.Min.X += w + gap
	write(s, rest, say)
	c.flow.Take(height)
	c.flow.Gap(sheet.Medium)
}

// nodes returns a table of where posts begin and end and where balls are; none where no
// frame was worked out.
func (c *workings) nodes() []*sheet.Table {
	if c.job.Strength == nil {
		return nil
	}
	end := func(header string) sheet.Column {
		return sheet.Column{Header: header + ", " + c.unit(), Align: ink.End}
	}
	t := &sheet.Table{Title: "Nodes", Abreast: true, Columns: []sheet.Column{{Header: "No.", Align: ink.End}, {Header: "Node"}, end("x"), end("y"), end("z")}}
	add := func(name string, at r3.Vec) {
		t.Rows = append(t.Rows, []string{strconv.Itoa(len(t.Rows) + 1), name, c.rule(at.X), c.rule(at.Y), c.rule(at.Z)})
	}
	for i := range c.job.Parts {
		switch p := &c.job.Parts[i]; {
		case p.Post != nil:
			add(short(p.Name)+" foot", p.Post.Ends[design.Foot].At)
			add(short(p.Name)+" head", p.Post.Ends[design.Head].At)
		case p.Ball != nil:
			add(short(p.Name)+" centre", p.Ball.Center)
		}
	}
	return []*sheet.Table{t}
}
