package wind

import "stabile/fab/calculation"

// Swayed is the gust factor by the frequency that a piece was found to have.
type Swayed struct {
	Frequency float64 // Hz
	Factor    float64
	EN        *GustEN   // of EN 1991-1-4
	ASCE      *GustASCE // of ASCE 7
}

// Source is the clause.
func (s *Swayed) Source() string {
	switch {
	case s.EN != nil && s.EN.Rigid && s.Factor == 1:
		return "EN 1991-1-4 6.2 (1); for a sculpture common practice, no source"
	case s.EN != nil:
		return "EN 1991-1-4 Annex B"
	case s.ASCE != nil && s.Frequency < 1:
		return "ASCE 7 26.11.5"
	}
	return "ASCE 7 26.11.1, 26.11.4"
}

// The terms of gusts.
const (
	TermFrequency  calculation.Term = "gust-frequency"
	TermBackground calculation.Term = "gust-background"
	TermResonance  calculation.Term = "gust-resonance"
	TermPeakFactor calculation.Term = "gust-peak"
	TermGustFound  calculation.Term = "gust-found"
	TermDamping    calculation.Term = "gust-damping"
)

// Lines returns the terms of the factor.
func (s *Swayed) Lines() []calculation.Line {
	src := s.Source()
	list := []calculation.Line{{Symbol: "n", Name: TermFrequency, Value: s.Frequency, Unit: "Hz", Source: "the frame's lowest mode"}}
	switch {
	case s.EN != nil:
		list = append(list,
			calculation.Line{Symbol: "B2", Name: TermBackground, Value: s.EN.B2, Source: src},
			calculation.Line{Symbol: "delta", Name: TermDamping, Value: s.EN.Delta, Source: "EN 1991-1-4 F.5, Table F.2 (from memory)"},
			calculation.Line{Symbol: "R2", Name: TermResonance, Value: s.EN.R2, Source: src},
			calculation.Line{Symbol: "k_p", Name: TermPeakFactor, Value: s.EN.Kp, Source: src},
			calculation.Line{Symbol: "c_s c_d", Name: TermGustFound, Value: s.Factor, Source: src})
	case s.ASCE != nil:
		list = append(list,
			calculation.Line{Symbol: "Q2", Name: TermBackground, Value: s.ASCE.Q * s.ASCE.Q, Source: src},
			calculation.Line{Symbol: "beta", Name: TermDamping, Value: WeldedDamping, Source: "ASCE 7 C26.11 (from memory)"},
			calculation.Line{Symbol: "R2", Name: TermResonance, Value: s.ASCE.R * s.ASCE.R, Source: src},
			calculation.Line{Symbol: "g_R", Name: TermPeakFactor, Value: s.ASCE.GR, Source: src},
			calculation.Line{Symbol: "G", Name: TermGustFound, Value: s.Factor, Source: src})
	}
	return list
}

// Mean returns the mean force coefficient of what the wind meets, by area.
func (w *Wind) Mean() float64 {
	area, sum := 0.0, 0.0
	for i := range w.Items {
		area, sum = area+w.Items[i].Area, sum+w.Items[i].Area*w.Items[i].Coefficient
	}
	if area == 0 {
		return 0
	}
	return sum / area
}
