package words

import (
	"strings"

	"stabile/fab/check"
	"stabile/param/quantity"
)

// A topic is what a check is called: of one thing, of several, and with the
// place of the part in it.
type topic struct{ one, many string }

// topics name the checks.
var topics = map[check.ID]topic{
	check.Tipping:      {"tipping under load", ""},
	check.Balance:      {"balance by its own weight", ""},
	check.Sliding:      {"sliding", ""},
	check.Wind:         {"wind", ""},
	check.Post:         {"the strength of %s", "the strength of %d posts"},
	check.Weld:         {"a weld of %s", "%d welds"},
	check.BallWall:     {"the ball wall of %s", "ball walls in %d places"},
	check.PostWall:     {"the wall of %s at a branch", "post walls at %d branches"},
	check.Plate:        {"the base plate", ""},
	check.Buckling:     {"buckling of the whole", ""},
	check.AnchorSteel:  {"the anchor bolts", ""},
	check.AnchorGround: {"the hold of the anchors", ""},
	check.Footing:      {"the footing of %s", "%d footings"},
	check.Frequency:    {"stiffness in gusts", ""},
	check.Gust:         {"gusts", ""},
	check.Shedding:     {"vibration of %s in a steady wind", "vibration of %d parts in a steady wind"},
	check.People:       {"people leaning or climbing", ""},
	check.Entrapment:   {"gaps that trap a head or a limb", "%d gaps that may trap a head or a limb"},
	check.Earthquake:   {"earthquake", ""},
	check.Ice:          {"ice", ""},
	check.Lift:         {"lifting %s", "lifting %d pieces"},
	check.Hollow:       {"the closed space of %s", "%d closed spaces"},
	check.Metal:        {"the metal of %s", "the metals of %d parts"},
	check.Making:       {"the making of %s", "the making of %d parts"},
	check.Stock:        {"a sheet for %s", "sheets for %d blanks"},
	check.Saw:          {"a length for %s", "lengths for %d posts"},
	check.Shear:        {"cutting %s", "cutting %d blanks"},
	check.Rolls:        {"rolling %s", "rolling %d blanks"},
	check.Cost:         {"the price", ""},
}

// Subject names what a check is about, such as "the ball wall of moon under
// spur".
func (w Writer) Subject(c check.Check) string {
	switch c.ID {
	case check.Require:
		return "require " + c.Of
	case joined:
		return c.Part
	}
	s, ok := topics[c.ID]
	if !ok {
		return string(c.ID)
	}
	name := c.Part
	if name == "" {
		name = "the whole"
	}
	text := strings.Replace(s.one, "%s", name, 1)
	switch {
	case c.With == "":
	case c.ID == check.BallWall:
		text += " at " + c.With
	default:
		text += " on " + c.With
	}
	return text
}

// Figures returns what a decided check found against its limit, such as "factor
// 1.62, at least 1.50 needed"; "" where it has no figures.
func (w Writer) Figures(c check.Check) string {
	found, needed := w.found(c), w.needed(c)
	if needed == "" {
		return found
	}
	return found + ", " + needed
}

// figured reports whether a check has figures worth writing: not one that counts
// what should not be there.
func figured(c check.Check) bool {
	return c.Verdict != check.Undecided && c.Limit != 0
}

// isFactor reports whether the figures of a check are factors of safety.
func isFactor(id check.ID) bool {
	return id == check.Tipping || id == check.Sliding
}

// ofLimit reports whether a check's figure is the share used of its limit.
func ofLimit(c check.Check) bool { return c.Unit == check.Ratio && c.Limit == 1 && !c.AtLeast }

// found writes what a check found, rounded away from safety where it is a plain
// number.
func (w Writer) found(c check.Check) string {
	switch {
	case !figured(c):
		return ""
	case isFactor(c.ID):
		return "factor " + Factor(c.Found)
	case ofLimit(c):
		return Use(c.Found) + " of its limit"
	case c.Unit == check.Ratio && c.AtLeast:
		return Factor(c.Found)
	case c.Unit == check.Ratio:
		return Use(c.Found)
	}
	return w.Quantity(c.Found, c.Unit)
}

// needed writes the limit of a check; "" where found says it.
func (w Writer) needed(c check.Check) string {
	switch limit := w.limit(c); {
	case limit == "":
		return ""
	case c.Held:
		return limit + " needed: " + held
	case isFactor(c.ID) || c.AtLeast:
		return limit + " needed"
	default:
		return limit + " allowed"
	}
}

// held is what makes a check hold of which the weight alone falls short.
const held = "the anchors hold it"

// limit writes the limit of a check by itself; "" where found says it.
func (w Writer) limit(c check.Check) string {
	switch {
	case !figured(c) || ofLimit(c):
		return ""
	case isFactor(c.ID):
		return "at least " + Factor(c.Limit)
	case c.AtLeast:
		return "at least " + w.Quantity(c.Limit, c.Unit)
	}
	return "at most " + w.Quantity(c.Limit, c.Unit)
}

// Quantity returns a figure of a check in the design's units.
func (w Writer) Quantity(x float64, unit check.Unit) string {
	switch unit {
	case check.Millimetre:
		return w.Long(x)
	case check.Kilogram:
		return w.Weight(x)
	case check.Newton:
		return w.Force(x)
	case check.Radian:
		return w.Degrees(x)
	case check.Hertz:
		return Hertz(x)
	case check.MPerS:
		return w.Speed(x)
	case check.Money:
		return Money(x, "")
	}
	return quantity.Decimal(x, 2)
}

// Check returns a check in one line: what it is about, its figures and its case,
// or why it is not decided.
func (w Writer) Check(c check.Check) string {
	text := w.Subject(c)
	if f := w.Figures(c); f != "" {
		text += ": " + f
		if load := w.Case(c.Case); load != "" {
			text += ", under " + load
		}
	}
	if c.Verdict == check.Undecided && c.Why != nil {
		text += ": " + w.Fact(c.Why)
	}
	return text
}

// Kind returns in a word or two what kind of check it is, as the head of a line.
func (w Writer) Kind(id check.ID) string {
	if k, ok := kinds[id]; ok {
		return k
	}
	return string(id)
}

var kinds = map[check.ID]string{
	check.Tipping: "tipping", check.Balance: "balance", check.Sliding: "sliding", check.Wind: "wind",
	check.Post: "posts", check.Weld: "welds", check.BallWall: "ball walls", check.PostWall: "post walls",
	check.Plate: "base plate", check.AnchorSteel: "anchor bolts", check.AnchorGround: "anchor hold",
	check.Frequency: "stiffness", check.Require: "required",
}
