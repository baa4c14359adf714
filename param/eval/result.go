package eval

import "stabile/param/quantity"

// A Result is a number of the finished work that a requirement can read.
type Result struct {
	Name    string
	Dim     quantity.Dimension
	Meaning string
}

// Results returns the results of the whole. Each part has its weight besides,
// as in moon.weight.
func Results() []Result {
	return []Result{
		{"weight", quantity.Mass, "of the whole, with its weld metal and without ballast"},
		{"tipping", quantity.Number, "the lowest factor against tipping, under the push and the wind on the slope of the site"},
		{"sliding", quantity.Number, "the lowest factor against sliding, by friction alone, under the push and the wind on the slope of the site"},
		{"height", quantity.Length, "from the ground to the highest point"},
		{"width", quantity.Length, "overall, from left to right"},
		{"depth", quantity.Length, "overall, from front to back"},
		{"wind", quantity.Force, "the greatest level force of the wind on the whole"},
		{"strength", quantity.Number, "the highest utilisation of any section, weld, ball wall, plate or anchor; 1 is the limit"},
		{"frequency", quantity.Rate, "the lowest natural frequency of the whole piece"},
		{"sheets", quantity.Number, "how many sheets of metal it takes"},
		{"cost", quantity.Number, "in the shop's currency"},
	}
}

var results = Results()

func lookupResult(name string) (Result, bool) {
	for _, r := range results {
		if r.Name == name {
			return r, true
		}
	}
	return Result{}, false
}

func resultNames() []string {
	names := make([]string, len(results))
	for i, r := range results {
		names[i] = r.Name
	}
	return sorted(names)
}
