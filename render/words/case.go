package words

import (
	"stabile/fab/check"
)

// Place returns a place on a part, as it is written in a table: "foot", "at spur".
// The name is that of what is fastened there, where it is a joint.
func Place(where check.Where, joint string) string {
	switch where {
	case check.Inside:
		return "between its ends"
	case check.Holed:
		return "at holes"
	case check.Joint:
		return "at " + joint
	}
	return string(where)
}

// Where returns a place on a part as data has it: "foot", "inside", "at spur".
func Where(where check.Where, joint string) string {
	if where == check.Joint {
		return "at " + joint
	}
	return string(where)
}

// at is Place in a sentence: "at its foot", "at spur".
func at(where check.Where, joint string) string {
	switch where {
	case check.Foot, check.Head, check.Seat:
		return "at its " + string(where)
	}
	return Place(where, joint)
}

// BriefCase is Case for a narrow cell of a table: "wind from 90 deg, least, slope". What
// the words mean is said beside the tables.
func (w Writer) BriefCase(c check.Case) string {
	text := c
	text.Least, text.Sloping = false, false
	brief := w.Case(text)
	if c.Kind == check.WindLoad && c.Least {
		brief += ", least"
	}
	if c.Sloping && brief != "" {
		brief += ", slope"
	}
	return brief
}

// Case returns a load in words, such as "a push on mast from 90 deg"; "" for no
// load. The speed of the wind is left out: a design has one, which is given with
// its loads.
func (w Writer) Case(c check.Case) string {
	from := "from " + w.Bearing(c.Bearing)
	if c.Around {
		from = "from any side"
	}
	text := ""
	switch c.Kind {
	case check.NoLoad:
		return ""
	case check.OwnWeight:
		text = "its own weight"
	case check.Slope:
		text = "ground sloping down toward " + w.Bearing(c.Bearing)
		if c.Around {
			text = "sloping ground"
		}
		return text
	case check.Push:
		text = "a push"
		if c.Part != "" {
			text += " on " + c.Part
		}
		switch {
		case c.Where == check.Anywhere:
		case c.Along > 0:
			text += " at " + w.Percent(c.Along) + " of its length"
		default:
			text += " " + Place(c.Where, "")
		}
		text += " " + from
	case check.WindLoad:
		text = "wind " + from
		if c.Least {
			text += " (least design force)"
		}
	case check.PeopleLoad:
		text = "people"
		if c.Part != "" {
			text += " on " + c.Part
		}
	case check.IceLoad:
		text = "ice"
	case check.QuakeLoad:
		text = "an earthquake"
	}
	if c.Sloping {
		text += " on the slope"
	}
	return text
}
