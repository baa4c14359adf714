package design

// Planted reports whether a piece without a base plate is held by the ground at every place
// where it stands: each post by its concrete, or by a pad that is anchored. What stands loose
// on the ground, or touches it with a ball, leaves it free to move.
func (d *Design) Planted() bool {
	if d.Base() != nil {
		return false
	}
	held := false
	for _, j := range d.Joints {
		if j.A != nil && j.B != nil {
			continue
		}
		p := j.B
		if p == nil {
			p = j.A
		}
		switch {
		case p == nil:
		case p.Post != nil && p.Post.Sunk > 0 && j.End == Foot:
			held = true
		case p.Base != nil && p.Base.Anchors > 0:
			held = true
		default:
			return false
		}
	}
	return held
}

// Sunk reports whether every place where the piece stands is a post that is set in
// concrete in the ground, so that it does not tip over as a whole.
func (d *Design) Sunk() bool {
	return d.Planted() && len(d.Pads()) == 0
}

// Pads returns the parts that are pads under single posts, in order.
func (d *Design) Pads() []*Part {
	var list []*Part
	for _, p := range d.Parts {
		if p.Base != nil && p.Base.Pad {
			list = append(list, p)
		}
	}
	return list
}
