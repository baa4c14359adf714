package syntax

// otherSpellings are words of the language in their other spelling, and as the
// language spells them. Both may be written; the British one is printed.
var otherSpellings = map[string]string{
	"center":    "centre",
	"disk":      "disc",
	"gage":      "gauge",
	"galvanise": "galvanize",
	"labor":     "labour",
	"towards":   "toward",
}

// British returns a word as the language spells it.
func British(word string) string {
	if w, ok := otherSpellings[word]; ok {
		return w
	}
	return word
}

// fullUnits are units that may be written out, in either spelling.
var fullUnits = map[string]bool{
	"metre": true, "metres": true, "meter": true, "meters": true,
	"millimetre": true, "millimetres": true, "millimeter": true, "millimeters": true,
	"centimetre": true, "centimetres": true, "centimeter": true, "centimeters": true,
}
