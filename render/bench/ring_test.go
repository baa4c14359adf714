package bench

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/param/design"
	"stabile/render/draft"
)

// TestRingHands: a ring is pulled by any of its tubes, which change the numbers of the ring.
func TestRingHands(t *testing.T) {
	const text = `units mm
metal skin { alloy low-carbon-steel, thickness 2 mm }
base pad { plate 1600 mm by 1600 mm, metal skin }
ring hoop on pad { at (0 mm, 0 mm), across 600 mm, diameter 50 mm, segments 8, metal skin }
ring halo at (0 mm, 0 mm, 900 mm) { across 500 mm, diameter 40 mm, segments 6, flat, metal skin }
post leg from pad to halo[2] { diameter 30 mm, metal skin }
`
	s := settledOn(t)
	q := &state{File: "piece.stabile", Text: text}
	r, err := s.build(q, fab.AllowClashes)
	require.NoError(t, err)
	require.Empty(t, r.wrong)
	s.jobs.keep(r)
	ring := func(j *fab.Job, k int) *design.Ring { return j.Design.Rings[k] }
	for _, tt := range []struct {
		part, hand string
		view       draft.Projection
		by         [2]float64
		moved      func(before, after *fab.Job) float64 // mm, of what was to change
		want       float64
	}{
		{"hoop[3]", "size", draft.Front, [2]float64{20, 0}, func(a, b *fab.Job) float64 { return ring(b, 0).Across - ring(a, 0).Across }, 40},
		{"hoop[1]", "centre", draft.Plan, [2]float64{15, 5}, func(a, b *fab.Job) float64 { return ring(b, 0).Center.X - ring(a, 0).Center.X }, 15},
		{"halo[4]", "centre", draft.Front, [2]float64{0, 12}, func(a, b *fab.Job) float64 { return ring(b, 1).Center.Z - ring(a, 1).Center.Z }, 12},
		{"hoop[3]", "side", draft.Front, [2]float64{-4, 0}, func(a, b *fab.Job) float64 {
			return ring(b, 0).Tubes[0].Post.Ends[design.Foot].Diameter - ring(a, 0).Tubes[0].Post.Ends[design.Foot].Diameter
		}, 4},
	} {
		got, err := s.drag(context.Background(), q, &drag{Part: tt.part, Hand: tt.hand, View: int(tt.view), By: tt.by, Fine: true})
		require.NoError(t, err, "%s of %s", tt.hand, tt.part)
		after, err := s.build(&state{File: q.File, Text: got.Text}, fab.AllowClashes)
		require.NoError(t, err)
		require.NotNil(t, after.job, "%s of %s: %v", tt.hand, tt.part, after.wrong)
		require.InDelta(t, tt.want, tt.moved(r.job, after.job), 0.5, "%s of %s", tt.hand, tt.part)
	}
}
