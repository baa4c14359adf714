package wind

import (
	"fmt"

	"stabile/fab/internal/domain"
)

// A Surface is how rough a round section is, in the words of Fig. 29.4-1 of ASCE 7.
type Surface int

// The surfaces.
const (
	ModeratelySmooth Surface = iota
	Rough                    // ribs of 2 % of the diameter
	VeryRough                // ribs of 8 % of the diameter
)

// A RoundForce is the force per area on a round section, and what it is made of.
type RoundForce struct {
	Low, High float64 // C_f where D sqrt(q) is at most 5.3 (m, N/m2), and above
	Threshold float64 // Pa, the q at which D sqrt(q) is 5.3
	Pressure  float64 // Pa: force per projected area, without the gust factor
	C         float64 // Pressure over q: the coefficient that goes with it
}

// roundRows are of Fig. 29.4-1 of ASCE 7-16, round sections, at h/D of 1, 7 and 25.
var (
	roundSlenderness = [3]float64{1, 7, 25}
	roundLow         = [3]float64{0.7, 0.8, 1.2}
	roundHigh        = [...][3]float64{ModeratelySmooth: {0.5, 0.6, 0.7}, Rough: {0.7, 0.8, 0.9}, VeryRough: {0.8, 1.0, 1.2}}
)

// RoundCoefficients returns the two coefficients of Fig. 29.4-1 of ASCE 7-16 for a
// round section of the given h/D: low where D sqrt(q) is at most 5.3, high above.
// Between the columns it is linear, beyond them held.
func RoundCoefficients(s Surface, slenderness float64) (low, high float64) {
	if s < 0 || int(s) >= len(roundHigh) {
		s = VeryRough
	}
	return between(roundSlenderness, roundLow, slenderness), between(roundSlenderness, roundHigh[s], slenderness)
}

// between reads a table of three columns.
func between(at, value [3]float64, x float64) float64 {
	switch {
	case !(x > at[0]):
		return value[0]
	case x >= at[2]:
		return value[2]
	case x < at[1]:
		return value[0] + (value[1]-value[0])*(x-at[0])/(at[1]-at[0])
	}
	return value[1] + (value[2]-value[1])*(x-at[1])/(at[2]-at[1])
}

// Round returns the force per projected area in Pa on a round section of a diameter
// in mm under a velocity pressure q in Pa:
//
//	max(q C_high, min(q, q_t) C_low),  q_t = (5.3 / D)2, D in m
//
// The figure itself has C_f drop where q passes q_t, so that more wind would give less
// force. This is the greatest q C_f of all pressures up to q (derived; case K43): the
// force never falls as q grows. As the diameter grows the force on a length of the
// section makes no jump; above the threshold it falls slowly, as 1/D, until C_high
// governs, as drag does.
func Round(s Surface, slenderness, diameter, q float64) (RoundForce, error) {
	if err := domain.Check(
		domain.Value{Name: "h/D", X: slenderness, Least: 0, Most: 1e9}, domain.Length("diameter", diameter),
		domain.Value{Name: "velocity pressure", X: q, Least: 0, Most: 1e6},
	); err != nil {
		return RoundForce{}, fmt.Errorf("round section: %w", err)
	}
	low, high := RoundCoefficients(s, slenderness)
	return roundForce(low, high, diameter, q), nil
}

func roundForce(low, high, diameter, q float64) RoundForce {
	f := RoundForce{Low: low, High: high}
	root := asceRegime / (diameter / 1e3)
	f.Threshold = root * root
	f.Pressure = max(q*f.High, min(q, f.Threshold)*f.Low)
	f.C = f.Low
	switch {
	case q*f.High >= f.Pressure && q > f.Threshold:
		f.C = f.High
	case q > f.Threshold:
		f.C = f.Pressure / q
	}
	return f
}
