package edit

import (
	"slices"
	"strings"

	"stabile/param/source"
	"stabile/param/syntax"
)

// A Removed is what an edit that takes a part away does.
type Removed struct {
	Text       string // after it
	Edit, Undo Edit
	Fallen     []Fallen // what goes with the part, in source order
	Left       []Left   // what stays and still names a part that is gone
}

// A Fallen is a thing that goes with a part.
type Fallen struct {
	Keyword string      // "post", "ball" or "require"
	Name    string      // of a part, without an index
	On      string      // the part that it stands on or names
	At      source.Span // in the text before the edit
}

// A Left is a place that names a part which is gone.
type Left struct {
	Part string
	At   source.Span // in the text before the edit
}

// Remove takes a part away, with all that stands on it, what is placed outright and reached
// by nothing else, and the requirements that name one of these. What only reads their
// numbers, or points at them, stays to be mended. A row goes by its name without an index,
// as a whole; one part of a row does not go alone. The error is a *Refusal.
func (t *Text) Remove(part string) (*Removed, error) {
	first, err := t.findRow(part)
	if err != nil {
		return nil, err
	}
	r := &remover{Text: t, gone: map[syntax.Statement]string{first.Declaration: ""}, names: map[string][]*found{}, all: map[string][]*found{}}
	for i := range t.parts {
		name := t.parts[i].Name.Text
		r.all[name] = append(r.all[name], &t.parts[i])
	}
	r.names[first.Name.Text] = []*found{first}
	for more := true; more; {
		more = false
		for i := range t.parts {
			p := &t.parts[i]
			if _, gone := r.gone[p.Declaration]; gone {
				continue
			}
			for _, c := range p.Clauses {
				if on := r.named(c.Value, true); on != "" {
					r.gone[p.Declaration] = on
					r.names[p.Name.Text] = append(r.names[p.Name.Text], p)
					more = true
					break
				}
			}
			if on := r.adrift(p); on != "" {
				r.gone[p.Declaration] = on
				r.names[p.Name.Text] = append(r.names[p.Name.Text], p)
				more = true
			}
		}
	}
	out := &Removed{}
	r.look(t.tree.Statements, out)
	for _, p := range t.parts {
		if on := r.gone[p.Declaration]; on != "" {
			out.Fallen = append(out.Fallen, Fallen{p.Keyword.Text, p.Name.Text, on, p.Span()})
		}
	}
	out.Fallen = append(out.Fallen, r.requires...)
	r.emptied(t.tree.Statements)
	if out.Edit, out.Undo, out.Text, err = t.finish(r.lines()); err != nil {
		return nil, err
	}
	return out, nil
}

// adrift returns the part with which the last of the posts goes that reach a part placed
// outright; "" where another is left, and for other parts.
func (r *remover) adrift(p *found) (on string) {
	if _, gone := r.gone[p.Declaration]; gone || len(p.Clauses) != 1 || p.Clauses[0].Word.Text != "at" {
		return ""
	}
	for i := range r.parts {
		q := &r.parts[i]
		if q.Name.Text == p.Name.Text || !q.reaches(p.Name.Text) {
			continue
		}
		if _, gone := r.gone[q.Declaration]; !gone {
			return ""
		}
		on = q.Name.Text
	}
	return on
}

// reaches reports whether a post runs from or to a part.
func (f *found) reaches(part string) bool {
	return slices.ContainsFunc(f.Clauses, func(c syntax.Clause) bool {
		return (c.Word.Text == "from" || c.Word.Text == "to") && nameIn(c.Value) == part
	})
}

// findRow returns the declaration of a part or of a row.
func (t *Text) findRow(part string) (*found, error) {
	if part == familyOf(part) {
		var row *found
		n := 0
		for i := range t.parts {
			if t.parts[i].Name.Text == part {
				row = &t.parts[i]
				n++
			}
		}
		if n == 1 {
			return row, nil
		}
	}
	f, err := t.find(part)
	if err == nil && f.Index != nil && f.inRow() {
		return nil, refuse(InRow, f.Name.At, f.Name.Text)
	}
	return f, err
}

// A remover gathers what goes with a part.
type remover struct {
	*Text
	all      map[string][]*found         // the parts of each name
	names    map[string][]*found         // those that go
	gone     map[syntax.Statement]string // statements that go, with the part they go with
	requires []Fallen
}

// named returns the name of a part that goes and that an expression names, or
// "". A host is the whole of a clause.
func (r *remover) named(x syntax.Expression, host bool) (name string) {
	look := func(y syntax.Expression) {
		id, index := y, ""
		if i, ok := y.(*syntax.Index); ok {
			id, index = i.Of, i.Index.Span().Text()
		}
		n, ok := id.(*syntax.Ident)
		if !ok || name != "" {
			return
		}
		for _, f := range r.names[n.Name] {
			if r.remains(f) {
				continue
			}
			if f.Index == nil || f.inRow() || index == "" || index == f.Index.Span().Text() {
				name = n.Name
			}
		}
	}
	if !host {
		walkParts(x, look)
		return name
	}
	if m, ok := x.(*syntax.Member); ok {
		x = m.Of
	}
	look(x)
	return name
}

// walkParts calls a function for each name or indexed name in an expression.
func walkParts(x syntax.Expression, do func(syntax.Expression)) {
	skip := map[syntax.Expression]bool{}
	walk(x, func(y syntax.Expression) {
		switch y := y.(type) {
		case *syntax.Index:
			skip[y.Of] = true
			do(y)
		case *syntax.Ident:
			if !skip[y] {
				do(y)
			}
		}
	})
}

// remains reports whether another declaration of the same part stays, as one
// that holds in another case.
func (r *remover) remains(f *found) bool {
	for _, p := range r.all[f.Name.Text] {
		if p.Declaration == f.Declaration {
			continue
		}
		if _, gone := r.gone[p.Declaration]; !gone && (p.Index == nil || f.Index == nil || p.Index.Span().Text() == f.Index.Span().Text()) {
			return true
		}
	}
	return false
}

// look goes through the statements that stay, for requirements that go and for
// what is left with a name of nothing.
func (r *remover) look(block []syntax.Statement, out *Removed) {
	left := func(list ...syntax.Expression) {
		for _, x := range list {
			if x == nil {
				continue
			}
			if name := r.named(x, false); name != "" {
				out.Left = append(out.Left, Left{name, x.Span()})
			}
		}
	}
	for _, s := range block {
		if _, gone := r.gone[s]; gone {
			continue
		}
		switch s := s.(type) {
		case *syntax.Let:
			left(s.Value)
		case *syntax.Adjust:
			left(s.Value, s.From, s.To, s.Step)
		case *syntax.Declaration:
			for _, c := range s.Clauses {
				left(c.Value)
			}
			r.lookIn(s.Body, left)
		case *syntax.Repeat:
			left(s.From, s.To)
			r.look(s.Block, out)
		case *syntax.When:
			left(s.Condition)
			r.look(s.Block, out)
		case *syntax.Require:
			if name := r.named(s.Condition, false); name != "" {
				r.gone[s] = name
				r.requires = append(r.requires, Fallen{"require", "", name, s.Span()})
			}
		case *syntax.Variation:
			for _, a := range s.Set {
				left(a.Value)
			}
		}
	}
}

func (r *remover) lookIn(body []syntax.Property, left func(...syntax.Expression)) {
	for _, p := range body {
		for _, a := range p.Arguments {
			left(a.Value)
		}
		r.lookIn(p.Body, left)
	}
}

// emptied takes away blocks of which nothing stays. It reports whether that is so
// of the given one.
func (r *remover) emptied(block []syntax.Statement) bool {
	all := len(block) > 0
	for _, s := range block {
		var inner []syntax.Statement
		switch s := s.(type) {
		case *syntax.Repeat:
			inner = s.Block
		case *syntax.When:
			inner = s.Block
		}
		if len(inner) > 0 && r.emptied(inner) {
			r.gone[s] = ""
		}
		_, gone := r.gone[s]
		all = all && gone
	}
	return all
}

// lines returns the changes that take away the statements which go, with the
// lines they stand on, the comments above them that speak of nothing else, and
// empty lines that would come to stand one after the other.
func (r *remover) lines() []Change {
	src := r.tree.Source.Text
	var starts []int
	for i := 0; i <= len(src); {
		starts = append(starts, i)
		n := strings.IndexByte(src[i:], '\n')
		if n < 0 {
			break
		}
		i += n + 1
	}
	end := func(l int) int {
		if l+1 < len(starts) {
			return starts[l+1]
		}
		return len(src)
	}
	text := func(l int) string { return strings.TrimSpace(src[starts[l]:end(l)]) }
	at := func(offset int) int { return r.tree.Source.Position(offset).Line - 1 }

	out := make([]bool, len(starts))
	var list []Change
	r.each(r.tree.Statements, func(s syntax.Statement) {
		sp := s.Span()
		first, last := at(sp.From), at(max(sp.From, sp.To-1))
		before := strings.TrimSpace(src[starts[first]:sp.From])
		after := strings.TrimSpace(src[sp.To:end(last)])
		if before == "" && (after == "" || after[0] == '#') {
			for l := first; l <= last; l++ {
				out[l] = true
			}
			return
		}
		list = append(list, r.change(sp.From, sp.To, ""))
	})
	isComment := func(l int) bool { return strings.HasPrefix(text(l), "#") && !out[l] }
	for l := 0; l < len(out); l++ {
		if !isComment(l) {
			continue
		}
		next := l
		for next < len(out) && isComment(next) {
			next++
		}
		stays := next == len(out) || !out[next]
		for m := next; m < len(out) && !stays; m++ {
			if !out[m] {
				stays = text(m) != "" && text(m)[0] != '#' && text(m)[0] != '}'
				break
			}
		}
		for m := l; m < next; m++ {
			out[m] = !stays
		}
		l = next
	}
	for l := 0; l < len(out); {
		if !out[l] {
			l++
			continue
		}
		next := l
		for next < len(out) && out[next] {
			next++
		}
		first := l == 0 || strings.HasSuffix(text(l-1), "{")
		if (first || text(l-1) == "") && next < len(out) && text(next) == "" {
			for next < len(out) && text(next) == "" {
				out[next] = true
				next++
			}
		} else if l > 0 && text(l-1) == "" && (next == len(out) || strings.HasPrefix(text(next), "}")) {
			out[l-1] = true
		}
		l = next
	}
	for l := 0; l < len(out); l++ {
		if !out[l] {
			continue
		}
		from := starts[l]
		for l+1 < len(out) && out[l+1] {
			l++
		}
		list = append(list, r.change(from, end(l), ""))
	}
	return list
}

// each calls a function for the statements that go, the outermost only.
func (r *remover) each(block []syntax.Statement, do func(syntax.Statement)) {
	for _, s := range block {
		if _, gone := r.gone[s]; gone {
			do(s)
			continue
		}
		switch s := s.(type) {
		case *syntax.Repeat:
			r.each(s.Block, do)
		case *syntax.When:
			r.each(s.Block, do)
		}
	}
}
