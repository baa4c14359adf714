// Package quake works out what an earthquake does to a piece that stands on the ground or
// on a building: ASCE 7 chapters 13 and 15, and EN 1998-1 4.3.5.
//
// Forces are in N, lengths in mm, accelerations in shares of g.
package quake

import (
	"fmt"

	"stabile/fab/check"
	"stabile/fab/internal/domain"
)

// A Site is what the maps and the code say of the place.
type Site struct {
	Short      float64 // S_DS, in g
	One        float64 // S_1, in g
	Importance float64 // I_e
}

func (s Site) check() error {
	return domain.Check(domain.Value{Name: "S_DS", X: s.Short, Most: 10}, domain.Value{Name: "S_1", X: s.One, Most: 10},
		domain.Value{Name: "importance", X: s.Importance, Least: 0.5, Most: 3})
}

// A System is a row of ASCE 7 Table 15.4-2.
type System struct {
	R, Overstrength, Deflection float64
	Source                      string
	FromMemory                  bool
}

// The systems that a sculpture may be taken for. In doubt it is Other.
var (
	Monument = System{2, 2, 2, "ASCE 7 Table 15.4-2, amusement structures and monuments", false}
	Sign     = System{3, 1.75, 3, "ASCE 7 Table 15.4-2, signs", true}
	Other    = System{1.25, 2, 2.5, "ASCE 7 Table 15.4-2, all others", false}
)

// A Shear is the level force of an earthquake with what it comes from.
type Shear struct {
	Rigid bool    // the period is under 0.06 s, or it is taken for it
	Cs    float64 // share of the weight: C_s, or 0.30 S_DS I_e of a rigid piece
	Force float64 // N, strength level, at the centre of gravity
}

// Base returns the base shear of a piece on the ground of a weight in N and a lowest
// period in s, ASCE 7-16 15.4.1 and 15.4.2:
//
//	T < 0.06 s:  V = 0.30 S_DS W I_e
//	else:        V = C_s W,  C_s = S_DS / (R / I_e),
//	             at least 0.044 S_DS I_e and 0.03 (from memory),
//	             and 0.8 S_1 / (R / I_e) where S_1 >= 0.6 (from memory)
//
// The drop of C_s at long periods is not counted on.
func (s Site) Base(weight, period float64, y System) (Shear, error) {
	if err := s.check(); err != nil {
		return Shear{}, fmt.Errorf("earthquake: %w", err)
	}
	if err := domain.Check(domain.Weight("weight", weight), domain.Value{Name: "period", X: period, Most: 1e3}, domain.Value{Name: "R", X: y.R, Least: 1, Most: 10}); err != nil {
		return Shear{}, fmt.Errorf("earthquake: %w", err)
	}
	const stiff = 0.06 // s
	v := Shear{Rigid: period < stiff}
	if v.Rigid {
		v.Cs = 0.30 * s.Short * s.Importance
	} else {
		v.Cs = max(s.Short/(y.R/s.Importance), 0.044*s.Short*s.Importance, 0.03)
		if s.One >= 0.6 {
			v.Cs = max(v.Cs, 0.8*s.One/(y.R/s.Importance))
		}
	}
	v.Force = v.Cs * weight
	return v, nil
}

// A Component is a piece fixed on a building, with the factors of ASCE 7-16 Tables 13.5-1
// and 13.6-1.
type Component struct {
	Amplification float64 // a_p
	Response      float64 // R_p
	Importance    float64 // I_p
	Height        float64 // z/h, of where it is fixed: 0 the ground, 1 the roof
}

// Force returns F_p in N, of a weight in N, ASCE 7-16 (13.3-1) to (13.3-3):
//
//	F_p = 0.4 a_p S_DS W (1 + 2 z/h) / (R_p / I_p), 0.3 to 1.6 S_DS I_p W
//
// ASCE 7-22 has another formula, which is not here.
func (c Component) Force(s Site, weight float64) (float64, error) {
	if err := s.check(); err != nil {
		return 0, fmt.Errorf("earthquake: %w", err)
	}
	if err := domain.Check(domain.Weight("weight", weight), domain.Value{Name: "a_p", X: c.Amplification, Least: 0.1, Most: 10}, domain.Value{Name: "R_p", X: c.Response, Least: 0.5, Most: 20},
		domain.Value{Name: "I_p", X: c.Importance, Least: 0.5, Most: 3}, domain.Value{Name: "z/h", X: c.Height, Most: 1}); err != nil {
		return 0, fmt.Errorf("earthquake: %w", err)
	}
	unit := s.Short * c.Importance * weight
	f := 0.4 * c.Amplification * s.Short * weight * (1 + 2*c.Height) / (c.Response / c.Importance)
	return min(max(f, 0.3*unit), 1.6*unit), nil
}

// Dead returns the factor on weight that holds the piece: 0.9 - 0.2 S_DS, at least 0, ASCE 7
// 2.3.6.
func (s Site) Dead() float64 { return max(0, 0.9-0.2*s.Short) }

// A Stand is how a piece that is not held down stands in an earthquake.
type Stand struct {
	Overturning float64 // N mm, V times the height of the centre of gravity
	Restoring   float64 // N mm, Dead times weight times lever
	Tips        float64 // use, 1 the limit
	Friction    float64 // coefficient that keeps it from sliding: C_s / Dead
	Rocks       float64 // g, the steady acceleration at which it lifts an edge: lever / height
	Ground      float64 // g, 0.4 S_DS, about the peak of the ground
}

// Stands returns how a piece of a weight in N stands under a base shear, with its centre of
// gravity so high and so far within the nearest edge, in mm. A lever below 0 counts as 0.
// Friction alone is not accepted as a way to hold components (ASCE 7 13.4, from memory): a
// piece that would slide is to be anchored.
func (s Site) Stands(v Shear, weight, height, lever float64) (Stand, error) {
	if err := s.check(); err != nil {
		return Stand{}, fmt.Errorf("earthquake: %w", err)
	}
	if err := domain.Check(domain.Weight("weight", weight), domain.Length("height of the centre of gravity", height), domain.Offset("lever", lever),
		domain.Weight("base shear", v.Force), domain.Ratio("C_s", v.Cs)); err != nil {
		return Stand{}, fmt.Errorf("earthquake: %w", err)
	}
	lever = max(0, lever)
	st := Stand{
		Overturning: v.Force * height, Restoring: s.Dead() * weight * lever,
		Rocks: lever / height, Ground: 0.4 * s.Short,
	}
	st.Tips, st.Friction = check.Share(st.Overturning, st.Restoring), check.Share(v.Cs, s.Dead())
	return st, nil
}

// A European is a site by EN 1998-1.
type European struct {
	Ground float64 // alpha, a_g over g
	Soil   float64 // S
}

// Element returns the acceleration S_a in g of an element, EN 1998-1 (4.25): alpha S (3 (1 +
// z/H) / (1 + (1 - T_a/T_1)2) - 0.5), at least alpha S. The height z/H is 0 on the ground;
// T_a/T_1 is its period over the building's, 1 the worst, which is to be taken on the
// ground, where there is no building.
func (e European) Element(height, periods float64) (float64, error) {
	if err := domain.Check(domain.Value{Name: "alpha", X: e.Ground, Most: 10}, domain.Value{Name: "S", X: e.Soil, Least: 0.5, Most: 5},
		domain.Value{Name: "z/H", X: height, Most: 1}, domain.Value{Name: "T_a/T_1", X: periods, Most: 1e6}); err != nil {
		return 0, fmt.Errorf("earthquake: %w", err)
	}
	unit := e.Ground * e.Soil
	apart := 1 - periods
	return max(unit, unit*(3*(1+height)/(1+apart*apart)-0.5)), nil
}

// The behaviour factors q_a of EN 1998-1 Table 4.4 (from memory).
const (
	Cantilever = 1.0 // signs and what else stands out by itself
	Braced     = 2.0
)

// Force returns F_a = S_a W gamma_a / q_a of EN 1998-1 (4.24) in N, of a weight in N.
func (e European) Force(height, periods, weight, importance, behaviour float64) (float64, error) {
	a, err := e.Element(height, periods)
	if err != nil {
		return 0, err
	}
	if err := domain.Check(domain.Weight("weight", weight), domain.Value{Name: "importance", X: importance, Least: 0.5, Most: 3}, domain.Value{Name: "q_a", X: behaviour, Least: 1, Most: 10}); err != nil {
		return 0, fmt.Errorf("earthquake: %w", err)
	}
	return a * weight * importance / behaviour, nil
}
