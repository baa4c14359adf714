package shell

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// A Doubler is a disc, dished to the ball, that is welded on it all round under a
// tube's ring.
type Doubler struct {
	Diameter float64 // along the wall
	Wall     float64
}

// With returns the two joints at which a doubled wall is checked, as EN 13445-3 16.4
// does for a reinforcing plate (from memory): the tube's ring on the doubled wall,
// and the doubler's edge on the ball's own wall, as a bare rim.
//
// The clause adds the two walls up. Two sheets that lie on each other and are welded
// only at their edges bend each for itself: their plastic moments add up, so that the
// wall that stands in here is sqrt(t2 + t_D2), which is less (derived).
//
// A doubler that is no wider than the tube is an error. One that reaches less than
// the ring's clearance beyond it is within the rule, since its edge is checked by
// itself.
func (j Joint) With(d Doubler) (ring, edge Joint, err error) {
	if err := domain.Check(domain.Length("doubler diameter", d.Diameter), domain.Length("doubler wall", d.Wall)); err != nil {
		return ring, edge, fmt.Errorf("doubler: %w", err)
	}
	if d.Diameter <= j.Diameter {
		return ring, edge, fmt.Errorf("doubler of %.6g is no wider than the ring of %.6g on it", d.Diameter, j.Diameter)
	}
	ring, edge = j, j
	ring.Wall = math.Hypot(j.Wall, d.Wall)
	edge.Diameter, edge.Tube, edge.Rim = d.Diameter, 0, true
	return ring, edge, nil
}
