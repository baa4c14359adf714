package rolling

import (
	"math"
	"testing"
)

// handRolls are 2 in rolls with the back roll 2-1/2 in behind the pinch.
func handRolls(slant float64) Machine { return Machine{25.4, 25.4, 63.5, slant} }

func mild() Strip { return PlaneStrain(1.5189, 250, 200e3, 0.3) }

// Worked case I3: the loaded radius, the lift of an arc at it and at the wanted
// radius, and the lift of the elastic-plastic strip.
//
// The case lets the moment fall evenly along the sheet. Here it falls with the
// true lever of the back roll's push, which holds the sheet a little rounder: the
// lift is more by 0.05 % at 300 mm to 0.16 % at 38 mm.
func TestLiftCases(t *testing.T) {
	c := loadCase(t, "I3")
	s := PlaneStrain(c.in("t"), c.in("Y"), c.in("E"), 0.3)
	m := Machine{Pinch: 5, Back: c.in("rb"), Distance: c.in("c")}
	leaning := m
	leaning.Slant = math.Pi / 6
	for _, row := range c.rows(t) {
		n := make([]float64, len(row))
		for i := range row {
			n[i] = row[i].(float64)
		}
		set, err := m.Set(s, 1/n[0])
		if err != nil {
			t.Fatalf("Set(1/%v): %v", n[0], err)
		}
		if got := 1 / set.Loaded; !near(got, n[1], sixDigits) {
			t.Errorf("radius %v: loaded %v, want %v", n[0], got, n[1])
		}
		for i, r := range []float64{n[0], n[1]} {
			if got, err := arcTravel(m, s, r); err != nil || !near(got, n[2+i], sixDigits) {
				t.Errorf("arc of %v: lift %v, %v, want %v", r, got, err, n[2+i])
			}
		}
		if more := set.Lift/n[4] - 1; more < 0 || more > 0.0017 {
			t.Errorf("radius %v: lift %v is %.3f %% over %v", n[0], set.Lift, more*100, n[4])
		}
		if got, err := arcTravel(leaning, s, n[1]); err != nil || !near(got, n[5], sixDigits) {
			t.Errorf("arc of %v on a leaning way: travel %v, %v, want %v", n[1], got, err, n[5])
		}
		// The lead of the case is that of the arc at the loaded radius, which
		// is tighter than the sheet; the sheet reaches further.
		arc := n[1] * math.Asin(m.Distance/(n[1]+s.Thickness/2+m.Back))
		if !near(arc, n[6], sixDigits) || !(set.Lead > arc && set.Lead < 1.03*arc) {
			t.Errorf("radius %v: lead %v, of an arc %v, want a little over %v", n[0], set.Lead, arc, n[6])
		}
	}
}

// arcTravel returns the travel for an arc of one radius.
func arcTravel(m Machine, s Strip, radius float64) (float64, error) {
	b := bend{loaded: 1 / radius, released: 1 / radius, roll: m.Back + s.Thickness/2}
	tan := math.Tan(m.Slant)
	off := func(d float64) float64 {
		level, lift := b.centre(d)
		return level + tan*lift - m.Distance
	}
	if !(off(0.999*radius) > 0) {
		return 0, errReach
	}
	_, lift := b.centre(root(off, 0, 0.999*radius, radius/2))
	return lift / math.Cos(m.Slant), nil
}

// The sheet is a curve whose curvature falls with the lever of the push: checked
// by drawing it, in small steps from the pinch, and trying what the closed form
// says of it.
func TestSetDrawn(t *testing.T) {
	s := mild()
	for _, slant := range []float64{0, 0.3, 0.6} {
		m := handRolls(slant)
		for _, r := range []float64{46, 60, 100, 400, 3000} {
			set, err := m.Set(s, 1/r)
			if err != nil {
				t.Fatalf("slant %v: Set(1/%v): %v", slant, r, err)
			}
			// March from the back roll toward the pinch by the midpoint rule.
			const steps = 20000
			d := s.Moment(set.Loaded) / set.Force
			ds := set.Lead / steps
			x, y, angle := 0.0, 0.0, 0.0
			for range steps {
				k := func(x float64) float64 { return set.Released + (set.Loaded-set.Released)*x/d }
				half := angle + k(x)*ds/2
				mid := x + math.Cos(angle)*ds/2
				x, y, angle = x+math.Cos(half)*ds, y+math.Sin(half)*ds, angle+k(mid)*ds
			}
			// Seen from the pinch, where the sheet lies level.
			q := m.Back + s.Thickness/2
			sin, cos := math.Sincos(angle)
			level, up := x*cos+(y+q)*sin, x*sin-(y+q)*cos+q
			const want = 1e-5 // mm, of the midpoint rule
			if math.Abs(x-d) > want || math.Abs(up-set.Lift) > want || math.Abs(level-(m.Distance-set.Travel*math.Sin(slant))) > want || math.Abs(angle-set.Turn) > want {
				t.Errorf("slant %v radius %v: drawn lever %v, level %v, lift %v, turn %v; want %v, %v, %v, %v", slant, r, x, level, up, angle, d, m.Distance-set.Travel*math.Sin(slant), set.Lift, set.Turn)
			}
		}
	}
}

// At is the way back from a travel to the curvature it leaves.
func TestAt(t *testing.T) {
	s, m := mild(), handRolls(0.4)
	flat, err := m.Set(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []float64{45, 80, 200, 2000} {
		want, err := m.Set(s, 1/r)
		if err != nil {
			t.Fatal(err)
		}
		for _, from := range []float64{0.7, 1, 1.05} {
			start, err := m.Set(s, from/r)
			if err != nil {
				continue
			}
			got, err := m.At(s, want.Travel, start)
			if err != nil || !near(got.Released, want.Released, 1e-8) {
				t.Errorf("At(%v) from %v = %v, %v, want %v", want.Travel, start.Released, got.Released, err, want.Released)
			}
		}
	}
	if got, err := m.At(s, flat.Travel/2, flat); err != nil || got.Released != 0 {
		t.Errorf("At(half of what is elastic) = %v, %v, want no curvature", got.Released, err)
	}
}

func TestSetOutOfReach(t *testing.T) {
	s, m := mild(), handRolls(0)
	for _, tt := range []struct {
		radius float64
		want   error
	}{{20, errWrap}, {33, errReach}, {50, nil}} {
		if _, err := m.Set(s, 1/tt.radius); err != tt.want {
			t.Errorf("Set(1/%v) = %v, want %v", tt.radius, err, tt.want)
		}
	}
	tightest := m.tightest(s)
	if _, err := m.Set(s, 1/(tightest*1.0001)); err != nil {
		t.Errorf("Set just above the tightest, %v: %v", tightest, err)
	}
	if _, err := m.Set(s, 1/(tightest*0.9999)); err == nil {
		t.Errorf("Set just below the tightest, %v, works", tightest)
	}
}

func TestMeet(t *testing.T) {
	for _, tt := range []struct {
		m    Machine
		want bool
	}{
		{Machine{25.4, 25.4, 50.8, 0}, true}, // they just touch
		{Machine{25.4, 25.4, 50.7, 0}, false},
		{Machine{30, 20, 2 * math.Sqrt(600), 0}, true}, // touching a flat sheet and each other
		{Machine{30, 20, 48.9, 0}, false},
	} {
		if got := tt.m.Meet(); got != tt.want {
			t.Errorf("%v.Meet() = %v, want %v", tt.m, got, tt.want)
		}
	}
}

// Worked case I5: moment, push and bow at a machine's full width.
func TestForceCase(t *testing.T) {
	c := loadCase(t, "I5")
	s := Strip{c.in("t"), c.in("Y"), 200e3}
	if got, want := s.PlasticMoment(), c.out(t, "Mp_Nmm_per_mm"); !near(got, want, sixDigits) {
		t.Errorf("PlasticMoment() = %v, want %v", got, want)
	}
	// The case takes the level distance of the back roll for its lever and all
	// of the sheet as yielded. Where the sheet is nearly flat that is so, but for
	// the elastic core.
	m := Machine{Pinch: 5, Back: 0.01, Distance: c.in("c")}
	set, err := m.Set(s, 1/2000.)
	if err != nil {
		t.Fatal(err)
	}
	full := set.Force * s.PlasticMoment() / s.Moment(set.Loaded)
	if want := c.out(t, "line_load_N_per_mm"); !near(full, want, 0.04) {
		t.Errorf("push %v N/mm, want about %v", full, want)
	}
	if got, want := bow(&design2in, 25.4, c.in("width"), c.out(t, "line_load_N_per_mm")), c.out(t, "deflection_centre_mm_solid_steel_roll_50p8"); !near(got, want, sixDigits) {
		t.Errorf("bow = %v, want %v", got, want)
	}
	// The torque for bending a sheet from flat in one pass comes, at radii far
	// under the elastic one, to moment x width x roll / radius.
	k := 1 / c.in("R")
	if got, want := s.plasticWork(s.Loaded(k))*25.4*c.in("width")/1e3, c.out(t, "torque_on_rolls_r25p4_Nm"); !near(got, want, 0.12) || got > want {
		t.Errorf("torque %v N m, want somewhat under %v", got, want)
	}
}

// A bow is that of a beam found by integrating its curvature step by step.
func TestBow(t *testing.T) {
	const force, back = 5.0, 30.0
	for _, across := range []float64{50, 400, 1100} {
		const steps = 200000
		span := 1100.0
		ei := rollModulus * math.Pi / 4 * math.Pow(back, 4)
		// From the middle, where the slope is nought, to the sheet's edge.
		y, slope, h := 0.0, 0.0, across/2/steps
		for i := range steps {
			x := span/2 - (float64(i)+0.5)*h
			moment := force*across/2*x - force*math.Pow(x-(span-across)/2, 2)/2
			slope += moment / ei * h
			y += slope * h
		}
		r := design2in
		r.Width = span
		if got := bow(&r, back, across, force); !near(got, y, 1e-4) {
			t.Errorf("bow of %v = %v, want %v", across, got, y)
		}
	}
}
