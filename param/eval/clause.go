package eval

import (
	"fmt"
	"slices"

	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// A hold is how a declaration ties its part to others.
type hold struct {
	host  Host // "" where it is not known
	to    [2]*placed
	at    [2]source.Span // the words for each
	head  [2]bool        // it is the head of a post that is meant, not the post
	along [2]*float64    // mm from the foot of a post, along its axis; nil for its middle
	place value          // of a part that is placed outright
}

// sound reports whether it is known what the part is tied to.
func (h *hold) sound() bool {
	switch h.host {
	case "":
		return false
	case Between:
		return h.to[0] != nil && h.to[1] != nil
	case Outright:
		return h.place.kind != failed
	}
	return h.to[0] != nil
}

// hold reads the clauses of a declaration, and reports what is wrong with them.
func (e *evaluator) hold(d *syntax.Declaration, table *Declaration, s *scope) hold {
	var h hold
	if len(d.Clauses) == 0 {
		if !e.isTorn(d) {
			what := "stands on nothing"
			if table.Keyword == "hole" {
				what = "is in no part"
			}
			e.report(d.Keyword.At.Join(d.Name.At), "write it as "+table.Form, "%s '%s' %s", table.Keyword, d.Name.Text, what)
		}
		return h
	}
	clauses, along := heights(d.Clauses)
	for i, c := range clauses {
		known := table.clause(c.Word.Text)
		switch {
		case known == nil:
			e.report(c.Word.At, "write it as "+table.Form, "a %s has no '%s' before its braces", table.Keyword, c.Word.Text)
			return hold{}
		case i > 0 && !isSpan(clauses):
			e.report(c.Word.At, "keep one of the two", "a %s stands on one thing", table.Keyword)
			return hold{}
		}
		h.at[i] = c.Value.Span()
		switch x, ok := headOf(c.Value); {
		case known.As == Outright:
			h.place = e.outright(c.Value, known, s)
		case ok && known.As == Between:
			h.to[i], h.head[i] = e.hostOf(x, d, known, s), true
			if h.to[i] != nil && h.to[i].kind() != OnPost {
				e.report(c.Value.Span(), "leave '.head' out", "only a post has a head, and %s is a %s", h.to[i].name, h.to[i].kind())
				h.to[i] = nil
			}
		default:
			h.to[i] = e.hostOf(c.Value, d, known, s)
		}
		if x := along[i]; x != nil && h.to[i] != nil {
			if h.along[i] = e.along(x, &h, i, s); h.along[i] == nil {
				h.to[i] = nil
			}
		}
		h.host = known.As
	}
	switch {
	case h.host == Between && len(clauses) < 2:
		c, other := clauses[0], "to"
		if c.Word.Text == other {
			other = "from"
		}
		if !e.isTorn(d) {
			e.report(c.Word.At.Join(c.Value.Span()), "write it as "+table.clause("from").Form, "%s '%s' lacks '%s'", table.Keyword, d.Name.Text, other)
		}
		return hold{}
	case h.host == "" && h.to[0] != nil:
		h.host = h.to[0].kind()
	case h.host == "":
		if kind := e.kindOf(d.Clauses[0].Value); slices.Contains(table.clause(d.Clauses[0].Word.Text).To, kind) {
			h.host = kind
		}
	}
	return h
}

// heights parts the clauses of a post from those that say how far along another post one of
// its ends lies, as in: from left at 300 mm to right at 300 mm.
func heights(list []syntax.Clause) (clauses []syntax.Clause, along [2]syntax.Expression) {
	for _, c := range list {
		n := len(clauses)
		if n == 1 || n == 2 {
			if last := clauses[n-1].Word.Text; c.Word.Text == "at" && (last == "from" || last == "to") && along[n-1] == nil {
				along[n-1] = c.Value
				continue
			}
		}
		clauses = append(clauses, c)
	}
	return clauses, along
}

// along returns how far along a post an end lies, in mm, or nil.
func (e *evaluator) along(x syntax.Expression, h *hold, end int, s *scope) *float64 {
	to := h.to[end]
	v := e.eval(x, s)
	if v.kind == failed {
		return nil
	}
	if v = e.length(v, x.Span()); v.kind == failed {
		return nil
	}
	switch {
	case to.kind() != OnPost || h.head[end]:
		e.report(x.Span(), "leave 'at' out, or name a post", "'at' says how far up a post an end lies, and %s is no post", h.at[end].Text())
	case !v.is(quantity.Length):
		e.report(x.Span(), "write it as in: from "+to.name+" at "+e.example("12 in"), "'at' needs a length, and this is %s", v)
	case v.q.Number < 0 || v.q.Number > to.part.Post.Length:
		e.report(x.Span(), "stay within its length", "%s is %s long, and this is %s", to.what, e.mm(to.part.Post.Length), e.say(v))
	default:
		return &v.q.Number
	}
	return nil
}

// kindOf returns what sort of part an expression names, though it is not there
// since it has a mistake of its own; "" where that is not known.
func (e *evaluator) kindOf(x syntax.Expression) Host {
	if of, ok := headOf(x); ok {
		x = of
	}
	if i, ok := x.(*syntax.Index); ok {
		x = i.Of
	}
	if id, ok := x.(*syntax.Ident); ok {
		return e.families[id.Name].kind
	}
	return ""
}

// headOf returns the part of an expression such as left.head.
func headOf(x syntax.Expression) (syntax.Expression, bool) {
	if m, ok := x.(*syntax.Member); ok && m.Name.Text == "head" {
		return m.Of, true
	}
	return nil, false
}

// isSpan reports whether the clauses are 'from' and 'to'.
func isSpan(c []syntax.Clause) bool {
	return len(c) == 2 && c[0].Word.Text == "from" && c[1].Word.Text == "to"
}

// hostOf returns the part that a clause names, or nil.
func (e *evaluator) hostOf(x syntax.Expression, d *syntax.Declaration, clause *Clause, s *scope) *placed {
	v := e.eval(x, s)
	hint := "write it as " + clause.Form
	if of, ok := headOf(x); ok {
		hint = fmt.Sprintf("write '%s %s': a post stands on a head by itself", clause.Word, of.Span().Text())
	}
	switch {
	case v.kind == failed:
		return nil
	case v.kind != thing:
		e.report(x.Span(), hint, "'%s' leads to a part, and this is %s", clause.Word, v)
		return nil
	case !slices.Contains(clause.To, v.part.kind()):
		hint := "write it as " + clause.Form
		if v.part.kind() == OnBowl && d.Keyword.Text == "post" {
			hint = "nothing stands in a bowl: run the post to its outside, 'from' another part 'to' the bowl"
		}
		e.report(x.Span(), hint, "no %s is '%s' a %s", d.Keyword.Text, clause.Word, v.part.kind())
		return nil
	}
	return v.part
}

// outright returns the point at which a part is put.
func (e *evaluator) outright(x syntax.Expression, clause *Clause, s *scope) value {
	v := e.eval(x, s)
	if v.kind == failed || v.kind == point && v.point.n == 3 {
		return v
	}
	e.report(x.Span(), "write it as "+clause.Form, "'%s' leads to a point (x, y, z), and this is %s", clause.Word, v)
	return value{}
}
