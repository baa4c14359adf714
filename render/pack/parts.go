package pack

import (
	"fmt"
	"math"
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
		t.Rows = append(t.Rows, []string{m.Name, words.Capital(k.metal(m)), "±" + k.units.Exact(m.Tolerance), k.density(m.Density)})
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

// density writes a density given in kg/m³.
func (k *pack) density(x float64) string {
	if k.units != quantity.Inch {
		return quantity.Decimal(x, 0) + " kg/m³"
	}
	lb, _ := quantity.LookupUnit("lb")
	return quantity.Decimal(x/lb.Scale*math.Pow(inch/1000, 3), 3) + " lb/in³"
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
