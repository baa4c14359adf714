package pack

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/calculation"
	"stabile/fab/stand"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// aid is said on every sheet of a calculation.
const aid = "No certificate: a licensed engineer and the local code decide for anything that the public can reach."

// Workings are the sheets that an engineer checks line by line: what was
// given, every rule with its source, every figure, what was assumed and what was
// not checked.
type workings struct {
	*pack
	flow *sheet.Flow
	no   int    // of the section
	name string // of the section, with that
	open string // the heading of a section that nothing was written in yet

	sections []entry
}

// engineerBook makes the book of whoever checks the piece: what was checked and what
// was not decided, then, where there are loads or strength, how.
func (k *pack) engineerBook() {
	k.indexed(func(index *sheet.Table) []entry {
		c := &workings{pack: k}
		slug := "checks"
		c.flow = sheet.NewFlow(func() (*ink.Sheet, r2.Box) {
			b := sheet.Block{Subtitle: "What was checked", Document: "Calculation", Caution: aid}
			if len(k.pages) > 0 {
				b.Subtitle = "Calculation of standing and strength"
			}
			p := k.page(k.bench(), slug, b)
			slug = "calculation"
			return p.Sheet, p.Free
		})
		if index != nil {
			c.flow.Table(index)
		}
		c.checks()
		j := k.job
		if j.Wind == nil && j.Strength == nil && (j.Tipping == nil || !j.Tipping.Loaded) {
			return c.sections
		}
		c.basis()
		c.byHand()
		c.wind()
		c.tipping()
		c.frame()
		c.joints()
		c.swaying()
		c.limits()
		return c.sections
	})
}

// section begins a section with its number: the index names it, its heading says more. The
// heading is written with what comes first in it.
func (c *workings) section(name, more string) {
	c.no++
	c.name = fmt.Sprintf("%d  %s", c.no, name)
	c.open = c.name + more
}

// head is about the height of a heading with the room about it, in mm.
const head = 3 * sheet.Medium

// begin writes the heading that is open, on a sheet where a height in mm goes with
// it.
func (c *workings) begin(height float64) {
	if c.open != "" {
		c.flow.Need(head + height)
		c.flow.Heading(c.open)
		c.sections = append(c.sections, entry{c.name, len(c.pages)})
		c.open = ""
		return
	}
	c.flow.Need(height)
}

// tableHead is about the height of the header of a table with a row, in mm.
const tableHead = 4 * sheet.Small

// wholeTable is the share of a sheet's height up to which a table is not parted.
const wholeTable = 0.07

// table draws tables, beside each other where they are narrow enough. One that is short
// is not parted.
func (c *workings) table(tables ...*sheet.Table) {
	_, rest := c.flow.Rest()
	height := 0.0
	for _, t := range tables {
		t.Tight = true
		_, h := t.Size(rest.Max.X - rest.Min.X)
		height += h
	}
	if height > wholeTable*c.bench().Height {
		height = tableHead
		if tables[0].Title != "" {
			height += head
		}
	}
	c.begin(height)
	c.flow.Beside(tables...)
}

// paragraph writes a text.
func (c *workings) paragraph(text string) {
	c.begin(2 * sheet.LineHeight(sheet.Small))
	c.flow.Paragraph(text)
}

// basis is what was given.
func (c *workings) basis() {
	c.section("Given", "")
	j, u := c.job, c.units
	t := &sheet.Table{Columns: []sheet.Column{{Header: "Symbol"}, {Header: "Term", Wrap: true}, {Header: "Value", Align: ink.End}, {Header: "Source"}}}
	add := func(symbol, term, value, source string) {
		t.Rows = append(t.Rows, []string{symbol, term, value, source})
	}
	add("m", "parts and weld metal", u.Weight(j.Mass.Total), "flat blanks")
	if j.Mass.Ballast > 0 {
		add("", "ballast in the middle", u.Weight(j.Mass.Ballast), "given")
	}
	if j.Mass.Block > 0 {
		add("", "block that the plate is bolted to", u.Weight(j.Mass.Block), "given size and stone")
	}
	add("z", "centre of gravity, without ballast", c.length(j.CG.Z), "flat blanks")
	add("", "overall height", c.length(j.Size.Height), "geometry")
	add("g", "acceleration of free fall", quantity.Decimal(quantity.Gravity, 5)+" m/s²", "standard")
	if s := j.Design.Site; s != nil {
		if s.Push > 0 {
			add("F", "push, level, from any bearing", u.Force(s.Push), "given")
			add("h", "height of the push", c.length(s.PushHeight), "given")
		}
		if s.Slope > 0 {
			add("", "slope of the ground, in any direction", degrees(s.Slope), "given")
		}
	}
	if w := j.Wind; w != nil {
		ground := "exposure "
		if w.Least == 0 {
			ground = "terrain "
		}
		add("", "wind by "+string(w.Edition)+", "+ground+w.Ground, u.Speed(w.Speed), "given")
	} else {
		add("", "wind", "none given", "")
	}
	c.table(append([]*sheet.Table{t}, c.nodes()...)...)
	axes := "x runs right, y back, z up from the ground"
	if j.Design.Wall() != nil {
		axes = "x runs right, y from the face of the wall into it, z up from the floor"
	}
	c.paragraph(axes + "; a bearing turns from x toward y. Loads come from 72 bearings, 5° apart.")
}

// lines is a table of the lines of a calculation. Formulas follow their terms in one
// column: some lines have a long one, others none. Where most values differ from part to
// part there is no column for them, and the others follow their formulas too.
func (c *workings) lines(title string, list []calculation.Line) {
	t := &sheet.Table{Title: title, Columns: []sheet.Column{{Header: "Symbol"}, {Header: "Term: formula", Wrap: true}}}
	vary := 0
	for _, l := range list {
		if l.Varies {
			vary++
		}
	}
	rules := 2*vary > len(list)
	if !rules {
		t.Columns = append(t.Columns, sheet.Column{Header: "Value", Align: ink.End})
	}
	t.Columns = append(t.Columns, sheet.Column{Header: "Source", Wrap: true})
	for _, l := range list {
		term := words.Capital(words.Formula(c.say().Fact(l.Name)))
		if l.Formula != "" {
			term += ": " + words.Formula(l.Formula)
		}
		row := []string{words.Formula(l.Symbol), term}
		switch {
		case !rules:
			row = append(row, c.value(l))
		case !l.Varies:
			row[1] += " = " + strings.ReplaceAll(c.value(l), "\n", " ")
		}
		t.Rows = append(t.Rows, append(row, words.Formula(l.Source)))
	}
	c.table(t)
}

// assumed returns the sentences of assumptions.
func (c *workings) assumed(list []calculation.Assumption) []string {
	texts := make([]string, len(list))
	for i, a := range list {
		texts[i] = c.say().Fact(a)
	}
	return texts
}

// limits is what was assumed, numbered, and what was not checked.
func (c *workings) limits() {
	j := c.job
	c.section("Assumed", ", and not checked")
	n := 0
	group := func(of string, list []string) {
		if len(list) == 0 {
			return
		}
		text := of + ":"
		for _, a := range list {
			n++
			text += fmt.Sprintf(" (%d)\u00a0%s.", n, words.Formula(a))
		}
		c.paragraph(text)
	}
	say := c.say()
	if j.Wind != nil {
		group("Wind", c.assumed(j.Wind.Assumptions()))
	}
	rest := []string{"clauses were read from secondary texts: the standards themselves decide"}
	if j.Design.Wall() == nil {
		rest = append(rest, say.Fact(stand.RigidOnFirmGround))
	}
	if s := j.Strength; s != nil {
		rest = append(rest, c.assumed(s.Assumptions())...)
		if len(s.Unpushed) > 0 {
			var names []string
			for _, p := range s.Unpushed {
				names = append(names, short(p.Name))
			}
			rest = append(rest, "the push does not reach "+strings.Join(names, ", ")+", checked for their weight, and the wind where there is one, alone")
		}
	}
	group("Standing and strength", rest)

	on := "The ground"
	if j.Design.Wall() != nil {
		on = "The wall"
	}
	var open []string
	if s := j.Strength; s != nil {
		for _, g := range s.Unchecked {
			open = append(open, words.Capital(say.Unchecked(g))+".")
		}
	} else {
		open = append(open, "Strength, sway, welds, plate and anchors.")
	}
	if j.Wind == nil {
		open = append(open, "Wind: the design gives none.")
	}
	open = append(open,
		on+", what holds anchors in it, people, earthquake, ice, beyond what stands under What was checked.",
		"Prying on anchors; fatigue but from vibration; a vehicle; lifting and carrying; any part before it is welded in place. Corrosion: walls count as new.",
	)
	c.paragraph("NOT CHECKED: " + strings.Join(open, " "))
}
