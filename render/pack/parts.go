package pack

import (
	"fmt"
	"strings"

	"stabile/param/quantity"
	"stabile/render/sheet"
	"stabile/render/words"
)

func (k *pack) metalsTable() *sheet.Table {
	t := &sheet.Table{Tight: true, Title: "Metals", Columns: []sheet.Column{{Header: "Name"}, {Header: "Alloy and thickness", Wrap: true}, {Header: "Thickness tolerance"}, {Header: "Density"}}}
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
	return &sheet.Table{Tight: true, Title: title, Columns: []sheet.Column{{Header: "Verdict"}, {Header: "Check", Wrap: true}}}
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
