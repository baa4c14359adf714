package edit

import (
	"slices"
	"strings"

	"stabile/param/eval"
	"stabile/param/syntax"
)

// isPart reports whether a declaration of the keyword makes a part, which is
// one that may stand in a block, beside a metal.
func isPart(keyword string) bool {
	d := declarationOf(keyword)
	return d != nil && d.Named && !d.Top && keyword != "metal"
}

func declarationOf(keyword string) *eval.Declaration {
	for _, d := range eval.Declarations() {
		if d.Keyword == keyword {
			return &d
		}
	}
	return nil
}

// familyOf returns the name of a part without its index: reed of reed[2]. A pad goes by
// the post on it.
func familyOf(part string) string {
	name, _, _ := strings.Cut(strings.TrimSuffix(part, ".pad"), "[")
	return name
}

// nameIn returns the name of the part that an expression names, without its
// index, or "".
func nameIn(x syntax.Expression) string {
	switch x := x.(type) {
	case *syntax.Ident:
		return x.Name
	case *syntax.Index:
		return nameIn(x.Of)
	case *syntax.Member:
		return nameIn(x.Of)
	}
	return ""
}

// kindOf returns what sort of part a name is, "" where it is none.
func (t *Text) kindOf(name string) eval.Host { return t.kinds[name] }

// hostOf returns how a declaration is tied to other parts.
func (t *Text) hostOf(d *syntax.Declaration) eval.Host {
	table := declarationOf(d.Keyword.Text)
	if table == nil || len(d.Clauses) == 0 {
		return ""
	}
	first := d.Clauses[0]
	for _, c := range table.Clauses {
		if c.Word == first.Word.Text && c.As != "" {
			return c.As
		}
	}
	return t.kindOf(nameIn(first.Value))
}

// propertyOf returns the property of a word for a part that is tied in the given
// way, or nil.
func propertyOf(d *eval.Declaration, word string, host eval.Host) *eval.Property {
	for i := range d.Properties {
		if p := &d.Properties[i]; p.Word == word && applies(p, host) {
			return p
		}
	}
	return nil
}

func applies(p *eval.Property, host eval.Host) bool {
	return len(p.On) == 0 || host == "" || slices.Contains(p.On, host)
}

// wordOf returns the word by which the table has a property of a body.
func wordOf(d *eval.Declaration, p *syntax.Property) string {
	word := syntax.British(p.Word.Text)
	if len(p.Arguments) > 0 && p.Arguments[0].Link.Text != "" {
		form := word + " " + p.Arguments[0].Link.Text
		if slices.ContainsFunc(d.Properties, func(q eval.Property) bool { return q.Word == form }) {
			return form
		}
	}
	return word
}

// given returns the property of a word in a body, or nil.
func given(d *eval.Declaration, body []syntax.Property, word string) *syntax.Property {
	for i := range body {
		if wordOf(d, &body[i]) == word {
			return &body[i]
		}
	}
	return nil
}

// argumentOf returns the value in a text that stands for the given argument of
// the table, or nil. Of a list it is the one of that number.
func argumentOf(p *eval.Property, q *syntax.Property, n int) syntax.Expression {
	if len(p.Arguments) == 1 && p.Arguments[0].List {
		if n < len(q.Arguments) {
			return q.Arguments[n].Value
		}
		return nil
	}
	filled := make([]syntax.Expression, len(p.Arguments))
	for _, a := range q.Arguments {
		link := syntax.British(a.Link.Text)
		for i, want := range p.Arguments {
			if filled[i] == nil && (want.Link == link || link == "" && want.LinkOptional) {
				filled[i] = a.Value
				break
			}
		}
	}
	if n < len(filled) {
		return filled[n]
	}
	return nil
}

// entryOf returns the table's entry of an argument, or nil.
func entryOf(p *eval.Property, n int) *eval.Argument {
	switch {
	case len(p.Arguments) == 1 && p.Arguments[0].List:
		return &p.Arguments[0]
	case n >= 0 && n < len(p.Arguments):
		return &p.Arguments[n]
	}
	return nil
}
