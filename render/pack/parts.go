package pack

import (
	"fmt"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// partsList makes the sheets of parts, weights, standing, and what there is to
// say: as many as it takes.
func (k *pack) partsList() {
	first := true
	f := sheet.NewFlow(func() (*ink.Sheet, r2.Box) {
		subtitle := "Parts, weights and findings"
		if !first {
			subtitle += ", continued"
		}
		first = false
		p := k.page(k.bench(), "parts", sheet.Block{Subtitle: subtitle, Document: "Parts list", DoNotScale: true})
		return p.Sheet, p.Free
	})
	f.Table(k.partsTable())
	f.Table(k.metalsTable())
	k.weights(f)
	k.standing(f)
	k.requirements(f)
	f.Paragraph("Read the sheet of cautions before the work begins.")
	k.findings(f)
	k.cautions(f)
}

func (k *pack) partsTable() *sheet.Table {
	t := &sheet.Table{
		Title: "Parts",
		Columns: []sheet.Column{
			{Header: "No.", Align: ink.End}, {Header: "Part"}, {Header: "What", Wrap: true},
			{Header: "Blanks", Wrap: true}, {Header: "Metal"}, {Header: "Size, " + k.unit(), Wrap: true},
			{Header: "Weight", Align: ink.End},
		},
	}
	for i := range k.job.Parts {
		p := &k.job.Parts[i]
		metal := "–"
		if p.Metal != nil {
			metal = p.Metal.Name
		}
		weight := k.units.Weight(p.Mass)
		t.Rows = append(t.Rows, []string{
			strconv.Itoa(i + 1), short(p.Name), what(p), blankCount(p), metal, strings.Join(k.size(p), ", "), weight,
		})
	}
	m := k.job.Mass
	if m.Weld > 0 {
		t.Foot = append(t.Foot, []string{"", "Weld metal", "", "", "", "", k.units.Weight(m.Weld)})
	}
	t.Foot = append(t.Foot, []string{"", "Total", "", "", "", "", k.units.Weight(m.Total)})
	return t
}

// blankCount returns how many pieces a part is cut from.
func blankCount(p *fab.Part) string {
	n := 0
	for i := range p.Blanks {
		n += p.Blanks[i].Quantity
	}
	if n == 0 {
		return "none"
	}
	return strconv.Itoa(n)
}

func (k *pack) metalsTable() *sheet.Table {
	t := &sheet.Table{Title: "Metals", Columns: []sheet.Column{{Header: "Name"}, {Header: "Alloy and thickness", Wrap: true}, {Header: "Thickness tolerance"}, {Header: "Density"}}}
	seen := map[string]bool{}
	for i := range k.job.Parts {
		m := k.job.Parts[i].Metal
		if m == nil || seen[m.Name] {
			continue
		}
		seen[m.Name] = true
		t.Rows = append(t.Rows, []string{m.Name, sheet.Capital(k.metal(m)), "±" + k.units.Exact(m.Tolerance), quantity.Decimal(m.Density, 0) + " kg/m³"})
	}
	return t
}

func (k *pack) weights(f *sheet.Flow) {
	m := k.job.Mass
	f.Heading("Weight")
	text := fmt.Sprintf("About %s: between %s and %s by the tolerance of the sheet.", k.units.Weight(m.Total), k.units.Weight(m.Low), k.units.Weight(m.High))
	if m.Ballast > 0 {
		text += fmt.Sprintf(" Ballast in addition: %s.", k.units.Weight(m.Ballast))
	}
	f.Paragraph(text)
	s := k.job.Size
	f.Paragraph(fmt.Sprintf("Overall size: %s wide, %s deep, %s high. %s", k.length(s.Width), k.length(s.Depth), k.length(s.Height), k.gravity()))
}

// verdicts returns an empty table of checks.
func verdicts(title string) *sheet.Table {
	return &sheet.Table{Title: title, Columns: []sheet.Column{{Header: "Verdict"}, {Header: "Check", Wrap: true}}}
}

// standing lists the checks. One that was not decided reads so.
func (k *pack) standing(f *sheet.Flow) {
	table := verdicts("Checks")
	for _, r := range k.say().Rows(k.job.Checks) {
		text := sheet.Capital(r.What)
		if t := r.Text(); t != "" {
			text += ": " + t
		}
		table.Rows = append(table.Rows, []string{words.Condition(r.Verdict), text + "."})
	}
	f.Table(table)
}

func (k *pack) requirements(f *sheet.Flow) {
	if len(k.job.Requirements) == 0 {
		return
	}
	w := k.say()
	table := verdicts("Requirements")
	for _, r := range k.job.Requirements {
		came := w.Sides(r.Sides)
		if r.Missing != nil {
			came = w.Fact(r.Missing)
		}
		text := r.Text + ": " + came
		if r.Why != "" {
			text += " (" + r.Why + ")"
		}
		table.Rows = append(table.Rows, []string{words.Condition(r.Verdict), text})
	}
	f.Table(table)
}

func (k *pack) findings(f *sheet.Flow) {
	if len(k.job.Findings) == 0 {
		return
	}
	table := &sheet.Table{Title: "Findings", Columns: []sheet.Column{{Header: "Level"}, {Header: "Part", Wrap: true}, {Header: "Finding", Wrap: true}}}
	for _, r := range k.say().Remarks(k.job.Findings) {
		table.Rows = append(table.Rows, []string{string(r.Level), shortNames(r.Parts), sheet.Capital(r.Text) + "."})
	}
	f.Table(table)
}

// shortNames returns the names of parts in a cell: the first of many.
func shortNames(parts []string) string {
	const most = 8
	var names []string
	for _, p := range parts[:min(len(parts), most)] {
		names = append(names, short(p))
	}
	if n := len(parts) - most; n > 0 {
		names = append(names, fmt.Sprintf("%d more", n))
	}
	return strings.Join(names, ", ")
}

// cautions are those that fit all work of this kind, where they go on the sheet that
// is begun: they have one of their own, which is named before the findings.
func (k *pack) cautions(f *sheet.Flow) {
	all := func(f *sheet.Flow) {
		f.Heading("Cautions")
		for _, c := range []string{
			"Sheared and ground edges cut: wear gloves to carry, break every edge. No gloves, loose sleeves or hair near the rolls.",
			"Weld and grind with eye, face and lung protection, with local exhaust: fumes of zinc and chromium are poisonous.",
			"A closed ball or tube bursts when it is heated or dipped: vent it first.",
			"Lift above " + words.In(quantity.Millimetre).LiftLimit() + " (" + words.In(quantity.Inch).LiftLimit() + ") with two people or a hoist, and nobody under the load.",
			"These figures aid judgement: a licensed engineer and the local code decide for anything that the public can reach.",
		} {
			f.Item("–", ink.Regular, c)
		}
	}
	if _, rest := f.Rest(); wordsHeight(rest.Max.X-rest.Min.X, all) <= rest.Max.Y-rest.Min.Y {
		all(f)
	}
}
