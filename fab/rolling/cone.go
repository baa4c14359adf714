package rolling

import (
	"math"
)

// A Cone is how a sector is rolled to a cone: with the back roll at a slant, tighter
// at the narrow edge, and that edge held back, since all of the sheet is drawn
// in at the speed of the rolls while the wide edge has further to go.
type Cone struct {
	Tilt   float64 // rad, of the back roll in the last pass; 0 where settings are not known
	Speed  float64 // of the narrow edge, as a share of the wide edge's
	Back   float64 // mm that the narrow edge is held back in one run
	Bites  int     // sectors between lines along the rolls, to roll one at a time
	Radial float64 // mm along the wide edge, of a bite
}

// slip is how much, in mm, the narrow edge may be held back in one bite before
// the sheet is set straight again; common practice, no source.
const slip = 12

// coneOf returns how a piece is held; nil for a cylinder.
func coneOf(p *Piece) *Cone {
	if !p.IsCone() {
		return nil
	}
	c := &Cone{
		Speed: p.Fan.Small / p.Fan.Large,
		Back:  p.Fan.Angle * (p.Fan.Large - p.Fan.Small),
	}
	c.Bites = max(int(min(math.Ceil(c.Back/slip), mostBites)), 1)
	c.Radial = p.Fan.Angle * p.Fan.Large / float64(c.Bites)
	return c
}

// mostBites is as many as it is of use to mark.
const mostBites = 64

// screws returns the lifts at the ends of the rolls that lift an edge of the
// sheet and its other edge by the given amounts, along the way of the back roll.
// The first edge lies at the first end, against the stop; the other is across mm
// further on. The screws are taken to stand at the ends of the usable width.
func screws(edges [2]float64, across, width float64) [2]float64 {
	if edges[0] == edges[1] {
		return edges
	}
	return [2]float64{edges[0], edges[0] + (edges[1]-edges[0])*max(width/across, 1)}
}

// dropped reports whether the back roll would have to go further below the flat
// sheet than it is taken to: its own radius. Common practice, no source.
func dropped(lift float64, m Machine) bool { return lift < -m.Back }

// flattest returns by how much, in mm, the radii at both edges of a cone of this
// mean radius and slant may differ for the rolls to be set to it, found by
// halving; 0 if the rolls do not even make the cylinder.
func (m Machine) flattest(s Strip, p *Piece, width float64) float64 {
	allowed := func(differ float64) bool {
		var lifts [2]float64
		for i, r := range [2]float64{p.Radius - differ/2, p.Radius + differ/2} {
			set, err := m.Set(s, 1/r)
			if err != nil {
				return false
			}
			lifts[i] = set.Travel
		}
		return !dropped(screws(lifts, p.Across, width)[1], m)
	}
	low, high := 0.0, p.Edges[1]-p.Edges[0]
	if !allowed(low) {
		return 0
	}
	for range 16 {
		if middle := (low + high) / 2; allowed(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}
