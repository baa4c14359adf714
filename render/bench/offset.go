package bench

import "unicode/utf8"

// A ruler counts places of a text as the page does: in units of UTF-16. It is
// asked in any order, and goes on from where it was.
type ruler struct {
	text     string
	at, unit int
}

// units returns the place of a byte in units of UTF-16.
func (r *ruler) units(offset int) int {
	offset = max(0, min(offset, len(r.text)))
	if offset < r.at {
		r.at, r.unit = 0, 0
	}
	for r.at < offset {
		c, n := utf8.DecodeRuneInString(r.text[r.at:])
		r.at += n
		r.unit++
		if c > 0xffff {
			r.unit++
		}
	}
	return r.unit
}

// offset returns the byte at a place that is counted in units of UTF-16.
func (r *ruler) offset(units int) int {
	at, unit := 0, 0
	for at < len(r.text) && unit < units {
		c, n := utf8.DecodeRuneInString(r.text[at:])
		at += n
		unit++
		if c > 0xffff {
			unit++
		}
	}
	return at
}
