package strength

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
)

const (
	// along is the share of a mode's greatest movement from which a part is named
	// among those that move.
	along = 0.5

	// named is how many parts are named.
	named = 3
)

// Words tells the shape of a mode: what moves most and which way, and what goes
// with it or against it by half as much or more.
func (s *Strength) Words(m *Mode) string {
	if m.Part == nil {
		return "nothing moves"
	}
	var with, against []*design.Part
	for _, it := range s.Frame.Items {
		p := it.Part
		if p == m.Part || p.Base != nil {
			continue
		}
		switch u := r3.Dot(s.movement(p, m), m.Direction); {
		case u >= along:
			with = append(with, p)
		case u <= -along:
			against = append(against, p)
		}
	}
	text := m.Part.Name + " moves most, " + fro(m.Direction)
	if len(with) > 0 {
		text += "; with it " + some(with)
	}
	if len(against) > 0 {
		text += "; against it " + some(against)
	}
	return text
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

// fro says in which direction a part moves to and fro.
func fro(u r3.Vec) string {
	const steep = 0.8
	switch {
	case math.Abs(u.Z) > steep:
		return "up and down"
	case u.Z > 1-steep || u.Z < steep-1:
		return "aslant, toward " + quantity.Bearing(way(u)) + " and back"
	}
	return "toward " + quantity.Bearing(way(u)) + " and back"
}

// way returns the bearing of a movement to and fro, of its two the lesser.
func way(u r3.Vec) float64 {
	b := math.Mod(design.BearingOf(u), math.Pi)
	if math.Pi-b < 1e-6 { // rounding, far under what a bearing is shown to
		return 0
	}
	return b
}

// some lists the first few parts.
func some(parts []*design.Part) string {
	var names []string
	for _, p := range parts[:min(len(parts), named)] {
		names = append(names, p.Name)
	}
	text := strings.Join(names, ", ")
	if n := len(parts) - named; n > 0 {
		text += fmt.Sprintf(" and %d more", n)
	}
	return text
}
