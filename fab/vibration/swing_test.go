package vibration_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab/vibration"
)

// TestSwingIsTube: of a cantilever whose mode goes with the square of the height, the
// response by the mode is that by the standard's own table, but for taking the movement at
// the head over all of the short length at work: at least as much, and up to 1 / (1 - x +
// x2 / 3) of it, x = L_j / l.
func TestSwingIsTube(t *testing.T) {
	for _, l := range []float64{1500, 3000, 8000} {
		tube := vibration.Tube{Diameter: 60, Length: l, Frequency: 4, Mass: 9, Damping: 0.012}
		was, err := tube.Respond()
		require.NoError(t, err)
		swing := vibration.Swing{Diameter: 60, Exposed: l, Frequency: 4, Mass: 9 * l / 1e3 / 5, Reach: 1, Damping: 0.012}
		is, err := swing.Respond()
		require.NoError(t, err)
		x := is.Effective * 60 / l
		// K is rounded to 0.13 in the table, from 5 / (12 pi).
		most := (1 / (1 - x + x*x/3)) * 5 / (12 * math.Pi) / 0.13
		require.GreaterOrEqual(t, is.Amplitude, was.Amplitude*0.999, "l %v", l)
		if is.Effective == was.Effective {
			require.InEpsilon(t, most, is.Amplitude/was.Amplitude, 1e-3, "l %v", l)
		}
	}
}
