package design

// A Revision is one issue of a design: what is written on the papers that went out
// with it.
type Revision struct {
	Letter string // such as "B"
	Date   string // of issue, such as "2026-11-30"; may be empty
	Note   string // what changed; may be empty
}

// Issued returns the date of the last revision, "" where none is given.
func (d *Design) Issued() string {
	if n := len(d.Revisions); n > 0 {
		return d.Revisions[n-1].Date
	}
	return ""
}

// Revision returns by what name the papers speak of a design as it is: the letter of
// its last revision, if it has one, and the fingerprint of what is drawn.
func (d *Design) Revision() string {
	if n := len(d.Revisions); n > 0 {
		return d.Revisions[n-1].Letter + ", " + d.Fingerprint
	}
	return d.Fingerprint
}
