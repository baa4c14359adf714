package picture

import (
	"stabile/fab"
	"stabile/param/design"
	"stabile/param/stock"
)

// A surface is a way in which metal looks.
type surface uint8

const (
	bare       surface = iota // as it comes from the shop: ground and wiped
	brushed                   // to one grain
	painted                   // satin
	galvanized                // dipped in zinc
	rusted                    // weathered to a skin
)

// A material is what light needs to know of a part.
type material struct {
	surface surface
	albedo  rgb     // sent back evenly to all sides
	mirror  rgb     // mirrored, looked at straight
	rough   float64 // tangent of half the cone that a mirrored ray spreads to
	weld    float64 // mm, half the width of a dressed weld; 0 for none
	body    rgb     // as it is seen mirrored in another part, under a light of 1
}

// materialOf returns how a part looks under the finish of the design. Weathering
// steel without a finish is left to weather, which is what it is bought for.
func materialOf(p *fab.Part, f *design.Finish, paint *rgb) material {
	alloy := stock.Unknown("")
	var thick float64
	if p.Metal != nil {
		alloy, thick = p.Metal.Is(), p.Metal.Thickness
	}
	m := material{surface: bare, mirror: rgb{r: alloy.Look.Mirror[0], g: alloy.Look.Mirror[1], b: alloy.Look.Mirror[2]}, albedo: rgb{0.05, 0.05, 0.05}, rough: 0.30}
	switch {
	case f != nil && f.Kind == design.Paint:
		m.surface = painted
	case f != nil && f.Kind == design.Brushed:
		m.surface = brushed
	case f != nil && f.Kind == design.Galvanize || f == nil && alloy.Look.New == stock.Zinced:
		m.surface = galvanized
	case f != nil && f.Kind == design.Weather || f == nil && alloy.Look.New == stock.Rusted:
		m.surface = rusted
	}
	if m.surface == rusted && alloy.Outdoors != stock.Rusted {
		m.surface = bare // other metals do not rust
	}
	switch m.surface {
	case painted:
		m.albedo, m.mirror, m.rough = paintColor(f.Name, paint), rgb{0.04, 0.04, 0.04}, 0.18
	case galvanized:
		m.albedo, m.mirror, m.rough = rgb{0.20, 0.207, 0.215}, rgb{0.26, 0.266, 0.275}, 0.50
	case rusted:
		m.albedo, m.mirror, m.rough = rgb{0.235, 0.098, 0.045}, rgb{0.03, 0.028, 0.025}, 0.9
	case brushed:
		m.rough = 0.22
		m.mirror = m.mirror.scale(1.08)
	}
	if thick > 0 {
		m.weld = min(max(2.2*thick, 2), 12)
	}
	m.body = m.albedo.add(m.mirror.scale(0.62))
	return m
}
