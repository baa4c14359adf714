package fab

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/shell"
	"stabile/fab/strength"
	"stabile/param/design"
)

// doubled is a mast on a ball of halves, pushed, with a doubler of a width in mm or none.
func doubled(wide, push float64) string {
	how := ""
	if wide > 0 {
		how = fmt.Sprintf("doubler %v, ", wide)
	}
	return fmt.Sprintf(`units mm
metal skin { alloy low-carbon-steel, thickness 2 }
metal stout { alloy low-carbon-steel, thickness 4 }
metal slab { alloy low-carbon-steel, thickness 12 }
base pad { plate 600 by 600, metal slab, anchors 4, anchor_diameter 14, anchor_edge 40 }
post trunk on pad { diameter 200, length 300, metal stout }
ball moon on trunk { diameter 400, halves, doubler 230, metal skin }
post mast on moon { diameter 80, length 900, %smetal stout }
site { push %v N at 1.5 m }
`, how, push)
}

// TestDoubler holds the disc, what the post loses to it and what the wall carries against
// geometry and the rule by hand.
func TestDoubler(t *testing.T) {
	plain, j := buildWith(t, doubled(0, 50), Everything&^WithPlan), buildWith(t, doubled(160, 50), Everything&^WithPlan)
	was, p := &plain.Parts[3], &j.Parts[3]
	var b = p.Blanks[len(p.Blanks)-1]
	// A cap of the sphere of 201 mm, 160 mm across: 2 pi r h.
	const mean = 201.0
	h := mean - math.Sqrt(mean*mean-80*80)
	if want := 2 * math.Pi * mean * h; b.Name != "mast doubler" || math.Abs(b.Area-want) > 1e-6*want || math.Abs(b.Forming.Depth-h) > 1e-9 || b.Metal.Thickness != 2 {
		t.Errorf("%s of %v mm2, want %v: %+v", b.Name, b.Area, want, b.Forming)
	}
	// The tube is cut back by its sheet, and goes no further into the ball.
	center := j.Parts[2].Ball.Center
	least := math.Inf(1)
	for _, q := range p.Body.Rims[design.Foot] {
		least = min(least, r3.Norm(r3.Sub(q, center)))
	}
	// Its inside, 36 mm from the axis, touches the disc first; the rim is that of its outside.
	if want := math.Sqrt(202*202 - 36*36 + 40*40); math.Abs(least-want) > 1e-3 {
		t.Errorf("the foot's outside comes as near as %v to the middle of the ball, want %v", least, want)
	}
	if got := was.Blanks[0].Length - p.Blanks[0].Length; got < 1.9 || got > 2.1 {
		t.Errorf("the tube is %v shorter, want about 2", got)
	}
	if got, want := p.Mass-was.Mass, b.Mass-math.Pi*76*4*2*7850e-9; math.Abs(got-want) > 0.01*want {
		t.Errorf("%v heavier, want %v", got, want)
	}
	// What carries less: the ring on both sheets, or the edge of the disc on one.
	yield, _ := strength.Yield(j.Parts[2].Metal)
	joint := shell.Joint{Radius: 199, Wall: 2, Diameter: 76, Tube: 4, Strength: yield / shell.Safety, TubeStrength: yield / shell.Safety}
	ring, edge, err := joint.With(shell.Doubler{Diameter: 160, Wall: 2})
	if err != nil {
		t.Fatal(err)
	}
	a, err := ring.Capacity()
	if err != nil {
		t.Fatal(err)
	}
	c, err := edge.Capacity()
	if err != nil {
		t.Fatal(err)
	}
	single, err := joint.Capacity()
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, s := range j.Strength.Shells {
		if s.Ball.Name != "moon" || s.With.Name != "mast" {
			continue
		}
		found = true
		if want := min(a.Moment, c.Moment); s.Seamed || math.Abs(s.Capacity.Moment-want) > 1e-9*want || want <= single.Moment {
			t.Errorf("moment %v, want %v, more than %v without", s.Capacity.Moment, want, single.Moment)
		}
		if want := min(a.Inward, c.Inward); math.Abs(s.Capacity.Inward-want) > 1e-9*want {
			t.Errorf("inward %v, want %v", s.Capacity.Inward, want)
		}
	}
	if !found {
		t.Error("the wall was not checked")
	}
}

// TestDoublerCures: a doubler that is advised, put into the design, brings the wall within its
// limit, as near as it was worked out.
func TestDoublerCures(t *testing.T) {
	cured, seen := 0, 0
	for _, push := range []float64{150, 200, 250, 300, 350} {
		j := buildWith(t, doubled(0, push), Everything&^WithPlan)
		for _, f := range j.Findings {
			breaks, ok := f.Fact.(strength.WallBreaks)
			if !ok || f.Parts[0] != "moon" {
				continue
			}
			for _, c := range breaks.Cures {
				if c.Doubler == 0 || c.Of != "mast" {
					continue
				}
				cured++
				k := buildWith(t, doubled(c.Doubler, push), Everything&^WithPlan)
				for _, w := range checksOf(k, check.BallWall) {
					if w.With != "mast" {
						continue
					}
					seen++
					if w.Verdict != check.Holds || math.Abs(w.Found-c.Ratio) > 0.02*c.Ratio {
						t.Errorf("%v N: a doubler of %v comes to %v, said %v", push, c.Doubler, w.Found, c.Ratio)
					}
				}
			}
		}
	}
	if cured == 0 || seen != cured {
		t.Errorf("%d doublers were advised, %d walls under one checked", cured, seen)
	}
}
