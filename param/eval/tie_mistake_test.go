package eval

import "testing"

// Mistakes in how parts are tied to each other.
func TestTieMistakes(t *testing.T) {
	const grove = stage + `post peg on pad { at (8, 0), diameter 2, length 12, metal skin }
ball bud on peg { diameter 4, halves, metal skin }
`
	for _, tt := range []struct {
		name string
		text string
		want []wrong
	}{
		// Between two parts.
		{"length", grove + "post p1 from moon to bud { diameter 1, «length» 9, metal skin }",
			[]wrong{{"a post between two parts has no 'length'", "leave 'length' out"}}},
		{"lean and head", grove + "post p1 from moon to bud { diameter 1, «lean» 9 deg, «head» open, metal skin }",
			[]wrong{{"a post between two parts has no 'lean'", "leave 'lean' out"}, {"a post between two parts has no 'head'", "leave 'head' out"}}},
		{"to itself", grove + "post p1 from moon to «moon» { diameter 1, metal skin }",
			[]wrong{{"post 'p1' runs from ball 'moon' to itself", "two different parts"}}},
		{"from without to", grove + "post p1 «from moon» { diameter 1, metal skin }",
			[]wrong{{"post 'p1' lacks 'to'", "post NAME from A to B"}}},
		{"to without from", grove + "post p1 «to moon» { diameter 1, metal skin }",
			[]wrong{{"post 'p1' lacks 'from'", "post NAME from A to B"}}},
		{"on and from", grove + "post p1 on pad «from» moon { diameter 1, metal skin }",
			[]wrong{{"a post stands on one thing", "keep one"}}},
		{"from a place", grove + "post p1 from «(1, 2, 3)» to moon { diameter 1, metal skin }",
			[]wrong{{"'from' leads to a part, and this is a point in space", "post NAME from A to B"}}},
		{"at with no base", grove + "post p1 from moon to bud { diameter 1, «at» (1, 2), metal skin }",
			[]wrong{{"'at' says where a post meets the base, and post 'p1' does not reach one", "leave 'at' out"}}},
		{"thicker than the ball", grove + "post p1 from moon to bud { «diameter 4», metal skin }",
			[]wrong{{"post 'p1' of 4 in does not fit on ball 'bud' of 4 in", "smaller"}}},
		{"no room", grove + "ball nub at (8, 0, 15) { diameter 2, halves, metal skin }\npost p1 from bud to «nub» { diameter 1, metal skin }",
			[]wrong{{"post 'p1' has no room: ball 'bud' and ball 'nub' touch", "apart"}}},
		{"one place", grove + "ball nub at (bud.centre.x, bud.centre.y, bud.centre.z) { diameter 2, halves, metal skin }\npost p1 from bud to «nub» { diameter 1, metal skin }",
			[]wrong{{"post 'p1' has no direction: the centres of ball 'bud' and ball 'nub' are at the same place", "different places"}}},
		{"off the plate", grove + "post p1 from pad to moon { diameter 1, «at (11.8, 0)», metal skin }",
			[]wrong{{"post 'p1' hangs over the edge of base 'pad' by 11/32 in", "bring x down to"}}},
		{"along a post", grove + "post p1 from «mast» to moon { diameter 1, metal skin }",
			[]wrong{{"post 'p1' runs along post 'mast', and never leaves its side", "turn it away"}}},
		{"past the end of a post", grove + "ball nub at (8, 1.6, 15) { diameter 2, halves, metal skin }\npost p1 from «peg» to nub { diameter 1, metal skin }",
			[]wrong{{"post 'p1' meets post 'peg' partly above its head, by 2-7/16 in", "longer"}}},

		// On the head of a post.
		{"ball and post on a head", grove + "post «p1» on mast { diameter 5, length 3, metal skin }",
			[]wrong{{"two parts stand on the head of post 'mast'", "something else"}}},
		{"two posts on a head", grove + "post p1 on pad { at (-8, 0), diameter 2, length 3, metal skin }\npost p2 on p1 { diameter 2, length 3, metal skin }\npost «p3» on p1 { diameter 2, length 3, metal skin }",
			[]wrong{{"two parts stand on the head of post 'p1'", "something else"}}},
		{"thicker than the head", grove + "post p1 on pad { at (-8, 0), diameter 2, length 3, metal skin }\npost p2 on p1 { «diameter 3», length 3, metal skin }",
			[]wrong{{"post 'p2' of 3 in is thicker than the head of post 'p1' of 2 in, on which it stands", "make the two 2 in"}}},
		{"mitre of unequal tubes", grove + "post p1 on pad { at (-8, 0), diameter 2, length 3, metal skin }\npost p2 on p1 { «diameter 3», length 3, lean 40 deg toward 0 deg, metal skin }",
			[]wrong{{"post 'p2' of 3 in makes no mitre with post 'p1' of 2 in: the two must have the same diameter", "make the two 2 in"}}},
		{"mitre of a taper", grove + "post p1 on pad { at (-8, 0), diameter 3 to 2, length 3, metal skin }\npost p2 on p1 { diameter 2, length 3, «lean 40 deg toward 0 deg», metal skin }",
			[]wrong{{"a mitre joins straight tubes, and post 'p1' is a taper", "straight tube"}}},
		{"too sharp a mitre", grove + "post p1 on pad { at (-8, 0), diameter 2, length 3, metal skin }\npost p2 on p1 { diameter 2, length 3, «lean 170 deg toward 0 deg», metal skin }",
			[]wrong{{"post 'p2' and post 'p1' bend so sharply that their mitre cuts through the whole length of post 'p2'", "bend it less"}}},
		{"straight back", grove + "post p1 on pad { at (-8, 0), diameter 2, length 3, metal skin }\npost p2 on p1 { diameter 2, length 3, «lean 180 deg toward 0 deg», metal skin }",
			[]wrong{{"post 'p2' and post 'p1' bend so sharply that their mitre cuts through the whole length of post 'p2'", "bend it less"}}},
		{"over the edge of a head", grove + "post p1 on pad { at (-8, 0), diameter 2, length 3, metal skin }\npost p2 on p1 { diameter 1-1/2, length 3, «lean 60 deg toward 0 deg», metal skin }",
			[]wrong{{"post 'p2' hangs over the edge of the head of post 'p1' by 1/2 in", "lean it less"}}},
		{"down into the head", grove + "post p1 on pad { at (-8, 0), diameter 2, length 3, metal skin }\npost p2 on p1 { diameter 1-1/2, length 3, «lean 120 deg toward 0 deg», metal skin }",
			[]wrong{{"post 'p2' runs into post 'p1' instead of away from it", "other way"}}},
		{"on an open head", grove + "post p1 on pad { at (-8, 0), diameter 2, length 3, head open, metal skin }\npost «p2» on p1 { diameter 1, length 3, metal skin }",
			[]wrong{{"post 'p2' has nothing to stand on: the head of post 'p1' is open", "head open"}}},
		{"disc under a post", grove + "post p1 on pad { at (-8, 0), diameter 2, length 3, «head disc», metal skin }\npost p2 on p1 { diameter 2, length 3, metal skin }",
			[]wrong{{"the head of post 'p1' is not free: a post goes on from it", "leave 'head' out"}}},
		{"place on a post", grove + "post p1 on pad { at (-8, 0), diameter 2, length 3, metal skin }\npost p2 on p1 { at «(1, 2)», diameter 1, length 3, metal skin }",
			[]wrong{{"'at' needs a length, and this is a point in plan", "at 12 in toward 90 deg"}}},

		{"on the head of a post between two", grove + "post p1 from moon to bud { diameter 1, metal skin }\nball «b1» on p1 { diameter 2, halves, metal skin }",
			[]wrong{{"the head of post 'p1' is not free: it meets ball 'bud'", "branch it off"}}},

		// On the side of a post.
		{"thicker than the host", grove + "post p1 on mast { at 12 toward 0 deg, «diameter 6», length 9, metal skin }",
			[]wrong{{"post 'p1' of 6 in is thicker than post 'mast', which is 5 in where they meet", "no thicker than 5 in"}}},
		{"beyond the host", grove + "post p1 on mast { at «31» toward 0 deg, diameter 2, length 9, metal skin }",
			[]wrong{{"post 'p1' would leave post 'mast' at 31 in, but that is 30 in long", "less than 30 in"}}},
		{"over the head", grove + "post p1 on mast { «at 29-1/2 toward 0 deg», diameter 2, length 9, metal skin }",
			[]wrong{{"post 'p1' meets post 'mast' partly above its head, by 1/2 in", "make 'at' at most 29 in"}}},
		{"below the foot", grove + "post p1 on mast { «at 1/2 toward 0 deg», diameter 2, length 9, metal skin }",
			[]wrong{{"post 'p1' meets post 'mast' partly below its foot, by 1/2 in", "make 'at' at least 1 in"}}},
		{"which side", grove + "post p1 on mast { «at 12», diameter 2, length 9, metal skin }",
			[]wrong{{"'at' does not say on which side", "at 12 toward 90 deg"}}},
		{"side of itself", grove + "post p1 on mast { at 12 toward «mast», diameter 2, length 9, metal skin }",
			[]wrong{{"post 'mast' is directly above or below the axis of post 'mast', so there is no bearing toward it", "as an angle"}}},
		{"along its host", grove + "post p1 on mast { at 12 toward 0 deg, diameter 2, length 9, «lean 0 deg», metal skin }",
			[]wrong{{"a branch from this side that leans 0 deg from upright cannot meet the middle of the post", "say which way it leans"}}},
		{"upright beside its host", grove + "post p1 on mast { at 12 toward 0 deg, diameter 2, length 9, «lean 0 deg toward 0 deg», metal skin }",
			[]wrong{{"post 'p1' runs along post 'mast', and never leaves its side", "turn it away"}}},
		{"into its host", grove + "post p1 on mast { at 12 toward 0 deg, diameter 2, length 9, «lean 60 deg toward 180 deg», metal skin }",
			[]wrong{{"post 'p1' runs into post 'mast' instead of away from it", "other way"}}},
		{"past the side", grove + "post p1 on mast { at 12 toward 0 deg, diameter 4, length 9, «lean 60 deg toward 70 deg», metal skin }",
			[]wrong{{"post 'p1' runs past the side of post 'mast', and does not meet it all the way round", "face the axis"}}},
		{"offset on a post", grove + "post p1 on mast { at 12 toward 0 deg, diameter 2, length 9, «offset» 1 toward 0 deg, metal skin }",
			[]wrong{{"'offset' is for a post on a ball; this one is on a post", "at L toward B"}}},

		// Tapers.
		{"taper to nothing", grove + "metal slab { alloy copper, thickness 1/2 in }\npost p1 on pad { at (-8, 0), diameter 3 to «1», length 9, metal slab }",
			[]wrong{{"post 'p1' of 1 in has no inside: metal 'slab' is 0.5 in thick", "more than 1 in"}}},
		{"taper from nothing", grove + "metal slab { alloy copper, thickness 1/2 in }\npost p1 on pad { at (-8, 0), diameter «1» to 3, length 9, metal slab }",
			[]wrong{{"post 'p1' of 1 in has no inside: metal 'slab' is 0.5 in thick", "more than 1 in"}}},

		// Balls.
		{"ball smaller than its post", grove + "ball b1 around mast { height 12, «diameter 5», halves, metal skin }",
			[]wrong{{"ball 'b1' of 5 in does not go around post 'mast', which is 5 in there", "larger than 5 in"}}},
		{"ball past the head", grove + "ball b1 around mast { «height 40», diameter 9, halves, metal skin }",
			[]wrong{{"ball 'b1' is put at 40 in along post 'mast', but that is 30 in long", "less than 30 in"}}},
		{"ball around a ball", grove + "ball b1 around «moon» { height 4, diameter 19, halves, metal skin }",
			[]wrong{{"no ball is 'around' a ball", "ball NAME around POST"}}},
		{"no height", grove + "ball «b1» around mast { diameter 9, halves, metal skin }",
			[]wrong{{"ball 'b1' lacks 'height'", "height 12 in"}}},
		{"height on a base", grove + "ball b1 on pad { at (-8, 0), «height» 4, diameter 2, halves, metal skin }",
			[]wrong{{"'height' is for a ball around a post; this one is on a base", "leave 'height' out"}}},
		{"reached by nobody", grove + "ball «b1» at (1, 2, 60) { diameter 9, halves, metal skin }",
			[]wrong{{"ball 'b1' is tied to nothing: no post reaches it", "from A to b1"}}},
		{"reached by each other", grove + "ball «b1» at (1, 2, 60) { diameter 9, halves, metal skin }\nball b2 at (30, 2, 60) { diameter 9, halves, metal skin }\npost p1 from b1 to b2 { diameter 2, metal skin }",
			[]wrong{{"ball 'b1' is tied to nothing: nothing joined to it leads to the base", "from A to b1"}}},
		{"without a base", "units mm\nmetal skin { alloy copper, gauge 14 }\nball «b1» at (0, 0, 600) { diameter 90, halves, metal skin }",
			[]wrong{{"ball 'b1' is tied to nothing: no post reaches it", "from A to b1"}}},
		{"in plan", grove + "ball b1 at «(1, 2)» { diameter 9, halves, metal skin }",
			[]wrong{{"'at' leads to a point (x, y, z), and this is a point in plan", "at (x, y, z)"}}},
		{"in the ground", grove + "ball b1 at «(1, 2, 3)» { diameter 9, halves, metal skin }",
			[]wrong{{"ball 'b1' reaches 1-1/2 in below the ground", "z to 4-1/2 in"}}},
		{"seat as wide as the ball", grove + "ball b1 on moon { «seat 4», diameter 4, halves, metal skin }",
			[]wrong{{"a seat of 4 in sinks the smaller ball, 4 in across, by more than half of its radius", "make it 3-7/16 in or less"}}},
		{"seat on a post", grove + "post p1 on pad { at (-8, 0), diameter 2, length 3, metal skin }\nball b1 on p1 { «seat» 1, diameter 4, halves, metal skin }",
			[]wrong{{"'seat' is for a ball on a ball; this one is on a post", "leave 'seat' out"}}},
		{"beside the ball", grove + "ball b1 on moon { «offset 7 toward 0 deg», diameter 4, halves, metal skin }",
			[]wrong{{"ball 'b1' would sit 7 in to the side of ball 'moon', but their centres are only 6-13/32 in apart", "make 'offset' less than"}}},
		{"vent as wide as the ball", grove + "ball b1 on moon { «vent 4», diameter 4, halves, metal skin }",
			[]wrong{{"a vent of 4 in does not fit on ball 'b1' of 4 in", "smaller"}}},
		{"one zone", grove + "ball b1 on moon { zones «1», diameter 4, metal skin }",
			[]wrong{{"'zones' must be from 2 to 48, and this is 1", "write it as zones 2, or more"}}},
		{"gores and zones", grove + "ball b1 on moon { zones 4, «gores» 8, diameter 4, metal skin }",
			[]wrong{{"'zones' and 'gores' both say how it is built", "keep one"}}},

		// One cause is reported once.
		{"no cascades", grove + "post p1 from moon to «bod» { diameter 1, metal skin }\nball b1 around p1 { height 3, diameter 4, halves, metal skin }\npost p2 on p1 { at 3 toward 0 deg, diameter 1/2, length 4, metal skin }\npost p3 on p1 { diameter 1, length 4, metal skin }\nball b2 at (1, 2, 90) { diameter 4, halves, metal skin }\nlet x = p2.head.x + b1.top",
			[]wrong{{"there is no 'bod'", "did you mean 'bud'?"}}},
	} {
		t.Run(tt.name, func(t *testing.T) { checkMistakes(t, tt.text, Options{}, tt.want) })
	}
}
