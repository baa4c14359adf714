package words

import (
	"fmt"
	"strings"

	"stabile/fab"
	"stabile/fab/assembly"
	"stabile/fab/finding"
	"stabile/param/stock"
)

// job returns the sentence of a fact of package fab.
func (w Writer) job(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case fab.RequirementFails:
		return fmt.Sprintf("requirement not met: %s%s; it is %s", f.Text, because(f.Why), w.Sides(f.Sides)), true
	case fab.RequirementUndecided:
		return fmt.Sprintf("requirement not decided: %s%s: %s", f.Text, because(f.Why), w.Fact(f.Reason)), true
	case fab.NotWorkedOut:
		return fmt.Sprintf("'%s' was not worked out", f.Result), true
	case fab.NoPost:
		return "there is no post to check", true
	case fab.Unread:
		return f.Reason, true
	case fab.RestsOn:
		return "it depends on checks that are not decided: " + w.open(f.Checks), true
	case fab.StrengthNotChecked:
		return "strength and sway are not checked: a licensed engineer decides on them, and the local code on anything that the public can reach", true
	case fab.Heavy:
		weight := w.Weight(f.Mass)
		if f.Several {
			weight = "up to " + weight
		}
		return fmt.Sprintf("weighs %s: above %s it needs more than one person to lift", weight, w.LiftLimit()), true
	case fab.WholeHeavy:
		return fmt.Sprintf("the whole weighs %s without ballast: above %s it needs more than one person to lift", w.Weight(f.Mass), w.LiftLimit()), true
	case fab.Closed:
		return fmt.Sprintf("closed when welded: drill a vent of %s or more into each before it is welded shut, heated or dipped; trapped air or water bursts it", w.Long(assembly.WeldVent)), true
	case fab.RainStands:
		return "rain gets in by the holes and stands below the lowest: add 'drain', or a hole near the bottom", true
	case fab.ZincFumes:
		return metals(f.Metals) + ": a zinc coat gives fumes that cause fever when it is welded or ground; strip it well back from every seam, both faces, and draw the fumes off", true
	case fab.ChromiumFumes:
		return metals(f.Metals) + ": stainless gives chromium fumes that cause cancer when it is welded or ground; use local exhaust and a fitted respirator", true
	case fab.CopperFumes:
		return w.copperFumes(f), true
	case fab.AnchorsCorrode:
		need := touching[f.Pair.Contact]
		if need == "" {
			need = " of stainless steel"
		}
		return fmt.Sprintf("of %s, which eats the zinc of galvanized anchors where rain wets both: use stainless anchors, or set galvanized ones%s", f.Alloy, need), true
	case fab.PaintFumes:
		return "two-part paint gives isocyanates that cause asthma: air-fed mask and a booth to spray it; strip paint before any later weld, since it poisons when it burns", true
	case fab.DesignNote:
		return f.Text, true
	case fab.WeldEstimate:
		return fmt.Sprintf("weld metal of %s is an estimate by common practice: seams as a bead of 1.5 times the thickness squared, joints as a fillet with a leg of the thickness", w.Weight(f.Mass)), true
	}
	return "", false
}

// because returns why something is required, in brackets.
func because(why string) string {
	if why == "" {
		return ""
	}
	return " (" + why + ")"
}

// metals returns metals by their names.
func metals(names []string) string {
	return "metal '" + strings.Join(names, "', '") + "'"
}

// copperFumes says what a copper alloy gives off.
func (w Writer) copperFumes(f fab.CopperFumes) string {
	gives := map[stock.Fumes]string{
		stock.CopperFumes: "copper fumes, which cause fever",
		stock.BrassFumes:  "zinc fumes, which cause fever, and lead where it is a brass for turning",
		stock.BronzeFumes: "copper fumes, which cause fever; other bronzes hold lead or beryllium, which poison",
	}[f.Fumes]
	if gives == "" {
		gives = "fumes that may hold lead, beryllium or zinc"
	}
	return metals([]string{f.Metal}) + ": " + f.Alloy + " gives " + gives + " when it is welded or ground; use local exhaust and a fitted respirator"
}
