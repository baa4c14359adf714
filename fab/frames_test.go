package fab

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
)

// evaluated returns the job of a text, or what is wrong with it.
func evaluated(text string) (*Job, source.List) {
	d, wrong := param.Evaluate(source.NewFile("frame.stabile", text), param.Options{})
	if len(wrong) > 0 {
		return nil, wrong
	}
	return Build(d, 0)
}

// In a frame that closes, both tubes of each mitre touch the plane that halves the angle
// all round, with the edge of their sheet that comes first, inside or outside, and
// never go through it, wherever the heads are.
func TestFramesClose(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 16))
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	made, worst := 0, 0.0
	for range 250 {
		wide := between(30, 90)
		j, wrong := evaluated(fmt.Sprintf(`units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
base ground { feet }
post left on ground { at (-400, %v), diameter %v, length %v, lean %v deg toward %v deg, metal skin }
post right on ground { at (400, %v), diameter %v, length %v, lean %v deg toward %v deg, metal skin }
post lintel from left.head to right.head { diameter %v, metal skin }`,
			between(-90, 90), wide, between(300, 900), between(0, 50), between(0, 360),
			between(-90, 90), wide, between(300, 900), between(0, 50), between(0, 360), wide))
		if len(wrong) > 0 {
			continue
		}
		made++
		lintel := j.Parts[2]
		for end, host := range []Part{j.Parts[0], j.Parts[1]} {
			u, v := lintel.Post.Inward(end), host.Post.Inward(design.Head)
			normal, at := r3.Unit(r3.Sub(u, v)), host.Post.Ends[design.Head].At
			for _, tube := range []struct {
				rim       []r3.Vec
				way, into r3.Vec // along the tube from the end; out of the plane into the tube
			}{{lintel.Body.Rims[end], u, normal}, {host.Body.Rims[design.Head], v, r3.Scale(-1, normal)}} {
				for _, q := range tube.rim {
					rel := r3.Sub(q, at)
					radial := r3.Sub(rel, r3.Scale(r3.Dot(rel, tube.way), tube.way))
					worst = max(worst, math.Abs(r3.Norm(radial)-wide/2))
					outside := r3.Dot(rel, tube.into)
					inside := r3.Dot(r3.Sub(rel, r3.Scale(1.5, r3.Unit(radial))), tube.into)
					worst = max(worst, math.Abs(min(outside, inside)))
				}
			}
		}
		if len(lintel.Welds) != 2 || len(j.Parts[0].Welds) != 0 || len(j.Parts[1].Welds) != 0 {
			t.Fatalf("welds: lintel %v, left %v, right %v", lintel.Welds, j.Parts[0].Welds, j.Parts[1].Welds)
		}
	}
	if made < 100 || worst > 1e-6 {
		t.Errorf("%d frames: an edge lies %v mm off the mitre", made, worst)
	}
}

// A post that ends on a part without being joined to it is a fault that says how to
// join it; one that stays clear, and one that is joined, are none.
func TestUnjoined(t *testing.T) {
	const head = `units mm
metal skin { alloy low-carbon-steel, thickness 2 }
metal slab { alloy low-carbon-steel, thickness 12 }
base pad { plate 1400 by 500, metal slab }
post left on pad { at (-450, 0), diameter 80, length 900, metal skin }
post right on pad { at (450, 0), diameter 80, length 1100, metal skin }
ball moon on right { diameter 300, halves, metal skin }
`
	for _, tt := range []struct {
		text string
		want string // "from A to B"; "" for none
	}{
		{"post arm on left { at 600 toward 0 deg, diameter 40, length 819.5, metal skin }", "from left to right"},
		{"post arm on left { at 600 toward 0 deg, diameter 40, length 817, metal skin }", ""},
		{"post arm from left to right { diameter 40, metal skin }", ""},
		{"post arm on left { at 850 toward 0 deg, lean 90 deg toward 0 deg, diameter 40, length 30, metal skin }", ""},
		// Over the middle of the end, with the rim clear.
		{"post arm on pad { at (0, 0), diameter 200, length 1063.5, metal skin }\nball star at (0, 0, 1225.5) { diameter 300, halves, metal skin }\npost tie from moon to star { diameter 30, metal skin }", "from pad to star"},
		{"post peg on pad { at (0, 0), diameter 60, length 500, metal skin }\npost arm on left { at 529 toward 0 deg, diameter 30, length 410, lean 90 deg toward 0 deg, metal skin }", ""},
		{"post arm on left { diameter 80, length 859, lean 90 deg toward 0 deg, metal skin }", "from left.head to right"},
	} {
		j, wrong := evaluated(head + tt.text)
		if len(wrong) > 0 {
			t.Errorf("%s: %v", tt.text, wrong)
			continue
		}
		got := ""
		for _, f := range j.Findings {
			if u, ok := f.Fact.(Unjoined); ok {
				got = "from " + u.From
				if u.FromHead {
					got += ".head"
				}
				got += " to " + u.With
			}
		}
		failed := false
		for _, c := range j.Checks {
			failed = failed || c.ID == check.Making && c.Verdict == check.Fails
		}
		if got != tt.want || failed != (tt.want != "") {
			t.Errorf("%s: %q, failed %v, want %q", strings.SplitN(tt.text, "\n", 2)[0], got, failed, tt.want)
		}
	}
}
