package pack

import (
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/internal/sample"
	"stabile/render/sheet"
)

// TestSectionsOfAll: each post that leans has its section once, on it or beside.
func TestSectionsOfAll(t *testing.T) {
	removed := 0
	for seed := range uint64(20) {
		k := newPack(sample.Job(sample.Random(seed, 4+int(seed), quantity.Millimetre)), Options{})
		g := &general{pack: k, scene: draft.NewScene(k.job.Parts)}
		g.lay = k.arrange(1, func(p sheet.Paper) r2.Box { return k.newPage(p, "arrangement", sheet.Block{}).Free })
		g.draw = draft.New(k.style, g.lay.free)
		for p, v := range g.lay.views {
			g.lines[p] = g.draw.Picture(g.scene, v, false)
		}
		g.sections()
		want, beside := 0, []int(nil)
		for i := range k.job.Parts {
			if p := k.job.Parts[i].Post; p != nil && p.Lean > 0 {
				want++
			}
		}
		for _, r := range g.removed {
			beside = append(beside, r.posts...)
			for _, n := range r.posts {
				p := k.job.Parts[n-1].Post
				if p == nil || p.Lean == 0 {
					t.Errorf("seed %d: part %d does not lean", seed, n)
				} else if d := (p.Ends[design.Foot].Diameter + p.Ends[design.Head].Diameter) / 2; k.rule(d) != k.rule(r.diameter) {
					t.Errorf("seed %d: part %d is %v across, its section %v", seed, n, d, r.diameter)
				}
			}
		}
		slices.Sort(beside)
		if unique := slices.Compact(slices.Clone(beside)); len(unique) != len(beside) {
			t.Errorf("seed %d: a post has two sections: %v", seed, beside)
		}
		if g.revolved+len(beside) != want {
			t.Errorf("seed %d: %d sections on posts and %d beside, want %d", seed, g.revolved, len(beside), want)
		}
		removed += len(beside)
	}
	if removed == 0 {
		t.Error("no section is removed")
	}
}
