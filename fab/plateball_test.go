package fab

import (
	"math"
	"testing"

	"stabile/fab/check"
	"stabile/fab/strength"
)

// TestPlateUnderBall: the plate on which only a ball rests is bent by the moment at the ball's
// seat, as by a post as wide as the ring of its weld.
func TestPlateUnderBall(t *testing.T) {
	j := buildWith(t, `units mm
metal skin { alloy low-carbon-steel, thickness 2 }
metal slab { alloy low-carbon-steel, thickness 6 }
base pad { plate 500 by 400, metal slab, anchors 4, anchor_diameter 14, anchor_edge 40 }
ball moon on pad { diameter 300, halves, metal skin }
post mast on moon { diameter 60, length 700, metal skin }
site { push 100 N at 0.9 m }
`, Everything&^WithPlan)
	p := j.Strength.Plate
	if p == nil || p.Post.Name != "moon" || !p.How.Ball {
		t.Fatalf("%+v", p)
	}
	// All of the push, over the top of the plate, about which the seat is 4 mm high in the frame.
	if want := 100 * (900 - 6.0); math.Abs(p.Foot-want) > 3e-3*want {
		t.Errorf("moment %v, want %v", p.Foot, want)
	}
	radius := math.Sqrt(2*150*2 - 2*2)
	switch p.How.By {
	case strength.MomentOnAnchor:
		e := math.Hypot(210, 160)
		if want := p.Foot / e * (e - radius); math.Abs(p.Moment-want) > 1e-6*want {
			t.Errorf("toward an anchor %v, want %v", p.Moment, want)
		}
	case strength.MomentOnEdge:
		if want := p.Foot / 200 * (200 - radius); math.Abs(p.Moment-want) > 1e-6*want {
			t.Errorf("toward an edge %v, want %v", p.Moment, want)
		}
	default:
		t.Errorf("bent by %+v", p.How)
	}
	if list := checksOf(j, check.Plate); len(list) != 1 || list[0].Verdict == check.Undecided {
		t.Errorf("%+v", list)
	}
	// A ball that carries nothing but itself is decided too.
	j = buildWith(t, `units mm
metal skin { alloy low-carbon-steel, thickness 2 }
metal slab { alloy low-carbon-steel, thickness 6 }
base pad { plate 500 by 400, metal slab }
ball moon on pad { diameter 300, halves, metal skin }
site { push 100 N at 0.2 m }
`, Everything&^WithPlan)
	list := checksOf(j, check.Plate)
	if len(list) != 1 || list[0].Verdict != check.Holds || !(list[0].Found > 0) {
		t.Errorf("%+v", list)
	}
}
