package study

import (
	"context"
	"math"
	"reflect"
	"slices"

	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/quantity"
)

// scanned is how many values, evenly spread, a solution looks at before it
// closes in on one.
const scanned = 41

// A Problem is a search for the largest or the least value of a name with which
// the first question of its study, a condition, holds.
type Problem struct {
	Sweep design.Sweep // the name and the range to look in, with its step if any
	Least bool         // the least value, not the largest

	// Tolerance is how near the answer comes to where the condition ceases to
	// hold; 0 for Fine of the dimension. A step goes before it: the answer is
	// then a step from From.
	Tolerance quantity.Quantity
}

// A Solution is what came of it.
type Solution struct {
	Found bool
	Value Setting // with which the condition holds
	Trial Result  // that value, worked out

	// Fails is the nearest value tried beyond it, with which the condition does
	// not hold, and Beyond that value worked out. Bound reports that there is none:
	// the end of the range holds.
	Fails  Setting
	Beyond Result
	Bound  bool

	// Stretches are the runs of values, of those that were scanned, with which
	// the condition holds. Of more than one, the answer is at the end of the
	// outermost: the condition does not simply cease to hold.
	Stretches [][2]Setting

	Tolerance quantity.Quantity // between Value and Fails at most
	Scanned   []Result          // in order of value
	Tried     int               // values worked out in all
	Whole     bool              // every step of the range was scanned
}

// Solve scans the range, and then closes in on the end of the outermost
// stretch of values with which the condition holds by halving. What lies
// between two scanned values that both fail is not seen. A value with which the
// design cannot be made does not hold.
func (s *Study) Solve(ctx context.Context, d *design.Design, p Problem) (*Solution, error) {
	l := newLine(p.Sweep)
	if p.Tolerance.Number > 0 {
		l.tolerance = p.Tolerance.Number
	}
	places := l.scan()
	trials := make([]Trial, len(places))
	for i, x := range places {
		v, err := set(p.Sweep.Name, l.at(x), d.Units)
		if err != nil {
			return nil, err
		}
		trials[i] = Trial{Variation: d.Variation, Set: []Setting{v}}
	}
	results, err := s.Run(ctx, trials)
	if err != nil {
		return nil, err
	}
	sol := &Solution{Scanned: results, Tried: len(results), Whole: l.steps > 0 && len(places) == l.steps+1}
	sol.Tolerance = quantity.Quantity{Number: l.finest(), Dim: p.Sweep.From.Dim}
	sol.stretch()
	if len(sol.Stretches) == 0 {
		return sol, nil
	}
	sol.Found = true
	in, step := len(results)-1, -1
	if p.Least {
		in, step = 0, 1
	}
	for !good(&results[in]) {
		in += step
	}
	sol.Trial = results[in]
	out := in - step
	if out < 0 || out >= len(results) {
		sol.Bound = true
		sol.Value = sol.Trial.Set[0]
		return sol, nil
	}
	sol.Beyond = results[out]
	holds, fails := places[in], places[out]
	for ctx.Err() == nil {
		middle, ok := l.between(holds, fails)
		if !ok {
			break
		}
		v, err := set(p.Sweep.Name, l.at(middle), d.Units)
		if err != nil {
			return nil, err
		}
		r := s.try(Trial{Variation: d.Variation, Set: []Setting{v}}, sol.Tried+1)
		sol.Tried++
		if good(&r) {
			holds, sol.Trial = middle, r
		} else {
			fails, sol.Beyond = middle, r
		}
	}
	sol.Value, sol.Fails = sol.Trial.Set[0], sol.Beyond.Set[0]
	return sol, ctx.Err()
}

func good(r *Result) bool { return r.Err == nil && r.meets(1) }

// A Reason is why values do not answer, and how many of those scanned.
type Reason struct {
	Fact   finding.Fact // nil where Text says it
	Text   string       // the diagnostic of a design that cannot be made
	Values int
}

// Unanswered returns why the condition could not be checked with values that were
// scanned, in order of value; none where it was checked with every one that can be
// made.
func (sol *Solution) Unanswered() []Reason {
	return reasons(sol.Scanned, func(r *Result) (Reason, bool) {
		if r.Err != nil || !r.Answers[0].Unchecked {
			return Reason{}, false
		}
		return Reason{Fact: r.Answers[0].Missing}, true
	})
}

// Unmade returns why the design cannot be made with values that were scanned.
func (sol *Solution) Unmade() []Reason {
	return reasons(sol.Scanned, func(r *Result) (Reason, bool) {
		if r.Err == nil {
			return Reason{}, false
		}
		return Reason{Text: Why(r.Err)}, true
	})
}

// Checked reports whether the condition was checked with any value that was
// scanned. Where it was not, nothing is known of it.
func (sol *Solution) Checked() bool {
	for i := range sol.Scanned {
		if r := &sol.Scanned[i]; r.Err == nil && !r.Answers[0].Unchecked {
			return true
		}
	}
	return false
}

func reasons(results []Result, why func(*Result) (Reason, bool)) []Reason {
	var list []Reason
	for i := range results {
		reason, ok := why(&results[i])
		if !ok {
			continue
		}
		k := slices.IndexFunc(list, func(r Reason) bool {
			return r.Text == reason.Text && reflect.DeepEqual(r.Fact, reason.Fact)
		})
		if k < 0 {
			k = len(list)
			list = append(list, reason)
		}
		list[k].Values++
	}
	return list
}

// stretch gathers the runs of values that hold.
func (sol *Solution) stretch() {
	before := false
	for i := range sol.Scanned {
		r := &sol.Scanned[i]
		holds := good(r)
		switch v := r.Set[0]; {
		case holds && !before:
			sol.Stretches = append(sol.Stretches, [2]Setting{v, v})
		case holds:
			sol.Stretches[len(sol.Stretches)-1][1] = v
		}
		before = holds
	}
}

// A line is the range in which a solution is sought. A place on it is a number
// of steps, or a share of the range where there are none.
type line struct {
	sweep     design.Sweep
	steps     int // from the first value to the last; 0 where it moves freely
	tolerance float64
}

func newLine(s design.Sweep) line {
	l := line{sweep: s, tolerance: fine(s)}
	if s.Step.Number > 0 {
		l.steps = max(s.Count-1, 0)
	}
	return l
}

// fine is how near an answer comes where nothing is asked: half of a sixteenth
// of an inch, a twentieth of a degree, or a thousandth of the range.
func fine(s design.Sweep) float64 {
	switch s.From.Dim {
	case quantity.Length:
		return 0.8
	case quantity.Angle:
		return math.Pi / 180 / 20
	}
	return (s.To.Number - s.From.Number) / 1000
}

// scan returns the places that are looked at first, in order: all steps where
// they are not many.
func (l line) scan() []float64 {
	n := scanned
	switch {
	case l.sweep.To.Number == l.sweep.From.Number:
		return []float64{0}
	case l.sweep.Step.Number > 0 && l.steps < 2*scanned:
		n = l.steps + 1
	}
	places := make([]float64, 0, n)
	for i := range n {
		x := 0.0
		if n > 1 {
			x = float64(i) / float64(n-1)
		}
		if l.sweep.Step.Number > 0 {
			x = math.Round(x * float64(l.steps))
		}
		places = append(places, x)
	}
	return places
}

func (l line) at(x float64) quantity.Quantity {
	q := l.sweep.From
	if l.sweep.Step.Number > 0 {
		q.Number += x * l.sweep.Step.Number
	} else {
		q.Number += x * (l.sweep.To.Number - l.sweep.From.Number)
	}
	return q
}

// between returns a place between two, if they are not near enough.
func (l line) between(a, b float64) (float64, bool) {
	if l.sweep.Step.Number > 0 {
		return math.Floor((a + b) / 2), math.Abs(a-b) > 1
	}
	return (a + b) / 2, math.Abs(a-b)*(l.sweep.To.Number-l.sweep.From.Number) > l.tolerance
}

// finest is how far apart the last two values are at most.
func (l line) finest() float64 {
	if l.sweep.Step.Number > 0 {
		return l.sweep.Step.Number
	}
	return l.tolerance
}
