package eval

import (
	"slices"
	"strings"

	"stabile/param/source"
	"stabile/param/syntax"
)

// A body is the properties of one declaration, read against the table.
type body struct {
	*evaluator
	table *Declaration
	host  Host        // how the thing is tied; "" where it is not, or that is not known
	what  string      // the thing in words, such as "post 'mast'"
	at    source.Span // its name, or its keyword where it has none
	given []given

	// each takes a property of which there may be many, as soon as it has been
	// read; given does not keep it. It reports whether the property is sound.
	each func(given) bool

	torn   bool // it could not be read in full
	failed bool // a value is not known: the thing cannot be made
	lost   bool // a word was not understood; it may have been one that is missed
}

// done gives back what the body held, for the next one to use.
func (b *body) done() { b.spare = b.given }

// readBody reads the properties of a declaration. The host is "" for a thing
// that stands on nothing, or on what is not known.
func (e *evaluator) readBody(d *syntax.Declaration, table *Declaration, what string, host Host, s *scope) *body {
	b := e.newBody(d, table, what)
	b.host = host
	b.readAll(d.Body, s)
	return b
}

// newBody returns the body of a declaration, of which nothing has been read.
func (e *evaluator) newBody(d *syntax.Declaration, table *Declaration, what string) *body {
	at := d.Name.At
	if at.IsZero() {
		at = d.Keyword.At
	}
	b := &body{evaluator: e, table: table, what: what, at: at, torn: e.isTorn(d)}
	b.given, e.spare = e.spare[:0], nil
	return b
}

func (b *body) readAll(list []syntax.Property, s *scope) {
	for i := range list {
		b.read(&list[i], s)
	}
	b.checkCompany()
	b.checkChoices()
	b.checkMissing()
}

// missing reports that something is not there, unless it may have been lost where
// the declaration could not be read.
func (b *body) missing(at source.Span, hint, format string, args ...any) {
	if !b.torn {
		b.report(at, hint, format, args...)
	}
}

func (b *body) read(p *syntax.Property, s *scope) {
	if !b.step(p.At) {
		b.failed = true
		return
	}
	word := syntax.British(p.Word.Text)
	if len(p.Arguments) > 0 && p.Arguments[0].Link.Text != "" {
		// A link may make another property of the word, as that of plate polygon does.
		if form := word + " " + p.Arguments[0].Link.Text; b.table.property(form, b.host) != nil {
			word = form
		}
	}
	arguments := p.Arguments
	if form, ok := b.formOf(word, p); ok {
		word, arguments = form, nil
	}
	prop := b.table.property(word, b.host)
	if prop == nil {
		b.lost = true
		if b.reported[p.Word.At] {
			return
		}
		if forms := b.table.forms(word); len(forms) > 0 && len(arguments) == 0 {
			b.report(p.Word.At, "write it as "+b.example(forms[0].Example), "'%s' needs to say more: %s", word, b.table.formsOf(word))
			return
		}
		words := b.table.words(b.host)
		hint := b.suggest(word, words, "it may have "+strings.Join(words, ", "))
		if slices.Contains(diameterSigns, word) && slices.Contains(words, "diameter") {
			hint = "write diameter"
		}
		b.report(p.Word.At, hint,
			"a %s has no '%s'", b.table.Keyword, word)
		return
	}
	if first := b.find(word); first != nil {
		note(b.report(p.Word.At, "keep one of the two", "'%s' is given twice", word), first.word, "first given here")
		return
	}
	switch {
	case len(prop.On) > 0 && b.host == "":
		return // what it may say depends on a host that has failed
	case !prop.appliesTo(b.host) && b.host == OnWall:
		b.report(p.Word.At, "leave '"+word+"' out", "a %s %s has no '%s'", b.table.Keyword, b.tied(b.host), word)
		return
	case !prop.appliesTo(b.host) && len(prop.On) > 1:
		b.report(p.Word.At, prop.Instead, "a %s %s has no '%s'", b.table.Keyword, b.tied(b.host), word)
		return
	case !prop.appliesTo(b.host):
		b.report(p.Word.At, prop.Instead, "'%s' is for a %s %s; this one is %s", word, b.table.Keyword, b.tied(prop.On[0]), b.tied(b.host))
		return
	case prop.Body == nil && p.Body != nil:
		b.report(p.Word.At, "write it as "+b.example(prop.Example), "'%s' has no braces", word)
		b.failed = true
	case prop.Body != nil && p.Body == nil:
		b.report(p.At, "write it as "+b.example(prop.Example), "'%s' needs braces { } around what it says", word)
		b.failed = true
		return
	}
	g := given{Property: prop, word: p.Word.At, at: p.At}
	b.readArguments(&g, arguments, s)
	if prop.Body != nil {
		g.body = &body{evaluator: b.evaluator, table: prop.Body, what: "the " + word, at: p.Word.At, torn: b.torn}
		g.body.given, b.spare = b.spare[:0], nil
		g.body.readAll(p.Body, s)
		b.failed = b.failed || g.body.failed
	}
	if prop.Many {
		b.failed = !b.each(g) || b.failed
		g.body.done()
		return
	}
	b.given = append(b.given, g)
}

// tied returns in words how the thing would be tied to a host; a hole is in a part.
func (b *body) tied(to Host) string {
	if b.table.Keyword == "hole" {
		return "in a " + string(to)
	}
	return to.words()
}

// formOf returns the property that a word and the word after it make together, such as
// bought tube, which then takes no value.
func (b *body) formOf(word string, p *syntax.Property) (string, bool) {
	if len(p.Arguments) != 1 || p.Arguments[0].Link.Text != "" {
		return "", false
	}
	second, ok := syntax.Word(p.Arguments[0].Value)
	form := b.table.property(word+" "+second, b.host)
	if !ok || form == nil || len(form.Arguments) > 0 {
		return "", false
	}
	return form.Word, true
}

// diameterSigns are the letters that stand for the diameter sign on drawings.
var diameterSigns = []string{"Ø", "ø", "Φ", "φ"}

func (b *body) readArguments(g *given, arguments []syntax.Argument, s *scope) {
	for k, a := range arguments {
		if isBad(a.Value) {
			b.failed, b.lost = true, true
			return
		}
		i := g.slot(syntax.British(a.Link.Text))
		if i < 0 {
			at, wording := a.Value.Span(), "no further value"
			if a.Link.Text != "" {
				at, wording = a.Link.At, "no '"+a.Link.Text+"'"
			} else if len(g.Arguments) == 0 {
				wording = "no value"
			}
			b.report(at, "write it as "+b.example(g.Example), "'%s' takes %s", g.Word, wording)
			b.failed = true
			return
		}
		if w, ok := syntax.Word(a.Value); ok && w != "" && g.Arguments[i].Counts && !isLiteral(a.Value) {
			i++ // the count is left out
		}
		want := &g.Arguments[i]
		var next *syntax.Argument
		if k+1 < len(arguments) {
			next = &arguments[k+1]
		}
		v := b.argument(g.Property, want, a.Value, next, s)
		b.failed = b.failed || v.kind == failed
		g.args[i] = argument{value: v, at: a.Value.Span()}
		if want.List {
			g.list = append(g.list, g.args[i])
		}
	}
	for i, want := range g.Arguments {
		if !g.args[i].isGiven() && !want.Optional {
			wording := want.noun()
			if want.Link != "" {
				wording = "'" + want.Link + "' and " + wording
			}
			b.missing(g.at, "write it as "+b.example(g.Example), "'%s' needs %s", g.Word, wording)
			b.failed = true
			return
		}
	}
}

// isLiteral reports whether an expression is a number as written.
func isLiteral(x syntax.Expression) bool {
	_, ok := x.(*syntax.Literal)
	return ok
}

// slot returns the place of the next value that the link leads to, or -1.
func (g *given) slot(link string) int {
	for i, want := range g.Arguments {
		if !g.args[i].isGiven() && (want.Link == link || link == "" && want.LinkOptional) || want.List && link == "" {
			return i
		}
	}
	return -1
}
