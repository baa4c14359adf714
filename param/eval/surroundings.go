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
