package stand_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame/trial"
	"stabile/fab/solid"
	"stabile/fab/stand"
	"stabile/fab/wind"
	"stabile/param/design"
)

// TestWindToTip: at the speed found the factor is 1, to half a hundredth.
func TestWindToTip(t *testing.T) {
	for _, site := range []*design.Site{nil, {Slope: 0.03}, {Wind: 30, Method: design.ASCE7, Exposure: "B"}, {Wind: 30, Method: design.EN1991, Terrain: "III"}} {
		b := trial.New(1.5)
		plate := b.Plate(500, 500, 10)
		mast := b.Stand("mast", plate, r3.Vec{Z: 10}, r3.Vec{Z: 1510}, 80, 80)
		b.Tip("moon", mast, 200, r3.Vec{})
		b.Design.Site = site
		foot := stand.Plate(plate.Base)
		w := stand.Weight{Mass: 45, CG: r3.Vec{Z: 700}, Top: 1900}
		speed, by, err := stand.WindToTip(&b.Design, solid.Bodies(&b.Design), foot, w)
		require.NoError(t, err)
		require.Greater(t, speed, 5.0)
		at := design.Site{Wind: speed, Method: by, Exposure: "C", Terrain: "II"}
		if site != nil {
			at.Slope = site.Slope
			if site.Exposure != "" {
				at.Exposure = site.Exposure
			}
			if site.Terrain != "" {
				at.Terrain = site.Terrain
			}
		}
		b.Design.Site = &at
		blown, err := wind.On(&b.Design, solid.Bodies(&b.Design), wind.Options{Free: true})
		require.NoError(t, err)
		require.InEpsilon(t, 1, stand.TipInWind(foot, w, &at, blown, 0).Factor, 5e-3)
	}
}
