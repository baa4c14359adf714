package estimate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"stabile/fab/finding"
	"stabile/param/design"
)

// near reports whether two numbers are alike but for rounding.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-12*max(1, math.Abs(a), math.Abs(b)) }

// full is an input in which every line has a quantity and a rate of its own.
func full() Input {
	rates := design.Rates{
		Labour: 50, Setup: 600, Cut: 120, Pass: 60, Fit: 300,
		Clean: 0.01, Weld: 0.002, Dress: 0.004,
		Filler: 20, Pipe: 2, Gas: 6, Markup: 0.2,
	}
	return Input{
		Quantities: Quantities{
			Templates: 4, LaidOut: 30, Holes: 20, Formed: 3, Load: 90, ShearSettings: 12, ShearCuts: 30, HandCut: 9000, CutterCut: 3000, Clean: 36000,
			RollSettings: 7, Passes: 60, Raised: 250000, Fits: 24, Weld: 7200, Dress: 7200,
			Lifts: 8, Surface: 2e6, Filler: 0.5,
			Materials: []Material{{SheetsOf{"skin", 1200, 2400}, 2, "sheets", 90}, {BoughtBall{"nut", 0.4}, 1, "pieces", 40}},
		},
		Rates: rates, Own: rates, Currency: "EUR",
		Finish: &design.Finish{Kind: design.Paint, Price: 30},
	}
}

// TestClosedSums holds every line of an estimate to a sum done by hand.
func TestClosedSums(t *testing.T) {
	e := Make(full())
	hours := map[Operation]float64{
		Template:     1,                       // 4 of 15 min
		LayOut:       2,                       // 30 of 4 min
		Drill:        1,                       // 20 of 3 min
		Form:         1,                       // 3 of 20 min
		Load:         1,                       // 90 kg at 40 s
		ShearSetting: 12 * 600 / 3600.0,       // 2
		ShearCut:     30 * 120 / 3600.0,       // 1
		HandCut:      9 / handSpeed / 3600,    // 9 m at 150 mm/min: 1
		CutterCut:    3 / cutterSpeed / 3600,  // 3 m at 500 mm/min: 0.1
		Clean:        36 / 0.01 / 3600,        // 1
		RollSetting:  7 * 600 / 3600.0,        // 7/6
		Pass:         60 * 60 / 3600.0,        // 1
		Raise:        0.25 * raiseTime / 3600, // a quarter of 4: 1
		Fit:          24 * 300 / 3600.0,       // 2
		Weld:         7.2 / 0.002 / 3600,      // 1
		Dress:        7.2 / 0.004 / 3600,      // 0.5
		Lift:         8 * liftTime / 3600,     // 2
	}
	const sum = 2 + 1 + 1 + 0.1 + 1 + 7.0/6 + 1 + 1 + 2 + 1 + 0.5 + 2 + 1 + 2 + 1 + 1 + 1
	for _, l := range e.Work {
		if want, ok := hours[l.Operation]; !ok || !near(l.Hours.Likely, want) {
			t.Errorf("%s: %v h, want %v", l.Operation, l.Hours.Likely, want)
		}
		delete(hours, l.Operation)
	}
	if len(hours) > 0 {
		t.Errorf("left out: %v", hours)
	}
	if !near(e.Hours.Likely, sum) {
		t.Errorf("%v h in all, want %v", e.Hours.Likely, sum)
	}
	// The finish has a price, so that the shop spends no hours on it.
	const bare = 2*90 + 40 + 0.5*20 + 1*6 + sum*50 + 2*30
	if m := e.Money; m == nil || !near(m.Total.Likely, bare*1.2) || !m.Priced() {
		t.Errorf("money %+v, want %v and nothing unpriced", m, bare*1.2)
	}
	if got := len(e.Money.Lines); got != 7 {
		t.Errorf("%d lines of money, want 7: %+v", got, e.Money.Lines)
	}
}

// TestRanges holds low and high to their shares, by hand for one line of each
// spread.
func TestRanges(t *testing.T) {
	e := Make(full())
	for _, tt := range []struct {
		op        Operation
		low, high float64 // shares of the likely
	}{
		// The shop's own rates keep half of their spread.
		{ShearCut, 0.925, 1.125}, {Weld, 0.875, 1.2}, {Dress, 0.8, 1.35},
		{CutterCut, 0.75, 1.4}, {Raise, 0.6, 1.7},
	} {
		h := e.hours(tt.op)
		if !near(h.Low, tt.low*h.Likely) || !near(h.High, tt.high*h.Likely) {
			t.Errorf("%s: %+v, want shares of %v and %v", tt.op, h, tt.low, tt.high)
		}
	}
	var low, high float64 // squares of what the lines may be out by
	for _, l := range e.Work {
		low += (l.Hours.Likely - l.Hours.Low) * (l.Hours.Likely - l.Hours.Low)
		high += (l.Hours.High - l.Hours.Likely) * (l.Hours.High - l.Hours.Likely)
	}
	if !near(e.Hours.Likely-math.Sqrt(low), e.Hours.Low) || !near(e.Hours.Likely+math.Sqrt(high), e.Hours.High) {
		t.Errorf("hours %+v, the lines are out by %v and %v", e.Hours, math.Sqrt(low), math.Sqrt(high))
	}
}

// TestNotCounted checks that what has no price is named and not taken as nothing.
func TestNotCounted(t *testing.T) {
	for _, tt := range []struct {
		name     string
		change   func(*Input)
		unpriced finding.Fact // nil for all priced
		none     bool         // no money at all
	}{
		{"all", func(*Input) {}, nil, false},
		{"no labour", func(in *Input) { in.Rates.Labour = 0 }, Labour, false},
		{"no price of a sheet", func(in *Input) { in.Quantities.Materials[0].Price = 0 }, SheetsOf{"skin", 1200, 2400}, false},
		{"no filler", func(in *Input) { in.Rates.Filler = 0 }, Filler, false},
		{"no gas", func(in *Input) { in.Rates.Gas = 0 }, Gas, false},
		{"no gas for stick", func(in *Input) { in.Rates.Gas, in.Process = 0, design.Stick }, nil, false},
		{"no rate of welding", func(in *Input) { in.Rates.Weld = 0 }, Lacking{Operation: Weld}, false},
		{"no price of the finish: the shop paints", func(in *Input) { in.Finish = &design.Finish{Kind: design.Paint} }, nil, false},
		{"no price of a bath", func(in *Input) { in.Finish = &design.Finish{Kind: design.Galvanize} }, FinishFor, false},
		{"no place on the sheets", func(in *Input) { in.Quantities.Unplaced = true }, NoPlace{}, false},
		{"no finish", func(in *Input) { in.Finish = nil }, nil, false},
		{"no money", func(in *Input) {
			r := &in.Rates
			r.Labour, r.Filler, r.Gas = 0, 0, 0
			in.Quantities.Materials[0].Price, in.Quantities.Materials[1].Price = 0, 0
			in.Finish = nil
		}, nil, true},
	} {
		in := full()
		in.Quantities.Materials = slices.Clone(in.Quantities.Materials)
		tt.change(&in)
		e := Make(in)
		switch m := e.Money; {
		case tt.none:
			if m != nil || m.Priced() {
				t.Errorf("%s: money %+v", tt.name, m)
			}
		case m == nil:
			t.Errorf("%s: no money", tt.name)
		case tt.unpriced == nil && !m.Priced():
			t.Errorf("%s: unpriced %q", tt.name, m.Unpriced)
		case tt.unpriced != nil && (m.Priced() || !slices.ContainsFunc(m.Unpriced, func(f finding.Fact) bool { return f == tt.unpriced })):
			t.Errorf("%s: unpriced %v, want %v", tt.name, m.Unpriced, tt.unpriced)
		}
		if m := e.Money; m != nil && !m.Priced() && m.Total != (Range{}) {
			t.Errorf("%s: a total of %+v stands without a price of all", tt.name, m.Total)
		}
		if e.Money != nil && len(e.Money.Outside) == 0 {
			t.Errorf("%s: nothing is said of what lies outside", tt.name)
		}
	}
}

// TestMonotone checks on random inputs that low <= likely <= high everywhere, and
// that more of anything, at a higher price or a slower rate, never costs less.
func TestMonotone(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	random := func() Input {
		in := full()
		q, r := &in.Quantities, &in.Rates
		for _, n := range []*int{&q.ShearSettings, &q.ShearCuts, &q.RollSettings, &q.Passes, &q.Fits, &q.Lifts} {
			*n = rnd.IntN(100)
		}
		for _, x := range lengths(q) {
			*x = rnd.Float64() * 1e4
		}
		for _, x := range prices(r) {
			*x = rnd.Float64() * 50
		}
		return in
	}
	for range 300 {
		in := random()
		before := Make(in)
		for _, l := range before.Work {
			ordered(t, string(l.Operation), l.Hours)
		}
		ordered(t, "hours", before.Hours)
		ordered(t, "money", before.Money.Total)
		more := in
		switch k := rnd.IntN(3); k {
		case 0:
			*lengths(&more.Quantities)[rnd.IntN(len(lengths(&more.Quantities)))] *= 1 + rnd.Float64()
		case 1:
			*prices(&more.Rates)[rnd.IntN(len(prices(&more.Rates)))] *= 1 + rnd.Float64()
		case 2:
			more.Rates.Weld /= 1 + rnd.Float64()
		}
		after := Make(more)
		if after.Hours.Likely < before.Hours.Likely*(1-1e-12) || after.Money.Total.Likely < before.Money.Total.Likely*(1-1e-12) {
			t.Errorf("more comes to less: %+v to %+v, for %+v and %+v", before.Money.Total, after.Money.Total, in, more)
		}
	}
}

// TestTotalOut draws each line of work and each thing that is bought at random about
// its likely amount, adds up, and compares how far the sums scatter with what the
// total says: its range is that of a sum of independent errors.
func TestTotalOut(t *testing.T) {
	in := full()
	e := Make(in)
	m := e.Money
	rnd := rand.New(rand.NewPCG(3, 4))
	const n = 200000
	var square float64
	for range n {
		total := 0.0
		for _, l := range e.Work {
			h := l.Hours.Likely + rnd.NormFloat64()*(l.Hours.High-l.Hours.Likely)
			total += h * in.Rates.Labour
			if l.Operation == Weld {
				total += h * in.Rates.Gas
			}
		}
		for _, c := range m.Lines {
			switch c.Item {
			case Labour, Gas, Markup:
			default:
				total += c.Money.Likely + rnd.NormFloat64()*(c.Money.High-c.Money.Likely)
			}
		}
		out := total*(1+in.Rates.Markup) - m.Total.Likely
		square += out * out
	}
	if got, want := m.Total.High-m.Total.Likely, math.Sqrt(square/n); math.Abs(got-want) > 0.01*want {
		t.Errorf("the total may overrun by %v, drawn at random by %v", got, want)
	}
}

func lengths(q *Quantities) []*float64 {
	return []*float64{&q.HandCut, &q.CutterCut, &q.Clean, &q.Raised, &q.Weld, &q.Dress, &q.Surface, &q.Filler}
}

func prices(r *design.Rates) []*float64 {
	return []*float64{&r.Labour, &r.Filler, &r.Gas, &r.Setup, &r.Cut, &r.Pass, &r.Fit}
}

func ordered(t *testing.T, what string, r Range) {
	t.Helper()
	if !(0 <= r.Low && r.Low <= r.Likely && r.Likely <= r.High && !math.IsInf(r.High, 0)) {
		t.Errorf("%s: %+v", what, r)
	}
}

func FuzzMake(f *testing.F) {
	f.Add(1.0, 2.0, 3.0, 4.0, 5)
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0, -7)
	f.Add(1e308, 1e-308, 1e15, 1e-15, 1<<62)
	f.Fuzz(func(t *testing.T, a, b, c, d float64, n int) {
		in := full()
		q, r := &in.Quantities, &in.Rates
		q.ShearCuts, q.Fits = n, n
		q.HandCut, q.Weld, q.Surface, q.Filler = a, b, c, d
		r.Labour, r.Weld, r.Gas, r.Markup = b, c, d, a
		q.Materials = []Material{{SheetsOf{}, a, "sheets", c}}
		in.Finish.Price = d
		e := Make(in)
		ordered(t, "hours", e.Hours)
		for i := range e.Work {
			l := &e.Work[i]
			ordered(t, string(l.Operation), l.Hours)
		}
		if e.Money != nil {
			ordered(t, "money", e.Money.Total)
			for _, l := range e.Money.Lines {
				ordered(t, fmt.Sprint(l.Item), l.Money)
			}
		}
		for _, p := range Compare([]Tube{{Outside: a, Length: b, Mass: c, Price: d}}, d).Posts {
			for _, x := range []float64{p.PipeMass, p.Saved, p.Sheet, p.Pipes, p.Off} {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Errorf("comparison %+v", p)
				}
			}
		}
	})
}

// TestSettingsApart: the shear and the rolls have times of their own for a setting, and
// the common one where they have none.
func TestSettingsApart(t *testing.T) {
	in := full()
	hours := func(in Input, op Operation) float64 {
		t.Helper()
		for _, l := range Make(in).Work {
			if l.Operation == op {
				return l.Hours.Likely
			}
		}
		t.Fatalf("no line of %s", op)
		return 0
	}
	shear, rolls := hours(in, ShearSetting), hours(in, RollSetting)
	if shear == 0 || rolls == 0 {
		t.Fatalf("settings take %g and %g h", shear, rolls)
	}
	in.Rates.ShearSetup = 2 * in.Rates.Setup
	if got := hours(in, ShearSetting); !near(got, 2*shear) || !near(hours(in, RollSetting), rolls) {
		t.Errorf("twice the time for the shear gives %g h, was %g", got, shear)
	}
	in.Rates.RollSetup = 3 * in.Rates.Setup
	if got := hours(in, RollSetting); !near(got, 3*rolls) {
		t.Errorf("three times the time for the rolls gives %g h, was %g", got, rolls)
	}
}
