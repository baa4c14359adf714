package strength

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/frame"
	"stabile/fab/frame/trial"
	"stabile/fab/solid"
	"stabile/fab/wind"
	"stabile/param/design"
)

// TestPushes holds where along a post of 30 mm, 1200 mm long with its foot at 500 mm,
// pushes are laid. Lying with a rise of 60 mm it climbs 0.05 a mm of its length, and its
// wall covers a height for sqrt(1 - 0.05^2) 15 / 0.05 = 299.6248 mm each way.
func TestPushes(t *testing.T) {
	const length = 1200.0
	for _, tt := range []struct {
		what         string
		rise, height float64
		held, branch bool // at its head; half way between the middle and the head
		want         []float64
	}{
		{what: "upright", rise: length, height: 800, want: []float64{300}},
		{what: "upright, at its foot", rise: length, height: 500, want: []float64{0}},
		{what: "upright, over its head", rise: length, height: 1701, want: []float64{1200}}, // the highest, at its top
		{what: "upright, under its foot", rise: length, height: 499},
		{what: "leaning by 30 deg", rise: length * math.Cos(math.Pi/6), height: 500 + 600*math.Cos(math.Pi/6), want: []float64{600}},
		{what: "leaning, at its rim", rise: length * math.Cos(math.Pi/6), height: 500 - 7.4, want: []float64{0}}, // 15 sin 30 deg
		{what: "leaning, under its rim", rise: length * math.Cos(math.Pi/6), height: 500 - 7.6},
		{what: "level", height: 500, held: true, want: []float64{600, 400, 800}},
		{what: "level, at its top", height: 514.9, held: true, want: []float64{600, 400, 800}},
		{what: "level, at its bottom", height: 485.1, held: true, want: []float64{600, 400, 800}},
		{what: "level, under it", height: 484.9, held: true},
		{what: "level, over it", height: 515.1, held: true, want: []float64{600, 400, 800}}, // the highest
		{what: "level with a branch", height: 500, held: true, branch: true, want: []float64{600, 400, 800, 900}},
		{what: "level, free at its head", height: 500, want: []float64{600, 400, 800, 1200}},
		{what: "all but level", rise: 10, height: 505, held: true, want: []float64{600, 400, 800}},
		{what: "rising, low", rise: 60, height: 500, held: true, want: []float64{0, 299.6248}},
		{what: "rising, in the middle", rise: 60, height: 530, held: true, want: []float64{600, 400, 800}},
	} {
		b := trial.New(1.5)
		plate := b.Plate(300, 300, 10)
		run := math.Sqrt(length*length - tt.rise*tt.rise)
		post := b.Stand("post", plate, r3.Vec{Z: 500}, r3.Vec{X: run, Z: 500 + tt.rise}, 30, 30)
		if tt.held {
			post.Post.Ends[design.Head].Contact = design.Contact{Meets: design.OnPlate, With: plate}
		}
		if tt.branch {
			hangs := b.Stand("branch", post, r3.Vec{X: 900, Z: 500}, r3.Vec{X: 900, Z: 400}, 10, 10)
			hangs.Post.Ends[design.Foot].Meets = design.OnSide
		}
		b.Design.Site = &design.Site{Push: 100, PushHeight: tt.height}
		var got []float64
		for _, p := range pushes(Input{Design: &b.Design, Items: b.Items()}) {
			if p.part == post {
				got = append(got, r3.Norm(r3.Sub(p.at, post.Post.Ends[design.Foot].At)))
			}
		}
		require.InDeltaSlice(t, tt.want, append([]float64{}, got...), 1e-4, "%s: %v, want %v", tt.what, got, tt.want)
	}
}

// TestPushedLevel holds, by hand, the moments in a level post that is pushed between two
// stiff stands, a beam clamped at both ends: 4/27 P L at an end, with the push a third
// of the way from it, and P L / 8 in the middle, with the push there.
func TestPushedLevel(t *testing.T) {
	b := trial.New(1.5)
	plate := b.Plate(4000, 400, 12)
	b.Metal.Modulus = 200e3 * 1e6 // stands that do not give
	one, two := b.Ball("one", r3.Vec{X: -1000, Z: 600}, 50), b.Ball("two", r3.Vec{X: 1000, Z: 600}, 50)
	b.Tie("left", plate, one, r3.Vec{X: -1000, Z: 12}, r3.Vec{}, 90)
	b.Tie("right", plate, two, r3.Vec{X: 1000, Z: 12}, r3.Vec{}, 90)
	b.Metal.Modulus = 200e3
	tie := b.Tie("tie", one, two, r3.Vec{}, r3.Vec{}, 30)
	b.Weigh(tie, 0)
	b.Design.Site = &design.Site{Push: 100, PushHeight: 610}
	s, err := Check(Input{Design: &b.Design, Items: b.Items()})
	require.NoError(t, err)
	want := map[float64]struct {
		moment float64
		along  float64
	}{
		0:    {4. / 27 * 100 * 1900, 1. / 3},
		950:  {100 * 1900. / 8, 0.5},
		1900: {4. / 27 * 100 * 1900, 2. / 3},
	}
	for _, m := range s.Members {
		// Shear moves a little of the moment to the ends.
		if w, ok := want[math.Round(m.Along)]; ok && m.Part == tie {
			if math.Abs(m.Bending-w.moment) > 0.002*w.moment || m.Case.Kind != check.Push || m.Case.Part != "tie" || math.Abs(m.Case.Along-w.along) > 1e-9 {
				t.Errorf("at %v: %v N mm in %+v, want %v in a push at %v", m.Along, m.Bending, m.Case, w.moment, w.along)
			}
			delete(want, math.Round(m.Along))
		}
	}
	if len(want) > 0 || len(s.Unpushed) > 0 {
		t.Errorf("not found: %v; not pushed: %v", want, s.Unpushed)
	}
}

// TestNoPush holds that a push that meets nothing is reported: at a height under the foot of
// all that stands.
func TestNoPush(t *testing.T) {
	b := trial.New(1.5)
	mast := b.Stand("mast", b.Plate(300, 300, 40), r3.Vec{Z: 40}, r3.Vec{Z: 900}, 40, 40)
	for _, tt := range []struct {
		push, height float64
		unpushed     int
		want         finding.Fact
	}{
		{50, 30, 1, NothingPushed{Height: 30}},
		{50, 300, 0, nil},
		{0, 0, 0, nil},
	} {
		b.Design.Site = &design.Site{Push: tt.push, PushHeight: tt.height}
		in := Input{Design: &b.Design, Items: b.Items()}
		s, err := Check(in)
		require.NoError(t, err)
		if len(s.Unpushed) != tt.unpushed || tt.unpushed > 0 && s.Unpushed[0] != mast {
			t.Errorf("%v N at %v: not pushed %v", tt.push, tt.height, s.Unpushed)
		}
		var got finding.Fact
		for _, f := range s.Findings(in) {
			switch f.Fact.(type) {
			case NothingPushed, NotPushed:
				if got = f.Fact; f.Level != finding.Caution || !slices.Equal(f.Parts, []string{"mast"}) {
					t.Errorf("%v N at %v: %+v", tt.push, tt.height, f)
				}
			}
		}
		if got != tt.want {
			t.Errorf("%v N at %v: %+v, want %+v", tt.push, tt.height, got, tt.want)
		}
	}
}

// TestWindows holds that the same comes out where pushes are solved some at a time as
// where they are all kept.
func TestWindows(t *testing.T) {
	windowed := 0
	for seed := range uint64(30) {
		rnd := rand.New(rand.NewPCG(seed, 41))
		b := trial.Random(rnd, 6+rnd.IntN(30))
		b.Design.Site = &design.Site{Push: 300, PushHeight: 200 + 600*rnd.Float64(), Slope: 0.05 * float64(seed%2)}
		if seed%3 > 0 {
			b.Design.Site.Wind, b.Design.Site.Method, b.Design.Site.Exposure = 30, design.ASCE7, "C"
		}
		w, err := wind.On(&b.Design, solid.Bodies(&b.Design), wind.Options{})
		require.NoError(t, err)
		in := Input{
			Design: &b.Design, Items: b.Items(), Wind: w, AnchorHole: 14, Target: 1.5,
			Footprint: []r2.Vec{{X: -500, Y: -400}, {X: 500, Y: -400}, {X: 500, Y: 400}, {X: -500, Y: 400}},
			Anchors:   []r2.Vec{{X: -450, Y: -350}, {X: 450, Y: -350}, {X: 450, Y: 350}, {X: -450, Y: 350}},
		}
		whole, err := Check(in)
		require.NoError(t, err)
		if n := len(pushes(in)); n > 1 {
			windowed += n
		}
		for _, room := range []int{1, 4 * len(whole.Frame.Beams)} { // one push at a time, and two
			in.room = room
			s, err := Check(in)
			require.NoError(t, err)
			same := func(what string, got, want float64) {
				// The greatest pushes, and what the ground bears, come from another order
				// of sums: rounding.
				if math.Abs(got-want) > 1e-9*math.Abs(want)+1e-9 {
					t.Errorf("seed %d, %s: %v, want %v", seed, what, got, want)
				}
			}
			require.Equal(t, len(whole.Members), len(s.Members))
			for i, m := range s.Members {
				want := whole.Members[i]
				require.Equal(t, want.Case, m.Case, "seed %d, %s %s", seed, m.Part.Name, m.Where)
				same(m.Part.Name+" "+string(m.Where), m.Ratio, want.Ratio)
				same("bending in "+m.Part.Name, m.Bending, want.Bending)
			}
			require.Equal(t, len(whole.Welds), len(s.Welds))
			for i, w := range s.Welds {
				require.Equal(t, whole.Welds[i].Case, w.Case, "seed %d, %s %s", seed, w.Part.Name, w.Where)
				same("weld of "+w.Part.Name, w.Ratio, whole.Welds[i].Ratio)
			}
			require.Equal(t, len(whole.Shells), len(s.Shells))
			for i, sh := range s.Shells {
				require.Equal(t, whole.Shells[i].Case, sh.Case, "seed %d, %s", seed, sh.Ball.Name)
				same("force on "+sh.Ball.Name, sh.Load.Force, whole.Shells[i].Load.Force)
				same("moment on "+sh.Ball.Name, sh.Load.Moment, whole.Shells[i].Load.Moment)
			}
			require.Equal(t, whole.Sway.Case, s.Sway.Case, "seed %d", seed)
			same("sway", s.Sway.Moved, whole.Sway.Moved)
			require.Equal(t, whole.Unpushed, s.Unpushed, "seed %d", seed)
			require.Equal(t, whole.Plate == nil, s.Plate == nil)
			if p := s.Plate; p != nil {
				same("plate", p.Ratio, whole.Plate.Ratio)
				require.Equal(t, whole.Plate.Case, p.Case, "seed %d", seed)
			}
			same("anchors", s.Anchors.Tension, whole.Anchors.Tension)
			same("anchors for the target", s.Anchors.ForTarget, whole.Anchors.ForTarget)
			same("anchors' shear", s.Anchors.Shear, whole.Anchors.Shear)
			same("buckling", s.Buckling, whole.Buckling)
		}
	}
	if windowed < 60 {
		t.Errorf("only %d pushes were solved some at a time", windowed)
	}
}

// TestKept holds that at the ends of posts on the plate all pushes are known where
// they are solved one at a time.
func TestKept(t *testing.T) {
	felts := 0
	for seed := range uint64(8) {
		b := trial.Random(rand.New(rand.NewPCG(seed, 41)), 30)
		b.Design.Site = &design.Site{Push: 300, PushHeight: 500}
		in := Input{Design: &b.Design, Items: b.Items()}
		list := pushes(in)
		f, err := frame.New(stationed(in.Items, list))
		require.NoError(t, err)
		whole := newCases(f, in, list)
		in.room = 1
		c := newCases(f, in, list)
		s := &Strength{Frame: f, Buckling: 1e9, Amplification: 1}
		s.members(f, c, in, c.greatestCompressions())
		for i := range f.Posts {
			post := &f.Posts[i]
			if post.Part.Post.Ends[design.Foot].Meets != design.OnPlate {
				continue
			}
			want, got := whole.solved.SectionForces(post.First, 0, nil), c.solved.SectionForces(post.First, 0, nil)
			require.Equal(t, len(want), len(got))
			for k := range want {
				if felt(&want[k]) {
					felts++
					require.Equal(t, want[k], got[k], "seed %d, %s, column %d", seed, post.Part.Name, k)
				}
			}
		}
	}
	if felts < 100 {
		t.Errorf("only %d columns were felt", felts)
	}
}
