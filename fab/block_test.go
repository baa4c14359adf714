package fab

import (
	"fmt"
	"math"
	"testing"

	"stabile/fab/check"
	"stabile/fab/strength"
	"stabile/param/design"
	"stabile/param/quantity"
)

// onBlock is a post on a plate that is bolted to a block of a stone, 500 mm high, and pushed.
func onBlock(stone, concrete string) string {
	return fmt.Sprintf(`units mm
metal skin { alloy low-carbon-steel, thickness 2 }
metal slab { alloy low-carbon-steel, thickness 12 }
base pad {
  plate 300 by 240, metal slab
  anchors 4, anchor_diameter 14, anchor_edge 40, anchor_depth 100%s
  block 600 by 400 by 500, block_material %s
}
post mast on pad { diameter 80, length 900, metal skin }
site { push 300 N at 1.2 m }
`, concrete, stone)
}

// TestOnBlock holds standing on a block, and the pull on its anchors, against statics by hand.
func TestOnBlock(t *testing.T) {
	j := buildWith(t, onBlock("concrete", ", concrete 25 MPa"), WithStrength)
	const push, height, high = 300.0, 1200.0, 500.0
	block := 0.6 * 0.4 * 0.5 * 2400
	if math.Abs(j.Mass.Block-block) > 1e-9 || j.Mass.Total > 20 || j.Tipping.Anchors != 0 {
		t.Errorf("the block weighs %v, the piece %v, %d anchors hold it to the ground", j.Mass.Block, j.Mass.Total, j.Tipping.Anchors)
	}
	// Over the long side of the block, 200 mm from the middle, on the ground.
	weight := quantity.Gravity * (j.Mass.Total + block)
	if want := weight * 200 / (push * height); math.Abs(j.Tipping.Factor-want) > 1e-6*want {
		t.Errorf("factor %v, by hand %v", j.Tipping.Factor, want)
	}
	if want := 0.3 * weight / push; math.Abs(j.Tipping.Sliding.Factor-want) > 1e-6*want {
		t.Errorf("sliding %v, by hand %v", j.Tipping.Sliding.Factor, want)
	}
	if math.Abs(j.Size.Max.Z-high-12-900) > 1e-6 || math.Abs(j.Size.Depth-400) > 1e-6 {
		t.Errorf("size %+v", j.Size)
	}
	// Over the long side of the plate, 120 mm from its middle, at the top of the block: two
	// anchors 40 mm from the edge and two 200 mm, of which the far ones take
	// M 200 / (2 (40² + 200²)).
	moment := push*(height-high) - quantity.Gravity*j.Mass.Total*120
	want := moment * 200 / (2 * (40*40 + 200*200))
	a := j.Strength.Anchors
	if math.Abs(a.Tension-want) > 1e-4*want {
		t.Errorf("tension %v, by hand %v", a.Tension, want)
	}
	if a.Grip == nil || a.Grip.Edgeless {
		t.Errorf("grip %+v", a.Grip)
	}
	if list := checksOf(j, check.AnchorGround); len(list) != 1 || list[0].Verdict != check.Holds {
		t.Errorf("%+v", list)
	}
}

// TestBlockOfStone: it weighs what stone does, and what anchors hold in it is not decided.
func TestBlockOfStone(t *testing.T) {
	for _, s := range design.Stones[1:] {
		j := buildWith(t, onBlock(string(s), ""), WithStrength)
		if want := 0.12 * s.Density(); math.Abs(j.Mass.Block-want) > 1e-9 {
			t.Errorf("%s weighs %v, want %v", s, j.Mass.Block, want)
		}
		found := false
		for _, c := range j.Checks {
			if why, ok := c.Why.(strength.HoldOfStone); ok && c.ID == check.AnchorGround {
				found = c.Verdict == check.Undecided && why.Of == s && why.Tension > 0
			}
		}
		if !found || j.Verdict == check.Holds {
			t.Errorf("%s: %v", s, j.Checks)
		}
	}
}
