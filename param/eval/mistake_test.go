package eval

import (
	"slices"
	"strings"
	"testing"

	"stabile/param/source"
	"stabile/param/syntax"
)

// stage is a sound beginning for designs with a mistake.
const stage = `units inch
metal skin { alloy low-carbon-steel, gauge 18 }
base pad { plate 24 in by 20 in, metal skin }
post mast on pad { diameter 5, length 30, metal skin }
ball moon on mast { diameter 9, gores 10, metal skin }
`

func TestMistakes(t *testing.T) {
	for _, tt := range []struct {
		name string
		text string
		want []wrong
	}{
		// Names and definitions.
		{"unknown name", stage + "adjust rise = 3 from 1 to 5\nlet x = «rize» + 1",
			[]wrong{{"there is no 'rize'", "did you mean 'rise'?"}}},
		{"unknown name told once", stage + "let x = «nowhere»\nlet y = x + 1\nlet z = y * y",
			[]wrong{{"there is no 'nowhere'", ""}}},
		{"defined twice", stage + "let a = 1\nlet «a» = 2\nlet b = a",
			[]wrong{{"'a' is defined twice", "another name"}}},
		{"circle", stage + "let a = b\nlet b = c + 1\nlet c = 2 * «a»\nlet d = a",
			[]wrong{{"'a', 'b' and 'c' are defined by each other in a circle", "by a number"}}},
		{"egg too long", stage + "ball one on pad { at (6, 6), diameter 6, «tall 12.5», halves, metal skin }",
			[]wrong{{"ball 'one' is 12-1/2 in tall and 6 in across: an egg is from half to twice as tall as it is wide", "make it from 3 in to 12 in"}}},
		{"egg too flat", stage + "ball one on pad { at (6, 6), diameter 6, «tall 2», halves, metal skin }",
			[]wrong{{"ball 'one' is 2 in tall and 6 in across: an egg is from half to twice as tall as it is wide", "make it from 3 in to 12 in"}}},
		{"egg of thick sheet", stage + "ball one on pad { at (6, 6), diameter 0.3, «tall 0.2», halves, metal skin }",
			[]wrong{{"ball 'one' bends to a radius of 1/16 in, which metal 'skin' of 0.048 in does not take: no more than twice its thickness", "make it larger, or take a thinner metal"}}},
		{"egg around a post", stage + "post one on pad { at (6, 6), diameter 1, length 12, metal skin }\nball two around one { diameter 6, «tall» 8, height 6, halves, metal skin }",
			[]wrong{{"a ball around a post has no 'tall'", "leave 'tall' out; an egg is not threaded on a post. Put it on a post's head, and the next post on it"}}},
		{"egg with round caps", stage + "ball one on pad { at (6, 6), diameter 6, tall 8, gores 8, caps 2 «round», metal skin }",
			[]wrong{{"round caps leave ledges between gores that are bent one way, and on an egg nothing is trimmed to those", "leave 'round' out, or make it of domed gores: bend domed"}}},
		{"ball on a leaning egg", stage + "ball one on pad { at (6, 6), diameter 6, tall 8, pole 20 deg toward 0 deg, halves, metal skin }\nball «two» on one { diameter 4, halves, metal skin }",
			[]wrong{{"ball 'one' is an egg whose pole leans: it meets no ball in a circle", "leave its 'pole' out, or put a post between the two"}}},
		{"leaning egg on a ball", stage + "ball one on pad { at (6, 6), diameter 6, halves, metal skin }\nball «two» on one { diameter 4, tall 6, pole 20 deg toward 0 deg, halves, metal skin }",
			[]wrong{{"ball 'two' is an egg whose pole leans: it meets no ball in a circle", "leave its 'pole' out, or put a post between the two"}}},
		{"egg beside the middle of a ball", stage + "ball one on pad { at (6, 6), diameter 6, halves, metal skin }\nball two on one { diameter 4, tall 6, «offset 1 toward 0 deg», halves, metal skin }",
			[]wrong{{"ball 'two' is an egg, which meets a ball in a circle at its pole alone", "leave 'offset' out"}}},
		{"doubler on an egg", stage + "ball one on pad { at (6, 6), diameter 6, tall 8, halves, metal skin }\npost two on one { diameter 1, length 6, «doubler 3», metal skin }",
			[]wrong{{"a doubling disc is dished to a ball, and ball 'one' is an egg, which bends otherwise at each place", "leave it out, or make the ball round: leave its 'tall' out"}}},
		{"hole in an egg", stage + "ball one on pad { at (6, 6), diameter 6, tall 8, halves, metal skin }\nhole «two» in one { diameter 1, toward 0 deg }",
			[]wrong{{"hole 'two' would be in an egg, whose blanks are not cut for holes", "leave its 'tall' out"}}},
		{"egg in the ground", stage + "ball one at «(6, 6, 3.5)» { diameter 6, tall 8, halves, metal skin }\npost two from pad to one { diameter 1, metal skin }",
			[]wrong{{"ball 'one' reaches 1/2 in below the ground", "raise z to 4 in"}}},
		{"post past an egg", stage + "ball one on pad { at (6, 6), diameter 6, tall 8, halves, metal skin }\npost two on one { diameter 3, length 6, «offset 2 toward 0 deg», metal skin }",
			[]wrong{{"post 'two' runs past the side of ball 'one': not all of its end comes down on it", "make 'offset' less, or the egg larger"}}},
		{"egg too small for its post", stage + "post one on pad { at (6, 6), diameter 4, length 12, metal skin }\nball two on one { «diameter 3», tall 5, halves, metal skin }",
			[]wrong{{"ball 'two' does not cover the end of post 'one', which is 4 in across", "make the egg larger, or the post smaller"}}},
		{"bowl too deep", stage + "bowl one on pad { at (6, 6), diameter 6, «depth 4», dished, metal skin }",
			[]wrong{{"bowl 'one' is 4 in deep, more than half of a ball of its diameter, 3 in", "make it 3 in or less, or build a 'ball'"}}},
		{"bowl of nothing", stage + "bowl one on pad { at (6, 6), diameter 6, «depth 0.05», dished, metal skin }",
			[]wrong{{"bowl 'one' is hardly deeper than its sheet: metal 'skin' is 0.048 in thick", "make it more than"}}},
		{"bowl tilted off", stage + "post one on pad { at (6, 6), diameter 1, length 3, metal skin }\nbowl two on one { diameter 6, depth 1, «tilt 60 deg toward 0 deg», dished, metal skin }",
			[]wrong{{"what is joined to bowl 'two' there runs 2-17/32 in past its rim", "tilt it less, or make it deeper"}}},
		{"post in a bowl", stage + "bowl one on pad { at (6, 6), diameter 6, depth 3, dished, metal skin }\npost two on «one» { diameter 1, length 3, metal skin }",
			[]wrong{{"no post is 'on' a bowl", "nothing stands in a bowl"}}},
		{"ring without an opening", stage + "ring one at (0, 0, 60) { «across 6», diameter 3, metal skin }",
			[]wrong{{"ring 'one' of 6 in has no opening: its tubes are 3 in thick", "make it more than 6 in, or its tubes thinner"}}},
		{"ring on a thick post", stage + "post leg on pad { at (6, 6), diameter 4, length 9, metal skin }\nring one on leg { across 20, «diameter 3», metal skin }",
			[]wrong{{"ring 'one' of 3 in tubes does not rest on post 'leg', which is 4 in thick", "make its tubes 4 in thick or more"}}},
		{"ring of short tubes", stage + "post leg on pad { at (6, 6), diameter 3, length 9, metal skin }\nring one on leg { across 20, diameter 3, «segments 24», metal skin }",
			[]wrong{{"the head of post 'leg', 3 in thick, does not fit under tube 1 of ring 'one', which is 2-1/4 in long along its axis", "give it fewer segments"}}},
		{"ring on a post along it", stage + "post leg from pad to moon { at (8, 0), diameter 1, metal skin }\npost arm on mast { at 9 toward 90 deg, diameter 3, length 9, metal skin }\nring one on arm { across 20, diameter 3, «facing 0 deg», metal skin }",
			[]wrong{{"ring 'one' does not rest on post 'arm', which runs along its tube", "turn it to face another way"}}},
		{"ring beside the plate", stage + "ring one on pad { «at (9, 6)», across 20, diameter 3, flat, metal skin }",
			[]wrong{{"ring 'one' hangs over the edge of base 'pad' by 3-7/32 in", "bring x down to 5-3/4 in"}}},
		{"ring in the ground", stage + "ring one at «(0, 0, 8)» { across 20, diameter 3, metal skin }",
			[]wrong{{"ring 'one' reaches 2 in below the ground", "raise z to 10 in"}}},
		{"ring that nothing reaches", stage + "ring «one» at (0, 0, 60) { across 20, diameter 3, metal skin }",
			[]wrong{{"tube 'one[1]' is tied to nothing: nothing joined to it leads to the base", "run a post to it"}}},
		{"ring on a ball", stage + "ring one on «moon» { across 20, diameter 3, metal skin }",
			[]wrong{{"no ring is 'on' a ball", "write it as ring NAME on HOST"}}},
		{"ring for one of its tubes", stage + "ring one on pad { across 12, diameter 2, metal skin }\npost two on «one» { diameter 1, length 3, metal skin }",
			[]wrong{{"'one' is a ring of 12 tubes", "say which of its tubes, such as one[1]"}}},
		{"tube of a ring that is not there", stage + "ring one on pad { across 12, diameter 2, metal skin }\npost two on «one[13]» { at 1 toward 0 deg, diameter 1, length 3, metal skin }",
			[]wrong{{"there is no 'one[13]' here", "the nearest is 'one[12]'"}}},
		{"head of a tube of a ring", stage + "ring one on pad { across 12, diameter 2, metal skin }\npost «two» on one[3] { diameter 1, length 3, metal skin }",
			[]wrong{{"the head of tube 'one[3]' is not free: it is mitred to the next tube of its ring", "branch it off the side"}}},
		{"number that a ring has not", stage + "ring one on pad { across 12, diameter 2, metal skin }\nrequire one.«lenght» < 3 in",
			[]wrong{{"a ring has no 'lenght'", "it has across, centre, diameter, segments, top"}}},
		{"ring twice", stage + "ring one on pad { across 12, diameter 2, metal skin }\npost «one» on pad { at (9, 9), diameter 1, length 3, metal skin }",
			[]wrong{{"there are two parts 'one'", "give one of the two another name"}}},
		{"ring that failed, told once", stage + "ring one on pad { across «nowhere», diameter 2, metal skin }\npost two on one[3] { at 1 toward 0 deg, diameter 1, length 3, metal skin }\nrequire one.top < 3 in",
			[]wrong{{"there is no 'nowhere'", ""}}},
		{"bowl in halves", stage + "bowl one on pad { at (6, 6), diameter 6, depth 3, «halves», metal skin }",
			[]wrong{{"a bowl has no 'halves'", "it may have diameter, depth, metal, gores, dished"}}},
		{"post on its point", stage + "post one on pad { at (6, 6), diameter «0» to 3, length 3, metal skin }",
			[]wrong{{"'diameter' must be more than 0, and this is 0 in", "write it as diameter 2-1/2 in"}}},
		{"no point, but too thin", stage + "post one on pad { at (6, 6), diameter 3 to «0.02», length 3, metal skin }",
			[]wrong{{"post 'one' of 1/32 in has no inside: metal 'skin' is 0.048 in thick", "make it more than 1/8 in"}}},
		{"point with a head", stage + "post one on pad { at (6, 6), diameter 3 to 0, length 3, «head» disc, metal skin }",
			[]wrong{{"post 'one' ends in a point, which 'head' does not open or close", "leave 'head' out"}}},
		{"ball on a point", stage + "post one on pad { at (6, 6), diameter 3 to 0, length 3, metal skin }\nball «two» on one { diameter 4, halves, metal skin }",
			[]wrong{{"post 'one' ends in a point, on which nothing stands", "branch it off the side"}}},
		{"point between two parts", stage + "post one from pad to moon { diameter 1 to «0», metal skin }",
			[]wrong{{"post 'one' ends in a point, which does not join ball 'moon'", "give its head a diameter of more than 0"}}},
		{"mixed number for an angle", stage + "post one on pad { at (6, 6), diameter 3, length 3, lean «2-1/2» toward 0 deg, metal skin }",
			[]wrong{{"'lean' needs an angle, and this is a length", "write 2-1/2 deg"}}},
		{"circle of one", stage + "let a = «a» + 1",
			[]wrong{{"'a' is defined by itself", "by a number"}}},
		{"name of a function", stage + "let «sin» = 1",
			[]wrong{{"'sin' has a meaning of its own in the language", "another name"}}},
		{"name of a part", stage + "let «moon» = 1",
			[]wrong{{"'moon' is the name of a part too", "another name"}}},
		{"inner name outside", stage + "repeat i from 1 to 2 { let inner = i }\nlet x = «inner»",
			[]wrong{{"there is no 'inner'", ""}}},
		{"part read too early", stage + "let x = «star».top\nball star on pad { diameter 2, halves, metal skin }",
			[]wrong{{"part 'star' is declared further down; a part can be read only after its declaration", "move its declaration up"}}},
		{"part by itself", stage + "ball star on pad { diameter «star».top, halves, metal skin }",
			[]wrong{{"part 'star' cannot be read in its own declaration", "declared earlier"}}},
		{"block not done", stage + "when 1 > 2 { ball star on pad { diameter 2, halves, metal skin } }\nlet x = «star».top",
			[]wrong{{"there is no 'star' here: its block was not run", ""}}},
		{"row without index", stage + "repeat i from 1 to 2 { ball bead[i] on pad { at (i, 0), diameter 1, halves, metal skin } }\nlet x = «bead».top",
			[]wrong{{"'bead' is a row of parts", "bead[1]"}}},
		{"past the row", stage + "repeat i from 1 to 2 { ball bead[i] on pad { at (i, 0), diameter 1, halves, metal skin } }\nlet x = «bead[3]».top",
			[]wrong{{"there is no 'bead[3]' here", "the nearest is 'bead[2]'"}}},
		{"index on one part", stage + "let x = «moon[1]».top",
			[]wrong{{"'moon' is one part and takes no index", "moon"}}},
		{"index in halves", stage + "ball bead[«1/2»] on pad { diameter 1, halves, metal skin }",
			[]wrong{{"an index is a whole number, and this is 0.5", "round it, as in round(7/2)"}}},
		{"repeat by a half", stage + "repeat i from 1 to «5/2» { ball bead[i] on pad { diameter 1, halves, metal skin } }\nlet x = bead[1].top",
			[]wrong{{"'repeat' counts to a whole number, and this is 2.5", "round it, as in round(7/2)"}}},
		{"when without condition", stage + "when «3 in» { ball star on pad { diameter 2, halves, metal skin } }\nlet x = star.top",
			[]wrong{{"'when' needs a condition, and this is a length", "when rise"}}},
		{"result outside require", stage + "let x = «weight» / 2",
			[]wrong{{"'weight' is known only when everything is worked out", "write what depends on it into a 'require"}}},
		{"weight of a part outside require", stage + "let x = moon.«weight» / 2",
			[]wrong{{"the weight of a part is known only when everything is worked out", "write what depends on it into a 'require"}}},
		{"let of a part", stage + "let x = «moon»",
			[]wrong{{"'x' cannot stand for a part", "a let names"}}},

		// Values.
		{"length and angle", stage + "let x = «5 in + 3 deg»",
			[]wrong{{"an angle cannot be added to a length", "both must be the same kind, such as two le"}}},
		{"weight and number", stage + "let x = «5 lb - 2»",
			[]wrong{{"a plain number cannot be subtracted from a weight", "give the plain number its unit"}}},
		{"compare", stage + "let x = pick(«2 in > 3 lb», 1, 2)",
			[]wrong{{"a length cannot be compared with a weight", "both must be the same kind, such as two le"}}},
		{"divide by nothing", stage + "let x = 3 / «(2 - 2)»",
			[]wrong{{"this divides by 0", "this comes to 0; divide by something that does not"}}},
		{"root of less than nothing", stage + "let x = sqrt(«1 - 5»)",
			[]wrong{{"this comes to -4, and less than 0 has no square root", ""}}},
		{"root of a length", stage + "let x = sqrt(«2 in»)",
			[]wrong{{"a length has no square root", ""}}},
		{"asin of two", stage + "let x = asin(«2»)",
			[]wrong{{"'asin' needs a number from -1 to 1, and this is 2", ""}}},
		{"sin of a number", stage + "let x = sin(«30»)",
			[]wrong{{"'sin' needs an angle, and this is a plain number", "deg or rad"}}},
		{"atan2 of nothing", stage + "let x = «atan2(0 in, 0 in)»",
			[]wrong{{"'atan2' of 0 and 0 has no direction", ""}}},
		{"too large", stage + "let a = 1000000000000 * 1000000000000\nlet b = a * a * a * a\nlet c = b * b * b\nlet x = «c * c»",
			[]wrong{{"the number is too large to work with", ""}}},
		{"too many powers", stage + "let a = 2 in * 2 in * 2 in\nlet b = a * a * a * a\nlet x = «b * a»",
			[]wrong{{"this product means nothing here: a quantity of length^12 times a volume", ""}}},
		{"unknown function", stage + "let x = «roundd»(3)",
			[]wrong{{"there is no function 'roundd'", "did you mean 'round'?"}}},
		{"too few arguments", stage + "let x = «polar(3)»",
			[]wrong{{"'polar' is given 1 values", "polar(radius, bearing)"}}},
		{"round a length", stage + "let x = «round(3 in)»",
			[]wrong{{"'round' of a length needs a step to go to", "round(value, step)"}}},
		{"round to nothing", stage + "let x = round(3 in, «0»)",
			[]wrong{{"the step of 'round' must be more than 0, and this is 0 in", ""}}},
		{"pick by a number", stage + "let x = pick(«3», 1, 2)",
			[]wrong{{"'pick' needs a condition first, and this is a plain number", "pick(condition, a, b)"}}},
		{"coordinate of a weight", stage + "let x = distance((1, «2 lb»), (1, 2))",
			[]wrong{{"a coordinate is a length, and this is a weight", "(3 in, 4 in)"}}},
		{"member of a number", stage + "let a = 3 in\nlet x = a.«top»",
			[]wrong{{"only a part has a 'top', and this is a length", ""}}},
		{"unknown member", stage + "let x = moon.«centr»",
			[]wrong{{"a ball has no 'centr'", "did you mean 'centre'?"}}},
		{"member of the wrong kind", stage + "let x = pad.«head»",
			[]wrong{{"a base has no 'head'", "it has centre, top, width, depth"}}},
		{"coordinate of a point in plan", stage + "let p = (1, 2)\nlet x = p.«z»",
			[]wrong{{"a point in plan has no 'z'", "x and y"}}},
		{"no units", "metal skin { alloy low-carbon-steel, gauge 18 }\nbase pad { plate «24» by 20, metal skin }\nlet x = 3 in + 4",
			[]wrong{{"this length has no unit, and the file does not give its units", "units inch"}}},
		{"no units for a mixed number", "let x = «1-1/2»\nbase pad { feet }",
			[]wrong{{"this length has no unit, and the file does not give its units", "units inch"}}},

		// Settings and blocks.
		{"unknown units", "units «furlong»\nbase pad { feet }\nlet x = 2 in + 3",
			[]wrong{{"the units are inch or mm, not 'furlong'", "units inch"}}},
		{"units twice", stage + "«units» mm",
			[]wrong{{"'units' is given twice", "keep one"}}},
		{"adjust in a block", stage + "when 2 > 1 { adjust «x» = 1 from 0 to 2 }",
			[]wrong{{"'adjust' goes at the top of the file, not in a block", "make it a let"}}},
		{"site in a block", stage + "when 2 > 1 { «site» { slope 2 deg } }",
			[]wrong{{"'site' goes at the top of the file, not in a block", "move it out"}}},
		{"site twice", stage + "site { slope 2 deg }\n«site» { slope 3 deg }",
			[]wrong{{"'site' is given twice", "keep one"}}},
		{"no part", "«»units inch\n",
			[]wrong{{"the design has no part", "declare a base"}}},

		// Adjustable values.
		{"outside its range", stage + "adjust rise = «72 in» from 24 in to 60 in",
			[]wrong{{"'rise' may be from 24 in to 60 in, and this is 72 in", "stay within the range, or widen the range of 'r"}}},
		{"range of another sort", stage + "adjust rise = 36 in from «2 deg» to 60 in",
			[]wrong{{"'rise' is a length, and this is an angle", "its unit is in, ft, mm, cm or m"}}},
		{"range of an angle without unit", stage + "adjust lean = 3 deg from «0» to 9 deg",
			[]wrong{{"'lean' is an angle, and this is a plain number", "deg or rad"}}},
		{"range backwards", stage + "adjust rise = 36 from «60 to 24»",
			[]wrong{{"the range of 'rise' runs backwards", "write the smaller end first"}}},
		{"step of nothing", stage + "adjust rise = 36 from 24 to 60 step «0»",
			[]wrong{{"the step of 'rise' must be more than 0", "leave it out"}}},
		{"variation of a let", stage + "let a = 1\nvariation \"v\" { «a» = 2 }",
			[]wrong{{"'a' is fixed by a let; only an 'adjust' may be given new values", "make it an 'adjust'"}}},
		{"variation out of range", stage + "adjust rise = 36 from 24 to 60\nvariation \"v\" { rise = «90» }",
			[]wrong{{"'rise' may be from 24 to 60, and this is 90", "stay within the range, or widen the range of 'r"}}},
		{"variation twice", stage + "adjust rise = 36 from 24 to 60\nvariation \"v\" { rise = 30 }\nvariation «\"v\"» { rise = 40 }",
			[]wrong{{"the variation \"v\" is given twice", "another name"}}},
		{"variation of nothing", stage + "adjust rise = 36 from 24 to 60\nvariation \"v\" { «ride» = 30 }",
			[]wrong{{"there is no adjustable 'ride'", "did you mean 'rise'?"}}},

		// Requirements.
		{"require without condition", stage + "require «weight»",
			[]wrong{{"'require' needs a condition, and this is a weight", "weight <= 140 lb"}}},
		{"require of two sorts", stage + "require «weight <= 3 ft»",
			[]wrong{{"a weight cannot be compared with a length", "both must be the same kind, such as two le"}}},
		{"require a factor in pounds", stage + "require «tipping >= 3 lb» and moon.weight < 4 kg",
			[]wrong{{"a plain number cannot be compared with a weight", "unit"}}},
		{"require of an unknown part", stage + "require «noon».weight <= 3 lb",
			[]wrong{{"there is no 'noon'", "did you mean 'moon'?"}}},
		{"require of an unknown result", stage + "require «wieght» <= 3 lb",
			[]wrong{{"there is no 'wieght'", "did you mean 'weight'?"}}},
		{"require of two meanings", stage + "let height = 3 ft\nrequire «height» <= 3 ft",
			[]wrong{{"'height' is both a result and a definition of this file", "another name"}}},
	} {
		t.Run(tt.name, func(t *testing.T) { checkMistakes(t, tt.text, Options{}, tt.want) })
	}
}

// Mistakes are reported in source order at line and column, and one cause is reported
// once however often a block is done.
func TestMistakePlaces(t *testing.T) {
	_, list := evaluate(stage+`repeat i from 1 to 3 {
	ball bead[i] on pad { diamter 2, halves, metal skim }
}
let x = bead[2].top + 3 deg + nowhere
`, Options{})
	want := []source.Position{{Line: 7, Column: 24}, {Line: 7, Column: 49}, {Line: 9, Column: 31}}
	if len(list) != len(want) {
		t.Fatalf("%d mistakes, want %d: %v", len(list), len(want), list.Err())
	}
	for i, d := range list {
		if d.Span.Start() != want[i] {
			t.Errorf("%v stands at %v, want %v", d, d.Span.Start(), want[i])
		}
	}
}

// set reads the value of one setting for Options.
func set(t *testing.T, name, value string) syntax.Assignment {
	t.Helper()
	f := source.NewFile("--set", value)
	x, list := syntax.ParseExpression(f)
	if len(list) > 0 {
		t.Fatal(list.Err())
	}
	return syntax.Assignment{Name: syntax.Name{Text: name, At: source.Span{File: f}}, Value: x}
}

func TestSet(t *testing.T) {
	const text = stage + `adjust rise = 36 in from 24 in to 60 in
adjust tilt = 6 deg from 0 deg to 15 deg
let crown = rise / 3
post spar on pad { at (6, 6), diameter 1, length rise, lean tilt toward 0 deg, metal skin }
variation "tall" { rise = 54, tilt = 2 deg }
`
	for _, tt := range []struct {
		name, value, variation string
		length, lean           float64 // mm and deg
		want                   string  // the mistake
	}{
		{length: 914.4, lean: 6},
		{name: "rise", value: "48", length: 1219.2, lean: 6},
		{name: "rise", value: "1 m", length: 1000, lean: 6},
		{variation: "tall", length: 1371.6, lean: 2},
		{variation: "tall", name: "rise", value: "2 * 15", length: 762, lean: 2},
		{name: "rise", value: "72 in", want: "'rise' may be from 24 in to 60 in, and this is 72 in"},
		{name: "tilt", value: "3", want: "'tilt' is an angle, and this is a plain number"},
		{name: "tilt", value: "3 in", want: "'tilt' is an angle, and this is a length"},
		{name: "crown", value: "3 in", want: "'crown' is fixed by a let; only an 'adjust' may be given new values"},
		{name: "rice", value: "3 in", want: "there is no adjustable 'rice'"},
		{name: "rise", value: "nowhere", want: "there is no 'nowhere'"},
		{variation: "tail", want: "the design has no variation \"tail\""},
	} {
		o := Options{Variation: tt.variation}
		if tt.name != "" {
			o.Set = []syntax.Assignment{set(t, tt.name, tt.value)}
		}
		d, list := evaluate(text, o)
		if tt.want != "" {
			if len(list) != 1 || list[0].Text != tt.want {
				t.Errorf("set %s=%s, variation %q: %v, want %q", tt.name, tt.value, tt.variation, list.Err(), tt.want)
			}
			continue
		}
		if len(list) > 0 {
			t.Errorf("set %s=%s, variation %q: %v", tt.name, tt.value, tt.variation, list.Err())
			continue
		}
		spar := part(t, d, "spar").Post
		if !near(spar.Length, tt.length) || !near(spar.Lean, tt.lean*degree) {
			t.Errorf("set %s=%s, variation %q: length %v, lean %v, want %v, %v", tt.name, tt.value, tt.variation,
				spar.Length, spar.Lean/degree, tt.length, tt.lean)
		}
		if a := d.Adjust; len(a) != 2 || a[0].Name != "rise" || !near(a[0].Value.Number, tt.length) || !near(a[0].To.Number, 1524) {
			t.Errorf("set %s=%s: Adjust = %+v", tt.name, tt.value, a)
		}
		if d.Variation != tt.variation {
			t.Errorf("Variation = %q, want %q", d.Variation, tt.variation)
		}
	}
}

// Where the text cannot be read in full, nothing is said of what may have been
// lost with it, but of other mistakes, and of what is missing from declarations
// that were read in full.
func TestPartial(t *testing.T) {
	for _, tt := range []struct {
		text string
		want []string // after the mistake in writing
	}{
		{`let rise = = 3
ball star on nowhere { diameter rise, halves, metal skin }
ball sun on pad { diameter 3 deg, halves, metal skin }
ball dawn on pad { halves, metal skin }
`, []string{"7:14: there is no 'nowhere'", "8:28: 'diameter' needs a length, and this is an angle", "9:6: ball 'dawn' lacks 'diameter'"}},
		{"\nball dawn on pad { halves, metal skin, @ }\n", nil},
		{"\nball dawn on pad { halves, metal skin } @\n", nil},
		{"\nball dawn on pad { halves, metal skin }\n@ 3\n", []string{"7:6: ball 'dawn' lacks 'diameter'"}},
		{"\nball dawn on pad { halves, metal skin }\n  diamter 3\n", nil},
		{"\nball dawn on pad { diameter 3 }\n  metal skin\n  halves\n}\n", nil},
		{"\nball dawn on pad { halves, metal skin }\n  }\n", nil},
		{"\nball dawn on pad { diameter 4 4, halves, metal skin }\nball dusk on pad { halves, metal skin }\n", []string{"8:6: ball 'dusk' lacks 'diameter'"}},
		{"\nball dawn on pad { halves, metal skin }\nball dusk on pad { diameter 4 4, halves, metal skin }\n", []string{"7:6: ball 'dawn' lacks 'diameter'"}},
		{"\nball dawn on pad { halves, metal skin\nball dusk on pad { diameter 4, metal skin }\n", []string{"8:6: ball 'dusk' lacks 'gores', 'zones', 'halves' or 'bought'"}},
		{"\nrepeat i from 1 to 2 {\n  ball dawn[i] on pad { halves, metal skin }\n}\nball dusk on pad { diameter = 4, halves, metal skin }\n", []string{"8:8: ball 'dawn[1]' lacks 'diameter'"}},
		{"\nball dawn { diameter 3, halves, metal skin }\nlet x = = 3\n", []string{"7:1: ball 'dawn' stands on nothing"}},
		{"\nsite { wind 100 mph }\nlet x = = 3\n", []string{"7:8: 'wind' also needs a method"}},
		{"let = 3\nball star on nowhere { diameter 3, halves, metal skin }\n", nil},
		{"ball m@ss on pad { diameter 3, halves, metal skin }\nball star on moss { diameter 3, halves, metal skin }\n", nil},
		{"bell moss on pad { diameter 3, halves, metal skin }\nlet x = moss.top\n", nil},
		{"ball moss on pad { diameter 3, halves, metal skin } }\nlet x = mossy.top\n", []string{"7:9: there is no 'mossy'"}},
		{"ball moss on pad { diameter 3 3, halves, metal skin }\nlet x = gone.top\n", []string{"7:9: there is no 'gone'"}},
	} {
		_, list := evaluate(stage+tt.text, Options{})
		var got []string
		for _, d := range list {
			if m := strings.TrimPrefix(d.Error(), "test.stabile:"); d.Span.Start().Line > 6 && !slices.Contains(syntaxMistakes(stage+tt.text), m) {
				got = append(got, m)
			}
		}
		if !slices.Equal(got, tt.want) || len(list) != len(got)+1 {
			t.Errorf("%s: got %q of %v, want %q", tt.text, got, list.Err(), tt.want)
		}
	}
}

// syntaxMistakes returns what is wrong with the writing of a text.
func syntaxMistakes(text string) []string {
	_, list := syntax.Parse(source.NewFile("test.stabile", text))
	var said []string
	for _, d := range list {
		said = append(said, strings.TrimPrefix(d.Error(), "test.stabile:"))
	}
	return said
}
