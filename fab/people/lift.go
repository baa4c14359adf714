package people

import (
	"fmt"
	"math"

	"stabile/fab/check"
	"stabile/fab/internal/domain"
)

// A Grip is how well the hands hold a load, the coupling of the NIOSH equation.
type Grip int

// The grips: with handles; without, but with fingers bent under it; and a smooth round
// thing, such as a tube or a ball.
const (
	Good Grip = iota
	Fair
	Poor
)

// A Lift is a lift by one person, who stands with both feet and uses both hands.
type Lift struct {
	Reach     float64 // mm, H: level, from between the ankles to the hands
	Start     float64 // mm, V: the hands above the floor at the start
	Rise      float64 // mm, D: how far they travel up or down
	Twist     float64 // rad, A: from straight ahead
	Grip      Grip
	Frequency float64 // FM, 0 to 1: 1 for a lift now and then; 0 is 1
}

// A LiftLimit is the recommended weight limit of the revised NIOSH equation with its
// multipliers.
type LiftLimit struct {
	HM, VM, DM, AM, FM, CM float64
	Mass                   float64 // kg, RWL; 0 where nothing should be lifted so
}

// Use returns the lifting index of a mass in kg: mass over limit, 1 the limit. It is
// check.Never for a lift that should not be.
func (l LiftLimit) Use(mass float64) float64 {
	return check.Share(mass, l.Mass)
}

// Limit returns the mass that one person should lift so at most, by the revised NIOSH
// equation (Waters and others 1993):
//
//	RWL = 23 kg x HM x VM x DM x AM x FM x CM
//	HM = 25 cm / H, at most 1, 0 beyond 63 cm
//	VM = 1 - 0.003 |V - 75 cm|, 0 beyond 175 cm
//	DM = 0.82 + 4.5 cm / D, at most 1, 0 beyond 175 cm
//	AM = 1 - 0.0032 A in degrees, 0 beyond 135
//	CM = 1, 0.95 or 0.90 by the grip; fair is 1 from V 75 cm up
func (l Lift) Limit() (LiftLimit, error) {
	fm := l.Frequency
	if fm == 0 {
		fm = 1
	}
	if err := domain.Check(domain.Distance("reach", l.Reach), domain.Distance("start", l.Start), domain.Distance("rise", l.Rise),
		domain.Value{Name: "twist", X: l.Twist, Most: math.Pi}, domain.Value{Name: "frequency multiplier", X: fm, Least: 0.01, Most: 1},
		domain.Value{Name: "grip", X: float64(l.Grip), Least: float64(Good), Most: float64(Poor)}); err != nil {
		return LiftLimit{}, fmt.Errorf("lift: %w", err)
	}
	const cm, constant = 10, 23
	h, v, d, a := l.Reach/cm, l.Start/cm, l.Rise/cm, l.Twist*180/math.Pi
	m := LiftLimit{FM: fm}
	if h <= 63 {
		m.HM = 25 / max(25, h)
	}
	if v <= 175 {
		m.VM = 1 - 0.003*math.Abs(v-75)
	}
	if d <= 175 {
		m.DM = 0.82 + 4.5/max(25, d)
	}
	if a <= 135 {
		m.AM = 1 - 0.0032*a
	}
	m.CM = [...]float64{Good: 1, Fair: 0.95, Poor: 0.90}[l.Grip]
	if l.Grip == Fair && v >= 75 {
		m.CM = 1
	}
	m.Mass = constant * m.HM * m.VM * m.DM * m.AM * m.FM * m.CM
	return m, nil
}
