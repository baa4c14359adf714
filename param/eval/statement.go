package eval

import (
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// A family is a name of parts as the text declares it, with an index or not.
type family struct {
	at      source.Span
	kind    Host
	indexed bool
	ring    bool // its parts are the tubes of a ring, or of a row of rings
	lost    bool // declared in a block that could not be done
}

// findParts notes the names of all parts that the text declares, so that a name
// that is read too early is distinguished from one that does not exist.
func (e *evaluator) findParts(block []syntax.Statement) {
	for _, s := range block {
		switch s := s.(type) {
		case *syntax.Declaration:
			if _, ok := e.families[s.Name.Text]; !ok && s.Name.Text != "" && isPart(s.Keyword.Text) {
				e.families[s.Name.Text] = family{at: s.Name.At, kind: KindOf(s.Keyword.Text), indexed: s.Index != nil || s.Keyword.Text == "ring", ring: s.Keyword.Text == "ring"}
			}
		case *syntax.Repeat:
			e.findParts(s.Block)
		case *syntax.When:
			e.findParts(s.Block)
		}
	}
}

// run does the statements of a block in order.
func (e *evaluator) run(block []syntax.Statement, s *scope) {
	for _, st := range block {
		if !e.step(st.Span()) {
			return
		}
		switch st := st.(type) {
		case *syntax.Let:
			e.readOwn(st, st.Name, s)
		case *syntax.Adjust:
			e.readOwn(st, st.Name, s)
		case *syntax.Declaration:
			e.declare(st, s)
		case *syntax.Repeat:
			e.repeat(st, s)
		case *syntax.When:
			e.when(st, s)
		case *syntax.Require:
			e.requires = append(e.requires, pending{st, s})
		case *syntax.Setting:
			e.onlyAtTop(st.Keyword, s)
		case *syntax.Variation:
			if s != e.top {
				e.report(st.Span(), "move it out of the block", "'variation' goes at the top of the file, not in a block")
			}
		}
	}
}

func (e *evaluator) onlyAtTop(keyword syntax.Name, s *scope) bool {
	if s == e.top {
		return true
	}
	e.report(keyword.At, "move it out of the block", "'%s' goes at the top of the file, not in a block", keyword.Text)
	return false
}

// readOwn works out a definition where it stands, if nothing has asked for it
// before.
func (e *evaluator) readOwn(st syntax.Statement, name syntax.Name, s *scope) {
	b := s.names[name.Text]
	if b == nil || b.name.At != name.At { // a second definition, reported already
		return
	}
	e.read(b, st.Span())
	if b.adjust != nil && b.ranged.sound {
		e.design.Adjust = append(e.design.Adjust, b.ranged.Adjustable)
	}
}

func (e *evaluator) repeat(r *syntax.Repeat, s *scope) {
	from, okFrom := e.count(r.From, s, "'repeat' counts from")
	to, okTo := e.count(r.To, s, "'repeat' counts to")
	if !okFrom || !okTo {
		e.failBlock(r.Block)
		return
	}
	isNew := e.isNew(r.Variable, s)
	for i := from; i <= to; i++ {
		if !e.step(r.Span()) {
			return
		}
		inner := &scope{outer: s}
		if isNew {
			inner.counter = &binding{name: r.Variable, scope: inner, state: done, value: plain(float64(i))}
		}
		e.enter(r.Block, inner)
		e.run(r.Block, inner)
	}
}

func (e *evaluator) when(w *syntax.When, s *scope) {
	v := e.eval(w.Condition, s)
	switch {
	case v.kind == failed:
		e.failBlock(w.Block)
	case v.kind != boolean:
		e.report(w.Condition.Span(), "write it as 'when rise > 40 in { … }'", "'when' needs a condition, and this is %s", v)
		e.failBlock(w.Block)
	case v.yes:
		e.run(w.Block, e.open(w.Block, s))
	}
}

// failBlock marks the parts of a block that could not be done as failed, so
// that what leans on them stays silent.
func (e *evaluator) failBlock(block []syntax.Statement) {
	for _, s := range block {
		if !e.step(s.Span()) {
			return
		}
		switch s := s.(type) {
		case *syntax.Declaration:
			if f, ok := e.families[s.Name.Text]; ok {
				f.lost = true
				e.families[s.Name.Text] = f
			}
		case *syntax.Repeat:
			e.failBlock(s.Block)
		case *syntax.When:
			e.failBlock(s.Block)
		}
	}
}

// count works out a whole number, as what's words say.
func (e *evaluator) count(x syntax.Expression, s *scope, what string) (int, bool) {
	v := e.eval(x, s)
	if v.kind == failed {
		return 0, false
	}
	if n, ok := whole(v.q.Number); ok && v.kind == number && v.q.Dim == quantity.Number {
		return n, true
	}
	e.report(x.Span(), "round it, as in round(7/2)", "%s a whole number, and this is %s", what, e.say(v))
	return 0, false
}
