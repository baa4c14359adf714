package fab

// A Want is what a job is to have besides the parts, their weights, the wind and
// tipping, which it always has. What requirements and questions of the design
// read is worked out whether or not it is wanted.
type Want uint8

// What may be wanted. Each takes several times longer than what every job has.
const (
	WithStrength Want = 1 << iota // stress, welds, plate, anchors, sway
	WithModes                     // how the whole vibrates; with it, strength
	WithCures                     // what would help a post that is over its limit; with it, strength
	WithPlan                      // how the shop makes it: layouts on sheets, hours, money
	WithMarks                     // the blanks with the marks that only drawings need, and which of them are alike
	WithGale                      // the wind in which the whole would tip over, whatever wind its site has

	// AllowClashes lets parts run into each other, as in a sketch that is not
	// finished.
	AllowClashes

	// Everything is what a report or a drawing of one design is made from.
	Everything = WithStrength | WithModes | WithCures | WithPlan | WithMarks | WithGale
)
