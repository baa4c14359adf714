package bench

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
)

const bare = `sculpture "Bare"
units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { plate 1200 by 900, metal slab }
post mast on pad { at (-200, 0), diameter 60, length 500, metal skin }
ball moon on mast { diameter 240, gores 8, metal skin }
post stem on pad { at (250, 100), diameter 50, length 400, metal skin }
`

// TestAdd puts one of every kind on each part that it may go on, pointed at in each view or
// by key: the text has it, without a mistake.
func TestAdd(t *testing.T) {
	s := settledOn(t)
	for _, tt := range []struct{ kind, host string }{
		{"post", "pad"}, {"post", "moon"}, {"post", "stem"}, {"ball", "pad"}, {"ball", "moon"}, {"ball", "stem"},
		{"bowl", "pad"}, {"bowl", "moon"}, {"bowl", "stem"}, {"branch", "mast"}, {"bead", "stem"},
		{"ring", "pad"}, {"ring", "stem"}, {"vent", "moon"}, {"hole", "pad"}, {"hole", "moon"}, {"hole", "stem"},
		{"vent", ""}, {"hole", ""}, {"bowl", ""}, {"ring", ""}, {"bead", ""},
	} {
		for view := -1; view < len(projections); view++ {
			q := &edition{state: state{File: "bare.stabile", Text: bare}}
			r, err := s.build(&q.state, quick)
			require.NoError(t, err)
			require.NotNil(t, r.job, "%v", r.wrong)
			q.Add = &addition{Kind: tt.kind, Host: tt.host, View: view}
			for i := range r.job.Parts {
				if p := &r.job.Parts[i]; p.Name == tt.host && view >= 0 {
					at := projections[view].Flat(p.CG)
					q.Add.At = [2]float64{at.X + 20, at.Y + 10}
				}
			}
			e, err := s.add(context.Background(), s.reader(&q.state), q)
			name := fmt.Sprintf("%s on %s in view %d", tt.kind, tt.host, view)
			require.NoError(t, err, name)
			after, err := s.build(&state{File: q.File, Text: e.Text}, fab.AllowClashes)
			require.NoError(t, err, name)
			require.Empty(t, after.wrong, "%s: %s", name, e.Text)
			require.NotEqual(t, bare, e.Text, name)
		}
	}
	_, err := s.add(context.Background(), s.reader(&state{File: "bare.stabile", Text: bare}), &edition{
		state: state{File: "bare.stabile", Text: bare}, Add: &addition{Kind: "vent", Host: "stem", View: -1}})
	require.ErrorContains(t, err, "point at one")
}

// TestHoleIsWherePointed puts holes into a ball and measures how far they are from where was
// pointed: no more than by the step of 5 deg, in the view.
func TestHoleIsWherePointed(t *testing.T) {
	s := settledOn(t)
	for view, projection := range projections {
		for _, off := range []r2.Vec{{}, {X: 40, Y: 30}, {X: -70, Y: 5}, {X: 10, Y: -80}} {
			q := &edition{state: state{File: "bare.stabile", Text: bare}}
			r, err := s.build(&q.state, quick)
			require.NoError(t, err)
			moon := r.job.Design.Part("moon").Ball
			at := r2.Add(projection.Flat(moon.Center), off)
			q.Add = &addition{Kind: "hole", Host: "moon", View: view, At: [2]float64{at.X, at.Y}}
			e, err := s.add(context.Background(), s.reader(&q.state), q)
			require.NoError(t, err)
			after, err := s.build(&state{File: q.File, Text: e.Text}, fab.AllowClashes)
			require.NoError(t, err)
			require.Empty(t, after.wrong, e.Text)
			b := after.job.Design.Part("moon")
			require.Len(t, b.Holes, 1)
			got := projection.Flat(r3.Add(b.Ball.Center, r3.Scale(b.Ball.Radius, b.Holes[0].Way)))
			require.LessOrEqual(t, r2.Norm(r2.Sub(got, at)), b.Ball.Radius*math.Pi/36*math.Sqrt2/2+1e-6, "view %d, %v: %v", view, off, b.Holes[0].Way)
		}
	}
}
