package wind_test

import (
	"fmt"

	"stabile/fab/wind"
)

// At 10 m over open country with low hedges (terrain II) a basic wind of 26 m/s
// blows at 26.2 m/s on average; in its gusts it presses with 994 Pa. By hand: c_r =
// 0.19 ln(10 / 0.05) = 1.00668 and I_v = 1 / ln(10 / 0.05) = 0.18874, so that q_p =
// (1 + 7 x 0.18874) x 0.625 x 26.1737^2.
func ExamplePeakPressure() {
	p, err := wind.PeakPressure("II", 26, 10e3)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("mean %.1f m/s, turbulence %.3f, peak %.0f Pa\n", p.Mean, p.Turbulence, p.Pressure)
	// Output: mean 26.2 m/s, turbulence 0.189, peak 994 Pa
}
