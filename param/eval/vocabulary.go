package eval

import (
	"stabile/param/design"
	"stabile/param/quantity"
)

// The declarations of a design, in the order in which one writes them.
var declarations = []Declaration{
	{
		Keyword: "metal", Named: true, Form: "metal NAME { … }",
		Meaning: "a sheet metal of one thickness, by gauge or by measure",
		Properties: []Property{
			{Word: "alloy", Required: true, Arguments: []Argument{{Kind: Alloy}},
				Meaning: "what it is made of; sets density, yield and modulus", Example: "alloy low-carbon-steel"},
			{Word: "gauge", OneOf: "how thick it is", Arguments: []Argument{{Kind: Whole, Range: gaugeRange}},
				Meaning: "the sheet's number in the gauge table of the alloy", Example: "gauge 18"},
			{Word: "thickness", OneOf: "how thick it is", Arguments: []Argument{length(size)},
				Meaning: "the sheet's nominal thickness", Example: "thickness 1.5 mm"},
			{Word: "density", Arguments: []Argument{measure(quantity.Density, heaviness)},
				Meaning: "weight by volume", Default: "that of the alloy", Example: "density 7850 kg/m3"},
			{Word: "yield", Arguments: []Argument{measure(quantity.Pressure, stress)},
				Meaning: "the stress at which it begins to give", Default: "that of the alloy", Example: "yield 36 ksi"},
			{Word: "modulus", Arguments: []Argument{measure(quantity.Pressure, stress)},
				Meaning: "its stiffness, Young's modulus", Default: "that of the alloy", Example: "modulus 29000 ksi"},
			{Word: "price", Arguments: []Argument{byWeight()},
				Meaning: "what it costs by weight, where no sheet of it has a price", Default: "none", Example: "price 2.20 / 1 kg"},
		},
	},
	{
		Keyword: "base", Named: true, Form: "base NAME { … }",
		Meaning: "what the sculpture stands on; at most one",
		Properties: []Property{
			{Word: "plate", OneOf: "its shape", Arguments: []Argument{length(size), after("by", length(size))},
				Meaning: "a rectangle, its width along x by its depth along y", Example: "plate 26 in by 22 in"},
			{Word: "disc", OneOf: "its shape", Arguments: []Argument{length(size)},
				Meaning: "a round of the given diameter", Example: "disc 600 mm"},
			{Word: "feet", OneOf: "its shape",
				Meaning: "no plate: the feet of the posts stand on the ground", Example: "feet"},
			{Word: "metal", Required: true, With: []string{"plate", "disc"}, Arguments: []Argument{{Kind: Metal}},
				Meaning: "the metal of the plate", Example: "metal slab", Instead: "a base of feet has no plate; leave 'metal' out"},
			{Word: "ballast", With: []string{"plate", "disc"}, Arguments: []Argument{measure(quantity.Mass, mass)},
				Meaning: "weight laid on the base about its centre", Default: "none", Example: "ballast 40 kg",
				Instead: "a base of feet has no plate to lay it on; leave 'ballast' out"},
			{Word: "anchors", With: []string{"plate", "disc"}, Arguments: []Argument{{Kind: Whole, Range: holeCount}},
				Meaning: "number of holes to bolt the plate down by", Default: "0", Example: "anchors 4",
				Instead: "a base of feet has no plate to drill; leave 'anchors' out"},
			{Word: "anchor_diameter", With: []string{"anchors"}, Arguments: []Argument{length(size)},
				Meaning: "diameter of the anchor holes", Example: "anchor_diameter 1/2 in"},
			{Word: "anchor_edge", With: []string{"anchors"}, Arguments: []Argument{length(size)},
				Meaning: "from the plate's edge to the middle of a hole", Example: "anchor_edge 1-1/2 in"},
		},
	},
	postDeclaration,
	ballDeclaration,
	{
		Keyword: "site", Top: true, Form: "site { … }",
		Meaning: "where it stands, and what it must bear there",
		Properties: []Property{
			{Word: "push", Arguments: []Argument{measure(quantity.Force, force), after("at", length(notBelow))},
				Meaning: "a level push from any bearing, at a height above the ground", Default: "none", Example: "push 50 lbf at 5 ft"},
			{Word: "slope", Arguments: []Argument{measure(quantity.Angle, sloping)},
				Meaning: "slope of the ground in its worst direction", Default: "0 deg", Example: "slope 2 deg"},
			{Word: "wind", Arguments: []Argument{measure(quantity.Speed, windSpeed)},
				Meaning: "the basic wind speed of the place, as the method defines it", Default: "none", Example: "wind 100 mph"},
			{Word: "method", With: []string{"wind"}, Arguments: []Argument{choice(string(design.ASCE7), string(design.EN1991))},
				Meaning: "the standard by which the wind is worked out", Default: "that which 'exposure' or 'terrain' belongs to", Example: "method asce7",
				Instead: "give the wind speed: wind 100 mph"},
			{Word: "exposure", With: []string{"wind"}, Arguments: []Argument{choice("B", "C", "D")},
				Meaning: "how open the country is, by ASCE 7: B built up or wooded, C open, D along water", Default: "none; asce7 needs it", Example: "exposure C",
				Instead: "give the wind speed: wind 100 mph"},
			{Word: "terrain", With: []string{"wind"}, Arguments: []Argument{choice("0", "I", "II", "III", "IV")},
				Meaning: "how open the country is, by EN 1991-1-4: from 0 the sea to IV a town", Default: "none; en1991 needs it", Example: "terrain II",
				Instead: "give the wind speed: wind 28 m/s"},
		},
	},
	{
		Keyword: "finish", Named: true, Top: true, Form: "finish NAME { … }",
		Meaning: "what is done to the surface of the finished piece",
		Properties: []Property{
			{Word: string(design.Paint), OneOf: "how it is finished",
				Meaning: "painted", Example: "paint"},
			{Word: string(design.Galvanize), OneOf: "how it is finished",
				Meaning: "dipped in molten zinc: every closed space needs a vent and a drain", Example: "galvanize"},
			{Word: string(design.Weather), OneOf: "how it is finished",
				Meaning: "left to the weather", Example: "weather"},
			{Word: string(design.Brushed), OneOf: "how it is finished",
				Meaning: "brushed bright", Example: "brushed"},
			{Word: "price", Arguments: []Argument{byArea()},
				Meaning: "what it costs by area of surface", Default: "none", Example: "price 40 / (1 m * 1 m)"},
		},
	},
	shopDeclaration,
}
