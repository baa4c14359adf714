package vibration

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// A Swing is a tube that sheds vortices while the whole that it is part of swings in one
// of its modes.
type Swing struct {
	Diameter  float64 // mm, outside
	Exposed   float64 // mm, the length of bare tube
	Frequency float64 // Hz, of the mode
	Mass      float64 // kg, modal: the sum of m phi2, phi the movement where it is 1
	Reach     float64 // the greatest phi on the tube
	Damping   float64 // delta_s
	Wind      float64 // m/s, v_m where it moves most; 0 where it is not known
}

// Respond returns how far the whole swings where phi is 1, E.1.5.2, with the mode itself
// in place of the table's K and K_w (derived): with
//
//	K K_w = integral of phi over L_j / (4 pi integral of phi2),  m_e = M / integral of phi2
//
// the standard's y / b = K K_w c_lat / (St2 Sc) comes to
//
//	y = rho b3 c_lat (integral of phi over L_j) / (8 pi St2 M delta)
//
// The integral is L_j times the greatest phi on the tube, L_j being no longer than the
// bare tube: on the high side. Scruton's number is left out of the response.
func (s Swing) Respond() (Response, error) {
	if err := domain.Check(domain.Length("diameter", s.Diameter), domain.Distance("bare length", s.Exposed), domain.Frequency("frequency", s.Frequency),
		domain.Value{Name: "modal mass", X: s.Mass, Least: 1e-6, Most: 1e9}, domain.Value{Name: "movement", X: s.Reach, Most: 1e3},
		domain.Value{Name: "damping", X: s.Damping, Least: 1e-4, Most: 10}); err != nil {
		return Response{}, fmt.Errorf("vortex shedding: %w", err)
	}
	b := s.Diameter / 1e3
	r := Response{Critical: Critical(s.Diameter, s.Frequency), Excited: true}
	r.Reynolds = b * r.Critical / viscosity
	r.Lift = steadyLift(r.Reynolds)
	if s.Wind > 0 {
		switch x := r.Critical / s.Wind; {
		case x > mostSpeed:
			r.Excited, r.Lift = false, 0
		case x > fullLift:
			r.Lift *= min(1, max(0, 3-2.4*x))
		}
	}
	for range 1000 {
		r.Effective = correlation(r.Ratio * s.Reach)
		length := min(r.Effective*b, s.Exposed/1e3)
		ratio := density * b * b * r.Lift * length * s.Reach / (8 * math.Pi * strouhal * strouhal * s.Mass * s.Damping)
		if ratio <= r.Ratio*(1+rounding) {
			break
		}
		r.Ratio = ratio
	}
	r.Amplitude = r.Ratio * s.Diameter
	return r, nil
}

// Cycles is Tube.Cycles.
func (s Swing) Cycles(years float64) float64 {
	return Tube{Diameter: s.Diameter, Frequency: s.Frequency, Wind: s.Wind}.Cycles(years)
}
