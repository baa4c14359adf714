package frame_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/fab/frame/trial"
	"stabile/param/design"
)

// TestEquilibrium holds that the ground carries what is laid on random sculptures,
// forces and moments, to 1e-9.
func TestEquilibrium(t *testing.T) {
	for seed := range uint64(60) {
		rnd := rand.New(rand.NewPCG(seed, 5))
		b := trial.Random(rnd, 4+rnd.IntN(30))
		items := b.Items()
		f, err := frame.New(items)
		require.NoError(t, err)
		l := f.NewLoads(2)
		l.Gravity(0, r3.Vec{Z: -1})
		var want [2]frame.Wrench
		var size [2]float64
		add := func(c int, force, at r3.Vec) {
			want[c].Force = r3.Add(want[c].Force, force)
			want[c].Moment = r3.Add(want[c].Moment, r3.Cross(at, force))
			size[c] += r3.Norm(force)
		}
		for _, it := range items {
			add(0, r3.Vec{Z: -9.80665 * it.Mass}, it.CG)
			v := r3.Vec{X: rnd.NormFloat64(), Y: rnd.NormFloat64(), Z: rnd.NormFloat64()}
			at := r3.Add(it.CG, r3.Scale(10, r3.Vec{X: rnd.NormFloat64(), Y: rnd.NormFloat64()}))
			if it.Part.Base == nil {
				l.At(1, it.Part, at, v)
				add(1, v, at)
				if p := it.Part.Post; p != nil && !p.IsTaper() {
					l.Along(1, it.Part, v)
					add(1, v, r3.Scale(0.5, r3.Add(p.Ends[design.Foot].At, p.Ends[design.Head].At)))
				}
			}
		}
		s := f.Solve(l)
		for c := range want {
			got := s.Reaction(c)
			if d := r3.Norm(r3.Add(got.Force, want[c].Force)); d > 1e-9*size[c] {
				t.Errorf("seed %d case %d: forces are off by %v of %v N", seed, c, d, size[c])
			}
			if d := r3.Norm(r3.Add(got.Moment, want[c].Moment)); d > 1e-9*size[c]*1e3 {
				t.Errorf("seed %d case %d: moments are off by %v N mm of %v N at 1 m", seed, c, d, size[c])
			}
		}
	}
}

// TestTurned holds that a sculpture turned about the upright, with its loads,
// moves, carries and swings as it did, to 1e-9.
func TestTurned(t *testing.T) {
	for seed := range uint64(40) {
		rnd := rand.New(rand.NewPCG(seed, 9))
		b := trial.Random(rnd, 4+rnd.IntN(26))
		angle := 2 * math.Pi * rnd.Float64()
		sin, cos := math.Sincos(angle)
		turn := func(v r3.Vec) r3.Vec { return r3.Vec{X: cos*v.X - sin*v.Y, Y: sin*v.X + cos*v.Y, Z: v.Z} }
		one, two := b.Items(), b.Turned(angle).Items()
		for i := range two {
			two[i].Mass = one[i].Mass
		}
		f, err := frame.New(one)
		require.NoError(t, err)
		g, err := frame.New(two)
		require.NoError(t, err)
		lf, lg := f.NewLoads(1), g.NewLoads(1)
		for i, it := range one {
			if it.Part.Base == nil {
				v := r3.Vec{X: rnd.NormFloat64(), Y: rnd.NormFloat64(), Z: -1}
				lf.Along(0, it.Part, v)
				lg.Along(0, two[i].Part, turn(v))
			}
		}
		sf, sg := f.Solve(lf), g.Solve(lg)
		most := 0.0
		for _, it := range one {
			most = max(most, r3.Norm(sf.Moved(it.Part, end(it.Part), 0)))
		}
		for i, it := range one {
			u, v := turn(sf.Moved(it.Part, end(it.Part), 0)), sg.Moved(two[i].Part, end(two[i].Part), 0)
			if d := r3.Norm(r3.Sub(u, v)); d > 1e-9*most {
				t.Errorf("seed %d: %s moves %v, turned %v (most %v)", seed, it.Part.Name, u, v, most)
			}
		}
		large := 0.0
		for i := range f.Beams {
			a, _ := sf.Cuts(i, 0)
			large = max(large, r3.Norm(a.Moment))
		}
		for i := range f.Beams {
			a, _ := sf.Cuts(i, 0)
			c, _ := sg.Cuts(i, 0)
			if d := r3.Norm(r3.Sub(turn(a.Moment), c.Moment)); d > 1e-9*large {
				t.Errorf("seed %d: beam %d bears %v, turned %v", seed, i, a.Moment, c.Moment)
			}
		}
		mf, _, err := f.Modes(3)
		require.NoError(t, err)
		mg, _, err := g.Modes(3)
		require.NoError(t, err)
		for i := range mf {
			if !near(mf[i].Frequency, mg[i].Frequency, 1e-9) {
				t.Errorf("seed %d: frequency %d is %v, turned %v", seed, i, mf[i].Frequency, mg[i].Frequency)
			}
		}
	}
}

// end returns the head of a post, the centre of a ball.
func end(p *design.Part) r3.Vec {
	switch {
	case p.Post != nil:
		return p.Post.Ends[design.Head].At
	case p.Ball != nil:
		return p.Ball.Center
	}
	return r3.Vec{}
}

// TestRandomModes holds that no mode is missed on random sculptures, and that
// the shapes of different modes are square to each other in energy: a change of
// one is not felt by the other. The count is by Sturm.
func TestRandomModes(t *testing.T) {
	for seed := range uint64(60) {
		rnd := rand.New(rand.NewPCG(seed, 3))
		b := trial.Random(rnd, 3+rnd.IntN(30))
		f, err := frame.New(b.Items())
		require.NoError(t, err)
		modes, checked, err := f.Modes(3)
		require.NoError(t, err)
		if !checked || len(modes) != 3 {
			t.Errorf("seed %d: %d modes, checked %v: %v", seed, len(modes), checked, frequencies(modes))
		}
	}
}

func frequencies(modes []frame.Mode) (list []float64) {
	for _, m := range modes {
		list = append(list, m.Frequency)
	}
	return list
}
