package study_test

import (
	"context"
	"fmt"
	"testing"

	"stabile/fab/study"
	"stabile/param"
)

// TestSolveSteps solves for heights in steps, of which the answer is plain: a plate of
// 10 mm and a post of a number of mm on it are under a height by less than a step. Where
// there are 82 steps or more not every one is tried at first, and those between are
// searched by halves.
func TestSolveSteps(t *testing.T) {
	const from = 100
	for _, tt := range []struct {
		step, steps int
	}{{2, 80}, {2, 81}, {2, 82}, {2, 83}, {3, 123}, {1, 1000}} {
		text := fmt.Sprintf(`units mm
adjust rise = %d from %d to %d step %d
metal skin { alloy low-carbon-steel, thickness 1.5 }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { plate 600 by 600, metal slab }
post mast on pad { diameter 60, length rise, metal skin }
`, from, from, from+tt.step*tt.steps, tt.step)
		for _, most := range []int{0, 1, 2, 3, 4, 5, 6, 7, 11, 40, tt.steps/2 + 1, tt.steps - 3, tt.steps - 2, tt.steps - 1} {
			for _, least := range []bool{false, true} {
				// The largest that is not over the height, or the least that is over it.
				height := float64(10+from+tt.step*most) + float64(tt.step)/2
				condition, want, fails := fmt.Sprintf("height <= %v mm", height), from+tt.step*most, from+tt.step*(most+1)
				if least {
					condition, want, fails = fmt.Sprintf("height >= %v mm", height), fails, want
				}
				s := written(text, param.Options{Sweep: []string{"rise"}, Ask: []param.Question{{From: "for", Text: condition, Condition: true}}})
				d := read(t, s)
				sol, err := s.Solve(context.Background(), d, study.Problem{Sweep: d.Sweeps[0], Least: least})
				if err != nil {
					t.Fatalf("%d steps, %s: %v", tt.steps, condition, err)
				}
				if got := sol.Value.Quantity.Number; !sol.Found || sol.Bound || got != float64(want) || sol.Fails.Quantity.Number != float64(fails) {
					t.Errorf("%d steps of %d, %s: found %v, %v where %v fails; want %v and %v", tt.steps, tt.step, condition, sol.Found, got, sol.Fails.Quantity.Number, want, fails)
				}
				if whole := tt.steps < 82; sol.Whole != whole || whole != (len(sol.Scanned) == tt.steps+1) {
					t.Errorf("%d steps, %s: %d values tried, all %v, want %v", tt.steps, condition, len(sol.Scanned), sol.Whole, whole)
				}
			}
		}
	}
}
