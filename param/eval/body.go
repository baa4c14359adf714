package eval

import (
	"slices"
	"strings"

	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// A body is the properties of one declaration, read against the table.
type body struct {
	*evaluator
	table  *Declaration
	host   Host        // how the thing is tied; "" where it is not, or that is not known
	what   string      // the thing in words, such as "post 'mast'"
	at     source.Span // its name, or its keyword where it has none
	given  []given
	failed bool // a value is not known: the thing cannot be made
	lost   bool // a word was not understood; it may have been one that is missed
}

// done gives back what the body held, for the next one to use.
func (b *body) done() { b.spare = b.given }

// readBody reads the properties of a declaration. The host is "" for a thing
// that stands on nothing, or on what is not known.
func (e *evaluator) readBody(d *syntax.Declaration, table *Declaration, what string, host Host, s *scope) *body {
	at := d.Name.At
	if at.IsZero() {
		at = d.Keyword.At
	}
	b := &body{evaluator: e, table: table, what: what, host: host, at: at}
	b.given, e.spare = e.spare[:0], nil
	b.readAll(d.Body, s)
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

func (b *body) read(p *syntax.Property, s *scope) {
	if !b.step(p.At) {
		b.failed = true
		return
	}
	word := p.Word.Text
	prop := b.table.property(word, b.host)
	if prop == nil {
		b.lost = true
		if b.told[p.Word.At] {
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
	if first := b.find(word); first != nil && !prop.Many {
		note(b.report(p.Word.At, "keep one of the two", "'%s' is given twice", word), first.word, "first given here")
		return
	}
	switch {
	case len(prop.On) > 0 && b.host == "":
		return // what it may say depends on a host that has failed
	case !prop.appliesTo(b.host) && len(prop.On) > 1:
		b.report(p.Word.At, prop.Instead, "a %s %s takes no '%s'", b.table.Keyword, b.host.words(), word)
		return
	case !prop.appliesTo(b.host):
		b.report(p.Word.At, prop.Instead, "'%s' is for a %s %s; this one is %s", word, b.table.Keyword, prop.On[0].words(), b.host.words())
		return
	case prop.Body == nil && p.Body != nil:
		b.report(p.Word.At, "write it as "+prop.Example, "'%s' has no braces of its own", word)
		b.failed = true
	case prop.Body != nil && p.Body == nil:
		b.report(p.At, "write it as "+prop.Example, "'%s' wants braces { } with what it says", word)
		b.failed = true
		return
	}
	g := given{Property: prop, word: p.Word.At, at: p.At}
	b.readArguments(&g, p, s)
	if prop.Body != nil {
		g.body = &body{evaluator: b.evaluator, table: prop.Body, what: "the " + word, at: p.Word.At}
		g.body.readAll(p.Body, s)
		b.failed = b.failed || g.body.failed
	}
	if n := len(b.given); n == cap(b.given) {
		b.given = slices.Grow(b.given, max(n, fewProperties)) // doubled: a shop may list many sheets
	}
	b.given = append(b.given, g)
}

// fewProperties is as many as most bodies have.
const fewProperties = 8

// diameterSigns are the letters that stand for the diameter sign on drawings.
var diameterSigns = []string{"Ø", "ø", "Φ", "φ"}

func (b *body) readArguments(g *given, p *syntax.Property, s *scope) {
	for _, a := range p.Arguments {
		if isBad(a.Value) {
			b.failed, b.lost = true, true
			return
		}
		i := g.slot(a.Link.Text)
		if i < 0 {
			at, said := a.Value.Span(), "no further value"
			if a.Link.Text != "" {
				at, said = a.Link.At, "no '"+a.Link.Text+"'"
			} else if len(g.Arguments) == 0 {
				said = "no value"
			}
			b.report(at, "write it as "+g.Example, "'%s' takes %s", g.Word, said)
			b.failed = true
			return
		}
		want := &g.Arguments[i]
		v := b.argument(g.Property, want, a.Value, s)
		b.failed = b.failed || v.kind == failed
		g.args[i] = argument{value: v, at: a.Value.Span()}
	}
	for i, want := range g.Arguments {
		if !g.args[i].isGiven() && !want.Optional {
			said := want.noun()
			if want.Link != "" {
				said = "'" + want.Link + "' and " + said
			}
			b.missing(g.at, "write it as "+g.Example, "'%s' wants %s", g.Word, said)
			b.failed = true
			return
		}
	}
}

// slot returns the place of the next value that the link leads to, or -1.
func (g *given) slot(link string) int {
	for i, want := range g.Arguments {
		if !g.args[i].isGiven() && (want.Link == link || link == "" && want.LinkOptional) {
			return i
		}
	}
	return -1
}

// noun says what an argument is to be.
func (a *Argument) noun() string {
	if a.Noun != "" {
		return a.Noun
	}
	switch a.Kind {
	case Whole:
		return "a whole number"
	case Choice:
		return "one of " + strings.Join(a.Choices, ", ")
	case Alloy:
		return "the name of an alloy"
	case Metal:
		return "the name of a metal"
	case Bearing:
		return "an angle or the name of a part"
	case Place:
		return "a point (x, y)"
	case Text:
		return "a text in quotes"
	}
	return a.Dim.String()
}

// argument works out one value and checks that it is of the right sort and in
// range.
func (b *body) argument(p *Property, want *Argument, x syntax.Expression, s *scope) value {
	switch want.Kind {
	case Alloy:
		return b.alloy(x)
	case Choice:
		return b.choice(p, want, x)
	case Metal:
		return b.metal(x, s)
	}
	v := b.eval(x, s)
	if v.kind == failed {
		return v
	}
	switch want.Kind {
	case Bearing:
		if v.is(quantity.Angle) || v.kind == thing || v.kind == point {
			return v
		}
	case Place:
		if v.kind == point && v.point.n == 2 {
			return v
		}
	case Text:
		if v.kind == text {
			return v
		}
	case Whole:
		if v.is(quantity.Number) {
			n, ok := whole(v.q.Number)
			if !ok {
				b.report(x.Span(), "write it as "+p.Example, "'%s' wants a whole number, and this is %s", p.Word, b.say(v))
				return value{}
			}
			v.q.Number = float64(n)
			return b.inRange(p, want, v, x.Span())
		}
	case Measure:
		if want.Dim == quantity.Length {
			v = b.length(v, x.Span())
		}
		if v.kind == failed {
			return v
		}
		if v.is(want.Dim) {
			return b.inRange(p, want, v, x.Span())
		}
	}
	hint := "write it as " + p.Example
	if units := unitsOf(want.dimension()); v.is(quantity.Number) && units != "" && want.Noun == "" {
		hint = "give it a unit: " + units
	}
	b.report(x.Span(), hint, "'%s' wants %s, and this is %s", p.Word, want.noun(), v)
	return value{}
}

// dimension returns that of a value which carries a unit; that of a plain
// number for others.
func (a *Argument) dimension() quantity.Dimension {
	if a.Kind == Bearing {
		return quantity.Angle
	}
	return a.Dim
}

// unitsOf lists the units of a dimension.
func unitsOf(d quantity.Dimension) string {
	names := quantity.UnitNames(&d)
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}

func (b *body) inRange(p *Property, want *Argument, v value, at source.Span) value {
	if want.Range.holds(v.q.Number) {
		return v
	}
	if want.Noun != "" {
		b.report(at, "write it as "+p.Example, "'%s' must be %s", p.Word, want.Range.Words)
		return value{}
	}
	words := want.Range.Words
	if want.Dim == quantity.Length && want.Range.From > 0 && v.q.Number <= 0 {
		words = "more than 0" // rather than all that it may be
	}
	b.report(at, "write it as "+p.Example, "'%s' must be %s, and this is %s", p.Word, words, b.say(v))
	return value{}
}

func (b *body) choice(p *Property, want *Argument, x syntax.Expression) value {
	word, ok := syntax.Word(x)
	if ok && slices.Contains(want.Choices, word) {
		return value{kind: text, text: word}
	}
	hint := "write it as " + p.Example
	if ok {
		hint = b.suggest(word, want.Choices, hint)
	}
	b.report(x.Span(), hint, "'%s' is %s", p.Word, list(want.Choices, "or"))
	return value{}
}
