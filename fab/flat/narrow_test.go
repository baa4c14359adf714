package flat

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
)

// withNarrow is a ball in a shop that welds points down to a width, or does not say.
// The shop comes last: where it stands in the text does not matter.
func withNarrow(t *testing.T, ball, welding string) *design.Part {
	t.Helper()
	d, wrong := param.Evaluate(source.NewFile("narrow.stabile", `units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
base pad { plate 240 by 240, metal skin }
ball moon on pad { diameter 200, metal skin, `+ball+` }
shop { welding { process tig`+welding+" } }\n"), param.Options{})
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	return d.Parts[1]
}

// TestNarrow: gores end where the design's shop can still weld them, and what the
// gores leave open at the poles goes with it.
func TestNarrow(t *testing.T) {
	for _, tt := range []struct {
		welding string
		want    float64
	}{
		{"", 3},
		{", narrow 1", 1},
		{", narrow 12", 12},
	} {
		for _, bend := range []string{"rolled", "domed"} {
			p := withNarrow(t, "gores 8, bend "+bend, tt.welding)
			made := develop(t, p)
			b := &made.Blanks[0]
			checkOutline(t, *b)
			if got := 2 * b.Outline[0].X; !near(got, tt.want) {
				t.Errorf("%s, %q: the gores end %v wide, want %v", bend, tt.welding, got, tt.want)
			}
			// A disc closes what they leave open.
			if d := made.Blanks[len(made.Blanks)-1]; len(made.Findings) != 0 || d.Name != "moon pole" || d.Quantity != 2 {
				t.Errorf("%s, %q: %d of %s, and %v", bend, tt.welding, d.Quantity, d.Name, made.Findings)
			}
			if bend == "domed" {
				continue
			}
			// Rolled up again, the inner corner of its edge meets the plane half way to
			// its neighbour's, where that one's edge is its mirror image.
			const mean, inner = 100 - 0.75, 100 - 1.5
			sin, cos := math.Sincos(math.Pi / 8)
			for _, q := range b.Outline {
				s, c := math.Sincos(q.Y / mean)
				x := r3.Vec{X: inner * c, Y: q.X, Z: inner * s}
				if off := x.X*sin - math.Abs(x.Y)*cos; math.Abs(off) > 1e-9 {
					t.Fatalf("%q: at %v the edge is %v off its neighbour's", tt.welding, q, off)
				}
			}
			// Tubes are trimmed to the ball as it is made: its poles are as low as the
			// disc lies, which stays flat where it would rise by no more than its thickness.
			end := mean * math.Acos(tt.want/2/(inner*math.Tan(math.Pi/8)))
			height := 100.0
			if mean-mean*math.Sin(end/mean) <= 1.5 {
				height = mean*math.Sin(end/mean) + 0.75
			}
			up, ok := solid.Outside(p).(*solid.Lobed)
			if !ok {
				t.Fatalf("%q: the outside is a %T", tt.welding, solid.Outside(p))
			}
			if got, ok := up.Leave(p.Ball.Center, r3.Vec{Z: 1}); !ok || !near(got, height) {
				t.Errorf("%q: a pole is %v above the centre, want %v", tt.welding, got, height)
			}
		}
	}
}

// TestTooNarrow: what the shop cannot weld anywhere is reported with its own measure.
func TestTooNarrow(t *testing.T) {
	if _, wrong := Develop(withNarrow(t, "gores 48", ", narrow 14")); wrong.Err() == nil || !strings.Contains(wrong.Err().Error(), "narrower than the 14 mm") {
		t.Errorf("gores 13 mm wide at the most: %v", wrong.Err())
	}
	p := withNarrow(t, "gores 12, caps 20", ", narrow 12")
	said := false
	for _, f := range develop(t, p).Findings {
		n, ok := f.Fact.(NarrowGores)
		said = said || ok && n.Least == 12 && math.Abs(n.Width-5) < 0.5
	}
	if !said {
		t.Error("gores of 5 mm at the caps are not reported")
	}
}
