package eval

import "stabile/param/quantity"

// anchoring returns the properties of the anchors of a plate that stands by itself: of a pad.
func anchoring() []Property {
	return append([]Property{
		{Word: "anchors", Arguments: []Argument{{Kind: Whole, Range: holeCount}},
			Meaning: "number of holes to bolt the plate down by", Default: "0", Example: "anchors 4"},
	}, anchorsOwn()...)
}

// anchorsOwn returns what is said of anchors beside their number.
func anchorsOwn() []Property {
	return []Property{
		{Word: "anchor_diameter", With: []string{"anchors"}, Arguments: []Argument{length(size)},
			Meaning: "diameter of the anchor holes", Example: "anchor_diameter 1/2 in"},
		{Word: "anchor_edge", With: []string{"anchors"}, Arguments: []Argument{length(size)},
			Meaning: "from the plate's edge to the middle of a hole", Example: "anchor_edge 1-1/2 in"},
		{Word: "anchor_depth", With: []string{"anchors"}, Arguments: []Argument{length(size)},
			Meaning: "how deep the anchors hold in the concrete, from its face to their heads", Default: "not known; the hold of the anchors is then not decided", Example: "anchor_depth 6 in",
			Instead: "give the anchors that it is of: anchors 4"},
		{Word: "anchor_kind", With: []string{"anchors"}, Arguments: []Argument{choice("headed", "drilled")},
			Meaning: "cast in with a head, or set in a drilled hole, whose pull-out its maker's approval decides", Default: "headed; in a wall drilled", Example: "anchor_kind headed",
			Instead: "give the anchors that it is of: anchors 4"},
		{Word: "concrete", With: []string{"anchors"}, Arguments: []Argument{measure(quantity.Pressure, concretes)},
			Meaning: "cylinder strength of the concrete that the anchors are set in; of a wall, that it is of concrete", Default: "not known; the hold of the anchors is then not decided", Example: "concrete 3000 psi",
			Instead: "give the anchors that are set in it: anchors 4"},
	}
}
