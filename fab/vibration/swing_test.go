package vibration_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab/vibration"
)

// TestSwingIsTube: of a cantilever whose mode goes with the square of the height, the
// response by the mode is that by the standard's own table, whose K is 5 / (12 pi) rounded
// to 0.13, and whose K_w is at most 0.6.
func TestSwingIsTube(t *testing.T) {
	square := make([]float64, 201)
	for i := range square {
		square[i] = math.Pow(float64(i)/200, 2)
	}
	const rounded = 5 / (12 * math.Pi) / 0.13
	for _, l := range []float64{300, 600, 1500, 3000, 8000} {
		tube := vibration.Tube{Diameter: 60, Length: l, Frequency: 4, Mass: 9, Damping: 0.012}
		was, err := tube.Respond()
		require.NoError(t, err)
		swing := vibration.Swing{Diameter: 60, Exposed: l, Frequency: 4, Mass: 9 * l / 1e3 / 5, Shape: square, Damping: 0.012}
		is, err := swing.Respond()
		require.NoError(t, err)
		if is.Effective == was.Effective {
			require.InEpsilon(t, rounded, is.Amplitude/was.Amplitude, 1e-3, "l %v", l)
		}
	}
}

// TestSwingTurned: which end is named first makes no difference, and a tube that moves more
// swings more.
func TestSwingTurned(t *testing.T) {
	s := vibration.Swing{Diameter: 60, Exposed: 900, Frequency: 9, Mass: 5, Shape: []float64{0, 0.1, 0.4, 0.7, 0.6}, Damping: 0.012}
	is, err := s.Respond()
	require.NoError(t, err)
	s.Shape = []float64{0.6, 0.7, 0.4, 0.1, 0}
	turned, err := s.Respond()
	require.NoError(t, err)
	require.InEpsilon(t, is.Ratio, turned.Ratio, 1e-12)
	s.Shape = []float64{0.7, 0.7, 0.5, 0.1, 0}
	more, err := s.Respond()
	require.NoError(t, err)
	require.Greater(t, more.Ratio, is.Ratio)
	s.Shape = []float64{1}
	_, err = s.Respond()
	require.Error(t, err)
}
