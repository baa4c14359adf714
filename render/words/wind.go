package words

import (
	"fmt"

	"stabile/fab/finding"
	"stabile/fab/wind"
	"stabile/param/quantity"
)

// wind returns the sentence of a fact of package wind.
func (w Writer) wind(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case wind.NoWind:
		return "wind is not checked: the site gives none. Out of doors a licensed engineer and the local code decide; to check it write a site, such as " + w.siteWind(), true
	case wind.LeastForce:
		return fmt.Sprintf("from %d of %d bearings the least design force of %s, %s on what the wind meets, is greater than the force at this speed, up to %s times; tipping, sliding and strength are checked with it",
			f.Bearings, f.Of, f.Edition, w.Units.Pressure(f.Pressure), Use(f.Greatest)), true
	case wind.Lifted:
		if f.Bowl {
			return fmt.Sprintf("open above, the wind lifts it, by up to %s (a bound)", w.Force(f.Uplift)), true
		}
		if f.Egg {
			return fmt.Sprintf("an egg, leaning or near the ground: the wind lifts it, by up to %s (a bound)", w.Force(f.Uplift)), true
		}
		return fmt.Sprintf("is nearer to the ground than half its width, so the wind lifts it too, by up to %s", w.Force(f.Uplift)), true
	case wind.TooHigh:
		return fmt.Sprintf("is %s high: from 15 m (49 ft) the gust factor 1 of %s needs a further calculation, which is not made here; have an engineer check it", w.Long(f.Height), f.Edition), true
	case wind.GroundTerm:
		return groundTerms[f.Of] + " " + f.Ground, true
	case wind.CoefficientTerm:
		return "force coefficient of a " + f.Kind + ": " + w.Rule(f.Rule), true
	}
	return "", false
}

// siteWind is how a design gives the wind, in its own units.
func (w Writer) siteWind() string {
	if w.Units == quantity.Inch {
		return "site { wind 100 mph, method asce7, exposure C }"
	}
	return "site { wind 26 m/s, method en1991, terrain II }"
}

var groundTerms = map[wind.GroundFigure]string{
	wind.PowerLaw:        "power law exponent, exposure",
	wind.GradientHeight:  "gradient height, exposure",
	wind.RoughnessLength: "roughness length, terrain",
	wind.LeastHeight:     "least height, terrain",
}

// Rule returns where a force coefficient comes from.
func (w Writer) Rule(r wind.Rule) string {
	text := map[wind.RuleKind]string{
		wind.ASCEEdge:   "plate on edge, as a square face at h/D = 1, Fig. 29.4-1",
		wind.ASCEBall:   "round, Fig. 29.4-1, row of small D sqrt(q), h/D up to 7 (assumed for a ball)",
		wind.ASCESmooth: "round, Fig. 29.4-1, D sqrt(q) up to 5.3, h/D = 25 (assumed for a bare tube)",
		wind.ASCERough:  "round, Fig. 29.4-1, D sqrt(q) above 5.3, rough, h/D = 25 (assumed for a bare tube)",
		wind.ASCEHeld:   "round, Fig. 29.4-1, D sqrt(q) above 5.3, h/D = 25; the force at 5.3, which is more than above it, is kept",
		wind.OpenBowl:   "open half of a ball, its hollow to the wind (Hoerner, from memory): a bound for every bearing; lift 1.0 of its mouth",
		wind.EggBound:   "egg, between a ball, a disc across the wind and a cylinder (Hoerner, EN 1991-1-4 Fig. 7.28, both from memory): a bound for every bearing; lift 1.0 of what is seen from above where its pole leans",
		wind.WallPlate:  "plate flat on a wall (assumed, a bound for pressure and suction)",
		wind.ENEdge:     "plate on edge (assumed, not in EN 1991-1-4)",
		wind.ENSphere:   "sphere, bound on Fig. 7.30 below the drop of drag",
		wind.ENCylinder: "circular cylinder, Fig. 7.28, " + string(r.Covering) + ", end effect factor 1",
	}[r.Kind]
	switch {
	case r.NearWall:
		text += "; x 1.6 near the wall, as EN 1991-1-4, 7.11 has it near the ground"
	case !r.NearGround:
	case r.Kind == wind.ENSphere:
		text += "; x 1.6 and lift 0.6 near the ground, 7.11 (2)"
	default:
		text += "; x 1.6 near the ground, as EN 1991-1-4, 7.11"
	}
	return text
}
