package eval

import "stabile/param/quantity"

var holeDeclaration = Declaration{
	Keyword: "hole", Named: true, Form: "hole NAME in PART { … }",
	Meaning: "a hole or a slot through the wall of a ball, a post or a plate: for light, for a cable, for looks",
	Clauses: []Clause{
		{Word: "in", Form: "hole NAME in PART { … }", Meaning: "the part that it is cut in",
			To: []Host{OnBase, OnBall, OnPost}},
	},
	Properties: []Property{
		{Word: "diameter", OneOf: "how wide it is", Arguments: []Argument{length(size)},
			Meaning: "of a round hole", Example: "diameter 3/4 in"},
		{Word: "slot", OneOf: "how wide it is", Arguments: []Argument{length(size), after("by", length(size))},
			Meaning: "a slot with round ends, over all: its width across by its length up a ball, along a post's axis, along y of a plate", Example: "slot 1/2 in by 2 in"},
		{Word: "turn", With: []string{"slot"}, Arguments: []Argument{measure(quantity.Angle, upOrDown)},
			Meaning: "how far the slot is turned to the left, looked at from outside", Default: "0 deg", Example: "turn 30 deg",
			Instead: "leave 'turn' out; a round hole looks alike however it is turned"},
		{Word: "at", On: []Host{OnPost}, Arguments: []Argument{length(notBelow), bearing()},
			Meaning: "how far up the post's axis its middle is, from the foot, and on which side", Default: "the middle of 'joint'", Example: "at 4 in toward 180 deg",
			Instead: "say where it is in a ball by 'toward B' and 'up A'"},
		{Word: "at", On: []Host{OnBase}, Arguments: []Argument{{Kind: Place}},
			Meaning: "where its middle is, from the base's centre", Default: "(0, 0), or the middle of 'joint'", Example: "at (3 in, 0 in)",
			Instead: "say where it is in a ball by 'toward B' and 'up A'"},
		{Word: "toward", On: []Host{OnBall}, Arguments: []Argument{{Kind: Bearing}},
			Meaning: "which way it faces from the middle of the ball", Default: "needed unless it faces straight up or down, or lies in a joint", Example: "toward 40 deg",
			Instead: "say on which side of a post it is by 'at L toward B'"},
		{Word: "up", On: []Host{OnBall}, Arguments: []Argument{measure(quantity.Angle, upOrDown)},
			Meaning: "how far above level it faces; below 0 it faces down", Default: "0 deg", Example: "up 20 deg",
			Instead: "leave 'up' out; it is for a hole in a ball"},
		{Word: "joint", Arguments: []Argument{{Kind: Joined}},
			Meaning: "it lies in the middle of the joint with this part, hidden when that is welded on: a way for a cable", Default: "none", Example: "joint spur"},
		{Word: "through", On: []Host{OnPost, OnBall},
			Meaning: "it goes through the opposite wall as well", Default: "the one wall that it faces", Example: "through",
			Instead: "leave 'through' out; a plate has one wall"},
	},
}
