package eval

import (
	"crypto/sha256"
	"encoding/hex"
	"path"
	"strings"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// Limits on one design. Running over one is a diagnostic that names it.
const (
	MaxParts    = 10_000
	MaxSteps    = 1_000_000 // statements run and expressions worked out
	MaxName     = 100       // bytes in the name of a thing
	MaxMistakes = 200       // told; more help nobody
	maxDepth    = 2_000     // expressions and definitions within one another

	// Near names are looked for while there are few mistakes and few names.
	// Past that a text is not one that a hint would mend.
	mostHints = 50
	mostNames = 5_000
)

// Options are what the caller asks of the text.
type Options struct {
	// Set gives adjustable names new values, over those of the text and of the
	// variation.
	Set []syntax.Assignment

	// Variation is the title of the variation to be worked out; "" for none.
	Variation string

	// Partial tells that the tree lacks what could not be read. Nothing is then
	// said of names and properties that are not there, since they may have been
	// lost with the rest.
	Partial bool
}

// Evaluate works out the design that the tree describes. The design is nil when
// the list, which is sorted, is not empty.
func Evaluate(f *syntax.File, o Options) (*design.Design, source.List) {
	e := &evaluator{
		options:  o,
		file:     f,
		design:   &design.Design{Source: f.Source, Revision: revision(f.Source.Text)},
		told:     map[source.Span]bool{},
		families: map[string]family{},
		parts:    map[string]*placed{},
		override: map[string]syntax.Assignment{},
		settings: map[string]source.Span{},
	}
	e.evaluate()
	if len(e.list) > 0 {
		e.list.Sort()
		return nil, e.list
	}
	return e.design, nil
}

// An evaluator works out one design.
type evaluator struct {
	// What is asked.
	options Options
	file    *syntax.File

	// What has been read ahead.
	top        *scope
	families   map[string]family            // the names of parts that the text declares anywhere
	override   map[string]syntax.Assignment // new values of adjustable names
	variations []*syntax.Variation
	settings   map[string]source.Span // where each setting was first given

	// Where the work stands.
	steps, depth int
	stopped      bool
	full         bool       // so many mistakes have been told that the rest is not
	busy         []*binding // definitions being worked out, the outermost first
	bare         bool       // the lack of units has been told
	requires     []pending
	judging      *judging // not nil while a requirement is read or checked
	spare        []given  // room for the properties of a body, when none is at hand

	// What has come of it.
	design *design.Design
	placed []*placed // all parts, failed ones too, in source order
	parts  map[string]*placed
	base   *placed
	list   source.List
	told   map[source.Span]bool
}

func (e *evaluator) evaluate() {
	e.findParts(e.file.Statements)
	e.readSettings()
	e.top = e.open(e.file.Statements, nil)
	e.readVariations()
	e.readSet()
	e.run(e.file.Statements, e.top)
	e.checkVariations()
	if len(e.placed) == 0 && len(e.list) == 0 {
		e.missing(e.start(), "declare a base, a post or a ball", "the design has no part")
	}
	e.join()
	for _, r := range e.requires {
		e.require(r)
	}
}

// start is the very beginning of the text, for what no word is to blame for.
func (e *evaluator) start() source.Span { return source.Span{File: e.file.Source} }

// report tells a mistake. Of several at one place, as a block done many times
// makes them, the first is told.
func (e *evaluator) report(at source.Span, hint, format string, args ...any) *source.Diagnostic {
	if e.told[at] || e.full {
		return &source.Diagnostic{}
	}
	e.told[at] = true
	if len(e.list) >= MaxMistakes {
		e.full, e.stopped = true, true
		hint, format, args = "", "more than %d mistakes; the rest of the text is not worked out", []any{MaxMistakes}
	}
	e.list.Add(at, hint, format, args...)
	return &e.list[len(e.list)-1]
}

// missing tells that something is not there, unless it may have been lost
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
		e.stop(at, "a repeat counts too far, or blocks stand too deep in one another",
			"the design takes more than %d steps to work out", MaxSteps)
		return false
	}
	return true
}

// stop tells that a limit is overrun and ends the work.
func (e *evaluator) stop(at source.Span, hint, format string, args ...any) {
	delete(e.told, at) // a limit is named in any case
	e.report(at, hint, format, args...)
	e.stopped = true
}

// readSettings takes the title and the units from the top of the file, wherever
// in it they stand.
func (e *evaluator) readSettings() {
	for _, s := range e.file.Statements {
		set, ok := s.(*syntax.Setting)
		if !ok {
			continue
		}
		word := set.Keyword.Text
		if first, given := e.settings[word]; given && word != "use" {
			note(e.report(set.Keyword.At, "keep one of the two", "'%s' is given twice", word), first, "first given here")
			continue
		}
		e.settings[word] = set.Keyword.At
		switch word {
		case "sculpture":
			if t, ok := set.Value.(*syntax.String); ok {
				e.design.Title = t.Text
			}
		case "units":
			e.readUnits(set.Value)
		case "use":
			e.later(set.Keyword.At, "'use'")
		default:
			e.unknownKeyword(set.Keyword)
		}
	}
	if e.design.Title == "" {
		e.design.Title = strings.TrimSuffix(path.Base(e.file.Source.Name), ".stabile")
	}
}

func (e *evaluator) readUnits(x syntax.Expression) {
	if isBad(x) {
		return
	}
	word, _ := syntax.Word(x)
	switch word {
	case "inch":
		e.design.Units = quantity.Inch
	case "mm":
		e.design.Units = quantity.Millimetre
	default:
		e.report(x.Span(), "write 'units inch' or 'units mm'", "the units are inch or mm, not '%s'", x.Span().Text())
		e.bare = true // the units are there; that they are wrong has been told
	}
}

func isBad(x syntax.Expression) bool {
	_, bad := x.(*syntax.Bad)
	return bad || x == nil
}

// later tells that something of the language is not built yet.
func (e *evaluator) later(at source.Span, what string) {
	e.report(at, "", "%s is not built yet", what)
}

// revision is a short name for the very text of a design.
func revision(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:4])
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
