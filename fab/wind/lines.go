package wind

import (
	"cmp"
	"slices"

	"stabile/fab/calculation"
)

// heights returns the pressures at the reference heights of items, lowest first.
func heights(m method, items []Item) []Pressure {
	var z []float64
	for i := range items {
		z = append(z, items[i].Reference)
	}
	slices.SortFunc(z, cmp.Compare)
	z = slices.Compact(z)
	list := make([]Pressure, len(z))
	for i, h := range z {
		list[i] = m.pressure(h)
	}
	return list
}

// coefficientLines returns the coefficients in use, each once, in the order of
// the items.
func coefficientLines(items []Item) []calculation.Line {
	var list []calculation.Line
	for i := range items {
		it := &items[i]
		l := calculation.Line{Symbol: "C_f", Name: "force coefficient of a " + it.Part.Kind(), Value: it.Coefficient, Source: it.Rule}
		if !slices.Contains(list, l) {
			list = append(list, l)
		}
	}
	return list
}
