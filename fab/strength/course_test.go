package strength_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/strength"
	"stabile/param/quantity"
	"stabile/param/written"
)

// TestRoundSeam checks the ring of weld between two courses of a cantilever by hand: a
// mast with a push at its head, by statics, the weld as a line, and the allowance for a
// butt through the whole of the sheet.
func TestRoundSeam(t *testing.T) {
	const push, length, diameter, thick = 400.0, 3000.0, 150.0, 1.5
	for _, tt := range []struct {
		courses string
		along   float64 // mm, of the lowest round seam, which is the worst
	}{
		{"courses 2", 1500}, {"courses 3", 1000}, {"courses 700 mm", 600},
	} {
		d := written.Design(t, fmt.Sprintf(`
units mm
metal skin { alloy low-carbon-steel, thickness 1.5 mm }
metal slab { alloy low-carbon-steel, thickness 30 mm }
base pad { plate 4000 by 4000, metal slab }
post mast on pad { diameter 150, length 3000, head open, metal skin, %s }
site { push 400 N at 3029 mm }
`, tt.courses))
		j, wrong := fab.Build(d, fab.WithStrength)
		require.NoError(t, wrong.Err())
		var found []strength.Weld
		for _, w := range j.Strength.Welds {
			if w.Where == check.Round {
				found = append(found, w)
			}
		}
		require.Len(t, found, 1, tt.courses)
		w := found[0]
		require.InDelta(t, tt.along, w.Along, 1e-6)
		// Statics at the seam: what is above it weighs on it, and the push bends it.
		mean := diameter - thick
		area := math.Pi * mean * thick
		weight := area * (length - tt.along) * 7850e-9 * quantity.Gravity
		bending := j.Strength.Amplification * push * (length - 1 - tt.along) // at 3029 mm over the ground, on a plate of 30 mm
		across := weight/(math.Pi*mean) + bending/(math.Pi*mean*mean/4)
		along := push / (math.Pi * mean)
		want := math.Sqrt(across*across + 3*along*along)
		require.InEpsilon(t, want, w.Line, 0.003, tt.courses) // weld metal and its weight aside
		require.Equal(t, thick, w.Throat)
		require.InEpsilon(t, j.Parts[1].Metal.Yield/1.67, w.Allowed, 1e-9) // AISC 360 Table J2.5, E70 carrying more
		require.InEpsilon(t, w.Line/thick/w.Allowed, w.Ratio, 1e-9)
	}
}
