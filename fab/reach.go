package fab

// A Reach is how a piece stands to the people about it, by its height.
type Reach int

// The reaches.
const (
	TableTop Reach = iota // stands on a table
	Low                   // stands on the ground, no higher than a child reaches
	Tall                  // may be climbed, and falls from above
)

// The greatest heights, in mm: of what is set on a table, and of what does not stand
// over a small child. Common practice, no source.
const (
	tableTop = 400
	low      = 1200
)

// Reach returns how the piece stands to people.
func (j *Job) Reach() Reach {
	switch {
	case j.Size.Max.Z <= tableTop:
		return TableTop
	case j.Size.Max.Z <= low:
		return Low
	}
	return Tall
}
