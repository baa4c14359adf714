package bench

import (
	"context"
	"encoding/json"
	"math"
	"net/http"
	"sync"
	"time"

	"stabile/fab/study"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/words"
)

// A varying asks for variations: "map", of two names; "random"; "named".
type varying struct {
	state
	Kind  string   `json:"kind"`
	Names []string `json:"names"`
	Count int      `json:"count"` // of random ones, or along each side of a map
	Seed  uint64   `json:"seed"`
	Money bool     `json:"money"`
}

// How many variations are tried at a time.
const (
	mostRandom = 400
	mostSteps  = 12
)

// A progress is reported while long work goes on.
type progress struct {
	Done int    `json:"done"`
	Of   int    `json:"of"`
	Says string `json:"says,omitempty"`
}

// A spread is what variations came to.
type spread struct {
	Names   []string `json:"names"`
	Results []trial  `json:"results"`
}

// A trial is one variation. Shares are of the range of each name.
type trial struct {
	Label  string    `json:"label"`
	Set    []string  `json:"set"`
	Named  string    `json:"variation,omitempty"`
	Shares []float64 `json:"shares"`
	State  string    `json:"state"`
	Text   string    `json:"text"` // the last word, or why it cannot be made
	Weight *measure  `json:"weight,omitempty"`
	Factor *measure  `json:"factor,omitempty"`
	Money  *measure  `json:"money,omitempty"`
	Height string    `json:"height,omitempty"`
}

// A measure is a number, to be placed by, and how it is written.
type measure struct {
	Number float64 `json:"number"`
	Text   string  `json:"text"`
}

// A stream tells progress, and then what came of it, each a line of JSON.
type stream struct {
	w    http.ResponseWriter
	mu   sync.Mutex
	last time.Time
}

func streamTo(w http.ResponseWriter) *stream {
	w.Header().Set("Content-Type", "application/x-ndjson")
	w.WriteHeader(http.StatusOK)
	return &stream{w: w}
}

// tell writes a line. A reader that has gone is found out by the context.
func (s *stream) tell(v any) {
	s.mu.Lock()
	defer s.mu.Unlock()
	_ = json.NewEncoder(s.w).Encode(v)
	_ = http.NewResponseController(s.w).Flush()
	s.last = time.Now()
}

// often tells progress no more often than it can be seen.
func (s *stream) often(p progress) {
	s.mu.Lock()
	late := time.Since(s.last) > 60*time.Millisecond
	s.mu.Unlock()
	if late {
		s.tell(p)
	}
}

func (s *Server) vary(w http.ResponseWriter, r *http.Request) {
	var q varying
	if !question(w, r, &q) {
		return
	}
	select {
	case s.busy <- struct{}{}:
		defer func() { <-s.busy }()
	case <-r.Context().Done():
		return
	}
	st, d, trials, err := s.trials(&q)
	if err != nil {
		tell(w, err)
		return
	}
	out := streamTo(w)
	out.tell(progress{Of: len(trials)})
	st.Progress = func(done int) { out.often(progress{Done: done, Of: len(trials)}) }
	var results []study.Result
	_, err = s.guarded(func() (*result, error) {
		var err error
		results, err = st.Run(r.Context(), trials)
		return nil, err
	})
	if err != nil {
		if r.Context().Err() == nil {
			out.tell(wrong{err.Error()})
		}
		return
	}
	out.tell(spreadOf(d, results))
}

// trials returns what is to be tried.
func (s *Server) trials(q *varying) (*study.Study, *design.Design, []study.Trial, error) {
	t, o, err := s.load(&q.state)
	if err != nil {
		return nil, nil, nil, err
	}
	d, err := t.Design(o)
	if err != nil {
		return nil, nil, nil, refuse(http.StatusUnprocessableEntity, "the text has mistakes that must be mended first")
	}
	st := &study.Study{Load: t.Design, Options: o, Plan: q.Money}
	var sweeps []design.Sweep
	steps := max(2, min(mostSteps, q.Count))
	for _, name := range q.Names {
		for _, a := range d.Adjust {
			if a.Name == name {
				sweeps = append(sweeps, sweepOf(a, steps))
			}
		}
	}
	var trials []study.Trial
	switch {
	case q.Kind == "named":
		return st, d, study.Named(d), nil
	case len(d.Adjust) == 0:
		err = refuse(http.StatusUnprocessableEntity, "nothing may be varied: write 'adjust' where a size may change")
	case q.Kind == "random":
		trials, err = study.Random(d, study.All(d), max(1, min(mostRandom, q.Count)), q.Seed)
	case len(sweeps) == 0 || len(sweeps) > 2:
		err = refuse(http.StatusUnprocessableEntity, "choose one or two names")
	default:
		trials, err = study.Grid(d, sweeps)
	}
	return st, d, trials, err
}

// sweepOf spreads a value over its range in a number of steps at most, on its own
// steps where it has them.
func sweepOf(a design.Adjustable, most int) design.Sweep {
	s := design.Sweep{Name: a.Name, From: a.From, To: a.To, Count: most}
	if a.Step.Number > 0 {
		n := int(math.Floor((a.To.Number-a.From.Number)/a.Step.Number + 1e-9))
		each := max(1, (n+most-2)/(most-1))
		s.Step = quantity.Quantity{Number: a.Step.Number * float64(each), Dim: a.Step.Dim}
		s.Count = n/each + 1
	}
	return s
}

func spreadOf(d *design.Design, results []study.Result) *spread {
	w := words.In(d.Units)
	out := &spread{Names: []string{}, Results: []trial{}}
	ranges := map[string]design.Adjustable{}
	for _, a := range d.Adjust {
		ranges[a.Name] = a
	}
	for i := range results {
		r := &results[i]
		t := trial{Label: r.Label(), Set: []string{}, Named: r.Variation, Shares: []float64{}}
		for _, set := range r.Set {
			t.Set = append(t.Set, set.String())
			a := ranges[set.Name]
			share := 0.0
			if wide := a.To.Number - a.From.Number; wide > 0 {
				share = (set.Quantity.Number - a.From.Number) / wide
			}
			t.Shares = append(t.Shares, share)
			if i == 0 {
				out.Names = append(out.Names, set.Name)
			}
		}
		if r.Err != nil {
			t.State, t.Text = "mistakes", study.Why(r.Err)
			out.Results = append(out.Results, t)
			continue
		}
		t.State, t.Text = string(r.Verdict), w.Verdict(r.Verdict, r.Reasons)
		t.Weight = &measure{r.Mass.Total, w.Weight(r.Mass.Total)}
		t.Height = w.Long(r.Size.Height)
		if r.Tipping.Known && quantity.Finite(r.Tipping.Value) {
			t.Factor = &measure{r.Tipping.Value, words.Factor(r.Tipping.Value)}
		}
		if r.Cost.Known && quantity.Finite(r.Cost.Value) {
			t.Money = &measure{r.Cost.Value, words.Money(r.Cost.Value, r.Currency)}
		}
		out.Results = append(out.Results, t)
	}
	return out
}

// gone reports whether the reader has gone.
func gone(ctx context.Context) bool { return ctx.Err() != nil }
