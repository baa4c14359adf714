package fab

import (
	"strings"

	"stabile/param/design"
	"stabile/param/quantity"
)

// Result returns a result by the name that requirements know it by; it is a
// design.Results. What was not wanted of the job is not there.
func (j *Job) Result(name string) (q quantity.Quantity, reason string, ok bool) {
	length := func(mm float64) (quantity.Quantity, string, bool) {
		return quantity.Quantity{Number: mm, Dim: quantity.Length}, "", true
	}
	mass := func(kg float64) (quantity.Quantity, string, bool) {
		return quantity.Quantity{Number: kg, Dim: quantity.Mass}, "", true
	}
	switch name {
	case "weight":
		return mass(j.Mass.Total)
	case "height":
		return length(j.Size.Height)
	case "width":
		return length(j.Size.Width)
	case "depth":
		return length(j.Size.Depth)
	case "tipping":
		switch {
		case len(j.Tipping.Edges) == 0:
			return q, "there is no footprint", false
		case !j.Tipping.Loaded:
			return q, "the design gives no push, no slope and no wind of its site", false
		}
		return quantity.Quantity{Number: j.Tipping.Factor}, "", true
	case "wind":
		if j.Wind == nil {
			return q, "the design gives no wind of its site", false
		}
		return quantity.Quantity{Number: j.Wind.Greatest() * 1e3, Dim: quantity.Force}, "", true
	case "sheets":
		return j.sheetsResult()
	case "cost":
		return j.costResult()
	case "strength", "frequency":
		switch {
		case j.Strength == nil:
			return q, "strength could not be worked out", false
		case name == "strength" && len(j.Strength.Members) == 0:
			return q, "there is no post to check", false
		case j.Design.Base() != nil && j.Design.Base().Base.Shape == design.Feet:
			return q, "the feet only stand on the ground, and what is known is of feet held fast in it", false
		case name == "strength":
			return quantity.Quantity{Number: j.Strength.Worst}, "", true
		case len(j.Strength.Modes) == 0:
			return q, "nothing stands that could sway", false
		case !j.Strength.Complete:
			return q, "a lower frequency may have been missed", false
		}
		return quantity.Quantity{Number: j.Strength.Modes[0].Frequency, Dim: quantity.Rate}, "", true
	}
	if part, ok := strings.CutSuffix(name, ".weight"); ok {
		for i := range j.Parts {
			if j.Parts[i].Name == part {
				return mass(j.Parts[i].Mass)
			}
		}
	}
	return q, "'" + name + "' is not worked out in this version", false
}
