package eval

import (
	"sort"
	"strings"
	"unicode"
	"unicode/utf8"

	"stabile/param/source"
	"stabile/param/syntax"
)

// misnamed reports whether a name that stands for nothing has been reported already,
// where it is most likely a slip in the definition that is meant and not in its
// uses: one near it is defined and used nowhere. All uses then have one cause.
func (e *evaluator) misnamed(name string, at source.Span, known []string) bool {
	if e.slips[name] {
		return true
	}
	if len(e.list) >= mostHints || len(known) > mostNames {
		return false
	}
	if near, ok := source.Suggest(name, known); ok && e.timesStanding(near) == 1 {
		e.slips[name] = true
	}
	return false
}

// timesStanding returns how often a name stands in the files of the design.
func (e *evaluator) timesStanding(name string) int {
	n := 0
	for _, f := range e.files {
		n += timesIn(f.Source.Text, name)
	}
	return n
}

// timesIn returns how often a word stands in a text; 2 stands for more.
func timesIn(text, word string) int {
	n := 0
	for i := 0; n < 2; {
		at := strings.Index(text[i:], word)
		if at < 0 {
			break
		}
		before, _ := utf8.DecodeLastRuneInString(text[:i+at])
		i += at + len(word)
		after, _ := utf8.DecodeRuneInString(text[i:])
		if !inName(before) && !inName(after) {
			n++
		}
	}
	return n
}

func inName(r rune) bool { return r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r) }

// missingName reports a name that stands for nothing. Where its definition may
// be among what could not be read it does so only if it is near a name that is
// there, and stands nowhere else.
func (e *evaluator) missingName(name string, at source.Span, known []string, hint, format string, args ...any) {
	if e.namesLost {
		if _, ok := source.Suggest(name, known); !ok || len(known) > mostNames || e.timesStanding(name) > 1 {
			return
		}
	}
	e.report(at, hint, format, args...)
}

// losesNames reports whether what could not be read at a place may have been the
// definition of a name: it stands outside of all statements, or before the value
// or the properties of one.
func (e *evaluator) losesNames(at source.Span) bool {
	for _, f := range e.files {
		if f.Source == at.File {
			// That a text is in another encoding is reported once for all of it.
			return !utf8.ValidString(at.File.Text) || !harmless(f.Statements, at)
		}
	}
	return true
}

// harmless reports whether a place is in a value or among the properties of one
// of the statements.
func harmless(block []syntax.Statement, at source.Span) bool {
	i := sort.Search(len(block), func(i int) bool { return block[i].Span().From > at.From }) - 1
	if i < 0 {
		return false
	}
	end := block[i].Span().To
	within := at.From < end
	// What is left over after a value stands on its line.
	after := within || !strings.Contains(at.File.Text[end:at.From], "\n")
	switch s := block[i].(type) {
	case *syntax.Let:
		return after && s.Name.Text != "" && at.From > s.Name.At.To
	case *syntax.Adjust:
		return after && s.Name.Text != "" && at.From > s.Name.At.To
	case *syntax.Setting:
		return after && s.Keyword.Text != "bring"
	case *syntax.Require:
		return after
	case *syntax.Variation:
		return within
	case *syntax.Declaration:
		return within && (s.Title != nil || len(s.Body) > 0 && at.From >= s.Body[0].At.From)
	case *syntax.Repeat:
		return within && harmless(s.Block, at)
	case *syntax.When:
		return within && harmless(s.Block, at)
	}
	return false
}
