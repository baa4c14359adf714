package edit

import (
	"fmt"
	"slices"
	"strings"

	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// An Addition is a part that somebody wants in the design.
type Addition struct {
	Keyword    string // "post", "ball" or "base"
	Name       string // wished for; "" for one of the program's
	Clause     string // how it is tied to its host; "" for "on"
	Host       string // the part that it is tied to; "" for a base
	Properties []Given
}

// A Given is a property with its values, in the order of the table. The metal of
// a part may be left out: it is then that of what stands beside it.
type Given struct {
	Property string
	Values   []Value
}

// A Value is a quantity, or a word where Word is not empty, or a point where
// Point is.
type Value struct {
	quantity.Quantity
	Word  string
	Point []quantity.Quantity
	Step  float64 // 0 for the shop's
}

// An Added is what an edit that adds a part does.
type Added struct {
	Text       string // after it
	Edit, Undo Edit
	Name       string // of the part
	From, To   int    // where its declaration stands in the text after the edit
}

// Add puts a part into the text, tidy, behind the part that it is tied to and
// those that it points at. The error is a *Refusal.
func (t *Text) Add(a Addition) (*Added, error) {
	table := declarationOf(a.Keyword)
	if table == nil || !isPart(a.Keyword) {
		return nil, refuse(NoPart, source.Span{}, a.Keyword)
	}
	var host *found
	if a.Keyword == "base" {
		for _, p := range t.parts {
			if p.Keyword.Text == "base" {
				return nil, refuse(OneBase, p.Name.At, p.Name.Text)
			}
		}
	} else {
		var err error
		if host, err = t.find(a.Host); err != nil {
			return nil, err
		}
	}
	tied, ok := tie(table, &a, host)
	if !ok {
		return nil, refuse(NoPart, source.Span{}, a.Host)
	}
	name := t.fresh(a.Keyword, a.Name)
	body, err := t.body(table, tied, a, host)
	if err != nil {
		return nil, err
	}
	head := a.Keyword + " " + name
	if host != nil {
		head += " " + a.Clause + " " + a.Host
	}
	c, from, err := t.behind(a, host, head, body)
	if err != nil {
		return nil, err
	}
	edit, undo, text, err := t.finish([]Change{c})
	if err != nil {
		return nil, err
	}
	return &Added{
		Text: text, Edit: edit, Undo: undo, Name: name,
		From: c.From + from, To: c.From + len(strings.TrimRight(c.New, "\r\n \t")),
	}, nil
}

// tie returns how a part is tied by the clause of an addition. It reports false
// where the host is not of a kind that the clause leads to.
func tie(table *eval.Declaration, a *Addition, host *found) (eval.Host, bool) {
	if host == nil {
		return "", true
	}
	if a.Clause == "" {
		a.Clause = "on"
	}
	for _, c := range table.Clauses {
		kind := eval.KindOf(host.Keyword.Text)
		if c.Word != a.Clause || !slices.Contains(c.To, kind) {
			continue
		}
		if c.As != "" {
			return c.As, c.As == eval.Around
		}
		return kind, true
	}
	return "", false
}

// fresh returns a name that nothing has: the one wished for, or it or the
// keyword with a number.
func (t *Text) fresh(keyword, wished string) string {
	taken := map[string]bool{"pi": true}
	for _, f := range eval.Functions() {
		taken[f.Name] = true
	}
	for _, r := range eval.Results() {
		taken[r.Name] = true
	}
	for _, f := range append(t.used[:len(t.used):len(t.used)], t.tree) {
		note(f.Statements, taken)
	}
	if wished != "" && !taken[wished] {
		return wished
	}
	if wished == "" {
		wished = keyword
	}
	for n := 1; ; n++ {
		if name := fmt.Sprint(wished, n); !taken[name] {
			return name
		}
	}
}

// note notes all names that statements give.
func note(block []syntax.Statement, taken map[string]bool) {
	for _, s := range block {
		switch s := s.(type) {
		case *syntax.Let:
			taken[s.Name.Text] = true
		case *syntax.Adjust:
			taken[s.Name.Text] = true
		case *syntax.Declaration:
			taken[s.Name.Text] = true
		case *syntax.Repeat:
			taken[s.Variable.Text] = true
			note(s.Block, taken)
		case *syntax.When:
			note(s.Block, taken)
		}
	}
}

// body returns the properties of an addition as text.
func (t *Text) body(table *eval.Declaration, tied eval.Host, a Addition, host *found) ([]string, error) {
	var list []string
	has := map[string]bool{}
	for _, g := range a.Properties {
		p := propertyOf(table, g.Property, tied)
		if p == nil || len(g.Values) > len(p.Arguments) && !(len(p.Arguments) == 1 && p.Arguments[0].List) {
			return nil, refuse(NoProperty, source.Span{}, g.Property)
		}
		has[p.Word] = true
		text, err := t.property(p, g.Values)
		if err != nil {
			return nil, err
		}
		list = append(list, text)
	}
	if p := propertyOf(table, "metal", tied); p != nil && !has["metal"] && !has["feet"] && !has[p.Unless] {
		name := t.metal(a.Keyword, host)
		if name == "" {
			return nil, refuse(Missing, source.Span{}, "metal")
		}
		has["metal"] = true
		list = append(list, "metal "+name)
	}
	groups := map[string][]string{}
	for i := range table.Properties {
		p := &table.Properties[i]
		switch {
		case !applies(p, tied):
		case p.Required && !has[p.Word] && !(p.Word == "metal" && (has["feet"] || has[p.Unless])):
			return nil, refuse(Missing, source.Span{}, p.Word)
		case p.OneOf != "":
			groups[p.OneOf] = append(groups[p.OneOf], p.Word)
		}
	}
	for _, p := range table.Properties {
		if words := groups[p.OneOf]; len(words) > 0 && !slices.ContainsFunc(words, func(w string) bool { return has[w] }) {
			return nil, refuse(Missing, source.Span{}, words...)
		}
	}
	return list, nil
}

// property returns a property with its values as text.
func (t *Text) property(p *eval.Property, values []Value) (string, error) {
	text := p.Word
	for i, v := range values {
		arg := entryOf(p, i)
		switch {
		case arg.List && i > 0:
			text += ","
		case arg.Link != "" && !arg.List:
			text += " " + arg.Link
		}
		switch {
		case v.Word != "":
			if strings.ContainsAny(v.Word, "\r\n#{}\"") {
				return "", refuse(Unreadable, source.Span{}, v.Word)
			}
			text += " " + v.Word
		case v.Point != nil:
			var list []string
			for _, q := range v.Point {
				s, _ := t.said(q, v.Step)
				list = append(list, s)
			}
			text += " (" + strings.Join(list, ", ") + ")"
		default:
			step := v.Step
			if arg.Kind == eval.Whole && step == 0 {
				step = 1
			}
			s, _ := t.said(v.Quantity, step)
			text += " " + s
		}
	}
	return text, nil
}

// metal returns the name of the metal that a new part is of: for a base the last
// that is declared, for others that of the host, or of another part, or the first
// that the base is not of.
func (t *Text) metal(keyword string, host *found) string {
	var names []string
	for _, f := range append(t.used[:len(t.used):len(t.used)], t.tree) {
		for _, s := range f.Statements {
			if d, ok := s.(*syntax.Declaration); ok && d.Keyword.Text == "metal" && d.Name.Text != "" {
				names = append(names, d.Name.Text)
			}
		}
	}
	if keyword == "base" {
		if len(names) == 0 {
			return ""
		}
		return names[len(names)-1]
	}
	of := func(d *syntax.Declaration) string {
		for _, p := range d.Body {
			if p.Word.Text == "metal" && len(p.Arguments) == 1 {
				return nameIn(p.Arguments[0].Value)
			}
		}
		return ""
	}
	if host.Keyword.Text != "base" {
		if name := of(host.Declaration); slices.Contains(names, name) {
			return name
		}
	}
	base := ""
	for _, p := range t.parts {
		name := of(p.Declaration)
		if p.Keyword.Text == "base" {
			base = name
		} else if slices.Contains(names, name) {
			return name
		}
	}
	for _, n := range names {
		if n != base {
			return n
		}
	}
	if len(names) > 0 {
		return names[0]
	}
	return ""
}
