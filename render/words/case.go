package words

import "stabile/fab/check"

// Case returns a load in words, such as "a push on mast from 90 deg"; "" for no
// load.
func (w Writer) Case(c check.Case) string {
	from := "from " + Bearing(c.Bearing)
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
		text = "ground sloping down toward " + Bearing(c.Bearing)
		if c.Around {
			text = "sloping ground"
		}
		return text
	case check.Push:
		text = "a push"
		if c.Part != "" {
			text += " on " + c.Part
			if c.Where != check.Anywhere {
				text += " (" + string(c.Where) + ")"
			}
		}
		text += " " + from
	case check.WindLoad:
		text = "wind " + from
		if c.Speed > 0 {
			text = "wind of " + w.Speed(c.Speed) + " " + from
		}
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
