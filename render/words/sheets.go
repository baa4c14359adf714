package words

import (
	"fmt"
	"strings"

	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/layout"
	"stabile/fab/sheets"
	"stabile/fab/shop"
	"stabile/param/design"
	"stabile/param/quantity"
)

// sheets says facts of package sheets.
func (w Writer) sheets(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case sheets.ForCutter:
		why := "the shop has no shear"
		if f.Shear != nil {
			why = "the shear takes " + w.rating(f.Shear) + " at most"
		}
		return fmt.Sprintf("%s is cut with the cutter, since %s; the kerf is %s", w.metal(f.Metal), why, w.Fine(f.Kerf)), true
	case sheets.ForLongCut:
		if f.Sheets {
			return "cut with the cutter, since the sheets are wider than the " + w.Long(f.Shear) + " of the shear", true
		}
		return "cut with the cutter, since the blank needs a longer cut than the " + w.Long(f.Shear) + " of the shear", true
	case sheets.NoSheet:
		if f.Cutter {
			return "no size of sheet of '" + f.Metal + "' goes on the cutter: give the shop another size, or have the part cut elsewhere", true
		}
		return "no sheet of '" + f.Metal + "' at hand to cut it from: give the shop a size, or have the part cut elsewhere", true
	case sheets.NotLaidOut:
		return "sheets of '" + f.Metal + "' could not be laid out: " + f.Err, true
	case sheets.TooThick:
		what := "too thick for the shop to cut"
		if f.Metal != nil {
			what += ", " + w.metal(f.Metal)
		}
		return what + ": " + w.cutLimit(f) + "; buy it cut to size, use a thinner gauge, or use a cutter", true
	case sheets.TooLarge:
		return fmt.Sprintf("blank of %s by %s, too large for every sheet of '%s', the largest %s by %s inside its trim: %s, use a larger sheet, or buy the part",
			w.bareFine(f.Width), w.Fine(f.Length), f.Metal, w.bare(f.SheetWidth), w.Long(f.SheetLength), split(f.Shape, f.Courses)), true
	case sheets.TooLong:
		return fmt.Sprintf("blank of %s by %s, which needs a longer cut than the %s of the shear: %s, have the sheet cut where you buy it, or use a cutter",
			w.bareFine(f.Width), w.Fine(f.Length), w.Long(f.Shear), split(f.Shape, f.Courses)), true
	case sheets.TooWide:
		return "cut from sheets wider than the " + w.Long(f.Shear) + " of the shear: buy narrower ones, have them cut down where you buy them, or use a cutter", true
	case sheets.TooFew:
		return fmt.Sprintf("no place for %s of %s by %s: there are not enough sheets of '%s' at hand; buy more, or give another size",
			Count(f.Count, "piece"), w.bareFine(f.Width), w.Fine(f.Length), f.Metal), true
	case sheets.Narrow:
		return w.narrow(f), true
	}
	return "", false
}

// narrow says where a cut is narrower than the hold-downs grip.
func (w Writer) narrow(f sheets.Narrow) string {
	what, line := "blank", "cut it by hand along a line, or leave it on a wider strip until last"
	if f.Strip {
		what = "a strip"
	}
	var cuts []string
	for _, c := range f.Cuts {
		cuts = append(cuts, fmt.Sprintf("cut %d of sheet '%s'", c.Number, c.Sheet))
	}
	return fmt.Sprintf("%s down to %s wide, narrower than the %s that the shear's hold-downs grip, at %s: %s", what, w.Fine(f.Width), w.Fine(f.Least), And(cuts), line)
}

// cutLimit says what the shop's machines cut.
func (w Writer) cutLimit(f sheets.TooThick) string {
	switch {
	case f.Shear != nil && f.Cutter > 0:
		return "the shear takes " + w.rating(f.Shear) + " at most, and the cutter " + w.Thickness(f.Cutter)
	case f.Shear != nil:
		return "the shear takes " + w.rating(f.Shear) + " at most"
	case f.Cutter > 0:
		return "the cutter takes " + w.Thickness(f.Cutter) + " at most"
	}
	return "the shop has no shear and no cutter that goes through it"
}

// WhyOrdered says, in a table, why a blank is bought cut to size.
func WhyOrdered(sheets.TooThick) string { return "too thick for the shop to cut" }

// WhyLeft says, in a table, why a piece has no place.
func WhyLeft(r layout.Reason) string {
	switch r {
	case layout.TooLarge:
		return "too large for every sheet"
	case layout.TooLong:
		return "needs a longer cut than the shear takes"
	}
	return "not enough sheets at hand"
}

// split says how a blank is made smaller: in so many courses of its post, unless 0.
func split(s flat.Shape, courses int) string {
	if courses > 0 {
		return fmt.Sprintf("roll it in %d courses (write courses %d)", courses, courses)
	}
	switch s {
	case flat.Gore:
		return "make the ball of zones or halves"
	case flat.Sector:
		return "make the ball of more zones"
	case flat.Tube:
		return "make the tube thinner"
	case flat.Plate:
		return "weld the plate up from two"
	}
	return "weld the blank up from two"
}

// bare returns a length without its unit, before another that has it, and bareFine
// one of a flat.
func (w Writer) bare(mm float64) string     { return w.Units.Rule(mm, quantity.Coarse) }
func (w Writer) bareFine(mm float64) string { return w.Units.Rule(mm, quantity.Fine) }

// metal names a metal with its gauge or thickness.
func (w Writer) metal(m *design.Metal) string {
	if m == nil {
		return ""
	}
	return "'" + m.Name + "' of " + w.Sheet(m)
}

// rating returns the heaviest sheet of a machine.
func (w Writer) rating(c *design.Capacity) string {
	if c.Gauge > 0 {
		return fmt.Sprintf("%d gauge %s", c.Gauge, c.Alloy)
	}
	return w.Thickness(c.Thickness) + " " + c.Alloy
}

// shop says facts of package shop.
func (w Writer) shop(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case shop.Modest:
		return fmt.Sprintf("the design describes no shop: the plan is for a modest one worked by hand, with a shear of %s for %d gauge and rolls of %s for %d gauge mild steel; its times are %s, and it has no prices",
			w.Long(f.Shear), f.ShearGauge, w.Long(f.Rolls), f.RollsGauge, shop.RatesSource), true
	case shop.FilledUp:
		return "the shop leaves out what the plan needs; from a modest one worked by hand, by " + shop.RatesSource + ": " + Missing(f.Missing), true
	case shop.NotDescribed:
		if f.Item == shop.Sheets {
			return "the design gives no sheets of '" + f.Metal + "', and those of a modest shop are too few or too small: describe yours", true
		}
		return "the design does not describe " + item(f.Missing) + ", and what a modest shop has is not enough: describe yours", true
	}
	return "", false
}

// Missing lists what of a shop was filled in.
func Missing(list []shop.Missing) string {
	return strings.Join(MissingItems(list), ", ")
}

// MissingItems returns the same one by one.
func MissingItems(list []shop.Missing) []string {
	names := make([]string, len(list))
	for i, m := range list {
		names[i] = item(m)
	}
	return names
}

// item names something of a shop.
func item(m shop.Missing) string {
	if m.Item == shop.Sheets {
		return "sheets of '" + m.Metal + "'"
	}
	return [...]string{
		shop.Shear: "the shear", shop.Rolls: "the rolls", shop.RollsMeasures: "measures of the rolls",
		shop.Welding: "the welding", shop.WeldingMeasures: "the filler's size or the distance of the tacks",
		shop.Paper: "the paper", shop.Printer: "the printer",
		shop.SetupTime: "the time for a setting", shop.CutTime: "the time for a cut", shop.PassTime: "the time for a pass",
		shop.FitTime: "the time for fitting a joint", shop.CleanSpeed: "the speed of cleaning",
		shop.WeldSpeed: "the speed of welding", shop.DressSpeed: "the speed of dressing",
	}[m.Item]
}
