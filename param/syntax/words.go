package syntax

import (
	"slices"
	"strings"

	"stabile/param/quantity"
	"stabile/param/source"
)

// statementWords are the words that a statement starts with.
var statementWords = []string{
	"sculpture", "units", "bring", "let", "adjust", "metal", "base", "post", "ball", "bowl", "ring", "hole",
	"repeat", "when", "variation", "require", "site", "shop", "finish", "job", "revision",
}

// retired are words that statements once started with, and what is written now.
var retired = map[string]string{"use": "bring"}

// startsStatement reports whether a statement starts with the word.
func startsStatement(w string) bool { return slices.Contains(statementWords, w) }

// isConnective reports whether the word stands between values. Such a word is
// never a unit, a value or a name.
func isConnective(w string) bool {
	switch British(w) {
	case "on", "from", "to", "around", "at", "toward", "by", "step", "or", "and", "not":
		return true
	}
	return false
}

// links are the words that lead to a further value of a property.
var links = []string{"to", "toward", "by", "at"}

// listLink is the word that leads to a list of points, parted by commas. It is one
// only between a property's word and a parenthesis.
const listLink = "polygon"

// countWord is the property whose value may be a count and then what they do.
const countWord = "people"

// isActivity reports whether the word says what people do.
func isActivity(w string) bool { return slices.Contains([]string{"none", "leaning", "climbing"}, w) }

// shapedWord is the property whose size another and a shape may follow, as in caps 3 in,
// 2 in round.
const shapedWord = "caps"

// shapes are the shapes that may follow.
var shapes = []string{"polygon", "round"}

// boughtWord is the property that may name a standard size after the word pipe: bought
// pipe 2 schedule 40. Neither word leads to a value elsewhere, and the schedule is a word
// that may start with a digit, as 10S does.
const (
	boughtWord   = "bought"
	pipeLink     = "pipe"
	scheduleLink = "schedule"
)

// isLink reports whether the word leads to a further value of a property.
func isLink(w string) bool { return slices.Contains(links, British(w)) }

// nearLink returns the linking word that was most likely meant.
func nearLink(w string) (string, bool) { return source.Suggest(w, links) }

// isClause reports whether the word ties a declaration to another thing.
func isClause(w string) bool {
	switch w {
	case "on", "from", "to", "around", "at", "in":
		return true
	}
	return false
}

// onlyStatement reports whether the word starts a statement and is never the
// word of a property, as "metal" and "finish" are.
func onlyStatement(w string) bool {
	switch w {
	case "metal", "finish", "site", "shop":
		return false
	}
	return startsStatement(w)
}

// isNameless reports whether the word declares a thing that has no name.
func isNameless(w string) bool { return w == "site" || w == "shop" || w == "job" }

// isTitled reports whether the word declares a thing that is known by a text in quotes.
func isTitled(w string) bool { return w == "revision" }

// takesHyphens reports whether the value of a property is a word that may hold
// hyphens and start with a digit, as the name of an alloy may.
func takesHyphens(property string) bool {
	return property == "alloy" || property == "second_alloy"
}

// taken returns why the word cannot be the name of a thing, or "".
func taken(w string) string {
	if _, ok := quantity.LookupUnit(w); ok {
		return "is a unit"
	}
	if startsStatement(w) && w != "ring" || isConnective(w) { // rings came later than parts of that name
		return "is a word of the language"
	}
	if w == "pi" {
		return "is the number 3.14159..."
	}
	return ""
}

// otherUnits are units written otherwise than in a design, with what to write.
var otherUnits = []struct{ written, unit string }{
	{"inch", "in"}, {"inches", "in"}, {"ins", "in"},
	{"foot", "ft"}, {"feet", "ft"},
	{"millimetre", "mm"}, {"millimetres", "mm"}, {"millimeter", "mm"}, {"millimeters", "mm"},
	{"centimetre", "cm"}, {"centimetres", "cm"}, {"centimeter", "cm"}, {"centimeters", "cm"},
	{"metre", "m"}, {"metres", "m"}, {"meter", "m"}, {"meters", "m"},
	{"degree", "deg"}, {"degrees", "deg"}, {"degs", "deg"},
	{"radian", "rad"}, {"radians", "rad"},
	{"lbs", "lb"}, {"pound", "lb"}, {"pounds", "lb"},
	{"ounce", "oz"}, {"ounces", "oz"},
	{"kgs", "kg"}, {"kilo", "kg"}, {"kilos", "kg"}, {"kilogram", "kg"}, {"kilograms", "kg"},
	{"gram", "g"}, {"grams", "g"}, {"gramme", "g"}, {"grammes", "g"},
	{"newton", "N"}, {"newtons", "N"}, {"kilonewton", "kN"}, {"kilonewtons", "kN"},
	{"pascal", "Pa"}, {"pascals", "Pa"}, {"N/mm2", "MPa"},
	{"kph", "km/h"}, {"kmh", "km/h"}, {"km/hr", "km/h"}, {"m/sec", "m/s"}, {"mps", "m/s"},
	{"fps", "ft/s"}, {"ft/sec", "ft/s"}, {"lbs/ft3", "lb/ft3"}, {"pcf", "lb/ft3"},
	{"lb/cuft", "lb/ft3"},
	{"sec", "s"}, {"secs", "s"}, {"second", "s"}, {"seconds", "s"},
	{"mins", "min"}, {"minute", "min"}, {"minutes", "min"},
	{"h", "hr"}, {"hrs", "hr"}, {"hour", "hr"}, {"hours", "hr"},
}

// otherUnit returns the unit that is meant by another way of writing it: the
// whole word, the plural, or capitals.
func otherUnit(w string) (unit string, ok bool) {
	for _, o := range otherUnits {
		if len(o.written) == len(w) && strings.EqualFold(o.written, w) {
			return o.unit, true
		}
	}
	for _, u := range quantity.UnitNames(nil) {
		if strings.EqualFold(u, w) {
			return u, true
		}
	}
	return "", false
}
