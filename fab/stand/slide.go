package stand

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/param/quantity"
)

// Friction is the coefficient of friction between a steel plate and concrete:
// common practice, no source. Wet stone and ice have less, a rubber mat more.
const Friction = 0.3

// Sliding is the whole against sliding along the ground without anchors: what
// friction holds over what drives it.
type Sliding struct {
	Factor  float64 // of the worst case
	Case    check.Case
	Holding float64 // N, Friction times the weight less uplift
	Driving float64 // N, along the ground
}

// slide returns sliding in the worst case, or nil without loads:
//
//	push F on level ground:  Friction W         over F
//	push on the slope:       Friction W cos(a)  over F + W sin(a)
//	slope a:                 Friction W cos(a)  over W sin(a)
//	wind F with lift U:      Friction (W - U)   over F
//	wind on the slope:       Friction (W cos(a) - U) over F + W sin(a)
//
// with W the weight, ballast included.
func (l *loads) slide(w Weight) *Sliding {
	var worst *Sliding
	weight := (w.Mass + w.Ballast) * quantity.Gravity
	try := func(c load, force, lift float64) {
		sin, cos := math.Sincos(c.slope)
		s := Sliding{Case: c.Case, Holding: Friction * max(0, weight*cos-lift), Driving: force + weight*sin}
		if !(s.Driving > 0) {
			return
		}
		s.Factor = s.Holding / s.Driving
		if worst == nil || s.Factor < worst.Factor {
			worst = &s
		}
	}
	if l.push > 0 {
		pushed := load{Case: check.Case{Kind: check.Push, Around: true}}
		try(pushed, l.push, 0)
		if l.slope > 0 {
			pushed.slope, pushed.Sloping = l.slope, true
			try(pushed, l.push, 0)
		}
	}
	if l.slope > 0 {
		try(load{Case: check.Case{Kind: check.Slope, Around: true}, slope: l.slope}, 0, 0)
	}
	if l.wind == nil {
		return worst
	}
	strongest := load{Case: check.Case{Kind: check.WindLoad, Speed: l.wind.Speed}} // its moment stands for the force, in N
	for i := range l.wind.Bearings {
		b := &l.wind.Bearings[i]
		strongest.take(b.From, b.Scale*math.Hypot(b.Force.X, b.Force.Y), b.Scale > 1)
	}
	if strongest.moment > 0 {
		lift := r3.Norm(l.lift.force)
		try(strongest, strongest.moment, lift)
		if l.slope > 0 {
			strongest.slope, strongest.Sloping = l.slope, true
			try(strongest, strongest.moment, lift)
		}
	}
	return worst
}
