package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// along is the share of a mode's greatest movement from which a part is named
// among those that move.
const along = 0.5

// A ModeShape is what moves in a mode: what moves most and which way, and what
// moves with it or against it by half as much or more.
type ModeShape struct {
	Part          string // "" where nothing moves
	Way           Way
	Toward        float64 // rad, and back; means nothing up and down
	With, Against []string
}

// A Way is how a part moves to and fro.
type Way string

// The ways.
const (
	Level     Way = "level"
	Oblique   Way = "aslant"
	UpAndDown Way = "up-and-down"
)

// Fact marks the shape.
func (ModeShape) Fact() {}

// Shape returns the shape of a mode.
func (s *Strength) Shape(m *Mode) ModeShape {
	if m.Part == nil {
		return ModeShape{}
	}
	shape := ModeShape{Part: m.Part.Name, Way: fro(m.Direction), Toward: way(m.Direction)}
	for _, it := range s.Frame.Items {
		p := it.Part
		if p == m.Part || p.Base != nil {
			continue
		}
		switch u := r3.Dot(s.movement(p, m), m.Direction); {
		case u >= along:
			shape.With = append(shape.With, p.Name)
		case u <= -along:
			shape.Against = append(shape.Against, p.Name)
		}
	}
	return shape
}

// movement returns how the far end of a post, or a ball, moves in a mode.
func (s *Strength) movement(p *design.Part, m *Mode) r3.Vec {
	var at r3.Vec
	switch {
	case p.Post != nil:
		at = p.Post.Ends[design.Head].At
	case p.Ball != nil:
		at = p.Ball.Center
	}
	return s.Frame.Swing(p, at, m.Shape)
}

// fro returns how a part moves to and fro, given the direction.
func fro(u r3.Vec) Way {
	const steep = 0.8
	switch {
	case math.Abs(u.Z) > steep:
		return UpAndDown
	case math.Abs(u.Z) > 1-steep:
		return Oblique
	}
	return Level
}

// way returns the bearing of a movement to and fro, of its two the lesser.
func way(u r3.Vec) float64 {
	b := math.Mod(design.BearingOf(u), math.Pi)
	if math.Pi-b < 1e-6 { // rounding, far under what a bearing is shown to
		return 0
	}
	return b
}
