package words

import (
	"stabile/param/design"
	"stabile/param/quantity"
)

// Size returns the size of a part in a few words, such as "dia 3-1/2 x 34 in", to the
// step of flats as on every sheet.
func (w Writer) Size(p *design.Part) string {
	rule := func(mm float64) string { return w.Units.Rule(mm, quantity.Fine) }
	switch {
	case p.Base != nil:
		switch p.Base.Shape {
		case design.Plate, design.Polygon:
			return rule(p.Base.Width) + " x " + w.Fine(p.Base.Depth)
		case design.Disc:
			return "dia " + w.Fine(p.Base.Width)
		}
		return ""
	case p.Post != nil:
		dia := "dia " + rule(p.Post.Ends[design.Foot].Diameter)
		switch {
		case p.Post.IsPointed():
			dia += " to a point"
		case p.Post.IsTaper():
			dia += " to " + rule(p.Post.Ends[design.Head].Diameter)
		}
		return dia + " x " + w.Fine(p.Post.Length)
	}
	if b := p.Ball; b.Bowl {
		return "dia " + rule(2*b.RimRadius()) + ", " + w.Fine(b.Depth()) + " deep"
	}
	if p.Ball.IsEgg() {
		return "dia " + w.Fine(2*p.Ball.Radius) + " x " + w.Fine(p.Ball.Tall) + " tall"
	}
	return "dia " + w.Fine(2*p.Ball.Radius)
}

// Shape returns what a part is by its shape: its kind, or "egg".
func Shape(p *design.Part) string {
	if p.Ball != nil && p.Ball.IsEgg() {
		return "egg"
	}
	return p.Kind()
}
