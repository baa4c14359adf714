package eval

import (
	"fmt"
	"strings"
	"testing"

	"stabile/param/source"
	"stabile/param/syntax"
)

// rowOf returns a design of n parts: a base and posts with a ball and a second
// post on each, written out one by one as a long text would be.
func rowOf(n int) string {
	var b strings.Builder
	b.WriteString("units inch\nadjust rise = 36 in from 24 in to 60 in\n" +
		"metal skin { alloy low-carbon-steel, gauge 18 }\nbase ground { feet }\n")
	for i := range n / 3 {
		fmt.Fprintf(&b, "post mast%d on ground { at (%d in, 0 in), diameter 2, length rise + %d / 8, metal skin, lean 3 deg toward 0 deg }\n", i, 12*i, i%16)
		fmt.Fprintf(&b, "ball moon%d on mast%d { diameter 9 in, offset 1/2 in toward 90 deg, gores 8, metal skin }\n", i, i)
		fmt.Fprintf(&b, "post spur%d on moon%d { diameter 1-1/2 in, length round(rise / 3, 1/16 in), offset 2 in toward mast%d, metal skin }\n", i, i, i)
	}
	b.WriteString("require weight <= 140 lb\nrequire tipping >= 1.5\n")
	return b.String()
}

func BenchmarkEvaluate(b *testing.B) {
	for _, n := range []int{10, 100, 1000, 2000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			tree, list := syntax.Parse(source.NewFile("row.stabile", rowOf(n)))
			if len(list) > 0 {
				b.Fatal(list.Err())
			}
			b.ReportAllocs()
			for b.Loop() {
				if _, list := Evaluate(tree, Options{}); len(list) > 0 {
					b.Fatal(list.Err())
				}
			}
		})
	}
}

// treesOf returns a design of about n parts tied in every way: trees of a mast
// with a branch, a taper on its head, a ball around it and one on that, and a
// post to a ball placed outright.
func treesOf(n int) string {
	var b strings.Builder
	b.WriteString("units mm\nmetal skin { alloy low-carbon-steel, gauge 18 }\nbase ground { feet }\n")
	for i := range n / 7 {
		fmt.Fprintf(&b, "post mast%d on ground { at (%d, 0), diameter 90, length 900, lean 5 deg toward 40 deg, metal skin }\n", i, 2000*i)
		fmt.Fprintf(&b, "post arm%d on mast%d { at 300 toward 90 deg, diameter 40, length 300, lean 60 deg, metal skin }\n", i, i)
		fmt.Fprintf(&b, "post top%d on mast%d { diameter 90 to 40, length 300, metal skin }\n", i, i)
		fmt.Fprintf(&b, "ball bead%d around mast%d { height 600, diameter 200, zones 6, metal skin }\n", i, i)
		fmt.Fprintf(&b, "ball bud%d on bead%d { diameter 90, offset 60 toward 200 deg, seat 20, metal skin, halves }\n", i, i)
		fmt.Fprintf(&b, "ball far%d at (%d, 500, 700) { diameter 90, metal skin, halves }\n", i, 2000*i)
		fmt.Fprintf(&b, "post tie%d from far%d to mast%d { diameter 30, metal skin }\n", i, i, i)
	}
	return b.String()
}

func BenchmarkEvaluateTies(b *testing.B) {
	for _, n := range []int{100, 1000, 2000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			tree, list := syntax.Parse(source.NewFile("trees.stabile", treesOf(n)))
			if len(list) > 0 {
				b.Fatal(list.Err())
			}
			b.ReportAllocs()
			for b.Loop() {
				if _, list := Evaluate(tree, Options{}); len(list) > 0 {
					b.Fatal(list.Err())
				}
			}
		})
	}
}
