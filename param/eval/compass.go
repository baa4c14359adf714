package eval

import (
	"math"

	"stabile/param/quantity"
)

// A Way is a word for a bearing: where a thing lies as the viewer sees the piece.
type Way struct {
	Word    string
	Bearing float64 // rad
	Meaning string
}

// Ways returns the words for bearings.
func Ways() []Way {
	return []Way{
		{"right", 0, "the bearing 0 deg, to the right"},
		{"back", math.Pi / 2, "the bearing 90 deg, away from the viewer"},
		{"left", math.Pi, "the bearing 180 deg, to the left"},
		{"front", 3 * math.Pi / 2, "the bearing 270 deg, toward the viewer"},
	}
}

// way returns the bearing that a word names. A thing of that name goes before it.
func (e *evaluator) way(name string) (value, bool) {
	if _, declared := e.families[name]; declared {
		return value{}, false
	}
	for _, s := range Ways() {
		if s.Word == name {
			return value{kind: number, q: quantity.Quantity{Number: s.Bearing, Dim: quantity.Angle}}, true
		}
	}
	return value{}, false
}
