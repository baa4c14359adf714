package study

import (
	"fmt"
	"math"
	"math/rand/v2"

	"stabile/param/design"
	"stabile/param/quantity"
)

// MaxTrials is the greatest number of variations that are tried at once.
const MaxTrials = 100_000

// A Trial is one variation to be tried.
type Trial struct {
	Variation string // the title of a variation that the text names, or ""
	Set       []Setting
}

// Label tells the trial from the others of its study, in words.
func (t Trial) Label() string {
	switch {
	case len(t.Set) > 0:
		return join(t.Set)
	case t.Variation != "":
		return t.Variation
	}
	return "as written"
}

// Named returns the design as written, and then each variation that it names.
func Named(d *design.Design) []Trial {
	trials := []Trial{{}}
	for _, title := range d.Variations {
		trials = append(trials, Trial{Variation: title})
	}
	return trials
}

// Grid returns every combination of the values that sweeps take, the last one
// changing the fastest. It fails for more than MaxTrials and for values that
// cannot be written.
func Grid(d *design.Design, sweeps []design.Sweep) ([]Trial, error) {
	trials := []Trial{{Variation: d.Variation}}
	for _, s := range sweeps {
		if len(trials)*s.Count > MaxTrials {
			return nil, fmt.Errorf("the sweeps come to more than %d variations: take larger steps, or fewer names", MaxTrials)
		}
		next := make([]Trial, 0, len(trials)*s.Count)
		for _, t := range trials {
			for i := range s.Count {
				v, err := set(s.Name, s.At(i), d.Units)
				if err != nil {
					return nil, err
				}
				more := Trial{Variation: t.Variation, Set: append(t.Set[:len(t.Set):len(t.Set)], v)}
				next = append(next, more)
			}
		}
		trials = next
	}
	return trials, nil
}

// All returns the whole range of every value that the design lets one adjust.
func All(d *design.Design) []design.Sweep {
	var list []design.Sweep
	for _, a := range d.Adjust {
		s := design.Sweep{Name: a.Name, From: a.From, To: a.To, Step: a.Step, Count: 1}
		if a.Step.Number > 0 {
			// Rounding must not cost the last value.
			s.Count += int(min((a.To.Number-a.From.Number)/a.Step.Number+1e-9, math.MaxInt32))
		}
		list = append(list, s)
	}
	return list
}

// Random returns n sets of values, each of which lies anywhere in its sweep's
// range with equal chance, on a step: its own, or a round one. Equal seeds give equal
// sets, and more sets begin with the same ones.
func Random(d *design.Design, sweeps []design.Sweep, n int, seed uint64) ([]Trial, error) {
	if n > MaxTrials {
		return nil, fmt.Errorf("%d variations are more than the %d that are tried at once", n, MaxTrials)
	}
	r := rand.New(rand.NewPCG(seed, 0))
	trials := make([]Trial, n)
	for i := range trials {
		trials[i].Variation = d.Variation
		for _, s := range sweeps {
			v, err := set(s.Name, draw(r, s, d.Units), d.Units)
			if err != nil {
				return nil, err
			}
			trials[i].Set = append(trials[i].Set, v)
		}
	}
	return trials, nil
}

// freePlaces is into how many parts the range of a value without a step is divided at
// least when it is drawn.
const freePlaces = 100

// freeStep returns the step on which a value without one is drawn, so that it can be
// read, written and set again by hand: a round number of its unit, and of inches a
// fraction as on a rule.
func freeStep(s design.Sweep, system quantity.System) float64 {
	scale := 1.0
	u, ok := system.UnitOf(s.From.Dim)
	if ok {
		scale = u.Scale
	}
	most := (s.To.Number - s.From.Number) / scale / freePlaces
	if ok && u.Name == "in" {
		return math.Exp2(math.Floor(math.Log2(most))) * scale
	}
	return quantity.RoundStep(most) * scale
}

// draw draws one value of a sweep.
func draw(r *rand.Rand, s design.Sweep, system quantity.System) quantity.Quantity {
	if s.Step.Number > 0 {
		return s.At(r.IntN(s.Count))
	}
	q := s.From
	if !(s.To.Number > s.From.Number) {
		return q
	}
	step := freeStep(s, system)
	first, last := math.Ceil(s.From.Number/step-1e-9), math.Floor(s.To.Number/step+1e-9)
	q.Number = (first + math.Floor(r.Float64()*(last-first+1))) * step
	q.Number = min(max(q.Number, s.From.Number), s.To.Number)
	return q
}
