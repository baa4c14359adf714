package frame_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/fab/frame/trial"
	"stabile/param/design"
)

func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Abs(want)
}

// cantilever returns a post on a plate, upright but for a lean, with a small
// ball of the given mass at its head, whose centre lies in the head.
func cantilever(length, d0, d1, thickness, tip, lean float64) (*trial.Builder, *design.Part, *design.Part) {
	b := trial.New(thickness)
	plate := b.Plate(300, 300, 10)
	foot := r3.Vec{Z: 10}
	post := b.Stand("post", plate, foot, r3.Add(foot, r3.Scale(length, design.Leaning(lean, 0.7))), d0, d1)
	var ball *design.Part
	if tip > 0 {
		ball = b.Ball("tip", post.Post.Ends[design.Head].At, 1.5)
		post.Post.Ends[design.Head].Contact = design.Contact{Meets: design.OnBall, With: ball}
		b.Design.Joints = append(b.Design.Joints, design.Joint{Kind: design.EndJoint, Post: post, End: design.Head, A: post, B: ball, At: ball.Ball.Center})
		b.Weigh(ball, tip)
	}
	return b, post, ball
}

// frequency returns the lowest frequency of a slender cantilever with a mass at
// its tip, from its characteristic equation
//
//	1 + cos b cosh b + m b (cos b sinh b - sin b cosh b) = 0
//
// by bisection, m being the mass at the tip over that of the beam.
func frequency(length float64, s frame.Section, mass, tip float64) float64 {
	m := tip / mass
	f := func(b float64) float64 {
		return 1 + math.Cos(b)*math.Cosh(b) + m*b*(math.Cos(b)*math.Sinh(b)-math.Sin(b)*math.Cosh(b))
	}
	lo, hi := 1e-3, 1.8751041
	for range 200 {
		if mid := (lo + hi) / 2; f(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo * lo / (2 * math.Pi) * math.Sqrt(200e3*s.Inertia*1e3/(mass*length*length*length))
}

// TestFrequency holds the lowest frequency of a cantilever against worked cases
// H1 and H3 and the characteristic equation. Three beams to a post are not exact:
// the error is that of Hermite shapes
// (upwards) and of the small ball's own inertia (downwards).
func TestFrequency(t *testing.T) {
	for _, tt := range []struct{ length, d, wall, tip, worked float64 }{
		{1000, 60, 1.5, 5, 18.0391}, // H1, characteristic equation root
		{800, 48, 1.5, 0, 72.5947},  // H3
		{2000, 100, 2, 0.5, 0}, {600, 25, 1.2, 12, 0},
	} {
		section := frame.Tube(tt.d, tt.wall)
		want := frequency(tt.length, section, 7850e-9*section.Area*tt.length, tt.tip)
		if tt.worked > 0 && !near(want, tt.worked, 5e-6) {
			t.Errorf("%+v: the characteristic equation gives %v", tt, want)
		}
		b, _, _ := cantilever(tt.length, tt.d, tt.d, tt.wall, tt.tip, 0.3)
		f, err := frame.NewSlender(b.Items())
		require.NoError(t, err)
		modes, checked, err := f.Modes(3)
		require.NoError(t, err)
		if got := modes[0].Frequency; !checked || !near(got, want, 2e-4) || got < want*(1-1e-5) || !near(modes[1].Frequency, got, 1e-8) {
			t.Errorf("%+v: frequencies %v and %v, want %v twice (checked %v)", tt, got, modes[1].Frequency, want, checked)
		}
		// With shear it is lower, by up to the share of shear in the deflection.
		g, err := frame.New(b.Items())
		require.NoError(t, err)
		sheared, _, err := g.Modes(1)
		require.NoError(t, err)
		if got := sheared[0].Frequency; got > want || got < want*0.98 {
			t.Errorf("%+v: frequency with shear %v, without %v", tt, got, want)
		}
	}
}

// TestSecondFrequency holds the second bending frequency of a clamped beam, with
// three beams, against the root 4.694091 of cos b cosh b = -1.
func TestSecondFrequency(t *testing.T) {
	b, _, _ := cantilever(1000, 40, 40, 1.5, 0, 0)
	f, err := frame.NewSlender(b.Items())
	require.NoError(t, err)
	modes, checked, err := f.Modes(4)
	require.NoError(t, err)
	s := frame.Tube(40, 1.5)
	want := 4.694091 * 4.694091 / (2 * math.Pi) * math.Sqrt(200e3*s.Inertia*1e3/(7850e-9*s.Area*1e12))
	if !checked || !near(modes[2].Frequency, want, 3.5e-3) || !near(modes[3].Frequency, want, 3.5e-3) {
		t.Errorf("third and fourth %v, %v, want %v", modes[2].Frequency, modes[3].Frequency, want)
	}
}

// TestDeflection holds a leaning cantilever under a force across its tip against
// P L3 / 3 E I + P L / k G A, and under its own even load across against
// w L4 / 8 E I + w L2 / 2 k G A.
func TestDeflection(t *testing.T) {
	const length, force = 900.0, 50.0
	b, post, _ := cantilever(length, 50, 50, 2, 0, 0.4)
	f, err := frame.New(b.Items())
	require.NoError(t, err)
	across := design.Toward(post.Post.Direction, 1.1)
	l := f.NewLoads(2)
	l.At(0, post, post.Post.Ends[design.Head].At, r3.Scale(force, across))
	l.Along(1, post, r3.Scale(force, across))
	s := f.Solve(l)
	section := frame.Tube(50, 2)
	shear := 0.5306122448979592 * 200e3 / 2.6 * section.Area // k of Cowper for v = 0.3: 2.6 / 4.9
	for c, want := range []float64{
		force*length*length*length/(3*200e3*section.Inertia) + force*length/shear,
		force*length*length*length/(8*200e3*section.Inertia) + force*length/(2*shear),
	} {
		u := s.Moved(post, post.Post.Ends[design.Head].At, c)
		if got := r3.Dot(u, across); !near(got, want, 1e-10) || !near(r3.Norm(u), want, 1e-10) {
			t.Errorf("case %d: moved %v, want %v", c, got, want)
		}
		// The moment at the foot, and its fall towards the head.
		root, _ := s.Cuts(0, c)
		_, _, bending, _ := root.Resultants(post.Post.Direction)
		if want := []float64{force * length, force * length / 2}[c]; !near(bending, want, 1e-10) {
			t.Errorf("case %d: moment at the foot %v, want %v", c, bending, want)
		}
	}
}

// TestTaper holds the tip deflection of a taper against the flexibility summed
// over many slices, and its frequency against a frame of many short tubes.
func TestTaper(t *testing.T) {
	for _, d := range [][2]float64{{80, 40}, {60, 50}, {40, 70}, {120, 30}} {
		const length, wall, force = 1000.0, 1.5, 20.0
		b, post, _ := cantilever(length, d[0], d[1], wall, 0, 0)
		f, err := frame.New(b.Items())
		require.NoError(t, err)
		l := f.NewLoads(1)
		l.At(0, post, post.Post.Ends[design.Head].At, r3.Vec{X: force})
		got := f.Solve(l).Moved(post, post.Post.Ends[design.Head].At, 0).X
		want := 0.0
		const n = 4000
		for i := range n {
			x := (float64(i) + 0.5) * length / n
			s := frame.Tube(d[0]+(d[1]-d[0])*x/length, wall)
			want += length / n * force * ((length-x)*(length-x)/(200e3*s.Inertia) + 1/(0.5306122448979592*200e3/2.6*s.Area))
		}
		if !near(got, want, 1e-4) {
			t.Errorf("%v: moved %v, want %v (%.2f %%)", d, got, want, 100*(got/want-1))
		}

		// The same taper of 60 tubes, one on the head of the other.
		many := trial.New(wall)
		host := many.Plate(300, 300, 10)
		foot := r3.Vec{Z: 10}
		const tubes = 60
		for i := range tubes {
			across := d[0] + (d[1]-d[0])*(float64(i)+0.5)/tubes
			head := r3.Add(foot, r3.Vec{Z: length / tubes})
			host = many.Stand("t", host, foot, head, across, across)
			foot = head
		}
		g, err := frame.New(many.Items())
		require.NoError(t, err)
		fine, checked, err := g.Modes(3)
		require.NoError(t, err)
		coarse, _, err := f.Modes(3)
		require.NoError(t, err)
		for i := range fine {
			if !checked || !near(coarse[i].Frequency, fine[i].Frequency, []float64{0.003, 0.003, 0.007}[i]) {
				t.Errorf("%v: frequency %d is %v, of 60 tubes %v (checked %v)", d, i, coarse[i].Frequency, fine[i].Frequency, checked)
			}
		}
	}
}

// TestEuler holds buckling against Euler's column, clamped at its foot: pi2 E I /
// 4 L2; for an arm of stiff ball on top, the root of tan(kL) = 1 / (k a).
func TestEuler(t *testing.T) {
	const length, weight = 1500.0, 100.0
	section := frame.Tube(40, 1.5)
	for _, arm := range []float64{0, 200} {
		b, post, ball := cantilever(length, 40, 40, 1.5, weight/9.80665, 0)
		ball.Ball.Center.Z += arm
		b.Weigh(post, 0)
		f, err := frame.NewSlender(b.Items())
		require.NoError(t, err)
		axial := make([]float64, len(f.Beams))
		for i := range axial {
			axial[i] = -weight
		}
		got, err := f.Buckling(axial)
		require.NoError(t, err)
		k := math.Pi / 2 / length
		if arm > 0 {
			lo, hi := 1e-9, k
			for range 200 {
				if mid := (lo + hi) / 2; math.Tan(mid*length) < 1/(mid*arm) {
					lo = mid
				} else {
					hi = mid
				}
			}
			k = lo
		}
		if want := k * k * 200e3 * section.Inertia / weight; !near(got, want, 2e-4) {
			t.Errorf("arm %v: factor %v, want %v", arm, got, want)
		}
	}
}

// TestAlike holds that the modes and the buckling of many posts that are nearly
// alike, whose eigenvalues lie close together, are found: each post stands by
// itself, so that they are those of the post that is worst alone.
func TestAlike(t *testing.T) {
	for _, step := range []float64{0, 0.01, 0.3, 2, 10} {
		many := trial.New(1.5)
		plate := many.Plate(2000, 300, 10)
		const posts = 14
		least, factor := math.Inf(1), math.Inf(1)
		for i := range posts {
			foot := r3.Vec{X: -900 + 130*float64(i), Z: 10}
			length := 1000 + step*float64(i)
			many.Stand("reed", plate, foot, r3.Add(foot, r3.Vec{Z: length}), 30, 30)
			b, _, _ := cantilever(length, 30, 30, 1.5, 0, 0)
			f, err := frame.New(b.Items())
			require.NoError(t, err)
			modes, _, err := f.Modes(1)
			require.NoError(t, err)
			buckles, err := f.Buckling([]float64{-100, -100, -100})
			require.NoError(t, err)
			least, factor = min(least, modes[0].Frequency), min(factor, buckles)
		}
		f, err := frame.New(many.Items())
		require.NoError(t, err)
		modes, checked, err := f.Modes(3)
		require.NoError(t, err, "step %v", step)
		axial := make([]float64, len(f.Beams))
		for i := range axial {
			axial[i] = -100
		}
		buckles, err := f.Buckling(axial)
		require.NoError(t, err, "step %v", step)
		if !checked || !near(modes[0].Frequency, least, 1e-8) || !near(modes[1].Frequency, least, 1e-8) || !near(buckles, factor, 1e-8) {
			t.Errorf("step %v: %v (checked %v), buckling %v; the worst alone has %v and %v", step, frequencies(modes), checked, buckles, least, factor)
		}
	}
}

// TestMechanism holds that a part tied to nothing is named.
func TestMechanism(t *testing.T) {
	b, _, _ := cantilever(500, 40, 40, 1.5, 1, 0)
	loose := b.Post("loose", r3.Vec{X: 500, Z: 10}, r3.Vec{X: 500, Z: 300}, 30, 30)
	b.Tip("far", loose, 60, r3.Vec{})
	_, err := frame.New(b.Items())
	var m *frame.MechanismError
	if !errors.As(err, &m) || m.Part.Name != "far" && m.Part.Name != "loose" {
		t.Errorf("error %v", err)
	}
}

func BenchmarkFrame(b *testing.B) {
	a := trial.Random(rand.New(rand.NewPCG(4, 4)), 30)
	items := a.Items()
	b.Run("new", func(b *testing.B) {
		for b.Loop() {
			if _, err := frame.New(items); err != nil {
				b.Fatal(err)
			}
		}
	})
	f, err := frame.New(items)
	if err != nil {
		b.Fatal(err)
	}
	b.Logf("%d beams, %d unknowns", len(f.Beams), f.Unknowns)
	b.Run("solve 40", func(b *testing.B) {
		for b.Loop() {
			l := f.NewLoads(40)
			for c := range 40 {
				l.Gravity(c, r3.Vec{Z: -1})
			}
			f.Solve(l)
		}
	})
	b.Run("modes", func(b *testing.B) {
		for b.Loop() {
			if _, _, err := f.Modes(3); err != nil {
				b.Fatal(err)
			}
		}
	})
}
