package assembly

import "stabile/fab/finding"

// A Work is where a step is done.
type Work int

// The works.
const (
	MakePart Work = iota // a part by itself
	Bench                // parts put together on the bench
	Place                // set in its place on what stands already
	Finish               // the whole, when all is welded
)

// String names the work.
func (w Work) String() string {
	return [...]string{MakePart: "make", Bench: "bench", Place: "place", Finish: "finish"}[w]
}

// A Step is one step of the work.
type Step struct {
	Number int // from 1
	Work   Work
	Parts  []string // that are made or moved
	To     []string // what they are joined to, or stand on
	Joints []int    // indices in the design's joints
	Welds  []int    // indices in the plan's welds
	Do     finding.Fact
	Notes  []finding.Fact // what to take care of
	Lift   *Lift          // nil where nothing is lifted; of the finish the whole, without ballast
	Stage  *Stage         // how the work stands afterwards; nil before anything is set in its place
	Closes []int          // indices in the plan's spaces that have no opening left afterwards but their vents
}
