package fab

import (
	"math"

	"stabile/fab/stand"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param/design"
)

// gusts works out the gust factor by the frequency that was found, and with it the wind and
// tipping again where it is not the factor of a stiff structure. Where the
// figures are outside of what the method covers it leaves all as it is, and the check of
// the frequency undecided.
func (b *builder) gusts(s *strength.Strength) error {
	w := b.Wind
	if w == nil || w.Swayed != nil || len(s.Modes) == 0 || !s.Complete || len(w.Bearings) == 0 {
		return nil
	}
	worst := &w.Bearings[w.Worst]
	height := b.Size.Max.Z
	across := worst.Area / math.Max(height, 1)
	slender := wind.Slender{Height: height, Width: across, Depth: across, Frequency: s.Modes[0].Frequency}
	site := b.Design.Site
	speed := site.Wind * math.Sqrt(max(1, site.Hill))
	swayed := &wind.Swayed{Frequency: slender.Frequency}
	switch w.Method {
	case design.ASCE7:
		g, err := wind.Gust(slender, site.Exposure, speed, wind.WeldedDamping)
		if err != nil {
			return nil
		}
		swayed.ASCE, swayed.Factor = &g, g.G
	default:
		// As if all of the mass swung at the top, 5 M / h in a mode that goes with the
		// square of the height: the air then damps least.
		mass := 5 * (b.Mass.Total) / (height / 1e3)
		g, err := wind.GustByAnnexB(slender, site.Terrain, speed, mass, w.Mean(), wind.SteelDamping)
		if err != nil {
			return nil
		}
		swayed.EN, swayed.Factor = &g, g.CsCd
		if g.Rigid {
			swayed.Factor = 1
		}
	}
	if swayed.Factor == w.Gust {
		w.Swayed = swayed
		return nil
	}
	blown, err := wind.On(b.Design, b.bodies, wind.Options{Gust: swayed.Factor})
	if err != nil {
		return err
	}
	blown.Swayed = swayed
	tipping := stand.TipInWind(b.footprint(), b.weight(), site, blown, b.Design.TippingTarget)
	tipping.WindToTip, tipping.WindBy = b.Tipping.WindToTip, b.Tipping.WindBy
	b.Wind, b.Tipping = blown, &tipping
	return nil
}
