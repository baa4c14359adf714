package eval

import (
	"hash"
	"slices"
	"strings"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/stock"
	"stabile/param/syntax"
)

// Limits on one design. Running over one is a diagnostic that names it.
const (
	MaxParts    = 10_000
	MaxSteps    = 1_000_000 // statements run and expressions worked out
	MaxName     = 100       // bytes in the name of a thing
	MaxMistakes = 200       // reported; more help nobody
	maxDepth    = 2_000     // expressions and definitions within one another

	// Near names are looked for while there are few mistakes and few names.
	// Past that a text is not one that a hint would mend.
	mostHints = 50
	mostNames = 5_000
)

// Options are what the caller sets.
type Options struct {
	// Set gives adjustable names new values, over those of the text and of the
	// variation.
	Set []syntax.Assignment

	// Variation is the title of the variation to be worked out; "" for none.
	Variation string

	// Questions are asked of the design, over what its text says.
	Questions []Question

	// Sweeps are the values that adjustable names are to take, one
	// after the other. They change nothing of this design.
	Sweeps []*syntax.Sweep

	// Alloys are those that a metal may be of; nil for the house's.
	Alloys stock.Table

	// Used is the files that the text uses, those first that others use. What
	// they declare is taken over, but for parts and what is said of them.
	Used []*syntax.File

	// Said returns what the function Said does of the file and then those that it uses;
	// nil for that to be called.
	Said func() hash.Cloner

	// Partial reports that the tree lacks what could not be read. Nothing is then
	// said of names and properties that are not there, where they may have been
	// lost with the rest.
	Partial bool

	// Unread is where a text could not be read. Names are taken to be all there
	// where each of the places is past the name of what it stands in, and
	// properties where none is in their declaration.
	Unread []source.Span
}

// Evaluate works out the design that the tree describes. The design is nil when
// the list, which is sorted, is not empty.
func Evaluate(f *syntax.File, o Options) (*design.Design, source.List) {
	e := newEvaluator(f, o)
	e.design.Sources = []*source.File{f.Source}
	for _, u := range o.Used {
		e.design.Sources = append(e.design.Sources, u.Source)
	}
	for _, a := range o.Set {
		e.design.Set = append(e.design.Set, a.Name.Text+" = "+strings.TrimSpace(a.Value.Span().Text()))
	}
	e.namesLost = o.Partial && (len(o.Unread) == 0 || slices.ContainsFunc(o.Unread, e.losesNames))
	e.findTorn()
	e.evaluate()
	if len(e.list) > 0 {
		e.list.Sort()
		return nil, e.list
	}
	said := o.Said
	if said == nil {
		said = func() hash.Cloner { return Said(append([]*syntax.File{f}, o.Used...)) }
	}
	e.design.Fingerprint = fingerprint(said(), o.Variation, e.design.Set)
	return e.design, nil
}

func newEvaluator(f *syntax.File, o Options) *evaluator {
	return &evaluator{
		options:   o,
		file:      f,
		files:     append(slices.Clone(o.Used), f),
		design:    &design.Design{Source: f.Source},
		units:     map[*source.File]quantity.System{},
		bare:      map[*source.File]bool{},
		elsewhere: map[string]source.Span{},
		reported:  map[source.Span]bool{},
		torn:      map[*syntax.Declaration]bool{},
		slips:     map[string]bool{},
		families:  map[string]family{},
		parts:     map[string]*placed{},
		rings:     map[string]*madeRing{},
		holes:     map[string]source.Span{},
		override:  map[string]syntax.Assignment{},
		settings:  map[string]source.Span{},
	}
}

// An evaluator works out one design.
type evaluator struct {
	// What is asked.
	options Options
	file    *syntax.File
	files   []*syntax.File // all that are read, in the order of work; the design's own is last

	// What has been read ahead.
	top        *scope
	families   map[string]family      // the names of parts that the text declares anywhere
	elsewhere  map[string]source.Span // the names of parts that used files declare
	units      map[*source.File]quantity.System
	bare       map[*source.File]bool        // the lack of units has been reported
	override   map[string]syntax.Assignment // new values of adjustable names
	variations []*syntax.Variation
	settings   map[string]source.Span // where each setting was first given
	slopeAt    source.Span            // where the site has a slope of the ground; zero where it has none

	// Where the work stands.
	steps, depth int
	stopped      bool
	full         bool       // so many mistakes have been reported that the rest is not
	busy         []*binding // definitions being worked out, the outermost first
	requires     []pending
	revisions    []revised
	judging      *judging // not nil while a requirement is read or checked
	spare        []given  // room for the properties of a body, when none is at hand

	// What has come of it.
	design    *design.Design
	placed    []*placed // all parts, failed ones too, in source order
	parts     map[string]*placed
	rings     map[string]*madeRing   // failed ones too
	holes     map[string]source.Span // where each hole is declared, failed ones too
	base      *placed
	narrow    float64 // mm, the narrowest point of sheet that the shop can weld; 0 where it does not say
	list      source.List
	namesLost bool // definitions may be among what could not be read
	torn      map[*syntax.Declaration]bool
	slips     map[string]bool // names that are slips of a definition and have been reported
	reported  map[source.Span]bool
}

func (e *evaluator) evaluate() {
	e.findParts(e.file.Statements)
	e.top = &scope{}
	for _, f := range e.files {
		e.readSettings(f)
		e.enter(e.taken(f), e.top)
	}
	e.readVariations()
	e.readSet()
	e.readNarrow()
	for _, f := range e.files {
		e.run(e.taken(f), e.top)
	}
	e.checkVariations()
	if len(e.placed) == 0 && len(e.list) == 0 {
		e.missing(e.start(), "declare a base, a post or a ball", "the design has no part")
	}
	e.join()
	e.turnSeams()
	e.checkTied()
	e.clearAnchors()
	e.levelSite()
	e.weldable()
	for _, r := range e.requires {
		e.require(r)
	}
	for _, q := range e.options.Questions {
		e.ask(q)
	}
	for _, s := range e.options.Sweeps {
		e.sweep(s)
	}
}

// start is the very beginning of the text, for what no word is to blame for.
func (e *evaluator) start() source.Span { return source.Span{File: e.file.Source} }

// report tells a mistake. Of several at one place, as a block done many times
// makes them, the first is reported.
func (e *evaluator) report(at source.Span, hint, format string, args ...any) *source.Diagnostic {
	if e.reported[at] || e.full {
		return &source.Diagnostic{}
	}
	e.reported[at] = true
	if len(e.list) >= MaxMistakes {
		e.full, e.stopped = true, true
		hint, format, args = "", "more than %d mistakes; the rest of the text is not worked out", []any{MaxMistakes}
	}
	e.list.Add(at, hint, format, args...)
	return &e.list[len(e.list)-1]
}

// missing reports that something is not there, unless it may have been lost
// where the text could not be read.
func (e *evaluator) missing(at source.Span, hint, format string, args ...any) *source.Diagnostic {
	if e.options.Partial {
		return &source.Diagnostic{}
	}
	return e.report(at, hint, format, args...)
}

func note(d *source.Diagnostic, at source.Span, text string) {
	if !at.IsZero() {
		d.Note = append(d.Note, source.Note{Span: at, Text: text})
	}
}

// step counts one step of the work and reports whether it may go on.
func (e *evaluator) step(at source.Span) bool {
	if e.stopped {
		return false
	}
	e.steps++
	if e.steps > MaxSteps {
		e.stop(at, "a repeat counts too far, or blocks are nested too deep",
			"the design needs more than %d steps to work out", MaxSteps)
		return false
	}
	return true
}

// stop reports that a limit is overrun and ends the work.
func (e *evaluator) stop(at source.Span, hint, format string, args ...any) {
	delete(e.reported, at) // a limit is named in any case
	e.report(at, hint, format, args...)
	e.stopped = true
}

func isBad(x syntax.Expression) bool {
	_, bad := x.(*syntax.Bad)
	return bad || x == nil
}

// charge counts n bytes of text that are gone over as steps of the work.
func (e *evaluator) charge(n int) { e.steps += n / 64 }

// suggest returns the hint that asks whether a near word was meant, or the
// given hint where none is near.
func (e *evaluator) suggest(word string, from []string, otherwise string) string {
	if len(e.list) >= mostHints || len(from) > mostNames || len(word) > MaxName {
		return otherwise
	}
	if near, ok := source.Suggest(word, from); ok {
		return "did you mean '" + near + "'?"
	}
	return otherwise
}
