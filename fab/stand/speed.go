package stand

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/solid"
	"stabile/fab/wind"
	"stabile/param/design"
	"stabile/param/quantity"
)

// mostWind is the speed in m/s up to which it is looked for what tips the piece.
const mostWind = 150

// WindToTip returns the speed in m/s, in the terms of the site's method, at which the
// wind turns the whole over: factor 1, by its weight and ballast alone, on the slope of
// the site. Where the site gives no method it is ASCE 7, exposure C, for a design in
// inches, and EN 1991-1-4, terrain II, for others. The least design force of a standard
// is left out. It is 0 where no wind up to 150 m/s does, or there is no footprint.
func WindToTip(d *design.Design, bodies []*solid.Body, footprint []r2.Vec, w Weight) (speed float64, by design.WindMethod, err error) {
	if slim(footprint) {
		return 0, by, nil
	}
	var site design.Site
	if d.Site != nil {
		site = *d.Site
	}
	site.Push = 0
	if site.Method == design.NoMethod {
		site.Method = design.EN1991
		if d.Units == quantity.Inch {
			site.Method = design.ASCE7
		}
	}
	switch {
	case site.Method == design.ASCE7 && site.Exposure == "":
		site.Exposure = "C"
	case site.Method == design.EN1991 && site.Terrain == "":
		site.Terrain = "II"
	}
	blown := *d
	blown.Site = &site
	factor := func(speed float64) (float64, error) {
		site.Wind = speed
		blows, err := wind.On(&blown, bodies, wind.Options{Free: true})
		if err != nil {
			return 0, err
		}
		t := tip(footprint, w, &site, blows, 0)
		if !t.Loaded {
			return math.Inf(1), nil
		}
		return t.Factor, nil
	}
	// The force never falls as the speed rises, so that the factor never rises. It goes
	// about with the square of the speed.
	low, high := 0.0, float64(mostWind)
	switch f, err := factor(high); {
	case err != nil:
		return 0, by, err
	case f > 1:
		return 0, site.Method, nil
	}
	speed = 30
	for range 40 {
		if high-low <= 1e-3*high {
			break
		}
		f, err := factor(speed)
		if err != nil {
			return 0, by, err
		}
		if f > 1 {
			low = speed
		} else {
			high = speed
		}
		// Where that speed is still between the two, the square of the speed leads nearer;
		// a little beyond it, so that both sides close in.
		lead := 1 + 4e-4
		if f <= 1 {
			lead = 1 - 4e-4
		}
		if speed *= math.Sqrt(f) * lead; !(speed > low && speed < high) {
			speed = (low + high) / 2
		}
	}
	return low, site.Method, nil
}
