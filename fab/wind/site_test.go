package wind_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab/internal/worked"
)

// moon returns the wind on a ball of 400 mm, 2 m up, on a site.
func moon(t *testing.T, site string) met {
	return blown(t, `
base pad { plate 900 by 900, metal slab }
ball moon at (0, 0, 2000) { diameter 400, halves, metal skin }
post stem from pad to moon { diameter 60, metal skin }
site { `+site+` }
`)["moon"]
}

// TestHill puts the factor of worked case K25, a crest of K_zt 2.04, on the pressure: as K_zt by
// ASCE 7 (26.10-1), and as c_o squared by EN 1991-1-4 (4.3).
func TestHill(t *testing.T) {
	var out struct {
		Factor float64 `json:"K_zt"`
	}
	worked.Read(t, "K25", nil, &out)
	require.InDelta(t, 2.04, out.Factor, 0.005)
	for _, site := range []string{"wind 40 m/s, method asce7, exposure C", "wind 26 m/s, method en1991, terrain II"} {
		level := moon(t, site)
		crest := moon(t, fmt.Sprintf("%s, hill %v", site, out.Factor))
		require.InEpsilon(t, out.Factor, crest.Pressure/level.Pressure, 1e-12, site)
		require.InEpsilon(t, math.Sqrt(out.Factor), crest.Mean/level.Mean, 1e-12, site)
		require.InEpsilon(t, out.Factor, crest.side/level.side, 1e-12, site)
	}
}

// TestRisk: by ASCE 7 the speed is the map's for the category, and the pressure stays; by EN 1990
// classes 3 and 4 take K_FI 1.1 (Table B3, from memory).
func TestRisk(t *testing.T) {
	asce := func(risk int) met {
		return moon(t, fmt.Sprintf("wind 40 m/s, method asce7, exposure C, risk %d", risk))
	}
	usual, grave := moon(t, "wind 40 m/s, method asce7, exposure C"), asce(4)
	require.Equal(t, usual.Pressure, grave.Pressure)
	require.Less(t, grave.Mean, usual.Mean, "the same gust that is rarer leaves a weaker wind of 50 years")
	en := func(risk int) float64 {
		return moon(t, fmt.Sprintf("wind 40 m/s, method en1991, terrain II, risk %d", risk)).Pressure
	}
	for risk, factor := range map[int]float64{1: 1, 3: 1.1, 4: 1.1} {
		require.InEpsilon(t, factor, en(risk)/en(2), 1e-12, "risk %d", risk)
	}
}
