package fab

import (
	"math"

	"stabile/fab/stand"
	"stabile/param/quantity"
)

// mostHeavier is how many times advised ballast is made a step heavier where what was worked
// out falls short on trial.
const mostHeavier = 20

// ballast rounds the ballast that is advised up to what is said of it, and lays it on trial:
// what is advised reaches the target. Where none does there is none to advise.
func (j *Job) ballast(t *stand.Tipping) {
	if !(t.Ballast > 0) {
		return
	}
	w := j.weight()
	was := w.Ballast
	for n := range mostHeavier {
		more := upward(t.Ballast, j.Design.Units, n)
		w.Ballast = was + more
		if tried := stand.TipInWind(t.Footprint, w, j.Design.Site, j.Wind, j.Design.TippingTarget); tried.Reached() {
			t.Ballast = more
			return
		}
	}
	t.Ballast, t.BallastFails = 0, true
}

// upward returns a mass in kg rounded up to whole units of a system, or to three figures
// where it has more, and some such steps more.
func upward(kg float64, units quantity.System, steps int) float64 {
	u, _ := units.UnitOf(quantity.Mass)
	step := 1.0
	for kg/u.Scale >= 1000*step {
		step *= 10
	}
	return (math.Ceil(kg/u.Scale/step-1e-9) + float64(steps)) * step * u.Scale
}
