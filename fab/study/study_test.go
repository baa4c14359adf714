package study_test

import (
	"context"
	"errors"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/estimate"
	"stabile/fab/study"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
)

const lantern = `sculpture "Lantern"
units inch
adjust rise = 36 in from 24 in to 96 in step 1 in
adjust crown = 12 in from 4 in to 20 in
adjust lean = 0 deg from 0 deg to 12 deg
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 3/8 in }
base pad { plate 24 in by 20 in, metal slab }
post mast on pad { diameter 4 in, length rise, lean lean toward 0 deg, metal skin }
ball moon on mast { diameter crown, gores 10, metal skin }
site { wind 40 mph, exposure B, method asce7 }
require tipping >= 1.5
require weight <= 90 lb "two people carry it"
variation "tall" { rise = 80 in }
variation "leant" { lean = 9 deg, crown = 8 in }
`

func lanterns(o param.Options) *study.Study { return written(lantern, o) }

// written returns the study of a text.
func written(text string, o param.Options) *study.Study {
	files := fstest.MapFS{"lantern.stabile": {Data: []byte(text)}}
	read, err := param.Read(files, "lantern.stabile", o)
	if err != nil {
		panic(err)
	}
	return &study.Study{Load: read.Design, Options: o}
}

// read returns the design of a study with what is asked of it.
func read(t testing.TB, s *study.Study) *design.Design {
	t.Helper()
	d, err := s.Load(s.Options)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestAlone compares every figure of a study with that of a report made alone
// with the same settings, to the last digit.
func TestAlone(t *testing.T) {
	s := lanterns(param.Options{
		Sweep: []string{"rise step 7 in", "crown values 4", "lean from 3 deg to 3 deg"},
		Ask:   []param.Question{{From: "--most", Text: "frequency"}},
	})
	d := read(t, s)
	grid, err := study.Grid(d, d.Sweeps)
	if err != nil {
		t.Fatal(err)
	}
	random, err := study.Random(d, d.Sweeps, 20, 7)
	if err != nil {
		t.Fatal(err)
	}
	trials := slices.Concat(study.Named(d), grid, random)
	if want := 3 + 11*4 + 20; len(trials) != want {
		t.Fatalf("%d trials, want %d", len(trials), want)
	}
	results, err := s.Run(context.Background(), trials)
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range results {
		o := param.Options{Variation: r.Variation}
		for _, v := range r.Set {
			o.Set = append(o.Set, v.String())
		}
		d, mistakes := param.Evaluate(source.NewFile("lantern.stabile", lantern), o)
		if err := mistakes.Err(); err != nil {
			if r.Err == nil || r.Err.Error() != err.Error() {
				t.Errorf("%s: %v in the study, and alone: %v", r.Label(), r.Err, err)
			}
			continue
		}
		j, wrong := fab.Build(d, fab.Everything)
		if err := wrong.Err(); err != nil {
			if r.Err == nil {
				t.Errorf("%s: made in the study, and alone: %v", r.Label(), err)
			}
			continue
		}
		if r.Number != i+1 || r.Mass != j.Mass || r.Size != j.Size || r.Verdict != j.Verdict || r.Tipping.Value != j.Tipping.Factor || r.Wind.Value != j.Wind.Greatest() {
			t.Errorf("%s: %+v, alone %+v, %+v, %v", r.Label(), r, j.Mass, j.Size, j.Tipping.Factor)
		}
		if r.Strength.Value != j.Strength.Worst || r.Frequency.Value != j.Strength.Modes[0].Frequency || !r.Frequency.Known {
			t.Errorf("%s: strength %v, %v Hz, alone %v, %v Hz", r.Label(), r.Strength, r.Frequency, j.Strength.Worst, j.Strength.Modes[0].Frequency)
		}
		for k, v := range r.Set {
			if got := d.Adjust[slices.IndexFunc(d.Adjust, func(a design.Adjustable) bool { return a.Name == v.Name })].Value; math.Abs(got.Number-v.Quantity.Number) > 1e-8*math.Abs(got.Number) {
				t.Errorf("%s: setting %d reads back as %v, want %v", r.Label(), k, got, v.Quantity)
			}
		}
	}
}

func TestRandom(t *testing.T) {
	s := lanterns(param.Options{Sweep: []string{"rise", "crown"}})
	d := read(t, s)
	few, err := study.Random(d, d.Sweeps, 50, 3)
	if err != nil {
		t.Fatal(err)
	}
	many, err := study.Random(d, d.Sweeps, 400, 3)
	if err != nil {
		t.Fatal(err)
	}
	other, err := study.Random(d, d.Sweeps, 50, 4)
	if err != nil {
		t.Fatal(err)
	}
	differ := false
	seen := map[string]bool{}
	for i := range many {
		if i < len(few) {
			if few[i].Label() != many[i].Label() {
				t.Fatalf("trial %d is %q of 50 and %q of 400", i, few[i].Label(), many[i].Label())
			}
			differ = differ || few[i].Label() != other[i].Label()
		}
		seen[many[i].Set[0].Value] = true
		rise, crown := many[i].Set[0].Quantity.Number/25.4, many[i].Set[1].Quantity.Number/25.4
		if rise < 24-1e-9 || rise > 96+1e-9 || math.Abs(rise-math.Round(rise)) > 1e-9 || crown < 4-1e-9 || crown > 20+1e-9 {
			t.Errorf("%s is out of range or off its step", many[i].Label())
		}
	}
	if !differ {
		t.Error("two seeds give the same sets")
	}
	// 400 draws of 73 values leave 73 exp(-400/73) = 0.3 of them out on average.
	if len(seen) < 68 {
		t.Errorf("%d of 73 values of the step were drawn", len(seen))
	}
}

func TestKeepAndSort(t *testing.T) {
	s := lanterns(param.Options{
		Sweep: []string{"rise step 6 in"},
		Ask:   []param.Question{{From: "--keep", Text: "tipping >= 0.5", Condition: true}, {From: "--most", Text: "height"}},
	})
	d := read(t, s)
	trials, err := study.Grid(d, d.Sweeps)
	if err != nil {
		t.Fatal(err)
	}
	results, err := s.Run(context.Background(), trials)
	if err != nil {
		t.Fatal(err)
	}
	kept := study.Keep(results, 1)
	study.Sort(kept, 1, true)
	if len(kept) == 0 || len(kept) == len(results) {
		t.Fatalf("%d of %d kept: the test needs some", len(kept), len(results))
	}
	held := 0
	for _, r := range results {
		if r.Tipping.Value >= 0.5 {
			held++
		}
	}
	if held != len(kept) {
		t.Errorf("%d kept, want %d", len(kept), held)
	}
	for i, r := range kept {
		if r.Tipping.Value < 0.5 || i > 0 && r.Size.Height > kept[i-1].Size.Height {
			t.Errorf("%d: %s, tipping %v, height %v", i, r.Label(), r.Tipping.Value, r.Size.Height)
		}
	}
}

// TestSolve compares solutions with a scan of the whole range by brute force.
func TestSolve(t *testing.T) {
	for _, c := range []struct {
		sweep, condition string
		least            bool
	}{
		{"rise", "tipping >= 0.5", false},
		{"crown", "tipping >= 0.5", false},
		{"lean", "tipping >= 0.8", false},
		{"crown", "weight >= 66 lb", true},
		{"rise", "weight >= 70 lb", true},
		{"rise", "height > 0 in", false},
		{"rise", "height < 0 in", false},
		{"lean from 2 deg to 2 deg", "tipping > 0", false},
		// Holds in two stretches: the answer is the end of the outer one.
		{"rise", "height < 50 in or height > 80 in and height < 90 in", false},
	} {
		s := lanterns(param.Options{Sweep: []string{c.sweep}, Ask: []param.Question{{From: "for", Text: c.condition, Condition: true}}})
		d := read(t, s)
		sol, err := s.Solve(context.Background(), d, study.Problem{Sweep: d.Sweeps[0], Least: c.least})
		if err != nil {
			t.Errorf("%s for %s: %v", c.sweep, c.condition, err)
			continue
		}
		fine := d.Sweeps[0]
		if fine.Step.Number == 0 && fine.Count > 1 {
			fine.Count = 600
		}
		trials, err := study.Grid(d, []design.Sweep{fine})
		if err != nil {
			t.Fatal(err)
		}
		results, err := s.Run(context.Background(), trials)
		if err != nil {
			t.Fatal(err)
		}
		held := study.Keep(results, 1)
		if !sol.Found || len(held) == 0 {
			if sol.Found || len(held) > 0 {
				t.Errorf("%s for %s: found %v, by brute force %d values hold", c.sweep, c.condition, sol.Found, len(held))
			}
			continue
		}
		want := held[len(held)-1].Set[0].Quantity.Number
		if c.least {
			want = held[0].Set[0].Quantity.Number
		}
		got := sol.Value.Quantity.Number
		if math.Abs(got-want) > sol.Tolerance.Number+(fine.To.Number-fine.From.Number)/600 && fine.Step.Number == 0 || fine.Step.Number > 0 && math.Abs(got-want) > 1e-6 {
			t.Errorf("%s for %s: %s, by brute force %v", c.sweep, c.condition, sol.Value, want)
		}
		if !sol.Trial.Answers[0].Holds {
			t.Errorf("%s for %s: does not hold at %s", c.sweep, c.condition, sol.Value)
		}
		if !sol.Bound && math.Abs(sol.Fails.Quantity.Number-got) > sol.Tolerance.Number*(1+1e-9) {
			t.Errorf("%s for %s: between %s and %s lies more than %v", c.sweep, c.condition, sol.Value, sol.Fails, sol.Tolerance.Number)
		}
		if strings.Contains(c.condition, " or ") && len(sol.Stretches) != 2 {
			t.Errorf("%s for %s: stretches %v, want two", c.sweep, c.condition, sol.Stretches)
		}
	}
}

// TestSolveUnchecked: where the condition could not be checked it is reported so, with
// the reason, and not that it does not hold.
func TestSolveUnchecked(t *testing.T) {
	s := lanterns(param.Options{Sweep: []string{"rise step 12 in"}, Ask: []param.Question{{From: "for", Text: "cost <= 4000", Condition: true}}})
	d := read(t, s)
	sol, err := s.Solve(context.Background(), d, study.Problem{Sweep: d.Sweeps[0]})
	if err != nil {
		t.Fatal(err)
	}
	why, values := sol.Unanswered(), 0
	for _, r := range why {
		values += r.Values
	}
	if sol.Found || sol.Checked() || values != len(sol.Scanned) || !slices.ContainsFunc(why, func(r study.Reason) bool { return r.Fact == estimate.NoPrices{} }) {
		t.Errorf("found %v, checked %v, unanswered %v of %d", sol.Found, sol.Checked(), why, len(sol.Scanned))
	}
	s = lanterns(param.Options{Sweep: []string{"rise"}, Ask: []param.Question{{From: "for", Text: "tipping >= 0.5", Condition: true}}})
	d = read(t, s)
	if sol, err = s.Solve(context.Background(), d, study.Problem{Sweep: d.Sweeps[0]}); err != nil {
		t.Fatal(err)
	}
	if !sol.Checked() || len(sol.Unanswered()) > 0 || sol.Bound || sol.Beyond.Answers[0].Holds || sol.Beyond.Set[0] != sol.Fails {
		t.Errorf("unanswered %v, beyond it %+v", sol.Unanswered(), sol.Beyond.Set)
	}
}

// TestReasons: a result has the verdict of a report, with what it rests on, and the
// requirements that fail among them.
func TestReasons(t *testing.T) {
	s := lanterns(param.Options{})
	read(t, s)
	results, err := s.Run(context.Background(), []study.Trial{{Variation: "tall"}})
	if err != nil {
		t.Fatal(err)
	}
	r := &results[0]
	said := 0
	for _, g := range r.Reasons {
		if g.First.ID == check.Require && g.First.Verdict == check.Fails {
			said += g.Count
		}
	}
	if r.Verdict != check.Fails || said == 0 || len(r.Grave) < said {
		t.Errorf("%s: %d of the reasons are requirements that fail: %+v", r.Verdict, said, r.Reasons)
	}
}

// TestCannotBeMade: a value with which the design is wrong is reported, and counts as
// one that does not hold.
func TestCannotBeMade(t *testing.T) {
	text := strings.Replace(lantern, "diameter 4 in, length rise", "diameter 5 in, length rise", 1)
	s := written(text, param.Options{Sweep: []string{"crown from 4 in to 8 in step 1 in"}})
	d := read(t, s)
	trials, err := study.Grid(d, d.Sweeps)
	if err != nil {
		t.Fatal(err)
	}
	results, err := s.Run(context.Background(), trials)
	if err != nil {
		t.Fatal(err)
	}
	var wrong *source.Error
	if !errors.As(results[0].Err, &wrong) || results[4].Err != nil {
		t.Errorf("a ball of 4 in on a post of 5 in: %v; of 8 in: %v", results[0].Err, results[4].Err)
	}
}

func TestStopped(t *testing.T) {
	s := lanterns(param.Options{Sweep: []string{"crown values 200"}})
	d := read(t, s)
	trials, err := study.Grid(d, d.Sweeps)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	s.Progress = func(done int) {
		if done == 3 {
			stop()
		}
	}
	if results, err := s.Run(ctx, trials); err == nil || results != nil {
		t.Errorf("a stopped study gave %d results, error %v", len(results), err)
	}
	// What is done without a gap can be gone on with.
	ctx, stop = context.WithCancel(context.Background())
	s.Progress = func(done int) {
		if done == 3 {
			stop()
		}
	}
	first, err := s.RunFrom(ctx, trials, 0)
	if err == nil || len(first) < 1 || len(first) > 40 {
		t.Fatalf("a stopped study gave %d results, error %v", len(first), err)
	}
	s.Progress = nil
	rest, err := s.RunFrom(context.Background(), trials, len(first))
	if err != nil || len(first)+len(rest) != len(trials) {
		t.Fatalf("%d results and %d more, error %v", len(first), len(rest), err)
	}
	for i, r := range append(first, rest...) {
		if r.Number != i+1 || r.Label() != trials[i].Label() {
			t.Errorf("result %d is number %d, of %s", i, r.Number, r.Label())
		}
	}
}

func TestTooMany(t *testing.T) {
	s := lanterns(param.Options{Sweep: []string{"crown values 10000", "lean values 11"}})
	d := read(t, s)
	if _, err := study.Grid(d, d.Sweeps); err == nil {
		t.Error("110,000 variations were taken")
	}
	if _, err := study.Random(d, d.Sweeps, study.MaxTrials+1, 1); err == nil {
		t.Error("too many random variations were taken")
	}
}

// TestMemory: what is kept of a variation is its figures, not its job.
func TestMemory(t *testing.T) {
	s := lanterns(param.Options{Sweep: []string{"crown"}})
	d := read(t, s)
	kept := func(n int) (bytes float64, results []study.Result) {
		trials, err := study.Random(d, d.Sweeps, n, 1)
		if err != nil {
			t.Fatal(err)
		}
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		results, err = s.Run(context.Background(), trials)
		if err != nil {
			t.Fatal(err)
		}
		runtime.GC()
		runtime.ReadMemStats(&after)
		return float64(after.HeapAlloc) - float64(before.HeapAlloc), results
	}
	kept(20) // what is made once and for all
	few, first := kept(100)
	many, second := kept(500)
	each := (many - few) / 400
	t.Logf("a variation keeps %.0f bytes", each)
	if each > 4096 {
		t.Errorf("a variation keeps %.0f bytes, want 4096 at most", each)
	}
	runtime.KeepAlive(first)
	runtime.KeepAlive(second)
}
