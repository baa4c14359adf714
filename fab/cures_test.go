package fab

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab/check"
	"stabile/fab/strength"
	"stabile/param/stock"
)

// tripod is a ball of rolled gores on three legs, whose wall people break.
const tripod = `units inch
metal skin { alloy low-carbon-steel, gauge 16 }
metal shell { alloy low-carbon-steel, gauge 16 }
metal slab { alloy low-carbon-steel, thickness 1/2 in }
base pad { disc 36 in, metal slab, anchors 6, anchor_diameter 9/16 in, anchor_edge 1-1/2 in, anchor_depth 6 in, concrete 3000 psi }
ball head at (0, 0, 60 in) { diameter 16 in, gores 12, caps 4 in, metal shell }
repeat i from 0 to 2 {
  post leg[i] from pad to head { at polar(13 in, 120 deg * i + 30 deg), diameter 3 in to 2 in, metal skin }
}
post neck on head { diameter 3 in, length 18 in, lean 12 deg toward 40 deg, metal skin }
site { wind 100 mph, exposure C, method asce7, people leaning, seismic 0, ice 0 in }
`

// crowdOn returns what came of people leaning on a design, and of the load that it does
// not carry.
func crowdOn(t *testing.T, text string) (check.Check, *LoadFails) {
	t.Helper()
	j := buildWith(t, text, Everything)
	var fails *LoadFails
	for _, f := range j.Findings {
		if l, ok := f.Fact.(LoadFails); ok && l.Of == check.People {
			fails = &l
		}
	}
	list := checksOf(j, check.People)
	require.Len(t, list, 1)
	return list[0], fails
}

// Where no gauge helps the wall of a ball of rolled gores, another build is tried, and what
// it is said to bring is what the design comes to that is written so.
func TestCureByBuild(t *testing.T) {
	c, fails := crowdOn(t, tripod)
	require.Equal(t, check.Fails, c.Verdict)
	require.NotNil(t, fails)
	require.NotEmpty(t, fails.Cures)
	cure := fails.Cures[0]
	require.Equal(t, strength.OfDomed, cure.Build)
	require.Equal(t, "head", cure.Of)
	made := strings.NewReplacer("gores 12,", "gores 12, bend domed,", "shell { alloy low-carbon-steel, gauge 16", fmt.Sprintf("shell { alloy low-carbon-steel, gauge %d", cure.Gauge)).Replace(tripod)
	c, fails = crowdOn(t, made)
	require.Equal(t, check.Holds, c.Verdict, "%+v", fails)
	require.InEpsilon(t, cure.Ratio, c.Use(), 0.01) // gores that are domed weigh a little less
}

// pendulum is a ball that hangs from a beam, by a post that a push breaks at its foot.
const pendulum = `units mm
metal skin { alloy low-carbon-steel, thickness 1.5 mm }
metal slab { alloy low-carbon-steel, thickness 12 mm }
base pad { plate 1000 mm by 600 mm, metal slab }
post left on pad { at (-350 mm, 0 mm), diameter 60 mm, length 1800 mm, metal skin }
post right on pad { at (350 mm, 0 mm), diameter 60 mm, length 1800 mm, metal skin }
post beam from left.head to right.head { diameter 60 mm, metal skin }
post string on beam { at 350 mm toward 0 deg, lean 180 deg, diameter 20 mm, length 500 mm, metal skin }
ball bob on string { diameter 240 mm, gores 10, metal skin }
site { push 200 N at 1.2 m, people none, seismic 0, ice 0 mm }
`

// What is said to help brings what is over its limit within it; in a design in mm whose
// sheet goes by no gauge it is a thickness that is sold.
func TestCuresSuffice(t *testing.T) {
	j := buildWith(t, pendulum, Everything)
	told, thick := 0, 0
	for _, f := range j.Findings {
		var cures []strength.Cure
		switch f := f.Fact.(type) {
		case strength.OverLimit:
			cures = f.Cures
		case strength.WallBreaks:
			cures = f.Cures
		}
		for _, c := range cures {
			told++
			require.LessOrEqual(t, c.Ratio, 1.0, "%v: %+v", f.Parts, c)
			require.Zero(t, c.Gauge, "%v: %+v", f.Parts, c)
			if c.Thickness > 0 {
				thick++
				require.Contains(t, stock.MetricSheets, c.Thickness)
			}
		}
	}
	require.Positive(t, thick)
	require.Greater(t, told, thick)
}
