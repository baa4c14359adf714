package eval

import (
	"fmt"

	"stabile/param/stock"
)

// The tubes of a ring: how many there may be, and how many there are where it does not say.
const (
	fewestTubes = 3
	mostTubes   = 72
	usualTubes  = 12
)

var tubeCount = Range{From: fewestTubes, To: mostTubes, Words: fmt.Sprintf("from %d to %d", fewestTubes, mostTubes)}

var ringDeclaration = Declaration{
	Keyword: "ring", Named: true, Form: "ring NAME on HOST { … }",
	Meaning: "a hoop of like tubes, mitred to each other; each is a post, NAME[1] and so on, on which others may stand",
	Clauses: []Clause{
		{Word: "on", Form: "ring NAME on HOST { … }", Meaning: "the part that it rests on: the base or a post's head",
			To: []Host{OnBase, OnPost}},
		{Word: "at", Form: "ring NAME at (x, y, z) { … }", Meaning: "where its centre is; a post must reach it",
			As: Outright},
	},
	Properties: []Property{
		{Word: "across", Required: true, Arguments: []Argument{length(size)},
			Meaning: "diameter of the circle that the outsides of its tubes touch; its corners stand out of that", Example: "across 30 in"},
		{Word: "diameter", Required: true, Unless: "bought pipe", Arguments: []Argument{length(size)},
			Meaning: "outside diameter of its tubes", Example: "diameter 3 in"},
		{Word: "metal", Required: true, Arguments: []Argument{{Kind: Metal}},
			Meaning: "what its tubes are rolled from; of tubes that are bought, the alloy", Example: "metal skin"},
		{Word: "segments", Arguments: []Argument{{Kind: Whole, Range: tubeCount}},
			Meaning: "how many tubes it is made of; of an even number all blanks are alike", Default: fmt.Sprint(usualTubes), Example: "segments 12"},
		{Word: "facing", Arguments: []Argument{{Link: "toward", LinkOptional: true, Kind: Bearing}},
			Meaning: "which way its axis faces; of one that lies, on which side of it tube 1 is", Default: "270 deg, toward the viewer", Example: "facing 90 deg"},
		{Word: "flat",
			Meaning: "it lies level, its axis upright; on a post's head tube 1 rests there", Default: "it stands on tube 1", Example: "flat"},
		{Word: "at", On: []Host{OnBase}, Arguments: []Argument{{Kind: Place}},
			Meaning: "where the middle of tube 1 stands on the base, or its centre is where it lies, from the base's centre", Default: "(0, 0)", Example: "at (3 in, 4 in)",
			Instead: "leave 'at' out; it rests in the middle of the post's head"},
		{Word: "bought pipe", Arguments: []Argument{{Link: "pipe", Kind: Nominal}, {Link: "schedule", Kind: Choice, Choices: stock.Schedules()}},
			Meaning: "cut from pipe of a nominal size and a schedule, as a post may be", Default: "its tubes are rolled", Example: "bought pipe 1-1/2 schedule 40"},
		{Word: "bought tube", With: []string{"wall"},
			Meaning: "cut from tube of its 'diameter' and 'wall'", Default: "its tubes are rolled", Example: "bought tube",
			Instead: "give how thick it is: wall 1/8 in"},
		{Word: "wall", With: []string{"bought tube"}, Arguments: []Argument{length(size)},
			Meaning: "how thick the tube is that it is cut from", Example: "wall 1/8 in",
			Instead: "leave 'wall' out; a rolled tube is as thick as its metal, and a pipe as its schedule says"},
		{Word: "stock", With: []string{"bought pipe", "bought tube"}, Arguments: []Argument{length(size)},
			Meaning: "how long the pipe or tube is when it is bought", Default: "20 ft, in a design in mm 6 m", Example: "stock 20 ft",
			Instead: "leave 'stock' out; it is for a ring that is of bought tube"},
		{Word: "price", With: []string{"bought pipe", "bought tube"}, Arguments: []Argument{byLength()},
			Meaning: "what the pipe or tube costs by its length", Default: "of pipe, that of the shop's rates by weight; of tube, none", Example: "price 9 / 1 ft",
			Instead: "give what is paid for the metal in its 'metal' or the shop's 'sheet'"},
		{Word: "gap", Arguments: []Argument{length(notBelow)},
			Meaning: "root gap of the seams along its tubes", Default: "0", Example: "gap 1/16 in"},
	},
}
