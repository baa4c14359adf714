package shop

// An Item is something that a plan needs of a workshop.
type Item int

// The items.
const (
	Shear Item = iota
	Rolls
	RollsMeasures // of rolls that are given
	Welding
	WeldingMeasures // the filler's size or the distance of the tacks, of welding that is given
	Sheets          // of a metal
	Paper
	Printer
	SetupTime
	CutTime
	PassTime
	FitTime
	CleanSpeed
	WeldSpeed
	DressSpeed
)

// A Missing is an item that the design's shop does not give.
type Missing struct {
	Item  Item
	Metal string // the name, of sheets; else ""
}

// FilledUp says what of a shop was taken from the modest one.
type FilledUp struct{ Missing []Missing }

// Fact marks the type.
func (FilledUp) Fact() {}

// A Modest says that the design describes no shop, so that the plan is for the
// modest one.
type Modest struct {
	Shear, Rolls           float64 // mm, their widths
	ShearGauge, RollsGauge int     // of mild steel, that they take
}

// Fact marks the type.
func (Modest) Fact() {}

// NotDescribed says why a check that the modest shop would fail is not decided: the
// design does not give the item.
type NotDescribed struct{ Missing }

// Fact marks the type.
func (NotDescribed) Fact() {}
