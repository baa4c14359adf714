package fab

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
)

// grove returns a design of n parts on one plate: posts with balls, each of its
// own size and lean.
func grove(b *testing.B, n int) *design.Design {
	b.Helper()
	pairs := (n - 1) / 2
	side := int(math.Ceil(math.Sqrt(float64(pairs))))
	var text strings.Builder
	fmt.Fprintf(&text, "units mm\nmetal skin { alloy low-carbon-steel, gauge 18 }\nmetal slab { alloy low-carbon-steel, thickness 10 }\n")
	fmt.Fprintf(&text, "base pad { plate %d by %d, metal slab, anchors 4, anchor_diameter 16, anchor_edge 50 }\nsite { push 100 N at 1 m, slope 3 deg }\n", side*400+400, side*400+400)
	for i := range pairs {
		fmt.Fprintf(&text, "post p%d on pad { at (%d, %d), diameter %d, length %d, lean %d deg toward %d deg, metal skin }\n",
			i, (i%side)*400-side*200+200, (i/side)*400-side*200+200, 40+i%7, 300+20*(i%11), 2*(i%5), i*37%360)
		fmt.Fprintf(&text, "ball b%d on p%d { diameter %d, offset 5 toward %d deg, gores 8, metal skin }\n", i, i, 120+5*(i%13), i*53%360)
	}
	d, wrong := param.Evaluate(source.NewFile("grove.stabile", text.String()), param.Options{})
	if len(wrong) > 0 {
		b.Fatal(wrong.Err())
	}
	return d
}

func BenchmarkBuild(b *testing.B) {
	for _, n := range []int{11, 101, 501, 1001, 2001} {
		d := grove(b, n)
		b.Run(fmt.Sprint(len(d.Parts)), func(b *testing.B) {
			for b.Loop() {
				if _, wrong := Build(d, 0); len(wrong) > 0 {
					b.Fatal(wrong.Err())
				}
			}
		})
	}
}

// BenchmarkBuildInWind is Build with the wind on it, BenchmarkCheckStrength that
// with strength and modes.
func BenchmarkBuildInWind(b *testing.B) {
	for _, n := range []int{11, 31, 101} {
		d := inWind(grove(b, n))
		b.Run(fmt.Sprint(len(d.Parts)), func(b *testing.B) {
			for b.Loop() {
				if _, wrong := Build(d, 0); len(wrong) > 0 {
					b.Fatal(wrong.Err())
				}
			}
		})
	}
}

func BenchmarkCheckStrength(b *testing.B) {
	for _, n := range []int{11, 31, 101} {
		d := inWind(grove(b, n))
		b.Run(fmt.Sprint(len(d.Parts)), func(b *testing.B) {
			var j *Job
			for b.Loop() {
				j, _ = Build(d, WithModes)
			}
			if j == nil || j.Strength == nil {
				b.Fatal("strength was not worked out")
			}
		})
	}
}

// inWind puts a design in the wind.
func inWind(d *design.Design) *design.Design {
	d.Site.Wind, d.Site.Method, d.Site.Exposure = 30, design.ASCE7, "C"
	return d
}
