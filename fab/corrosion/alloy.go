package corrosion

import "stabile/param/stock"

// Of returns the family of an alloy, by what it is coated with and how it ages.
func Of(a stock.Alloy) Metal {
	switch {
	case a.Coat:
		return Zinc
	case a.Group == stock.AluminiumAlloy:
		return Aluminium
	case a.Group == stock.StainlessSteel:
		return Stainless
	case a.Group == stock.CopperAlloy:
		return Copper
	case a.Care == stock.RustSkin:
		return Weathering
	}
	return Carbon
}

// Bolted returns how a metal and the zinc of the anchors through it get on. A plate is large
// beside its anchors: what may touch only where the nobler metal is small may not here.
func Bolted(plate Metal) Pairing {
	p := Pair(plate, Zinc)
	if p.Contact == Small {
		p.Contact = Isolate
	}
	return p
}
