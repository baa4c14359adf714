package study

import (
	"context"
	"slices"
	"sync/atomic"

	"stabile/fab"
	"stabile/fab/workers"
	"stabile/param"
	"stabile/param/design"
)

// A Study is a design that is tried with other values.
type Study struct {
	// Load reads the design with the given options. It is called by several
	// goroutines at a time.
	Load func(param.Options) (*design.Design, error)

	// Options hold for every trial, whose settings go over them.
	Options param.Options

	// Plan has the shop's plan worked out for every trial too: how many sheets it
	// takes, and what it costs. It takes many times longer than the rest.
	Plan bool

	// Progress, if not nil, is given how many trials are done. It is called by
	// several goroutines at a time.
	Progress func(done int)
}

// Job works one trial out as a report of it does, but for what would help, and for
// what else is not wanted. The checks are those of a report.
func (s *Study) Job(t Trial, want fab.Want) (*fab.Job, error) {
	o := s.Options
	o.Sweep = nil
	if t.Variation != "" {
		o.Variation = t.Variation
	}
	o.Set = slices.Clone(o.Set)
	for _, v := range t.Set {
		o.Set = append(o.Set, v.String())
	}
	d, err := s.Load(o)
	if err != nil {
		return nil, err
	}
	j, wrong := fab.Build(d, fab.WithModes|want)
	return j, wrong.Err()
}

// Run tries all trials, on all cores, and returns the results in their order. It
// ends early with the error of the context.
func (s *Study) Run(ctx context.Context, trials []Trial) ([]Result, error) {
	results, err := s.RunFrom(ctx, trials, 0)
	if err != nil {
		return nil, err
	}
	return results, nil
}

// RunFrom is Run without the first trials, so many of them. Where it ends early it
// returns, beside the error, the results up to the first trial that was not tried.
func (s *Study) RunFrom(ctx context.Context, trials []Trial, from int) ([]Result, error) {
	results := make([]Result, len(trials)-from)
	var done atomic.Int64
	workers.Each(len(results), func(i int) {
		if ctx.Err() != nil {
			return
		}
		results[i] = s.try(trials[from+i], from+i+1)
		if n := done.Add(1); s.Progress != nil {
			s.Progress(int(n))
		}
	})
	if err := ctx.Err(); err != nil {
		n := 0
		for n < len(results) && results[n].Number > 0 {
			n++
		}
		return results[:n], err
	}
	return results, nil
}

// try tries one trial.
func (s *Study) try(t Trial, number int) Result {
	var want fab.Want
	if s.Plan {
		want = fab.WithPlan
	}
	j, err := s.Job(t, want)
	if err != nil {
		return Result{Trial: t, Number: number, Err: err}
	}
	return Of(t, number, j)
}
