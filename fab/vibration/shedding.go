// Package vibration works out what vortices shed in a steady wind do to a slender post,
// EN 1991-1-4 Annex E, and whether the metal tires of it, EN 1993-1-9.
//
// Lengths are in mm, masses in kg, masses per length in kg/m, frequencies in Hz, speeds
// in m/s, stresses in MPa, moments in N mm.
package vibration

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// The figures of EN 1991-1-4 Annex E and of the air, 4.5 and 7.9.1.
const (
	strouhal     = 0.18  // circular cylinder, Table E.1
	ballStrouhal = 0.2   // sphere; no Eurocode rule, from memory
	density      = 1.25  // kg/m3
	viscosity    = 15e-6 // m2/s
	mostSpeed    = 1.25  // v_crit over v_m above which it need not be looked at, E.1.2
	modeFactor   = 0.13  // K of a cantilever, Table E.5; 5/(12 pi) of the mode (s/l)2
	mostWidth    = 0.6   // K_w, E.1.5.2.5
	bandwidth    = 0.3   // epsilon_0, E.1.5.2.6
	secondsYear  = 3.2e7 // E.1.5.2.6
	leastCycles  = 1e4   // E.1.5.2.6
	usualSpeed   = 0.2   // v_0 over v_m, E.1.5.2.6
	rounding     = 1e-12 // where the iteration has come to rest
)

// FullLift is v_crit over v_m up to which c_lat is c_lat0, EN 1991-1-4 Table E.3.
const FullLift = 0.83

// Critical returns the wind speed in m/s at which vortices shed from a tube of an outside
// diameter keep time with a frequency: v_crit = b n / 0.18, EN 1991-1-4 (E.2).
func Critical(diameter, frequency float64) float64 { return diameter / 1e3 * frequency / strouhal }

// CriticalOfBall returns the same for a ball, with Strouhal's number 0.2. There is no
// Eurocode rule for spheres (from memory): advice, not a check.
func CriticalOfBall(diameter, frequency float64) float64 {
	return diameter / 1e3 * frequency / ballStrouhal
}

// A Tube is a post that sheds vortices while its foot is held.
type Tube struct {
	Diameter  float64 // mm, outside
	Length    float64 // mm, l, from the foot to the free end
	Frequency float64 // Hz
	Mass      float64 // kg/m, m_e, equivalent (see EquivalentMass)
	Damping   float64 // delta_s, logarithmic decrement of the structure: 0.012 for welded steel

	// Wind is the mean wind v_m in m/s where it moves most; 0 where it is not known,
	// which takes the worst there can be.
	Wind float64
}

// A Response is how far a tube swings, with the terms, in the symbols of EN 1991-1-4.
type Response struct {
	Critical  float64 // m/s, v_crit
	Excited   bool    // v_crit is not above 1.25 v_m: E.1.2
	Scruton   float64 // Sc
	Reynolds  float64 // at v_crit
	Lift      float64 // c_lat
	Effective float64 // L_j / b, the length over which vortices keep time
	Kw        float64 // effective correlation length factor
	Ratio     float64 // y_F,max / b
	Amplitude float64 // mm, y_F,max at the free end
}

// Respond returns how far the tube swings at its critical speed by the first approach,
// E.1.5.2:
//
//	y / b = K K_w c_lat / (St2 Sc),  Sc = 2 m_e delta_s / (rho b2)
//	K_w   = 3 x (1 - x + x2 / 3), at most 0.6, x = L_j / l
//	L_j   = 6 b for y < 0.1 b, (4.8 + 12 y / b) b, 12 b for y > 0.6 b
//
// K and K_w are those of a mode that goes with the square of the height. L_j depends on y,
// which is found by going on from 0 until both agree. c_lat is 0.7 up to Re 3e5 and 0.2
// from 5e5 on, linear in log Re between (from memory); above v_crit 0.83 v_m it falls as
// (3 - 2.4 v_crit / v_m).
//
// A ball at the free end covers the length that is the most at work, so that this is on
// the high side where one is there.
func (t Tube) Respond() (Response, error) {
	if err := t.check(); err != nil {
		return Response{}, fmt.Errorf("vortex shedding: %w", err)
	}
	b := t.Diameter / 1e3
	r := shed(t.Diameter, t.Frequency, t.Wind)
	r.Scruton = 2 * t.Mass * t.Damping / (density * b * b)
	// y grows with L_j and L_j with y, both within bounds: the steps only go up.
	for range 1000 {
		r.Effective = correlation(r.Ratio)
		r.Kw = widthFactor(r.Effective * t.Diameter / t.Length)
		ratio := modeFactor * r.Kw * r.Lift / (strouhal * strouhal * r.Scruton)
		if ratio <= r.Ratio*(1+rounding) {
			break
		}
		r.Ratio = ratio
	}
	r.Amplitude = r.Ratio * t.Diameter
	return r, nil
}

func (t Tube) check() error {
	if t.Wind != 0 {
		if err := domain.Check(domain.Speed("mean wind", t.Wind)); err != nil {
			return err
		}
	}
	return domain.Check(domain.Length("diameter", t.Diameter), domain.Length("length", t.Length), domain.Frequency("frequency", t.Frequency),
		domain.Value{Name: "mass per length", X: t.Mass, Least: 1e-3, Most: 1e9}, domain.Value{Name: "damping", X: t.Damping, Least: 1e-4, Most: 10})
}

// steadyLift returns c_lat,0 of Fig. E.2 for Reynolds' number.
func steadyLift(re float64) float64 {
	const low, high, from, to = 0.7, 0.2, 3e5, 5e5
	switch {
	case re <= from:
		return low
	case re >= to:
		return high
	}
	return low + (high-low)*math.Log(re/from)/math.Log(to/from)
}

// correlation returns L_j / b of Table E.4 (from memory).
func correlation(y float64) float64 {
	switch {
	case y < 0.1:
		return 6
	case y > 0.6:
		return 12
	}
	return 4.8 + 12*y
}

// widthFactor returns K_w of a cantilever for L_j / l.
func widthFactor(x float64) float64 {
	x = min(x, 1)
	return min(mostWidth, 3*x*(1-x+x*x/3))
}

// EquivalentMass returns m_e in kg/m of a post of an even mass per length with a mass in
// kg at its free end, for a mode that goes with the square of the height: m + 5 M / l
// (derived; case K26). The length is in mm.
func EquivalentMass(even, tip, length float64) float64 {
	if !(length > 0) {
		return even
	}
	return even + 5*tip/(length/1e3)
}

// FootMoment returns the moment in N mm at the foot while the post is as far out as it
// goes: the inertia load m (2 pi n)2 Phi y on each length, with the mode (s/l)2, and on
// the mass at the free end. Even is in kg/m, tip in kg.
func (t Tube) FootMoment(r Response, even, tip float64) float64 {
	l := t.Length / 1e3
	omega := 2 * math.Pi * t.Frequency
	return (even*l*l/4 + tip*l) * omega * omega * r.Amplitude // kg m / s2 mm
}

// Cycles returns how often the post swings so in years of service, E.1.5.2.6 (from
// memory): 2 T n epsilon_0 (v_crit / v_0)2 e^-(v_crit / v_0)2, at least 1e4, with T of
// 3.2e7 s a year and v_0 = 0.2 v_m. Without a known wind v_0 is v_crit, which gives the
// most.
func (t Tube) Cycles(years float64) float64 {
	x := 1.0
	if t.Wind > 0 {
		x = Critical(t.Diameter, t.Frequency) / (usualSpeed * t.Wind)
	}
	return max(leastCycles, 2*secondsYear*max(0, years)*t.Frequency*bandwidth*x*x*math.Exp(-x*x))
}

// shed returns how eddies excite a body of a diameter in mm at a frequency in Hz, in a
// wind in m/s; 0 for a wind that is not known.
func shed(diameter, frequency, wind float64) Response {
	r := Response{Critical: Critical(diameter, frequency), Excited: true}
	r.Reynolds = diameter / 1e3 * r.Critical / viscosity
	r.Lift = steadyLift(r.Reynolds)
	if wind > 0 {
		switch x := r.Critical / wind; {
		case x > mostSpeed:
			r.Excited, r.Lift = false, 0
		case x > FullLift:
			r.Lift *= min(1, max(0, 3-2.4*x)) // the line begins at 1.008
		}
	}
	return r
}
