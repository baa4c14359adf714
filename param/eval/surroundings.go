package eval

import "stabile/param/design"

// surroundings takes what a site says of people, hills, soil, earthquake and ice.
func (b *body) surroundings(site *design.Site) bool {
	if g := b.find("people"); g != nil {
		site.People = design.Activity(g.args[1].value.text)
		if site.People != design.NoPeople {
			site.Crowd = 1
		}
		if g.args[0].isGiven() {
			if site.Crowd == 0 {
				b.report(g.args[0].at, "write people none", "nobody is no number of people")
				return false
			}
			site.Crowd = int(g.args[0].value.q.Number)
		}
	}
	site.Risk = int(b.number("risk"))
	site.Hill = b.number("hill")
	site.Soil = b.wordOf("soil")
	site.Seismic, site.SeismicGiven = b.number("seismic"), b.has("seismic")
	site.Ice, site.IceGiven = b.number("ice"), b.has("ice")
	return true
}

// readGround takes what a base says of the concrete under it, and checks that the
// plate stands on the footing and that the anchors end in it.
func (b *body) readGround(base *design.Base) bool {
	base.AnchorDepth = b.number("anchor_depth")
	base.AnchorsDrilled = b.wordOf("anchor_kind") == "drilled"
	base.Concrete = b.number("concrete") / 1e3 // kPa to MPa
	base.Ground = b.number("ground")
	g := b.find("footing")
	if g == nil {
		return true
	}
	f := design.Block{Width: g.args[0].value.q.Number, Depth: g.args[1].value.q.Number, Height: g.args[2].value.q.Number}
	base.Footing = f
	box := base.Outline().Box()
	switch {
	case box.Max.X > f.Width/2 || -box.Min.X > f.Width/2:
		b.report(g.args[0].at, "make it "+b.up(2*max(box.Max.X, -box.Min.X))+" or more", "%s is wider than its footing", b.what)
	case box.Max.Y > f.Depth/2 || -box.Min.Y > f.Depth/2:
		b.report(g.args[1].at, "make it "+b.up(2*max(box.Max.Y, -box.Min.Y))+" or more", "%s is deeper than its footing", b.what)
	case base.AnchorDepth >= f.Height:
		b.report(b.spanOf("anchor_depth"), "make it less than "+b.down(f.Height), "anchors %s deep go through a footing of %s", b.mm(base.AnchorDepth), b.mm(f.Height))
	default:
		return true
	}
	return false
}
