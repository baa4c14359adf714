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
		{"tipping", quantity.Number, "the least factor against tipping, under the push and the wind on the slope of the site"},
		{"height", quantity.Length, "from the ground to the highest point"},
		{"width", quantity.Length, "over all, from left to right"},
		{"depth", quantity.Length, "over all, from front to back"},
		{"wind", quantity.Force, "the greatest level force of the wind on the whole"},
		{"strength", quantity.Number, "the greatest share used of what any section, weld, plate or anchor bears; 1 is all of it"},
		{"frequency", quantity.Rate, "the lowest at which the whole sways"},
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
