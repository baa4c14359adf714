package rolling

import (
	"fmt"

	"stabile/fab/flat"
	"stabile/param/design"
)

// Handwork is a blank that the rolls are no use for: it curves both ways, and is
// worked over a stake, in a hollow or on a wheel.
type Handwork struct {
	Name, Part string
	Quantity   int
	How        string  // "dome": a gore raised along and across; "dish": a disc sunk to part of a ball
	Radius     float64 // mm, to the middle of the sheet, that a template for the work has both ways
	Crown      float64 // mm, the height to raise: across the middle of a gore; of a disc from its edge
	Along      float64 // mm, of a gore, the height of its bow from tip to tip; else 0
	Stretch    float64 // of a gore, mean, as a share of length
	Trim       float64 // mm, left on all round, to be cut off after
	Note       string  // what to do, for its card
}

// handwork returns how a blank is worked by hand, and reports whether it is.
func handwork(b *flat.Blank) (Handwork, bool) {
	f := &b.Forming
	h := Handwork{Name: b.Name, Part: b.Part, Quantity: b.Quantity, How: f.How, Radius: f.MeanRadius}
	if !positive(f.MeanRadius) {
		return h, false
	}
	switch f.How {
	case "dome":
		h.Crown, h.Stretch = f.Crown, f.Stretch
		h.Along = versine(f.MeanRadius, b.Length/2/f.MeanRadius)
	case "dish":
		// A cap as high as h has the area 2 pi R h, which that of a disc d
		// across becomes without growing thinner: h = d^2 / 8 R.
		h.Trim = b.Allowance
		d := b.Diameter - 2*b.Allowance
		h.Crown = d * d / (8 * f.MeanRadius)
	default:
		return h, false
	}
	return h, true
}

// handNote says what to do.
func (pl *planner) handNote(h *Handwork, m *design.Metal) string {
	inside := h.Radius
	if m != nil {
		inside -= m.Thickness / 2
	}
	if h.How == "dome" {
		return fmt.Sprintf("Not for the rolls, since it curves both ways: over a stake, in a hollow or on a wheel raise %s across its widest place, to nothing at the tips, and %s from tip to tip, to a template of radius %s for the hollow side, both ways",
			pl.fine(h.Crown), pl.fine(h.Along), pl.fine(inside))
	}
	trim := ""
	if h.Trim > 0 {
		trim = fmt.Sprintf("; then trim off the %s left on all round", pl.length(h.Trim))
	}
	return fmt.Sprintf("Not for the rolls, since it curves both ways: dish it %s deep within its finished edge, to a template of radius %s for the hollow side%s",
		pl.fine(h.Crown), pl.fine(inside), trim)
}
