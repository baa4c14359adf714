package syntax

import (
	"fmt"
	"strings"
	"testing"

	"stabile/param/source"
)

// design returns a text of the given number of parts, half posts and half
// balls, each stack of two on the one before.
func design(parts int) string {
	var b strings.Builder
	b.WriteString(`sculpture "Long Stack" # for timing
units inch
adjust rise = 36 in  from 24 in to 60 in step 1 in
metal skin { alloy low-carbon-steel, gauge 18 }
base b0 { plate 24 in by 20 in, metal skin, anchors 4, anchor_diameter 1/2 in, anchor_edge 1-1/2 in }
`)
	for i := range parts / 2 {
		fmt.Fprintf(&b, `
post p%d on b%d {
  diameter 2-1/2 in
  length   rise / 3 + %d in
  lean     6 deg toward 60 deg * %d
  metal    skin
}
ball b%d on p%d { diameter 5 ft 3-1/2 in, offset 3/4 in toward 180 deg, gores 10, metal skin }
`, i, i, i, i, i+1, i)
	}
	b.WriteString("require weight <= 140 lb\nrequire tipping >= 1.5\n")
	return b.String()
}

func BenchmarkParse(b *testing.B) {
	for _, parts := range []int{10, 100, 1000, 10000} {
		f := source.NewFile("bench.stabile", design(parts))
		b.Run(fmt.Sprintf("parts=%d", parts), func(b *testing.B) {
			b.SetBytes(int64(len(f.Text)))
			b.ReportAllocs()
			for b.Loop() {
				if _, list := Parse(f); len(list) > 0 {
					b.Fatal(list.Err())
				}
			}
		})
	}
}

// BenchmarkParseLongLine reads a text of many strings on one line.
func BenchmarkParseLongLine(b *testing.B) {
	in := "shop { x 1" + strings.Repeat(`, x "a"`, maxSource/10) + " }"
	f := source.NewFile("bench.stabile", in)
	b.SetBytes(int64(len(in)))
	for b.Loop() {
		if _, list := Parse(f); len(list) > 0 {
			b.Fatal(list.Err())
		}
	}
}

// BenchmarkParseMistakes reads texts that send the parser searching.
func BenchmarkParseMistakes(b *testing.B) {
	for name, in := range map[string]string{
		"parentheses": strings.Repeat("let a = ((((@\n", maxSource/14),
		"braces":      strings.Repeat("{", maxSource),
		"signs":       strings.Repeat("?", maxSource),
		"quotes":      strings.Repeat("“\n", maxSource/4),
		"one line":    strings.Repeat("1 a ", maxSource/4),
		"a ' each":    "let a = ((" + strings.Repeat("'' ", maxSource/4),
	} {
		f := source.NewFile("bench.stabile", in)
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(len(in)))
			for b.Loop() {
				Parse(f)
			}
		})
	}
}
