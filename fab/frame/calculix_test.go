package frame_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/fab/frame/trial"
	"stabile/param/design"
)

// frames are the sculptures that are held against the solver.
func frames() map[string]*trial.Builder {
	lean := func(angle, bearing, length float64, foot r3.Vec) r3.Vec {
		return r3.Add(foot, r3.Scale(length, design.Leaning(angle, bearing)))
	}
	all := map[string]*trial.Builder{}

	b := trial.New(1.5)
	plate := b.Plate(600, 600, 10)
	foot := r3.Vec{X: 30, Y: -20, Z: 10}
	post := b.Stand("mast", plate, foot, lean(0.2, 0.6, 1200, foot), 60, 60)
	b.Tip("moon", post, 120, r3.Vec{})
	all["leaning post"] = b

	b = trial.New(1.5)
	plate = b.Plate(600, 600, 10)
	foot = r3.Vec{Z: 10}
	post = b.Stand("mast", plate, foot, lean(0.08, 3, 900, foot), 76, 76)
	one := b.Tip("one", post, 150, r3.Vec{X: 20})
	foot = r3.Add(one.Ball.Center, r3.Scale(150, design.Leaning(0.3, 0)))
	post = b.Stand("spar", one, foot, lean(0.14, 1.7, 700, foot), 48, 48)
	two := b.Tip("two", post, 110, r3.Vec{Y: -15})
	foot = r3.Add(two.Ball.Center, r3.Scale(110, design.Leaning(0.35, 4.7)))
	b.Metal.Thickness = 1.2
	post = b.Stand("reed", two, foot, lean(0.1, 4.4, 500, foot), 32, 32)
	b.Tip("three", post, 70, r3.Vec{X: 5})
	all["stack"] = b

	b = trial.New(1.5)
	plate = b.Plate(900, 600, 10)
	left, right := r3.Vec{X: -300, Z: 10}, r3.Vec{X: 300, Y: 100, Z: 10}
	one = b.Tip("one", b.Stand("left", plate, left, lean(0.1, 0.3, 1300, left), 48, 48), 130, r3.Vec{})
	two = b.Tip("two", b.Stand("right", plate, right, lean(0.12, 2.8, 1500, right), 42, 42), 100, r3.Vec{})
	b.Tie("tie", one, two, r3.Vec{}, r3.Vec{}, 25)
	all["loop"] = b

	b = trial.New(1.5)
	plate = b.Plate(500, 500, 10)
	foot = r3.Vec{Z: 10}
	b.Tip("bud", b.Stand("horn", plate, foot, lean(0.25, 5, 1400, foot), 90, 40), 60, r3.Vec{})
	all["taper"] = b

	b = trial.New(2)
	plate = b.Plate(700, 700, 12)
	foot = r3.Vec{Z: 12}
	trunk := b.Stand("trunk", plate, foot, lean(0.05, 1, 1500, foot), 80, 80)
	b.Tip("crown", trunk, 110, r3.Vec{Y: 12})
	b.Metal.Thickness = 1.2
	for i, along := range []float64{500, 800, 1050} {
		u := trunk.Post.Direction
		out := design.Toward(u, 2.2*float64(i))
		at := r3.Add(r3.Add(trunk.Post.Ends[design.Foot].At, r3.Scale(along, u)), r3.Scale(40, out))
		way := r3.Unit(r3.Add(out, r3.Scale(0.9, u)))
		branch := b.Stand(fmt.Sprint("branch", i), trunk, at, r3.Add(at, r3.Scale(600-100*float64(i), way)), 32, 32)
		if i < 2 {
			b.Tip(fmt.Sprint("fruit", i), branch, 70, r3.Vec{})
		}
	}
	b.Metal.Thickness = 1.5
	b.Thread("burl", trunk, 250, 100)
	all["tree"] = b
	return all
}

// TestCalculix holds displacements and what the ground exerts on each post within
// 0.5 % of the solver's, and the three lowest frequencies within 1 %.
func TestCalculix(t *testing.T) {
	for name, b := range frames() {
		t.Run(name, func(t *testing.T) {
			items := b.Items()
			start := time.Now()
			f, err := frame.New(items)
			require.NoError(t, err)
			took := time.Since(start)
			force := map[*design.Part]r3.Vec{}
			l := f.NewLoads(1)
			l.Gravity(0, r3.Vec{Z: -1})
			for i, it := range f.Items {
				if it.Part.Base == nil {
					force[it.Part] = r3.Vec{X: 20 + float64(i), Y: -12 + 3*float64(i)}
					l.Along(0, it.Part, force[it.Part])
				}
			}
			start = time.Now()
			s := f.Solve(l)
			modes, checked, err := f.Modes(3)
			took += time.Since(start)
			require.NoError(t, err)
			require.True(t, checked)
			ref := calculix(t, f, force)

			most := 0.0
			for _, u := range ref.moved {
				most = max(most, r3.Norm(u))
			}
			worst := 0.0
			for p, want := range ref.moved {
				at := want
				if p.Post != nil {
					at = s.Moved(p, p.Post.Ends[design.Head].At, 0)
				} else {
					at = s.Moved(p, p.Ball.Center, 0)
				}
				off := r3.Norm(r3.Sub(at, want)) / most
				worst = max(worst, off)
				if off > 0.005 {
					t.Errorf("%s moves %v, by ccx %v", p.Name, at, want)
				}
			}
			force1, moment1 := 0.0, 0.0
			for _, want := range ref.feet {
				force1, moment1 = max(force1, r3.Norm(want.Force)), max(moment1, r3.Norm(want.Moment))
			}
			worstForce, worstMoment := 0.0, 0.0
			for p, want := range ref.feet {
				got := s.Foot(p, 0)
				df, dm := r3.Norm(r3.Sub(got.Force, want.Force))/force1, r3.Norm(r3.Sub(got.Moment, want.Moment))/moment1
				worstForce, worstMoment = max(worstForce, df), max(worstMoment, dm)
				if df > 0.005 || dm > 0.005 {
					t.Errorf("%s stands with %v and %v, by ccx %v and %v", p.Name, got.Force, got.Moment, want.Force, want.Moment)
				}
			}
			require.GreaterOrEqual(t, len(ref.frequencies), 3)
			var off []string
			for i, m := range modes {
				off = append(off, fmt.Sprintf("%.3f Hz %+.3f %%", m.Frequency, 100*(m.Frequency/ref.frequencies[i]-1)))
				if !near(m.Frequency, ref.frequencies[i], 0.01) {
					t.Errorf("frequency %d is %v, by ccx %v", i, m.Frequency, ref.frequencies[i])
				}
			}
			t.Logf("movement of up to %.2f mm within %.3f %%, forces %.4f %%, moments %.4f %%, frequencies %s; ccx took %v, %.0f times as long",
				most, 100*worst, 100*worstForce, 100*worstMoment, strings.Join(off, ", "), ref.took.Round(time.Millisecond), float64(ref.took)/float64(took))
			if math.IsNaN(worst) || most == 0 {
				t.Error("nothing was read")
			}
		})
	}
}

// BenchmarkCalculix reports how many times as long the solver takes, as a whole
// process that reads a frame, solves one case and three modes, as the frame does for
// the same: made, solved and its modes found.
func BenchmarkCalculix(b *testing.B) {
	items := frames()["tree"].Items()
	load := func(f *frame.Frame) (*frame.Loads, map[*design.Part]r3.Vec) {
		force := map[*design.Part]r3.Vec{}
		l := f.NewLoads(1)
		l.Gravity(0, r3.Vec{Z: -1})
		for _, it := range f.Items {
			if it.Part.Base == nil {
				force[it.Part] = r3.Vec{X: 20}
				l.Along(0, it.Part, force[it.Part])
			}
		}
		return l, force
	}
	f, err := frame.New(items)
	require.NoError(b, err)
	_, force := load(f)
	ref := calculix(b, f, force)
	least := time.Hour
	for b.Loop() {
		start := time.Now()
		f, err := frame.New(items)
		if err != nil {
			b.Fatal(err)
		}
		l, _ := load(f)
		f.Solve(l)
		if _, _, err := f.Modes(3); err != nil {
			b.Fatal(err)
		}
		least = min(least, time.Since(start))
	}
	b.ReportMetric(float64(ref.took.Milliseconds()), "ccx-ms")
	b.ReportMetric(float64(ref.took)/float64(least), "times")
}
