package vibration

import (
	"fmt"
	"math"
	"slices"

	"stabile/fab/internal/domain"
)

// A Swing is a tube that sheds vortices while the whole that it is part of swings in one
// of its modes.
type Swing struct {
	Diameter  float64 // mm, outside
	Exposed   float64 // mm, the length of bare tube
	Frequency float64 // Hz, of the mode
	Mass      float64 // kg, modal: the sum of m phi2, phi the movement where it is 1
	Damping   float64 // delta_s
	Wind      float64 // m/s, v_m where it moves most; 0 where it is not known

	// Shape is |phi| on the tube, evenly spaced from one end of the bare length to the
	// other; at least two values.
	Shape []float64
}

// reach returns the greatest phi on the tube.
func (s Swing) reach() float64 { return slices.Max(s.Shape) }

// over returns the greatest integral of phi in mm over a stretch of the bare length so long,
// at most K_w 0.6 of that over all of it, E.1.5.2.5.
func (s Swing) over(length float64) float64 {
	n := len(s.Shape) - 1
	step := s.Exposed / float64(n)
	sum := make([]float64, n+1) // from one end on
	for i := range n {
		sum[i+1] = sum[i] + step*(s.Shape[i]+s.Shape[i+1])/2
	}
	upTo := func(x float64) float64 {
		i := min(int(x/step), n-1)
		part := x/step - float64(i)
		end := s.Shape[i] + part*(s.Shape[i+1]-s.Shape[i])
		return sum[i] + part*step*(s.Shape[i]+end)/2
	}
	length = min(length, s.Exposed)
	if !(step > 0) || !(length > 0) {
		return 0
	}
	most := 0.0
	for i := range n + 1 {
		at := float64(i) * step
		// From a value on, or up to one: one of those is the greatest.
		for _, from := range [...]float64{at, at - length} {
			from = max(0, min(from, s.Exposed-length))
			most = max(most, upTo(from+length)-upTo(from))
		}
	}
	return min(most, mostWidth*sum[n])
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
// L_j lies where the integral is greatest, on the bare tube alone; K_w is at most 0.6, E.1.5.2.5.
// Scruton's number is left out of the response.
func (s Swing) Respond() (Response, error) {
	if err := domain.Check(domain.Length("diameter", s.Diameter), domain.Distance("bare length", s.Exposed), domain.Frequency("frequency", s.Frequency),
		domain.Value{Name: "modal mass", X: s.Mass, Least: 1e-6, Most: 1e9}, domain.Value{Name: "points of the mode", X: float64(len(s.Shape)), Least: 2, Most: 1e6},
		domain.Value{Name: "damping", X: s.Damping, Least: 1e-4, Most: 10}); err != nil {
		return Response{}, fmt.Errorf("vortex shedding: %w", err)
	}
	for _, phi := range s.Shape {
		if err := domain.Check(domain.Value{Name: "movement", X: phi, Most: 1e3}); err != nil {
			return Response{}, fmt.Errorf("vortex shedding: %w", err)
		}
	}
	b := s.Diameter / 1e3
	r := shed(s.Diameter, s.Frequency, s.Wind)
	for range 1000 {
		r.Effective = correlation(r.Ratio * s.reach())
		ratio := density * b * b * r.Lift * s.over(r.Effective*s.Diameter) / 1e3 / (8 * math.Pi * strouhal * strouhal * s.Mass * s.Damping)
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
