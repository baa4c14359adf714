package stand

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/param/design"
	"stabile/param/quantity"
)

const deg = math.Pi / 180

// near reports whether two numbers agree to six significant figures.
func near(got, want float64) bool {
	return math.Abs(got-want) <= 5e-6*math.Abs(want)
}

// assembly is worked case E1: the assembly of case D3, whose masses and centre
// of gravity were found by quadrature, on its plate of 600 x 400 mm.
func assembly() (*design.Base, Weight) {
	return &design.Base{Shape: design.Plate, Width: 600, Depth: 400, Top: 10}, Weight{
		Mass: 25.6477139489, CG: r3.Vec{X: 9.36169121965, Y: 5.26199790315, Z: 189.270258901}, Top: 1375,
	}
}

// TestTipWorkedCases checks worked cases E1 (levers and moments by the distance
// of the centre of gravity in plan from each edge) and E3 (tip angles by turning
// the body about the edge until its centre of gravity is over it).
func TestTipWorkedCases(t *testing.T) {
	base, w := assembly()
	want := []struct{ lever, moment, tip, push1000, push1375 float64 }{
		{205.262, 51.6271, 47.3211, 51.6271, 37.547},
		{290.638, 73.1008, 56.9269, 73.1008, 53.1642},
		{194.738, 48.9801, 45.8158, 48.9801, 35.6219},
		{309.362, 77.8101, 58.5413, 77.8101, 56.5892},
	}
	for _, push := range []struct {
		height float64
		force  func(i int) float64
	}{
		{1000, func(i int) float64 { return want[i].push1000 }},
		{1375, func(i int) float64 { return want[i].push1375 }},
	} {
		for i, tt := range want {
			got := Tip(Plate(base), w, &design.Site{Push: push.force(i), PushHeight: push.height}, 0)
			e := got.Edges[i]
			if !near(e.Lever, tt.lever) || !near(e.Restoring/1e3, tt.moment) || !near(e.TipAngle/deg, tt.tip) {
				t.Errorf("edge %d: lever %v mm, restoring %v N m, tip angle %v deg, want %v, %v, %v",
					i, e.Lever, e.Restoring/1e3, e.TipAngle/deg, tt.lever, tt.moment, tt.tip)
			}
			// The push of the case just tips the piece over this edge.
			if math.Abs(e.Factor-1) > 1e-5 {
				t.Errorf("edge %d: factor %v under a push of %v N at %v mm, want 1", i, e.Factor, push.force(i), push.height)
			}
		}
	}
}

// TestTipTurned turns the body itself about each edge, in steps, until its
// centre of gravity is over the edge.
func TestTipTurned(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		poly := someHull(rnd)
		w := someWeight(rnd, poly)
		for i, e := range Tip(poly, w, nil, 0).Edges {
			side := r2.Unit(r2.Sub(e.To, e.From))
			axis := r3.Vec{X: side.X, Y: side.Y}
			from := r3.Vec{X: e.From.X, Y: e.From.Y}
			// How far inside of the edge the whole bears, turned over it by a.
			over := func(a float64) float64 {
				sum := 0.0
				for _, m := range []struct {
					mass float64
					at   r3.Vec
				}{{w.Mass, w.CG}, {w.Ballast, r3.Vec{X: design.Centroid(poly).X, Y: design.Centroid(poly).Y, Z: w.Lies}}} {
					turned := r3.Rotate(r3.Sub(m.at, from), a, axis)
					sum += m.mass * (side.X*turned.Y - side.Y*turned.X)
				}
				return sum
			}
			lo, hi := -math.Pi/2, math.Pi/2
			for range 60 {
				if mid := (lo + hi) / 2; over(mid) > 0 {
					lo = mid
				} else {
					hi = mid
				}
			}
			if math.Abs(lo-e.TipAngle) > 1e-9 {
				t.Errorf("edge %d tips at %v rad, turned over at %v", i, e.TipAngle, lo)
			}
		}
	}
}

// TestFactorBruteForce compares with statics written out in vectors: the moment
// of all forces about the edge as an axis in space, push by push and slope by
// slope.
func TestFactorBruteForce(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for range 100 {
		poly := someHull(rnd)
		w := someWeight(rnd, poly)
		site := &design.Site{Push: 300 * rnd.Float64(), PushHeight: 1.2 * w.Top * rnd.Float64(), Slope: 20 * deg * rnd.Float64()}
		got := Tip(poly, w, site, 0)
		want := math.Inf(1)
		mid := design.Centroid(poly)
		for i, a := range poly {
			b := poly[(i+1)%len(poly)]
			axis := r3.Unit(r3.Vec{X: b.X - a.X, Y: b.Y - a.Y})
			about := func(at, force r3.Vec) float64 {
				return r3.Dot(axis, r3.Cross(r3.Sub(at, r3.Vec{X: a.X, Y: a.Y}), force))
			}
			weigh := func(down r3.Vec) float64 {
				return about(w.CG, r3.Scale(w.Mass*quantity.Gravity, down)) +
					about(r3.Vec{X: mid.X, Y: mid.Y, Z: w.Lies}, r3.Scale(w.Ballast*quantity.Gravity, down))
			}
			out := math.Atan2(-axis.X, axis.Y)
			for step := range 720 {
				toward := out + float64(step)*math.Pi/360
				dir := r3.Vec{X: math.Cos(toward), Y: math.Sin(toward)}
				over := about(r3.Vec{Z: min(site.PushHeight, w.Top)}, r3.Scale(site.Push, dir))
				if over > 0 {
					want = min(want, -weigh(r3.Vec{Z: -1})/over)
				}
				// On the slope, which falls away over the edge.
				normal := r3.Vec{X: axis.Y, Y: -axis.X}
				if over += weigh(r3.Scale(math.Sin(site.Slope), normal)); over > 0 {
					want = min(want, -weigh(r3.Vec{Z: -math.Cos(site.Slope)})/over)
				}
			}
			normal := r3.Vec{X: axis.Y, Y: -axis.X}
			upright := -weigh(r3.Vec{Z: -math.Cos(site.Slope)})
			if over := weigh(r3.Scale(math.Sin(site.Slope), normal)); over > 0 {
				want = min(want, upright/over)
			}
		}
		if want = max(0, want); math.Abs(got.Factor-want) > 1e-9*max(1, want) {
			t.Errorf("factor %v, by vectors %v", got.Factor, want)
		}
	}
}

// sameBearing reports whether two angles in rad are the same bearing.
func sameBearing(a, b float64) bool { return math.Abs(math.Remainder(a-b, 2*math.Pi)) < 1e-9 }

func TestCases(t *testing.T) {
	base, w := assembly()
	for _, tt := range []struct {
		site design.Site
		edge int
		kind check.Kind
		from float64 // deg
	}{
		{design.Site{Push: 10, PushHeight: 500}, 0, check.Push, 90}, // pushed toward the viewer
		{design.Site{Push: 10, PushHeight: 500}, 1, check.Push, 180},
		{design.Site{Push: 10, PushHeight: 500}, 2, check.Push, 270},
		{design.Site{Push: 10, PushHeight: 500}, 3, check.Push, 0},
		{design.Site{Slope: 5 * deg}, 1, check.Slope, 0},
		{design.Site{Slope: 5 * deg}, 2, check.Slope, 90},
		{design.Site{Slope: 40 * deg, Push: 1, PushHeight: 100}, 0, check.Push, 90}, // on the slope,
	} {
		got := Tip(Plate(base), w, &tt.site, 0).Edges[tt.edge].Case
		if got.Kind != tt.kind || !sameBearing(got.Bearing, tt.from*deg) {
			t.Errorf("edge %d under %+v: case %+v, want %s, %v deg", tt.edge, tt.site, got, tt.kind, tt.from)
		}
	}
}

func TestDisc(t *testing.T) {
	base := &design.Base{Shape: design.Disc, Width: 500, Depth: 500}
	w := Weight{Mass: 20, CG: r3.Vec{Z: 400}, Top: 900}
	got := Tip(Plate(base), w, &design.Site{Push: 40, PushHeight: 900}, 0)
	// A disc's lever is its radius; the polygon's is at most 0.1 % short.
	if l := got.Edges[0].Lever; l > 250 || l < 250*0.999 {
		t.Errorf("lever of a disc of radius 250 = %v", l)
	}
	for i, e := range got.Edges {
		if want := float64(i)*5*deg + math.Pi; e.Case.Kind != check.Push || !sameBearing(e.Case.Bearing, want) {
			t.Errorf("edge %d: case %+v, want a push from %v", i, e.Case, want)
		}
	}
}

// TestBallast lays the ballast that is said to reach the target and looks
// whether it does, and whether a little less does not.
func TestBallast(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	reached, failed := 0, 0
	for range 2000 {
		poly := someHull(rnd)
		w := someWeight(rnd, poly)
		w.Lies *= 10
		site := &design.Site{Push: 200 * rnd.Float64(), PushHeight: w.Top * rnd.Float64(), Slope: 40 * deg * rnd.Float64()}
		target := 1 + rnd.Float64()
		first := Tip(poly, w, site, target)
		factor := func(more float64) float64 {
			laid := w
			laid.Ballast += more
			return Tip(poly, laid, site, target).Factor
		}
		switch {
		case first.BallastFails:
			failed++
			for x := 0.1; x < 1e6; x *= 1.5 {
				if f := factor(x); f >= target*(1+1e-9) {
					t.Errorf("no ballast is said to do, but %v kg gives %v of %v", x, f, target)
				}
			}
		case first.Ballast > 0:
			reached++
			if f := factor(first.Ballast); math.Abs(f-target) > 1e-9*target {
				t.Errorf("with the ballast of %v kg the factor is %v, want the target %v", first.Ballast, f, target)
			}
			if f := factor(first.Ballast * 0.999); f >= target {
				t.Errorf("less ballast than %v kg gives %v too", first.Ballast, f)
			}
		case first.Factor < target:
			t.Errorf("factor %v under the target %v, but no ballast", first.Factor, target)
		}
	}
	if reached < 100 || failed < 20 {
		t.Errorf("%d cases reached by ballast, %d not: too few to tell", reached, failed)
	}
}

// TestMoreBallast holds that ballast on the ground never lowers the factor. On
// a base of some height it may: under a slope it counts against a piece that
// is flatter still.
func TestMoreBallast(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 8))
	for range 500 {
		poly := someHull(rnd)
		w := someWeight(rnd, poly)
		w.Lies = 0
		site := &design.Site{Push: 200 * rnd.Float64(), PushHeight: w.Top * rnd.Float64(), Slope: 30 * deg * rnd.Float64()}
		last := -1.0
		for range 8 {
			f := Tip(poly, w, site, 0).Factor
			if f < last*(1-1e-12) {
				t.Errorf("factor fell from %v to %v as ballast grew to %v kg", last, f, w.Ballast)
			}
			last = f
			w.Ballast += 10 * rnd.Float64()
		}
	}
}

// TestTurnedPlan holds that turning everything about z changes no number.
func TestTurnedPlan(t *testing.T) {
	rnd := rand.New(rand.NewPCG(9, 10))
	for range 200 {
		poly := someHull(rnd)
		w := someWeight(rnd, poly)
		site := &design.Site{Push: 100 * rnd.Float64(), PushHeight: w.Top * rnd.Float64(), Slope: 20 * deg * rnd.Float64()}
		a := 2 * math.Pi * rnd.Float64()
		turned := make([]r2.Vec, len(poly))
		for i, p := range poly {
			turned[i] = r2.Rotate(p, a, r2.Vec{})
		}
		w2 := w
		w2.CG = r3.Rotate(w.CG, a, r3.Vec{Z: 1})
		p, q := Tip(poly, w, site, 0), Tip(turned, w2, site, 0)
		if math.Abs(p.Factor-q.Factor) > 1e-9*p.Factor+1e-12 || math.Abs(p.TipAngle-q.TipAngle) > 1e-9 || math.Abs(p.Ballast-q.Ballast) > 1e-7*(1+p.Ballast) {
			t.Errorf("turned by %v: factor %v to %v, tip angle %v to %v, ballast %v to %v", a, p.Factor, q.Factor, p.TipAngle, q.TipAngle, p.Ballast, q.Ballast)
		}
	}
}

// TestFindings holds the levels and the kinds of what is found, the figures of one
// case by hand, and the verdicts that go with them.
func TestFindings(t *testing.T) {
	base, w := assembly()
	out := w
	out.CG = r3.Vec{X: 340, Z: 500}
	ballasted := w
	ballasted.Ballast = 40
	anchored := w
	anchored.Anchors = 4
	onFeet := w
	onFeet.Feet = true
	tall := w
	tall.CG.Z = 2500
	const holds, fails, undecided = check.Holds, check.Fails, check.Undecided
	for _, tt := range []struct {
		name     string
		poly     []r2.Vec
		w        Weight
		site     *design.Site
		target   float64
		want     []string         // level and kind of each finding
		verdicts [3]check.Verdict // own weight, tipping, sliding, with anchors undecided
	}{
		{"no loads", Plate(base), w, nil, 0, []string{"caution stand.NoLoads"}, [3]check.Verdict{holds, undecided, undecided}},
		{"holds", Plate(base), w, &design.Site{Push: 20, PushHeight: 1000}, 0, []string{"caution stand.PushShort"}, [3]check.Verdict{holds, holds, holds}},
		{"short", Plate(base), w, &design.Site{Push: 50, PushHeight: 1000}, 0, []string{"danger stand.TipsEasily", "caution stand.PushShort"}, [3]check.Verdict{holds, fails, holds}},
		{"short of 1, whatever the target", Plate(base), w, &design.Site{Push: 50, PushHeight: 1000}, 0.5, []string{"danger stand.TipsEasily", "caution stand.TargetShort", "caution stand.PushShort"}, [3]check.Verdict{holds, fails, holds}},
		{"over 1, with a low target", Plate(base), w, &design.Site{Push: 40, PushHeight: 1000}, 0.5, []string{"caution stand.TargetShort", "caution stand.PushShort"}, [3]check.Verdict{holds, holds, holds}},
		{"ballasted", Plate(base), ballasted, &design.Site{Push: 50, PushHeight: 1000}, 0, []string{"caution stand.WithoutBallast", "caution stand.PushShort"}, [3]check.Verdict{holds, holds, holds}},
		{"above the top", Plate(base), w, &design.Site{Push: 20, PushHeight: 2000}, 0, []string{"caution stand.PushShort", "note stand.PushLowered"}, [3]check.Verdict{holds, holds, holds}},
		{"easily knocked", Plate(base), tall, nil, 0, []string{"danger stand.EasilyKnocked", "caution stand.NoLoads"}, [3]check.Verdict{fails, undecided, undecided}},
		{"falls over", Plate(base), out, nil, 0, []string{"danger stand.FallsOver", "caution stand.NoLoads"}, [3]check.Verdict{fails, undecided, undecided}},
		{"slope too steep", Plate(base), w, &design.Site{Slope: 80 * deg}, 0, []string{"danger stand.TipsEasily", "danger stand.Slides"}, [3]check.Verdict{holds, fails, fails}},
		{"slope too steep, anchored", Plate(base), anchored, &design.Site{Slope: 80 * deg}, 0, []string{"caution stand.HeldByAnchors", "note stand.Slides"}, [3]check.Verdict{holds, undecided, undecided}},
		{"on feet", Plate(base), onFeet, &design.Site{Push: 50, PushHeight: 1000}, 0, []string{"danger stand.TipsEasily", "caution stand.PushShort"}, [3]check.Verdict{holds, fails, holds}},
		{"a lone ball", nil, w, &design.Site{Push: 20, PushHeight: 1000}, 0, []string{"danger stand.NoFootprint"}, [3]check.Verdict{fails, undecided, undecided}},
	} {
		got := Tip(tt.poly, tt.w, tt.site, tt.target)
		var kinds []string
		for _, f := range got.Findings(tt.w, tt.site) {
			kinds = append(kinds, fmt.Sprintf("%s %T", f.Level, f.Fact))
		}
		if !slices.Equal(kinds, tt.want) {
			t.Errorf("%s: findings %q, want %q", tt.name, kinds, tt.want)
		}
		for i, c := range got.Checks(check.Undecided) {
			if c.Verdict != tt.verdicts[i] || (c.Verdict == undecided) != (c.Why != nil) {
				t.Errorf("%s: %s %s because of %#v, want %s", tt.name, c.ID, c.Verdict, c.Why, tt.verdicts[i])
			}
		}
	}
	got := Tip(Plate(base), out, nil, 0)
	f := got.Findings(out, nil)[0].Fact.(FallsOver)
	// 20.5 kg, 40 mm beyond an edge that is 300 mm from the middle.
	if want := 40.0 / 300 * out.Mass; math.Abs(f.Outside-40) > 1e-9 || !sameBearing(f.Toward, 0) || math.Abs(f.Counterweight-want) > 1e-9 {
		t.Errorf("falls over: %+v, want 40 mm toward 0, %v kg", f, want)
	}
	got = Tip(Plate(base), anchored, &design.Site{Slope: 80 * deg}, 0)
	for _, verdict := range []check.Verdict{holds, fails} {
		for _, c := range got.Checks(verdict)[1:] {
			if c.Verdict != verdict || c.Why != nil || c.Held != (verdict == holds) || c.Found >= c.Limit {
				t.Errorf("anchors %s: %s %s, %+v", verdict, c.ID, c.Verdict, c)
			}
		}
	}
}

// TestOutside holds that a centre of gravity outside the footprint gives a
// negative restoring moment and the factor 0.
func TestOutside(t *testing.T) {
	base, w := assembly()
	w.CG.X = 340
	got := Tip(Plate(base), w, &design.Site{Push: 10, PushHeight: 800}, 0)
	if e := got.Edges[1]; got.Factor != 0 || e.Restoring >= 0 || e.Lever >= 0 || got.TipAngle >= 0 || got.WorstEdge != 1 || got.Stable() {
		t.Errorf("outside: %+v", got)
	}
}

// someHull returns the hull of a few points about the origin.
func someHull(rnd *rand.Rand) []r2.Vec {
	for {
		points := make([]r2.Vec, 3+rnd.IntN(9))
		for i := range points {
			points[i] = r2.Vec{X: 1000*rnd.Float64() - 500, Y: 1000*rnd.Float64() - 500}
		}
		if h := Hull(points); h != nil && 1e4 < math.Abs(area(h)) {
			return h
		}
	}
}

// someWeight returns a weight whose centre of gravity is mostly over poly.
func someWeight(rnd *rand.Rand, poly []r2.Vec) Weight {
	m := design.Centroid(poly)
	w := Weight{
		Mass:    1 + 50*rnd.Float64(),
		CG:      r3.Vec{X: m.X + 100*rnd.NormFloat64(), Y: m.Y + 100*rnd.NormFloat64(), Z: 50 + 800*rnd.Float64()},
		Ballast: max(0, 30*rnd.NormFloat64()),
		Lies:    20 * rnd.Float64(),
	}
	w.Top = w.CG.Z * (1 + rnd.Float64())
	return w
}

func area(poly []r2.Vec) float64 {
	sum := 0.0
	for i, p := range poly {
		sum += r2.Cross(p, poly[(i+1)%len(poly)]) / 2
	}
	return sum
}

func BenchmarkTip(b *testing.B) {
	base, w := assembly()
	base.Shape, base.Depth = design.Disc, 600
	poly, site := Plate(base), &design.Site{Push: 100, PushHeight: 1000, Slope: 5 * deg}
	for b.Loop() {
		Tip(poly, w, site, 0)
	}
}
