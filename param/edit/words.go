package edit

import (
	"slices"
	"strings"

	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// Vocabulary returns the words of the language by what they are, each once, in
// the order of the alphabet: for somebody who colours a text.
func Vocabulary() map[Sort][]string {
	v := map[Sort][]string{}
	add := func(s Sort, words ...string) {
		for _, w := range words {
			v[s] = append(v[s], strings.Fields(w)...)
		}
	}
	var properties func(d *eval.Declaration)
	properties = func(d *eval.Declaration) {
		for i := range d.Properties {
			p := &d.Properties[i]
			add(Property, p.Word)
			for _, a := range p.Arguments {
				add(Link, a.Link)
				add(Choice, a.Choices...)
			}
			if p.Body != nil {
				properties(p.Body)
			}
		}
	}
	for _, s := range eval.Statements() {
		add(Keyword, s.Word)
	}
	for _, d := range eval.Declarations() {
		add(Keyword, d.Keyword)
		for _, c := range d.Clauses {
			add(Keyword, c.Word)
		}
		properties(&d)
	}
	add(UnitName, quantity.UnitNames(nil)...)
	for _, f := range eval.Functions() {
		add(Function, f.Name)
	}
	for _, r := range eval.Results() {
		add(Result, r.Name)
	}
	for s := range v {
		slices.Sort(v[s])
		v[s] = slices.Compact(v[s])
	}
	return v
}

// Brings returns the files that a text brings, as it names them.
func (t *Text) Brings() []string {
	var names []string
	for _, s := range t.tree.Statements {
		set, ok := s.(*syntax.Setting)
		if !ok || set.Keyword.Text != "bring" {
			continue
		}
		if v, ok := set.Value.(*syntax.String); ok {
			names = append(names, v.Text)
		}
	}
	return names
}

// Meant returns the word that may have been meant by the one at a place, of those
// that may stand there. It reports false where none is near.
func (t *Text) Meant(at source.Span) (string, bool) {
	said := at.Text()
	if said == "" || strings.ContainsAny(said, " \t\r\n") {
		return "", false
	}
	var words []string
	for _, w := range t.words(at.From, true) {
		words = append(words, strings.Fields(w.Text)...)
	}
	if slices.Contains(words, said) {
		return "", false
	}
	return source.Suggest(said, words)
}

// Units returns the system of units of the text.
func (t *Text) Units() quantity.System { return t.units(t.tree.Source) }

// Parts returns the names of the parts as the text declares them, a row once,
// with the places where they stand, each from its keyword to its brace.
func (t *Text) Parts() []Declared {
	var list []Declared
	for i := range t.parts {
		p := &t.parts[i]
		at := p.Span()
		list = append(list, Declared{Name: p.Name.Text, Keyword: p.Keyword.Text, Named: p.Name.At.From, From: at.From + t.mark, To: at.To + t.mark})
	}
	return list
}

// A Declared is a part as a text declares it, and the bytes where it does.
type Declared struct {
	Name, Keyword string
	Named         int // where its name stands
	From, To      int
}

// SetNamed changes the number that decides a let or an adjust, in the variation
// in force where that gives it a value. The error is a *Refusal.
func (t *Text) SetNamed(name string, q quantity.Quantity, step float64) (*Set, error) {
	d := t.top.names[name]
	if d == nil {
		return nil, refuse(NoPart, source.Span{}, name)
	}
	s := &setter{Text: t}
	x, wrong := syntax.ParseExpression(source.NewFile(name, name))
	if len(wrong) > 0 {
		return nil, refuse(NoPart, source.Span{}, name)
	}
	if err := s.solve(x, t.top, wanted{Quantity: q, step: step, direct: true}); err != nil {
		return nil, err
	}
	edit, undo, text, err := t.finish(s.changes)
	if err != nil {
		return nil, err
	}
	return &Set{Text: text, Edit: edit, Undo: undo, Numbers: s.numbers}, nil
}

// Dimension returns the dimension of a let or an adjust as it stands. It reports
// false where there is none of the name, or it cannot be worked out.
func (t *Text) Dimension(name string) (quantity.Dimension, bool) {
	d := t.top.names[name]
	if d == nil || d.value == nil {
		return quantity.Dimension{}, false
	}
	q, ok := t.values(question{x: d.value, scope: d.scope})
	if !ok {
		return quantity.Dimension{}, false
	}
	if q[0].Dim == quantity.Number && d.adjust != nil {
		// A plain number beside measures is one in the units of the file.
		for _, x := range []syntax.Expression{d.adjust.From, d.adjust.To} {
			if r, ok := t.values(question{x: x, scope: d.scope}); ok && r[0].Dim != quantity.Number {
				return r[0].Dim, true
			}
		}
	}
	return q[0].Dim, true
}

// Again reads another text in the place of this one.
func (t *Text) Again(text string) *Text { return Read(t.tree.Source.Name, text, t.options) }
