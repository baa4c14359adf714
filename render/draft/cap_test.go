package draft

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// TestCapEdge draws the edge of a cap where trimming has it: at the middle of the
// sheet it is as far across as the cap.
func TestCapEdge(t *testing.T) {
	p := stood(t, `metal thick { alloy low-carbon-steel, thickness 8 }
ball moon on pad { diameter 200, gores 12, caps 120 mm round, metal thick }`).Part("moon")
	_, domes := solid.Outside(p).(*solid.Lobed).Ends()
	dome := domes[design.UpperPole]
	for _, e := range capEdges(p) {
		if math.Abs(e.height-dome) > 1e-9 {
			t.Errorf("the edge is drawn %v from the centre, and is %v", e.height, dome)
		}
		out := r3.Norm(r3.Sub(e.path[0], p.Ball.Center))
		if across := 2 * math.Hypot(e.path[0].X, e.path[0].Y) * (100 - 8.0/2) / out; math.Abs(across-120) > 1e-9 {
			t.Errorf("at the middle of the sheet the edge is %v across, want 120", across)
		}
	}
}
