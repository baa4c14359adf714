package pack

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/draft"
)

// How much longer a leader may be, in mm, before a balloon goes to another view
// than the front elevation.
const (
	sideCost = 25.0
	planCost = 40.0
)

// callouts places a balloon for each part in the view where it is best seen,
// with its name and size beside it while there are few.
func (g *general) callouts() {
	parts := len(g.job.Parts)
	var targets [3][][]draft.Target
	for p, v := range g.lay.views {
		targets[p] = draft.Targets(g.lines[p], parts, func(i int, at r2.Vec) r2.Vec { return g.scene.Middle(v, i, at) }, 6)
	}
	var list []draft.Callout
	for i := range g.job.Parts {
		p := &g.job.Parts[i]
		r, first := ringOf(p)
		if r != nil && !first {
			continue // its first tube has the balloon of the ring
		}
		c := draft.Callout{Number: i + 1}
		// The front view has the balloons; another takes those that it hides,
		// or that would stand badly there.
		for proj, cost := range [...]float64{draft.Front: 0, draft.Side: sideCost, draft.Plan: planCost} {
			for _, t := range targets[proj][i] {
				t.Cost = cost
				c.Targets = append(c.Targets, t)
			}
		}
		if len(c.Targets) == 0 {
			g.hidden = append(g.hidden, i+1)
			continue
		}
		if g.listed() <= crowded {
			name := short(p.Name)
			if r != nil {
				name = r.Name
			}
			c.Note = append([]string{name}, g.size(p)...)
		}
		list = append(list, c)
	}
	_, lost := g.draw.Callouts(list, func(q r2.Vec) bool {
		for p, v := range g.lay.views {
			if g.lay.boxes[p].Min.X <= q.X && q.X <= g.lay.boxes[p].Max.X && g.lay.boxes[p].Min.Y <= q.Y && q.Y <= g.lay.boxes[p].Max.Y && g.scene.Covered(v, q) {
				return true
			}
		}
		return false
	})
	g.hidden = append(g.hidden, lost...)
	slices.Sort(g.hidden)
}
