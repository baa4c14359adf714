package people_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab/internal/worked"
	"stabile/fab/people"
	"stabile/param/design"
)

// digits is the relative error of a value printed to six significant digits.
const digits = 5.1e-6

func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Abs(want)
}

// TestChildren holds the load of children against worked case K30; the 1391 N of one is
// the figure that is quoted.
func TestChildren(t *testing.T) {
	var in struct{ N []int }
	var out struct {
		Mass  []float64 `json:"mass_kg"`
		Force []float64 `json:"F_N"`
		Level []float64 `json:"H_N"`
	}
	worked.Read(t, "K30", &in, &out)
	for i, n := range in.N {
		l, mass, err := people.Children(n)
		require.NoError(t, err)
		if !near(mass, out.Mass[i], digits) || !near(l.Vertical, out.Force[i], digits) || !near(l.Level, out.Level[i], digits) {
			t.Errorf("%d children: %v kg, %+v", n, mass, l)
		}
	}
	if one, _, _ := people.Children(1); math.Round(one.Vertical) != 1391 {
		t.Errorf("one child: %v", one.Vertical)
	}
	for _, n := range []int{0, -1, 1 << 40} {
		if l, _, err := people.Children(n); err == nil {
			t.Errorf("%d children: %+v", n, l)
		}
	}
}

// TestChildTips holds the level pull of one child on a ball against worked case K31.
func TestChildTips(t *testing.T) {
	var in struct {
		N int
		Z float64 `json:"z_mm"`
	}
	var out struct {
		Down      float64 `json:"F_v"`
		Over      float64 `json:"M_over_Nm"`
		Restoring float64 `json:"restoring_Nm"`
		Ratio     float64
	}
	worked.Read(t, "K31", &in, &out)
	l, _, err := people.Children(in.N)
	require.NoError(t, err)
	over := l.Level * in.Z / 1e3
	if !near(l.Vertical, out.Down, digits) || !near(over, out.Over, digits) || !near(out.Restoring/over, out.Ratio, digits) {
		t.Errorf("%+v tips with %v N m, want %+v", l, over, out)
	}
}

// TestGuard holds the guard and ladder of ASCE 7 against worked case K32.
func TestGuard(t *testing.T) {
	var out struct {
		Force  float64 `json:"F_N"`
		Moment float64 `json:"M_Nm"`
		Line   float64 `json:"line_N_per_m"`
		Ladder float64 `json:"ladder_N"`
	}
	worked.Read(t, "K32", nil, &out)
	g := people.LeaningASCE
	if !near(g.Level, out.Force, digits) || !near(g.Level*g.Height/1e3, out.Moment, digits) || !near(g.Line, out.Line, digits) || !near(people.ClimbingASCE.Vertical, out.Ladder, digits) {
		t.Errorf("%+v and %+v, want %+v", g, people.ClimbingASCE, out)
	}
}

// TestLoads: each family of codes has leaning, climbing and a child, each with a source;
// a denser crowd leans harder.
func TestLoads(t *testing.T) {
	for _, m := range []design.WindMethod{design.ASCE7, design.EN1991, design.NoMethod} {
		kinds := map[people.Kind]bool{}
		for _, l := range people.Loads(m, people.ManyPeople) {
			kinds[l.Kind] = true
			if l.Source == "" || !(l.Level+l.Vertical > 0) {
				t.Errorf("%s: %+v", m, l)
			}
		}
		if len(kinds) != 3 || people.LeastPush(m) < 500 {
			t.Errorf("%s: %v, least push %v", m, kinds, people.LeastPush(m))
		}
	}
	few, many, dense := people.LeaningEN(people.FewPeople), people.LeaningEN(people.ManyPeople), people.LeaningEN(people.DenseCrowd)
	if few.Line != 500 || many.Line != 1000 || dense.Line != 5000 || people.LeaningEN("?").Line != 5000 {
		t.Errorf("%v, %v, %v", few.Line, many.Line, dense.Line)
	}
}

func TestWithin(t *testing.T) {
	for _, c := range []struct {
		bottom, top, height float64
		within              bool
	}{{0, 1000, 1000, true}, {2000, 4000, 2500, true}, {2500, 3000, 0, false}, {3000, 4000, 0, false}, {1000, 500, 0, false}, {math.NaN(), 1, 0, false}} {
		if h, ok := people.Within(c.bottom, c.top); h != c.height || ok != c.within {
			t.Errorf("Within(%v, %v) = %v, %v", c.bottom, c.top, h, ok)
		}
	}
}

// TestTraps: the probes of the handbook and of EN 1176, at their edges.
func TestTraps(t *testing.T) {
	deg := math.Pi / 180
	for _, c := range []struct {
		gap  people.Gap
		want people.Trap
	}{
		{people.Gap{Width: 88, Length: 400, Bounded: true}, people.NoTrap},
		{people.Gap{Width: 89, Length: 400, Bounded: true}, people.HeadTrap},
		{people.Gap{Width: 89, Length: 156, Bounded: true}, people.NoTrap},
		{people.Gap{Width: 157, Length: 89, Bounded: true}, people.HeadTrap},
		{people.Gap{Width: 229, Bounded: true, Height: 2400}, people.HeadTrap},
		{people.Gap{Width: 229, Bounded: true, Height: 2501}, people.NoTrap},
		{people.Gap{Width: 230, Bounded: true}, people.NoTrap},
		{people.Gap{Width: 150, Bounded: true, Ground: true}, people.NoTrap},
		{people.Gap{Width: 150}, people.NoTrap},
		{people.Gap{Width: 7, Bounded: true}, people.NoTrap},
		{people.Gap{Width: 8, Bounded: true}, people.FingerTrap},
		{people.Gap{Width: 25, Length: 25, Bounded: true, Ground: true}, people.FingerTrap},
		{people.Gap{Width: 26, Bounded: true}, people.NoTrap},
		{people.Gap{Vee: true, Width: 200, Angle: 40 * deg, Height: 700}, people.NeckTrap},
		{people.Gap{Vee: true, Width: 200, Angle: 56 * deg, Height: 700}, people.NoTrap},
		{people.Gap{Vee: true, Width: 40, Angle: 40 * deg, Height: 700}, people.NoTrap},
		{people.Gap{Vee: true, Width: 100, Angle: 50 * deg, Height: 100}, people.NoTrap},
		{people.Gap{Width: math.NaN()}, people.HeadTrap},
	} {
		if got := c.gap.Traps(); got != c.want {
			t.Errorf("%+v traps %q, want %q", c.gap, got, c.want)
		}
	}
}

// TestLift holds the NIOSH equation against worked case K42, and against the pound form of
// it (51 lb, 10/H in) within the 2.2 % by which the two differ.
func TestLift(t *testing.T) {
	var in struct{ H, V, D, A, FM, CM, Load float64 }
	var out struct {
		HM, VM, DM, AM, LI float64
		Mass               float64 `json:"RWL_kg"`
	}
	var check struct {
		Pound float64 `json:"lb_version_kg"`
	}
	worked.ReadCheck(t, "K42", &in, &out, &check)
	l := people.Lift{Reach: 10 * in.H, Start: 10 * in.V, Rise: 10 * in.D, Twist: in.A * math.Pi / 180, Frequency: in.FM, Grip: people.Poor}
	m, err := l.Limit()
	require.NoError(t, err)
	for _, v := range [][2]float64{{m.HM, out.HM}, {m.VM, out.VM}, {m.DM, out.DM}, {m.AM, out.AM}, {m.CM, in.CM}, {m.Mass, out.Mass}, {m.Use(in.Load), out.LI}} {
		if !near(v[0], v[1], digits) {
			t.Errorf("%+v, want %+v", m, out)
		}
	}
	if !near(m.Mass, check.Pound, 0.022) {
		t.Errorf("%v, in pounds %v", m.Mass, check.Pound)
	}
	best, err := people.Lift{Reach: 250, Start: 750, Rise: 250}.Limit()
	require.NoError(t, err)
	if !near(best.Mass, 23, 1e-12) {
		t.Errorf("the best lift is %v kg", best.Mass)
	}
	for _, l := range []people.Lift{{Reach: 640, Start: 750}, {Reach: 250, Start: 1760}, {Reach: 250, Start: 0, Rise: 1760}, {Reach: 250, Start: 750, Twist: 140 * math.Pi / 180}} {
		if m, err := l.Limit(); err != nil || m.Mass != 0 || m.Use(1) != 1e9 || m.Use(0) != 0 {
			t.Errorf("%+v: %+v, %v", l, m, err)
		}
	}
}

// TestLiftMonotone: farther out, more twisted or with a worse grip is never more.
func TestLiftMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	for range 3000 {
		l := people.Lift{Reach: 700 * rng.Float64(), Start: 1800 * rng.Float64(), Rise: 1800 * rng.Float64(), Twist: math.Pi * rng.Float64(), Grip: people.Grip(rng.IntN(2))}
		was, err := l.Limit()
		require.NoError(t, err)
		for _, change := range []func(*people.Lift){
			func(l *people.Lift) { l.Reach += 20 }, func(l *people.Lift) { l.Rise += 20 },
			func(l *people.Lift) { l.Twist = min(math.Pi, l.Twist+0.1) }, func(l *people.Lift) { l.Grip++ },
		} {
			worse := l
			change(&worse)
			if now, err := worse.Limit(); err != nil || now.Mass > was.Mass {
				t.Errorf("%+v: %v kg, before %v, %v", worse, now.Mass, was.Mass, err)
			}
		}
	}
}

// FuzzPeople: nothing gives a number that is not one, and no gap panics.
func FuzzPeople(f *testing.F) {
	f.Add(400., 300., 600., 0., 2, true, false)
	f.Add(math.Inf(1), math.NaN(), -1., 7., 9, false, true)
	f.Fuzz(func(t *testing.T, a, b, c, d float64, n int, yes, no bool) {
		people.Gap{Width: a, Length: b, Height: c, Angle: d, Bounded: yes, Ground: no, Vee: n%2 == 0}.Traps()
		if l, mass, err := people.Children(n); err == nil {
			worked.Finite(t, l)
			worked.Finite(t, mass)
		}
		if m, err := (people.Lift{Reach: a, Start: b, Rise: c, Twist: d, Grip: people.Grip(n), Frequency: d}).Limit(); err == nil {
			worked.Finite(t, m)
			worked.Finite(t, m.Use(25))
		}
	})
}

// One child counts as 53.8 + 1.64 x 9.6 = 69.5 kg, and jumps: 10 x 69.5 x 2 = 1391 N.
func ExampleChildren() {
	l, mass, err := people.Children(1)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f kg, %.0f N down, %.0f N level\n", mass, l.Vertical, l.Level)
	// Output: 69.5 kg, 1391 N down, 139 N level
}

// A piece is lifted from 30 cm above the floor to 90, 40 cm out, by two smooth balls: 23 x
// 25/40 x (1 - 0.003 x 45) x (0.82 + 4.5/60) x 0.90 = 10.0 kg.
func ExampleLift_Limit() {
	m, err := people.Lift{Reach: 400, Start: 300, Rise: 600, Grip: people.Poor}.Limit()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f kg\n", m.Mass)
	// Output: 10.0 kg
}
