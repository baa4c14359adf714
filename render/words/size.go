package words

import (
	"stabile/param/design"
	"stabile/param/quantity"
)

// Size returns the size of a part in a few words, such as "dia 3-1/2 x 34 in"; ""
// for a base of feet.
func (w Writer) Size(p *design.Part) string {
	rule := func(mm float64) string { return w.Units.Rule(mm, quantity.Coarse) }
	switch {
	case p.Base != nil:
		switch p.Base.Shape {
		case design.Plate, design.Polygon:
			return rule(p.Base.Width) + " x " + w.Long(p.Base.Depth)
		case design.Disc:
			return "dia " + w.Long(p.Base.Width)
		}
		return ""
	case p.Post != nil:
		dia := "dia " + rule(p.Post.Ends[design.Foot].Diameter)
		if p.Post.IsTaper() {
			dia += " to " + rule(p.Post.Ends[design.Head].Diameter)
		}
		return dia + " x " + w.Long(p.Post.Length)
	}
	return "dia " + w.Long(2*p.Ball.Radius)
}
