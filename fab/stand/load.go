package stand

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/wind"
)

// bearings is the number of bearings, evenly spaced, from which a push is
// tried besides the one square to each edge.
const bearings = 72

// loads is what tries to tip the piece.
type loads struct {
	push, height float64 // N, mm above the floor
	floor        float64 // mm, height of what the footprint lies on
	slope        float64 // rad
	wind         *wind.Wind
	lift         uplift
}

// An uplift is the wind's lift on the whole, the same from every bearing: its
// force in N and its moment in N mm about the middle of the base.
type uplift struct{ force, moment r3.Vec }

// lifted adds up the lift on the parts.
func lifted(w *wind.Wind) (u uplift) {
	if w == nil || len(w.Bearings) == 0 {
		return u
	}
	for l := range w.Loads(&w.Bearings[0], 1) {
		if l.Uplift != (r3.Vec{}) {
			u.force = r3.Add(u.force, l.Uplift)
			u.moment = r3.Add(u.moment, r3.Cross(l.Part.Ball.Center, l.Uplift))
		}
	}
	return u
}

// A load is one case about one edge: an overturning moment, and the slope of
// the ground along the edge's normal.
type load struct {
	check.Case
	moment float64 // N mm
	slope  float64 // rad
}

// cases returns what can tip the piece over an edge with the given outward
// normal: of the pushes and of the winds the worst one, alone and on the slope, and the
// slope.
func (l *loads) cases(from, to, normal r2.Vec) []load {
	var cases []load
	out := math.Atan2(normal.Y, normal.X)
	if l.push > 0 && l.height > 0 {
		// The push square to the edge is the worst there can be, and of those
		// from round bearings the one nearest to it. The round one is tried
		// first, so that it is named where it is as bad.
		worst := load{Case: check.Case{Kind: check.Push}}
		const step = 2 * math.Pi / bearings
		from := out + math.Pi
		round := math.Round(from/step) * step
		worst.take(round, l.push*l.height*math.Cos(from-round), false)
		worst.take(from, l.push*l.height, false)
		cases = append(cases, worst)
		if l.slope > 0 {
			worst.slope, worst.Sloping = l.slope, true
			cases = append(cases, worst)
		}
	}
	if l.slope > 0 {
		cases = append(cases, load{Case: check.Case{Kind: check.Slope, Bearing: out}, slope: l.slope})
	}
	if worst := l.blown(from, to); worst.moment > 0 {
		cases = append(cases, worst)
		if l.slope > 0 {
			// The weight's share is the same whatever the bearing, so that the
			// worst wind is the worst on the slope too.
			worst.slope, worst.Sloping = l.slope, true
			cases = append(cases, worst)
		}
	}
	return cases
}

// blown returns the wind that tips the most over an edge; without a moment where
// none does.
func (l *loads) blown(from, to r2.Vec) load {
	if l.wind == nil {
		return load{}
	}
	worst := load{Case: check.Case{Kind: check.WindLoad, Speed: l.wind.Speed}}
	a, b := r3.Vec{X: from.X, Y: from.Y, Z: l.floor}, r3.Vec{X: to.X, Y: to.Y, Z: l.floor}
	up := 0.0
	if l.lift != (uplift{}) {
		up = wind.Bearing{Force: l.lift.force, Moment: l.lift.moment}.About(a, b)
	}
	for i := range l.wind.Bearings {
		w := &l.wind.Bearings[i]
		worst.take(w.From, w.Scale*(w.About(a, b)-up)+up, w.Scale > 1)
	}
	return worst
}

// take keeps the worse of two pushes or winds, given whether the wind is brought up
// to the least design force. One that is worse by rounding alone does not take the
// place of one from a round bearing.
func (l *load) take(from, moment float64, least bool) {
	if moment > l.moment*(1+1e-12) {
		l.Bearing, l.moment, l.Least = from, moment, least
	}
}
