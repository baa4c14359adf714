package bench

import (
	"context"
	"errors"
	"slices"
	"sync"
	"time"

	"stabile/fab"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/edit"
	"stabile/param/source"
)

// atOnce is how many designs are worked out at a time: one that matters and one
// that is already stale.
const atOnce = 2

// mostWork is how long one design may take. What takes longer goes on to its end,
// and holds its place, but is not waited for.
const mostWork = 30 * time.Second

// A state is a design as it is on the page.
type state struct {
	File      string   `json:"file"`
	Text      string   `json:"text"`
	Set       []string `json:"set,omitempty"`
	Variation string   `json:"variation,omitempty"`
}

// A workQuestion asks what a design comes to.
type workQuestion struct {
	state
	Whole bool   `json:"whole"` // with all checks and the shop's plan; else as fast as it goes
	Drag  *drag  `json:"drag"`  // by which the text is changed first
	Have  string `json:"have"`  // the answer whose drawing the page has
}

// A result is a design that was worked out.
type result struct {
	state
	id    string
	text  *param.Text // nil where nothing could be read
	job   *fab.Job    // nil with mistakes
	wrong source.List
	whole bool
	took  time.Duration
	// loose is the job of parts that run into each other, for the drawing.
	loose *fab.Job

	drawn sync.Once
	draw  *drawing
}

// seen returns the job that is to be drawn, or nil.
func (r *result) seen() *fab.Job {
	if r.job != nil {
		return r.job
	}
	return r.loose
}

// load reads the text of a state.
func (s *Server) load(q *state) (*param.Text, param.Options, error) {
	if err := named(q.File); err != nil {
		return nil, param.Options{}, err
	}
	o := param.Options{Set: q.Set, Variation: q.Variation}
	if s.options.Outside {
		o.Outside = s.folder.beyond
	}
	t, err := param.Read(over{s.folder, q.File, q.Text}, q.File, o)
	return t, o, err
}

// build works a design out.
func (s *Server) build(q *state, want fab.Want) (*result, error) {
	r := &result{state: *q, id: token()[:24], whole: want == fab.Everything}
	begun := time.Now()
	t, o, err := s.load(q)
	if err != nil {
		return nil, err
	}
	r.text = t
	d, err := t.Design(o)
	var e *source.Error
	switch {
	case errors.As(err, &e):
		r.wrong = e.List
		return r, nil
	case err != nil:
		return nil, err
	}
	if len(d.Parts) == 0 {
		r.took = time.Since(begun)
		_, r.wrong = fab.Build(d, 0)
		return r, nil
	}
	r.job, r.wrong = fab.Build(d, want)
	if r.job == nil {
		r.loose = loosely(d)
	}
	r.took = time.Since(begun)
	return r, nil
}

// loosely works a design out whose parts run into each other; nil where that is
// not all that is wrong.
func loosely(d *design.Design) *fab.Job {
	j, _ := fab.Build(d, fab.AllowClashes)
	return j
}

// quick is what is always worked out, so that a drag can be followed.
const quick = fab.WithStrength

// fast is how long the whole of a design may take for it to be worked out at
// once.
const fast = 10 * time.Millisecond

// jobs are the designs that were worked out last.
type jobs struct {
	mu   sync.Mutex
	list []*result
	took map[string]time.Duration // of the whole of each file, the last time
}

func newJobs() *jobs { return &jobs{took: map[string]time.Duration{}} }

// kept is how many designs are kept worked out.
const kept = 8

func (j *jobs) keep(r *result) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if r.whole && r.job != nil {
		if len(j.took) > mostListed {
			clear(j.took)
		}
		j.took[r.File] = r.took
	}
	if len(j.list) >= kept {
		j.list = append(j.list[:0], j.list[1:]...)
	}
	j.list = append(j.list, r)
}

func (j *jobs) find(id string) *result {
	j.mu.Lock()
	defer j.mu.Unlock()
	for _, r := range j.list {
		if r.id == id {
			return r
		}
	}
	return nil
}

// isFast reports whether the whole of a design is worked out at once.
func (j *jobs) isFast(file string) bool {
	j.mu.Lock()
	defer j.mu.Unlock()
	t, known := j.took[file]
	return known && t < fast
}

// outcome is what work in the background came to.
type outcome struct {
	r   *result
	err error
}

// do works a design out as soon as there is room, unless nobody waits for it any
// more.
func (s *Server) do(ctx context.Context, q *state, want fab.Want) (*result, error) {
	select {
	case s.busy <- struct{}{}:
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	done := make(chan outcome, 1)
	go func() {
		defer func() { <-s.busy }()
		r, err := s.guarded(func() (*result, error) { return s.build(q, want) })
		done <- outcome{r, err}
	}()
	late := time.NewTimer(mostWork)
	defer late.Stop()
	select {
	case o := <-done:
		if o.err == nil {
			if before := s.jobs.like(q); before != nil && (before.job == nil) == (o.r.job == nil) {
				o.r.draw = before.drawing() // of the same text
			}
			s.jobs.keep(o.r)
		}
		return o.r, o.err
	case <-ctx.Done():
		return nil, ctx.Err()
	case <-late.C:
		return nil, refuse(503, "it takes longer than %v to work out", mostWork)
	}
}

// errFault is a fault of the program itself.
var errFault = errors.New("a fault in the program itself: please report it with the design")

// guarded does a piece of work, and returns a panic in it as an error: the bench
// and the text on it outlive it.
func (s *Server) guarded(work func() (*result, error)) (r *result, err error) {
	defer func() {
		if v := recover(); v != nil {
			r, err = nil, errFault
		}
	}()
	return work()
}

// work answers with all that the page shows of a design.
func (s *Server) work(ctx context.Context, q workQuestion) (*answer, error) {
	var changed *dragged
	if q.Drag != nil {
		var err error
		if changed, err = s.drag(ctx, &q.state, q.Drag); err != nil {
			return nil, err
		}
		q.Text = changed.Text
	}
	want := quick
	if q.Whole || q.Drag == nil && s.jobs.isFast(q.File) {
		want = fab.Everything
	}
	r, err := s.do(ctx, &q.state, want)
	if err != nil {
		return nil, err
	}
	a := s.answer(r)
	if have := s.jobs.find(q.Have); have != nil && have != r && a.Drawing != nil && have.draw == a.Drawing {
		a.Drawing, a.Same = nil, true
	}
	a.Changed = changed
	return a, nil
}

// reader returns the text of a state for edits.
func (s *Server) reader(q *state) *edit.Text {
	o := edit.Options{Variation: q.Variation}
	if t, _, err := s.load(q); err == nil {
		o.Used = t.Used()
	}
	return edit.Read(q.File, q.Text, o)
}

// like returns the last result of the same text, or nil.
func (j *jobs) like(q *state) *result {
	j.mu.Lock()
	defer j.mu.Unlock()
	for i := len(j.list) - 1; i >= 0; i-- {
		if r := j.list[i]; r.File == q.File && r.Text == q.Text && r.Variation == q.Variation && slices.Equal(r.Set, q.Set) {
			return r
		}
	}
	return nil
}
