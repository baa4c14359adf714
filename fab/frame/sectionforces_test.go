package frame_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/fab/frame/trial"
	"stabile/param/design"
)

// TestSectionForces holds what is carried in the axes of a beam against the same in those of
// space, at both ends, and that a free head carries nothing: its forces follow from
// the other end's by the beam's equilibrium.
func TestSectionForces(t *testing.T) {
	for seed := range uint64(30) {
		rnd := rand.New(rand.NewPCG(seed, 31))
		b := trial.Random(rnd, 4+rnd.IntN(26))
		items := b.Items()
		f, err := frame.New(items)
		require.NoError(t, err)
		l := f.NewLoads(2)
		l.Gravity(0, r3.Vec{Z: -1})
		for _, it := range items {
			if it.Part.Base == nil {
				l.Along(1, it.Part, r3.Vec{X: rnd.NormFloat64(), Y: rnd.NormFloat64(), Z: rnd.NormFloat64()})
			}
		}
		s := f.Solve(l)
		size := [2]float64{r3.Norm(s.Reaction(0).Force), r3.Norm(s.Reaction(1).Force)}
		for i := range f.Beams {
			beam := &f.Beams[i]
			if beam.A == beam.B {
				continue
			}
			var axials [2][]float64
			axials[0], axials[1] = make([]float64, 2), make([]float64, 2)
			s.Axials(i, axials[0], axials[1])
			for c := range 2 {
				var cuts [2]frame.Cut
				cuts[0], cuts[1] = s.Cuts(i, c)
				for end, cut := range cuts {
					in := s.SectionForces(i, end, nil)[c]
					axial, y, z := beam.Local(cut.Force)
					twist, my, mz := beam.Local(cut.Moment)
					want := frame.SectionForces{Axial: axial, Shear: [2]float64{y, z}, Twist: twist, Moment: [2]float64{my, mz}}
					off := want
					off.Add(-1, &in)
					_, shear, bending, turn := off.Resultants()
					if d := max(off.Axial, -off.Axial) + shear + (bending+turn)/1e3 + max(axial-axials[end][c], axials[end][c]-axial); d > 1e-9*size[c] {
						t.Errorf("seed %d, beam %d, end %d: %+v, want %+v, axial %v", seed, i, end, in, want, axials[end][c])
					}
				}
			}
		}
		for i := range f.Posts {
			p := &f.Posts[i]
			if p.Part.Post.Ends[design.Head].With != nil || len(p.Stations[p.Beams()].Joins) > 0 {
				continue
			}
			last := p.First + p.Beams() - 1
			if f.Beams[last].A == f.Beams[last].B {
				continue
			}
			for c := range 2 {
				_, head := s.Cuts(last, c)
				if hangs(items, p.Part.Name) {
					continue
				}
				if d := r3.Norm(head.Force) + r3.Norm(head.Moment)/1e3; d > 1e-9*size[c] {
					t.Errorf("seed %d: the free head of %s bears %+v", seed, p.Part.Name, head)
				}
			}
		}
	}
}

// hangs reports whether a ball or a post stands on a post of that name.
func hangs(items []frame.Item, name string) bool {
	for _, it := range items {
		if b := it.Part.Ball; b != nil && (b.On != nil && b.On.Name == name || b.Around != nil && b.Around.Name == name) {
			return true
		}
		if p := it.Part.Post; p != nil && (p.Ends[design.Foot].With != nil && p.Ends[design.Foot].With.Name == name || p.Ends[design.Head].With != nil && p.Ends[design.Head].With.Name == name) {
			return true
		}
	}
	return false
}

// TestOwn holds a post's own frequency against the lowest mode of frames in which
// it stands alone: tubes, tapers, with a ball on top and without, upright and
// leaning; and that of a branch on a stiff trunk against the branch clamped.
func TestOwn(t *testing.T) {
	own := func(b *trial.Builder, f *frame.Frame, name string) float64 {
		l := f.NewLoads(2)
		l.Gravity(0, r3.Vec{X: 1})
		l.Gravity(1, r3.Vec{Y: 1})
		s := f.Solve(l)
		for i, p := range b.Design.Parts {
			if p.Name == name {
				return s.Own(p, b.Design.Ties().Carried(i), [2]int{0, 1})
			}
		}
		return 0
	}
	for _, tt := range []struct{ d0, d1, tip, lean float64 }{{60, 60, 0, 0}, {60, 60, 5, 0}, {60, 60, 0.3, 0.4}, {80, 40, 0, 0}, {40, 60, 2, 0.2}} {
		b, post, _ := cantilever(1200, tt.d0, tt.d1, 1.5, tt.tip, tt.lean)
		f, err := frame.New(b.Items())
		require.NoError(t, err)
		modes, _, err := f.Modes(1)
		require.NoError(t, err)
		if got, want := own(b, f, post.Name), modes[0].Frequency; got < want*0.99 || got > want*1.06 {
			t.Errorf("%+v: own frequency %v, lowest mode %v (%.1f %%)", tt, got, want, 100*(got/want-1))
		}
	}
	b := trial.New(1.5)
	b.Metal.Thickness = 12
	trunk := b.Stand("trunk", b.Plate(600, 600, 12), r3.Vec{Z: 12}, r3.Vec{Z: 512}, 200, 200)
	b.Metal.Thickness = 1.5
	b.Stand("branch", trunk, r3.Vec{Z: 512}, r3.Vec{Z: 1512}, 40, 40)
	f, err := frame.New(b.Items())
	require.NoError(t, err)
	c, post, _ := cantilever(1000, 40, 40, 1.5, 0, 0)
	g, err := frame.New(c.Items())
	require.NoError(t, err)
	if got, want := own(b, f, "branch"), own(c, g, post.Name); !near(got, want, 0.02) {
		t.Errorf("a branch's own frequency %v, clamped %v", got, want)
	}
}
