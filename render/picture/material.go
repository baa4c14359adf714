package picture

import (
	"stabile/fab"
	"stabile/param/design"
	"stabile/param/stock"
)

// A surface is a way in which metal looks.
type surface uint8

const (
	scaled     surface = iota // steel with its mill scale on, ground bright along the welds
	ground                    // steel, ground all over
	brushed                   // to one grain
	sheeted                   // as the sheet comes from the mill, without scale
	painted                   // with a clear coat
	galvanized                // dipped in zinc
	rusted                    // weathered to a skin
	dull                      // stone or concrete
)

// A material is what light needs to know of a part.
type material struct {
	surface surface
	albedo  rgb     // sent back evenly to all sides
	mirror  rgb     // mirrored, looked at straight
	rough   float64 // tangent of half the cone that a mirrored ray spreads to
	weld    float64 // mm, half the width of a dressed weld; 0 for none
	tint    float64 // how much of the colours of heat is left beside a weld
	tarnish rgb     // what metal darkens to in patches
	body    rgb     // as it is seen mirrored in another part, under a light of 1
}

// stoneLook returns how a block looks, of concrete or of stone.
func stoneLook(of design.Stone) material {
	m := material{surface: dull, mirror: rgb{0.02, 0.02, 0.02}, rough: 1, tarnish: rgb{1, 1, 1}}
	switch of {
	case design.Granite:
		m.albedo = rgb{0.17, 0.167, 0.17}
	case design.Basalt:
		m.albedo = rgb{0.06, 0.062, 0.066}
	case design.Limestone:
		m.albedo = rgb{0.34, 0.31, 0.26}
	case design.Sandstone:
		m.albedo = rgb{0.27, 0.19, 0.125}
	default:
		m.albedo = rgb{0.215, 0.21, 0.20}
	}
	m.body = m.albedo
	return m
}

// darkened is what air makes of a copper alloy where it lies longest, as a share.
var darkened = rgb{0.52, 0.41, 0.35}

// materialOf returns how a part looks under the finish of the design. Without a
// finish steel keeps its scale, and weathering steel is left to weather, which is
// what it is bought for.
func materialOf(p *fab.Part, f *design.Finish, paint *rgb) material {
	alloy := stock.Unknown("")
	var thick float64
	if p.Metal != nil {
		alloy, thick = p.Metal.Is(), p.Metal.Thickness
	}
	m := material{albedo: rgb{0.04, 0.04, 0.04}, rough: 0.24, tint: 1, tarnish: rgb{1, 1, 1}}
	m.mirror = rgb{alloy.Look.Mirror[0], alloy.Look.Mirror[1], alloy.Look.Mirror[2]}
	if alloy.Group == stock.CopperAlloy {
		m.tarnish = darkened
	}
	rusts := alloy.Outdoors == stock.Rusted // it is steel without a coat
	m.surface = sheeted
	if rusts {
		m.surface = scaled
	}
	switch {
	case f != nil && f.Kind == design.Paint:
		m.surface = painted
	case f != nil && f.Kind == design.Brushed && rusts:
		m.surface = ground
	case f != nil && f.Kind == design.Brushed:
		m.surface = brushed
	case f != nil && f.Kind == design.Galvanize && rusts || f == nil && alloy.Look.New == stock.Zinced:
		m.surface = galvanized
	case f != nil && f.Kind == design.Weather && rusts || f == nil && alloy.Look.New == stock.Rusted:
		m.surface = rusted
	}
	m.body = m.albedo.add(m.mirror.scale(0.62))
	switch m.surface {
	case scaled:
		m.albedo, m.rough = rgb{0.028, 0.031, 0.037}, 0.25
		m.body = rgb{0.105, 0.110, 0.120}
	case painted:
		m.albedo, m.mirror, m.rough = paintColor(f.Name, paint), rgb{0.045, 0.045, 0.045}, 0.07
		m.body = m.albedo
	case galvanized:
		m.albedo, m.mirror, m.rough = rgb{0.17, 0.177, 0.187}, rgb{0.30, 0.310, 0.325}, 0.42
		m.body = m.albedo.add(m.mirror.scale(0.62))
	case rusted:
		m.albedo, m.mirror, m.rough = rgb{0.185, 0.072, 0.030}, rgb{0.03, 0.028, 0.025}, 0.9
		m.body = m.albedo
	case ground:
		m.mirror, m.rough, m.tint = m.mirror.scale(0.80), 0.33, 0.45
	case brushed:
		m.rough, m.tint = 0.15, 0.35
		m.mirror = m.mirror.scale(1.06)
	case sheeted:
		if alloy.Group == stock.StainlessSteel {
			m.rough = 0.15
		}
	}
	if alloy.Group == stock.CopperAlloy {
		m.tint *= 0.55
	}
	if thick > 0 {
		m.weld = min(max(2.2*thick, 2), 12)
	}
	return m
}
