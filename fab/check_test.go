package fab

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param/design"
)

// lone is a mast with an open head and a ball beside it on the same plate, in
// wind by ASCE 7 on flat open country.
func lone(speed float64, more string) string {
	return strings.Replace(shop, "metal slab }\n", "metal slab"+more+" }\n", 1) + fmt.Sprintf(`
post mast on pad { at (-100, 0), diameter 60, length 1000, metal skin }
ball moon on mast { diameter 300, halves, metal skin }
site { wind %g m/s, method asce7, exposure C }
`, speed)
}

// gustByHand is the gust factor of a stiff structure of a height and a width in m over
// open country, ASCE 7-16 26.11.4: 0.925 (1 + 1.7 x 3.4 I Q) / (1 + 1.7 x 3.4 I), with
// I = 0.20 (33 / z)^(1/6) and L = 500 (z / 33)^(1/5) ft at z = 15 ft, the least.
func gustByHand(height, width float64) float64 {
	const z, foot = 15.0, 0.3048
	i := 0.20 * math.Pow(33/z, 1.0/6)
	l := 500 * foot * math.Pow(z/33, 1.0/5)
	q := math.Sqrt(1 / (1 + 0.63*math.Pow((width+height)/l, 0.63)))
	return 0.925 * (1 + 1.7*3.4*i*q) / (1 + 1.7*3.4*i)
}

// TestWindByHand adds up wind times height by hand: q = 0.613 Kz V2 with Kz of
// exposure C at 15 ft and below, 2.01 (15 / 900)^(2 / 9.5) = 0.849 (ASCE 7-16
// Table 26.10-1 gives 0.85), G by 26.11.4 (see gustByHand), C_f = 1.2 for the mast, 0.7 for the ball and
// 1.3 for the edge of the plate.
func TestWindByHand(t *testing.T) {
	for _, speed := range []float64{20, 60} {
		j := build(t, lone(speed, ""))
		mast, moon := j.Parts[1].Post, j.Parts[2].Ball
		area := 400*10 + 60*mast.Length + math.Pi*150*150 // mm2, that a wind along x meets
		if worst := j.Wind.Bearings[j.Wind.Worst]; worst.Area > area {
			area = worst.Area // askew it meets more of the plate
		}
		gust := gustByHand(j.Size.Max.Z/1e3, area/j.Size.Max.Z/1e3)
		q := 0.613 * 2.01 * math.Pow(15.0/900, 2/9.5) * speed * speed * gust // Pa, with the gust factor
		if mast.Ends[design.Foot].Diameter*math.Sqrt(q/gust)/1e3 > 5.3 {
			t.Fatal("the mast is in the other row of the table")
		}
		// Wind from 180 deg meets the depth of the plate, 400 mm.
		type force struct{ n, height, area float64 }
		pa := q * 1e-6
		forces := []force{
			{pa * 1.3 * 400 * 10, 5, 400 * 10},
			{pa * 1.2 * 60 * mast.Length, 10 + mast.Length/2, 60 * mast.Length},
			{pa * 0.7 * math.Pi * 150 * 150, moon.Center.Z, math.Pi * 150 * 150},
		}
		var sum, moment float64
		area = 0
		for _, f := range forces {
			sum, moment, area = sum+f.n, moment+f.n*f.height, area+f.area
		}
		// The least design force, 16 lb/ft2 of what the wind meets.
		scale := max(1, 766.084*1e-6*area/sum)
		if (scale > 1) != (speed == 20) {
			t.Fatalf("at %v m/s the least design force is %v of the wind's", speed, scale)
		}
		e := j.Tipping.Edges[1] // toward 0 deg
		if !within(e.Overturning, moment*scale, 1e-6) || e.Case.Kind != check.WindLoad || !within(e.Case.Bearing, math.Pi, 1e-9) || e.Case.Least != (scale > 1) {
			t.Errorf("at %v m/s the wind tips with %v N mm in %+v, want %v from 180 deg", speed, e.Overturning, e.Case, moment*scale)
		}
		if want := j.Mass.Total * 9.80665 * e.Lever / (moment * scale); !within(e.Factor, want, 1e-6) {
			t.Errorf("factor %v, want %v", e.Factor, want)
		}
		// Askew it meets more of the plate, whose area is 10 (400 cos + 600 sin).
		most := 0.0
		for deg := 0; deg <= 90; deg += 5 {
			sin, cos := math.Sincos(float64(deg) * math.Pi / 180)
			more := 10*(400*cos+600*sin) - 400*10
			most = max(most, sum+pa*1.3*more, 766.084*1e-6*(area+more))
		}
		greatest, _ := j.Result("wind")
		if !within(greatest.Newtons(), most, 1e-6) {
			t.Errorf("the greatest force is %v N, want %v", greatest.Newtons(), most)
		}
		s := j.Tipping.Sliding
		if want := 0.3 * j.Mass.Total * 9.80665 / greatest.Newtons(); !within(s.Factor, want, 1e-9) {
			t.Errorf("sliding factor %v, want %v", s.Factor, want)
		}
		if found := finds[wind.LeastForce](j, finding.Note); found != (scale > 1) {
			t.Errorf("at %v m/s the least design force is found: %v", speed, found)
		}
	}
}

func within(got, want, share float64) bool { return math.Abs(got-want) <= share*math.Abs(want) }

// TestWindOnSlope holds that wind on the slope adds the weight's share to the
// wind's: about each edge W z sin(a) more, and W d cos(a) to hold it.
func TestWindOnSlope(t *testing.T) {
	const slope = 3 * math.Pi / 180
	level := build(t, lone(50, ""))
	steep := build(t, strings.Replace(lone(50, ""), "exposure C", "exposure C, slope 3 deg", 1))
	w := level.Mass.Total * 9.80665
	for i, e := range steep.Tipping.Edges {
		was := level.Tipping.Edges[i]
		on := was.Case
		on.Sloping = true
		if e.Case != on {
			t.Errorf("edge %d: worst in %+v, on level ground in %+v", i, e.Case, was.Case)
		}
		over, hold := was.Overturning+w*level.CG.Z*math.Sin(slope), was.Restoring*math.Cos(slope)
		if !within(e.Overturning, over, 1e-9) || !within(e.Restoring, hold, 1e-9) {
			t.Errorf("edge %d: %v over %v N mm, want %v over %v", i, e.Restoring, e.Overturning, hold, over)
		}
	}
}

// TestBallastHelps holds that ballast never lowers a factor in wind, and that
// what is advised reaches the target.
func TestBallastHelps(t *testing.T) {
	least, slides := 0.0, 0.0
	for kg := 0; kg <= 200; kg += 20 {
		j := build(t, lone(50, fmt.Sprintf(", ballast %d kg", kg)))
		if f := j.Tipping.Factor; f < least {
			t.Errorf("with %d kg the factor falls from %v to %v", kg, least, f)
		}
		if f := j.Tipping.Sliding.Factor; f < slides {
			t.Errorf("with %d kg the sliding factor falls from %v to %v", kg, slides, f)
		}
		least, slides = j.Tipping.Factor, j.Tipping.Sliding.Factor
	}
	need := build(t, lone(50, "")).Tipping.Ballast
	j := build(t, lone(50, fmt.Sprintf(", ballast %.9f kg", need)))
	if !within(j.Tipping.Factor, j.Tipping.Target, 1e-6) {
		t.Errorf("with the %v kg advised the factor is %v", need, j.Tipping.Factor)
	}
}

// TestStrengthWhenAsked holds that strength is worked out where it is called for
// or required, and that what was not is never passed.
func TestStrengthWhenAsked(t *testing.T) {
	ask := "require wind <= 2 kN\nrequire strength <= 1\nrequire frequency >= 1 Hz\n"
	// A post of up to six times its width does not vibrate in a steady wind.
	stocky := strings.Replace(lone(40, ", ballast 200 kg"), "diameter 60, length 1000", "diameter 150, length 900", 1)
	j := buildWith(t, stocky, 0)
	if j.Strength != nil || !finds[StrengthNotChecked](j, finding.Caution) {
		t.Errorf("strength was worked out though not wanted, or not reported: %v", j.Findings)
	}
	j = build(t, stocky)
	if j.Strength == nil || finds[StrengthNotChecked](j, finding.Caution) || !j.OK() {
		t.Errorf("strength asked for: %v %v", j.Strength, j.Findings)
	}
	j = buildWith(t, stocky+ask, 0)
	if j.Strength == nil || !j.OK() {
		t.Errorf("strength is required and holds: %v", j.Findings)
	}
	for i := range 3 {
		if got := j.Requirements[i]; got.Verdict != check.Holds || got.Missing != nil || len(got.Sides) != 1 || len(got.Open) > 0 {
			t.Errorf("%s: %+v", j.Requirements[i].Text, got)
		}
	}
	// The mast is welded to the pole of rings: the wall is not decided, and with it the
	// strength.
	j = buildWith(t, strings.Replace(stocky+ask, "halves", "zones 7", 1), 0)
	if got := j.Requirements[1]; got.Verdict != check.Undecided || len(got.Open) == 0 || !lacks(j, strength.WallPole) || j.Verdict != check.Undecided {
		t.Errorf("%s: %+v", got.Text, got)
	}
	// Far too much wind for the mast.
	j = build(t, lone(140, ", ballast 9000 kg")+ask)
	if j.Strength.Worst <= 1 || j.OK() || j.Requirements[1].Verdict != check.Fails || !finds[strength.OverLimit](j, finding.Danger) {
		t.Errorf("a worst ratio of %v: OK is %v: %v", j.Strength.Worst, j.OK(), j.Findings)
	}
	// No wind.
	j = build(t, shop+"post mast on pad { at (0, 0), diameter 60, length 500, metal skin }\nrequire wind <= 1 kN")
	if j.Verdict != check.Undecided || j.Requirements[0].Missing == nil || !finds[wind.NoWind](j, finding.Caution) {
		t.Errorf("wind required without wind: %v", j.Findings)
	}
	// Nothing but a plate.
	j = build(t, shop+"require strength <= 1\nrequire frequency >= 1 Hz")
	if j.Verdict != check.Undecided || j.Requirements[0].Missing == nil || j.Requirements[1].Missing == nil {
		t.Errorf("a bare plate: %+v", j.Requirements)
	}
}

// finds reports whether a job has a finding of a kind and a level.
func finds[F finding.Fact](j *Job, level finding.Level) bool {
	return slices.ContainsFunc(j.Findings, func(f finding.Finding) bool {
		_, ok := f.Fact.(F)
		return ok && f.Level == level
	})
}

// lacks reports whether a job says that a kind of thing is not checked, in a finding
// and in a check.
func lacks(j *Job, gap strength.Gap) bool {
	is := func(fact finding.Fact) bool {
		u, ok := fact.(strength.Unchecked)
		return ok && u.Gap == gap
	}
	return slices.ContainsFunc(j.Findings, func(f finding.Finding) bool { return f.Level == finding.Caution && is(f.Fact) }) &&
		slices.ContainsFunc(j.Checks, func(c check.Check) bool { return c.Verdict == check.Undecided && is(c.Why) })
}

// TestFreeToMove holds that a part that nothing ties down is a fault that names
// it, and no strength is reported.
func TestFreeToMove(t *testing.T) {
	d := evaluate(t, lone(40, ", ballast 200 kg"))
	d.Parts[1].Post.Ends[design.Foot].Contact = design.Contact{}
	d.Joints = nil
	j, wrong := Build(d, WithStrength|AllowClashes)
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	if f := j.Findings[0]; j.Strength != nil || j.OK() || f.Level != finding.Danger || f.Fact != (strength.FreeToMove{}) || len(f.Parts) != 1 || check.Worst(j.Checks) != check.Fails {
		t.Errorf("a mast that is cut loose: %v", j.Findings)
	}
}

// TestStrengthTakesAll: what is asked of strength is asked of the plate and of the
// anchors too.
func TestStrengthTakesAll(t *testing.T) {
	const metals = "units mm\nmetal skin { alloy low-carbon-steel, thickness 2 mm }\nmetal thin { alloy low-carbon-steel, thickness 1.5 mm }\nmetal slab { alloy low-carbon-steel, thickness 20 mm }\n"
	const rest = "post mast on pad { diameter 80, length 1200, metal skin }\nsite { push 200 N at 1 m }\nrequire strength <= 1\n"
	for _, c := range []struct {
		base  string
		worst check.ID
	}{
		{"base pad { plate 600 by 600, metal thin, ballast 100 kg }\n", check.Plate},
		{"base pad { plate 600 by 600, metal slab, anchors 4, anchor_diameter 3, anchor_edge 30 }\n", check.AnchorSteel},
	} {
		j := build(t, metals+c.base+rest)
		s := j.Strength
		want := s.Plate.Ratio
		if s.Anchors != nil {
			want = max(want, s.Anchors.Worst())
		}
		if s.Worst != want || want <= 1 || s.WorstAt.Check != c.worst || !fails(j, c.worst) {
			t.Errorf("worst %v at %+v, want %v at %s", s.Worst, s.WorstAt, want, c.worst)
		}
		if r := j.Requirements[0]; r.Verdict != check.Fails || j.OK() {
			t.Errorf("%s: %+v, OK is %v", c.worst, r, j.OK())
		}
	}
}

// fails reports whether a check of a kind fails.
func fails(j *Job, id check.ID) bool {
	return slices.ContainsFunc(j.Checks, func(c check.Check) bool { return c.ID == id && c.Verdict == check.Fails })
}

// TestStrengthOnFeet: the check takes loose feet as held fast, so what it says of
// them is no answer.
func TestStrengthOnFeet(t *testing.T) {
	j := build(t, "units mm\nmetal skin { alloy low-carbon-steel, thickness 2 mm }\nbase ground { feet }\npost mast on ground { at (0, 0), diameter 80, length 1200, metal skin }\nsite { push 20 N at 1 m }\nrequire strength <= 1\nrequire frequency >= 1 Hz\n")
	for _, r := range j.Requirements {
		if r.Missing == nil {
			t.Errorf("%s: %+v, want it undecided", r.Text, r)
		}
	}
	if j.Verdict == check.Holds || !lacks(j, strength.LooseFeet) {
		t.Errorf("OK is %v: %v", j.OK(), j.Findings)
	}
}
