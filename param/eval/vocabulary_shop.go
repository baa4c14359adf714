package eval

import (
	"stabile/param/design"
	"stabile/param/quantity"
)

var shopDeclaration = Declaration{
	Keyword: "shop", Top: true, Form: "shop { … }",
	Meaning: "what the workshop has and can do",
	Properties: []Property{
		{Word: "name", Arguments: []Argument{{Kind: Text}},
			Meaning: "the shop's name, for the papers", Default: "none", Example: `name "The lower yard"`},
		{Word: "currency", Arguments: []Argument{{Kind: Text}},
			Meaning: "what money is counted in", Default: "not given", Example: `currency "EUR"`},
		{Word: "sheet", Many: true, Arguments: []Argument{{Kind: Metal}}, Body: &sheetBody,
			Meaning: "a size in which a metal is bought", Default: "none", Example: "sheet skin { size 48 in by 96 in, price 85 }"},
		{Word: "offcut", Many: true, Arguments: []Argument{{Kind: Metal}}, Body: &offcutBody,
			Meaning: "pieces of sheet at hand, already paid for and used first", Default: "none", Example: "offcut skin { size 20 in by 48 in, number 2 }"},
		{Word: "shear", Body: &shearBody,
			Meaning: "the shear, with the heaviest sheet that it cuts over its whole width", Default: "none", Example: "shear { width 54 in, alloy low-carbon-steel, gauge 15 }"},
		{Word: "cutter", Body: &cutterBody,
			Meaning: "a saw, disc or plasma table that cuts what the shear cannot, or in place of a shear", Default: "none", Example: "cutter { kerf 1/16 in, width 50 in, length 100 in, thickness 1/2 in }"},
		{Word: "saw", Body: &sawBody,
			Meaning: "the saw that cuts pipe and tube which is bought", Default: "one that takes 3 mm", Example: "saw { kerf 1/16 in }"},
		{Word: "rolls", Body: &rollsBody,
			Meaning: "the slip rolls, with the heaviest sheet that they bend over their whole width", Default: "none", Example: "rolls { width 40 in, alloy low-carbon-steel, gauge 14, back_distance 2-1/2 in }"},
		{Word: "brake", Body: &brakeBody,
			Meaning: "the brake, with the heaviest sheet that it folds over its whole width", Default: "none", Example: "brake { width 48 in, alloy low-carbon-steel, gauge 16 }"},
		{Word: "welding", Body: &weldingBody,
			Meaning: "how the shop welds", Default: "not given", Example: "welding { process tig, filler 1/16 in }"},
		{Word: "paper", Arguments: []Argument{choice(papers...)},
			Meaning: "the size of the elevations and of the contact sheet", Default: "by the units: A3 or tabloid; for the elevations larger where the piece needs it", Example: "paper A3"},
		{Word: "printer", Body: &printerBody,
			Meaning: "what full-size patterns are printed on", Default: "by the units: A4 or letter", Example: "printer { paper letter, margin 1/4 in, overlap 1/2 in }"},
		{Word: "rates", Body: &ratesBody,
			Meaning: "how long work takes and what it costs", Default: "not given", Example: "rates { labour 60 / 1 hr, weld 4 in / 1 min }"},
	},
}

// papers are the sizes of paper that a shop may name.
var papers = []string{"A4", "A3", "A2", "A1", "letter", "tabloid", "ansi-A", "ansi-B", "ansi-C", "ansi-D"}

// capacity is the properties of what a machine takes.
func capacity(more ...Property) []Property {
	return append([]Property{
		{Word: "width", Required: true, Arguments: []Argument{length(size)},
			Meaning: "usable width", Example: "width 48 in"},
		{Word: "alloy", Required: true, Arguments: []Argument{{Kind: Alloy}},
			Meaning: "the alloy that the machine is rated in", Example: "alloy low-carbon-steel"},
		{Word: "gauge", OneOf: "how thick it may be", Arguments: []Argument{{Kind: Whole, Range: gaugeRange}},
			Meaning: "the heaviest sheet by gauge", Example: "gauge 16"},
		{Word: "thickness", OneOf: "how thick it may be", Arguments: []Argument{length(size)},
			Meaning: "the heaviest sheet by measure", Example: "thickness 1.5 mm"},
		{Word: "second_alloy", Arguments: []Argument{{Kind: Alloy}},
			Meaning: "another alloy that the machine is rated in; metals of it and of its kind go by that rating", Default: "none; all metals go by the first", Example: "second_alloy stainless-304"},
		{Word: "second_gauge", With: []string{"second_alloy"}, Arguments: []Argument{{Kind: Whole, Range: gaugeRange}},
			Meaning: "the heaviest sheet of that by gauge", Default: "by second_thickness", Example: "second_gauge 18",
			Instead: "give the alloy that it is of: second_alloy stainless-304"},
		{Word: "second_thickness", With: []string{"second_alloy"}, Arguments: []Argument{length(size)},
			Meaning: "the heaviest sheet of that by measure", Default: "by second_gauge", Example: "second_thickness 1 mm",
			Instead: "give the alloy that it is of: second_alloy stainless-304"},
	}, more...)
}

var sheetBody = Declaration{
	Keyword: "sheet", Form: "sheet METAL { … }",
	Properties: []Property{
		{Word: "size", Required: true, Arguments: []Argument{length(size), after("by", length(size))},
			Meaning: "width by length; the rolling direction runs along the length", Example: "size 48 in by 96 in"},
		{Word: "price", Arguments: []Argument{money()},
			Meaning: "of one sheet", Default: "that of the metal by weight", Example: "price 85"},
		{Word: "trim", Arguments: []Argument{length(notBelow)},
			Meaning: "cut off all round before the sheet is used", Default: "0", Example: "trim 1/4 in"},
		{Word: "turn", Arguments: []Argument{choice("yes", "no")},
			Meaning: "whether a flat may lie across the rolling direction", Default: "yes", Example: "turn no"},
		{Word: "stock", Arguments: []Argument{{Kind: Whole, Range: sheetCount}},
			Meaning: "sheets at hand", Default: "as many as needed", Example: "stock 3"},
	},
}

var offcutBody = Declaration{
	Keyword: "offcut", Form: "offcut METAL { … }",
	Properties: []Property{
		{Word: "size", Required: true, Arguments: []Argument{length(size), after("by", length(size))},
			Meaning: "width by length; the rolling direction runs along the length", Example: "size 20 in by 48 in"},
		{Word: "number", Arguments: []Argument{{Kind: Whole, Range: pieceCount}},
			Meaning: "how many there are of this size", Default: "1", Example: "number 2"},
	},
}

var shearBody = Declaration{
	Keyword: "shear", Form: "shear { … }",
	Properties: capacity(
		Property{Word: "least", Arguments: []Argument{length(notBelow)},
			Meaning: "the narrowest strip that it holds", Default: "0", Example: "least 3/4 in"},
		Property{Word: "reach", Arguments: []Argument{length(size)},
			Meaning: "how far its back gauge goes; what is wider is cut to a scribed line", Default: "as far as needed", Example: "reach 24 in"},
	),
}

var cutterBody = Declaration{
	Keyword: "cutter", Form: "cutter { … }",
	Properties: []Property{
		{Word: "kerf", Required: true, Arguments: []Argument{length(kerfWidth)},
			Meaning: "width of metal that a cut takes away", Example: "kerf 1/16 in"},
		{Word: "width", Arguments: []Argument{length(size)},
			Meaning: "width of the largest sheet that it takes", Default: "any", Example: "width 50 in"},
		{Word: "length", Arguments: []Argument{length(size)},
			Meaning: "length of the largest sheet that it takes", Default: "any", Example: "length 100 in"},
		{Word: "thickness", Arguments: []Argument{length(size)},
			Meaning: "the thickest sheet that it cuts", Default: "any", Example: "thickness 1/2 in"},
	},
}

var sawBody = Declaration{
	Keyword: "saw", Form: "saw { … }",
	Properties: []Property{
		{Word: "kerf", Required: true, Arguments: []Argument{length(kerfWidth)},
			Meaning: "length that a cut takes away", Example: "kerf 1/16 in"},
	},
}

var rollsBody = Declaration{
	Keyword: "rolls", Form: "rolls { … }",
	Properties: capacity(
		Property{Word: "pinch_diameter", Arguments: []Argument{length(size)},
			Meaning: "diameter of the two rolls that pinch the sheet", Default: "not given", Example: "pinch_diameter 3 in"},
		Property{Word: "back_diameter", Arguments: []Argument{length(size)},
			Meaning: "diameter of the back roll", Default: "not given", Example: "back_diameter 3 in"},
		Property{Word: "back_distance", Arguments: []Argument{length(size)},
			Meaning: "level, from the centre line of the pinch to the centre of the back roll", Default: "not given", Example: "back_distance 2-1/2 in"},
		Property{Word: "screw_pitch", Arguments: []Argument{length(size)},
			Meaning: "lift of the back roll for one turn of its screws", Default: "not given", Example: "screw_pitch 1/8 in"},
		Property{Word: "slant", Arguments: []Argument{measure(quantity.Angle, leaning)},
			Meaning: "how far from upright the way of the back roll leans", Default: "0 deg: it lifts straight", Example: "slant 30 deg"},
		Property{Word: "least", Arguments: []Argument{length(size)},
			Meaning: "smallest outside diameter that comes off the rolls", Default: "not given", Example: "least 3-1/2 in"},
	),
}

var brakeBody = Declaration{Keyword: "brake", Form: "brake { … }", Properties: capacity()}

var weldingBody = Declaration{
	Keyword: "welding", Form: "welding { … }",
	Properties: []Property{
		{Word: "process", Required: true,
			Arguments: []Argument{choice(string(design.TIG), string(design.MIG), string(design.Stick), string(design.Gas))},
			Meaning:   "the way of welding", Example: "process tig"},
		{Word: "filler", Arguments: []Argument{length(size)},
			Meaning: "diameter of the rod or wire", Default: "not given", Example: "filler 1/16 in"},
		{Word: "tack", Arguments: []Argument{length(size)},
			Meaning: "from tack to tack", Default: "not given", Example: "tack 2 in"},
		{Word: "narrow", Arguments: []Argument{length(size)},
			Meaning: "the narrowest point of sheet that can be welded: the tips of gores are cut blunt where they are narrower", Default: "3 mm", Example: "narrow 1/8 in"},
		{Word: "shrink", Arguments: []Argument{length(shrinking)},
			Meaning: "how far a seam draws its edges together as it is welded (common practice, no source; weld two strips of each sheet and measure): so much is added for each seam to gores, rings and halves, to the width of posts and to the length of courses", Default: "0", Example: "shrink 0.5 mm"},
	},
}

var printerBody = Declaration{
	Keyword: "printer", Form: "printer { … }",
	Properties: []Property{
		{Word: "paper", Required: true, Arguments: []Argument{choice(papers...)},
			Meaning: "the size of its pages", Example: "paper letter"},
		{Word: "margin", Arguments: []Argument{length(whiteEdge)},
			Meaning: "the white edge it leaves all round", Default: "1/4 in, which is 6.35 mm", Example: "margin 1/4 in"},
		{Word: "overlap", Arguments: []Argument{length(lapping)},
			Meaning: "of one page over the next", Default: "10 mm", Example: "overlap 1/2 in"},
		{Word: "roll", Arguments: []Argument{length(size)},
			Meaning: "width of a roll of paper, for patterns in one piece, as wide as it goes", Default: "single pages", Example: "roll 36 in"},
	},
}

var ratesBody = Declaration{
	Keyword: "rates", Form: "rates { … }",
	Properties: []Property{
		{Word: "labour", Arguments: []Argument{byTime()},
			Meaning: "what an hour of work costs", Default: "not given", Example: "labour 60 / 1 hr"},
		{Word: "setup", Arguments: []Argument{measure(quantity.Time, spell)},
			Meaning: "for each setting of a machine", Default: "not given", Example: "setup 10 min"},
		{Word: "shear_setup", Arguments: []Argument{measure(quantity.Time, spell)},
			Meaning: "for each setting of the shear", Default: "that of setup", Example: "shear_setup 3 min"},
		{Word: "rolls_setup", Arguments: []Argument{measure(quantity.Time, spell)},
			Meaning: "for each setting of the rolls", Default: "that of setup", Example: "rolls_setup 12 min"},
		{Word: "cut", Arguments: []Argument{measure(quantity.Time, spell)},
			Meaning: "for each cut of the shear", Default: "not given", Example: "cut 2 min"},
		{Word: "pass", Arguments: []Argument{measure(quantity.Time, spell)},
			Meaning: "for each pass through the rolls", Default: "not given", Example: "pass 1 min"},
		{Word: "fit", Arguments: []Argument{measure(quantity.Time, spell)},
			Meaning: "for each joint that is fitted and tacked", Default: "not given", Example: "fit 15 min"},
		{Word: "clean", Arguments: []Argument{measure(quantity.Speed, workSpeed)},
			Meaning: "cleaning an edge for welding, along one face", Default: "not given", Example: "clean 30 ft / 1 hr"},
		{Word: "weld", Arguments: []Argument{measure(quantity.Speed, workSpeed)},
			Meaning: "welding, along the seam", Default: "not given", Example: "weld 4 in / 1 min"},
		{Word: "dress", Arguments: []Argument{measure(quantity.Speed, workSpeed)},
			Meaning: "dressing a weld, along it", Default: "not given", Example: "dress 15 ft / 1 hr"},
		{Word: "filler", Arguments: []Argument{byWeight()},
			Meaning: "what filler costs", Default: "not given", Example: "filler 12 / 1 lb"},
		{Word: "pipe", Arguments: []Argument{byWeight()},
			Meaning: "what standard pipe costs, to compare with rolled tubes", Default: "not given", Example: "pipe 2.50 / 1 kg"},
		{Word: "gas", Arguments: []Argument{byTime()},
			Meaning: "what an hour of shielding gas costs", Default: "not given", Example: "gas 9 / 1 hr"},
		{Word: "markup", Arguments: []Argument{{Kind: Measure, Range: share}},
			Meaning: "share that is added to the whole", Default: "0", Example: "markup 0.15"},
	},
}
