package wind

import "math"

// The averages of wind speed over one open country, as shares of the mean of an hour: Durst
// 1960, the curve of ASCE 7 Fig. C26.5-1 (from memory: 1.52 to 1.53 for 3 s, 1.06 to 1.07 for
// 10 min). ASCE 7 26.11.4 has the mean of an hour by exposure, from which that of 10 min, the
// mean wind of EN 1991-1-4, follows.
const tenMinutes = 1.067

// returns are the mean return periods in years of the maps of ASCE 7-16 by risk category.
var returns = [...]float64{1: 300, 2: 700, 3: 1700, 4: 3000}

// yearly returns the wind of a mean return period in years over that of 50 years: 0.36 + 0.10
// ln(12 T), ASCE 7-16 C26.5 (from memory). Of 700 years it is 1.26, and its square 1.6.
func yearly(years float64) float64 { return 0.36 + 0.10*math.Log(12*years) }

// meanASCE returns the mean wind of 10 min in m/s that comes about once in 50 years, at a
// height in mm, where the map has a gust of 3 s in m/s for a risk category, 0 for the usual:
// the mean of an hour is b (z / 33 ft)^a V, ASCE 7 (26.11-16).
func meanASCE(letter string, gust, height float64, risk int) float64 {
	if risk < 1 || risk >= len(returns) {
		risk = usualRisk
	}
	x := gusty[letter]
	z := max(x.low, height/foot)
	return tenMinutes * x.b * math.Pow(z/33, x.alpha) * gust / yearly(returns[risk])
}

// usualRisk is the risk category of a site that gives none.
const usualRisk = 2
