package rolling

import (
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
)

// Handwork is a blank that the rolls are no use for: it curves both ways, and is
// worked over a stake, in a hollow or on a wheel; or it bends one way, to another radius at
// each place.
type Handwork struct {
	Name, Part string
	Quantity   int
	How        string       // "dome": a gore raised along and across; "dish": a disc sunk to part of a ball; "bend": a gore of an egg, bent along
	Radius     float64      // mm, to the middle of the sheet, that a template for the work has both ways; of an egg's at its equator, across
	Egg        [2]float64   // mm, of an egg's, how wide and how tall that is outside; else 0
	Bends      [2]float64   // mm, of an egg's, to the middle of the sheet along the meridian: at the equator, and where it ends toward a pole; else 0
	Crown      float64      // mm, the height to raise: across the middle of a gore; of a disc from its edge
	Along      float64      // mm, of a gore, the height of its bow from tip to tip; else 0
	Stretch    float64      // of a gore, mean, as a share of length
	Trim       float64      // mm, left on all round, to be cut off after
	Note       finding.Fact // what to do, for its card
}

// handwork returns how a blank is worked by hand, and reports whether it is.
func handwork(b *flat.Blank) (Handwork, bool) {
	f := &b.Forming
	h := Handwork{Name: b.Name, Part: b.Part, Quantity: b.Quantity, How: f.How, Radius: f.MeanRadius, Egg: f.Egg, Bends: f.Bends}
	if !positive(f.MeanRadius) {
		return h, false
	}
	switch f.How {
	case "dome":
		h.Crown, h.Stretch = f.Crown, f.Stretch
		h.Along = versine(f.MeanRadius, b.Length/2/f.MeanRadius)
		if f.Egg[0] > 0 {
			h.Along = f.Bow
		}
	case "bend":
		h.Along = f.Bow
	case "dish":
		h.Trim = b.Allowance
		h.Crown = f.Depth
	default:
		return h, false
	}
	return h, true
}

// handNote returns what to do with sheet of the given metal, which may be nil.
func handNote(h *Handwork, m *design.Metal) finding.Fact {
	inside := h.Radius
	if m != nil {
		inside -= m.Thickness / 2
	}
	if h.Egg[0] > 0 {
		return EggIt{How: h.How, Crown: h.Crown, Along: h.Along, Trim: h.Trim, Across: h.Egg[0], Tall: h.Egg[1], Equator: h.Bends[0], End: h.Bends[1]}
	}
	if h.How == "dome" {
		return DomeIt{h.Crown, h.Along, inside}
	}
	return DishIt{h.Crown, inside, h.Trim}
}
