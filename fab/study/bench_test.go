package study_test

import (
	"context"
	"fmt"
	"runtime/debug"
	"strings"
	"testing"
	"testing/fstest"

	"stabile/fab/study"
	"stabile/param"
)

// thirty is a design of 30 parts: a plate, and a crown of stems that carry balls
// and further stems.
func thirty() string {
	var b strings.Builder
	b.WriteString(`sculpture "Thirty"
units inch
adjust rise  = 40 in from 24 in to 60 in
adjust swell = 1 from 0.6 to 1.4
adjust lean  = 4 deg from 0 deg to 10 deg
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 3/8 in }
base pad { plate 60 in by 60 in, metal slab, anchors 4, anchor_diameter 1/2 in, anchor_edge 2 in }
`)
	for i := range 7 {
		fmt.Fprintf(&b, "post stem%[1]d on pad { at polar(18 in, 360 deg / 7 * %[1]d), diameter 3 in, length rise + %[1]d in, lean lean toward 360 deg / 7 * %[1]d, metal skin }\n", i)
		fmt.Fprintf(&b, "ball fruit%[1]d on stem%[1]d { diameter swell * 9 in, gores 8, metal skin }\n", i)
		fmt.Fprintf(&b, "post twig%[1]d on fruit%[1]d { diameter 1-1/2 in, length rise / 3, metal skin }\n", i)
		fmt.Fprintf(&b, "ball seed%[1]d on twig%[1]d { diameter swell * 5 in, gores 8, metal skin }\n", i)
	}
	b.WriteString("ball rest on pad { at (0 in, 0 in), diameter 8 in, gores 6, metal skin }\n")
	b.WriteString("site { wind 90 mph, exposure C, method asce7, slope 2 deg, push 50 lbf at 40 in }\n")
	b.WriteString("require tipping >= 1.5\nrequire weight <= 900 lb\n")
	return b.String()
}

// BenchmarkThousand works out 1,000 random variations of a design of 30 parts:
// weight, tipping, wind and strength, on all cores; with -short some of them.
func BenchmarkThousand(b *testing.B) {
	files := fstest.MapFS{"thirty.stabile": {Data: []byte(thirty())}}
	text, err := param.Read(files, "thirty.stabile", param.Options{})
	if err != nil {
		b.Fatal(err)
	}
	s := &study.Study{Load: text.Design}
	d, err := s.Load(param.Options{})
	if err != nil {
		b.Fatal(err)
	}
	if len(d.Parts) != 30 {
		b.Fatalf("%d parts", len(d.Parts))
	}
	n := 1000
	if testing.Short() {
		n = 50
	}
	trials, err := study.Random(d, study.All(d), n, 1)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	defer debug.SetGCPercent(debug.SetGCPercent(2000)) // as the command does
	for b.Loop() {
		results, err := s.Run(context.Background(), trials)
		if err != nil {
			b.Fatal(err)
		}
		for _, r := range results {
			if r.Err != nil || !r.Strength.Known || !r.Wind.Known {
				b.Fatalf("%s: %v", r.Label(), r.Err)
			}
		}
	}
}
