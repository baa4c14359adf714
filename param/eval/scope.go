package eval

import (
	"slices"

	"stabile/param/source"
	"stabile/param/syntax"
)

// A scope holds the names of one block. The names of the whole file stand in
// the outermost.
type scope struct {
	outer   *scope
	counter *binding // of a repeat; nil for other blocks
	names   map[string]*binding
	metals  map[string]*metal
}

// A binding is a name with what defines it. It is worked out when it is first
// read, at the latest where it stands, so that the order of definitions does
// not matter.
type binding struct {
	name   syntax.Name
	scope  *scope
	value  value
	state  state
	let    *syntax.Let    // nil for others
	adjust *syntax.Adjust // nil for others
	ranged *ranged        // of an adjust; filled when it is done
}

type state uint8

const (
	fresh state = iota
	busy
	done
)

func (s *scope) lookup(name string) *binding {
	for ; s != nil; s = s.outer {
		if s.counter != nil && s.counter.name.Text == name {
			return s.counter
		}
		if b, ok := s.names[name]; ok {
			return b
		}
	}
	return nil
}

// visible returns all names that can be read in the scope, in order.
func (s *scope) visible() []string {
	var names []string
	for ; s != nil && len(names)+len(s.names) <= mostNames; s = s.outer {
		if s.counter != nil {
			names = append(names, s.counter.name.Text)
		}
		for n := range s.names {
			names = append(names, n)
		}
	}
	return sorted(names)
}

// open makes the scope of a block and enters the definitions that stand in it.
func (e *evaluator) open(block []syntax.Statement, outer *scope) *scope {
	s := &scope{outer: outer}
	e.enter(block, s)
	return s
}

func (e *evaluator) enter(block []syntax.Statement, s *scope) {
	for _, st := range block {
		switch st := st.(type) {
		case *syntax.Let:
			e.define(s, &binding{name: st.Name, scope: s, let: st})
		case *syntax.Adjust:
			if s.outer != nil {
				e.report(st.Name.At, "move it out of the block, or make it a let", "'adjust' goes at the top of the file, not in a block")
				e.define(s, &binding{name: st.Name, scope: s, state: done})
				continue
			}
			e.define(s, &binding{name: st.Name, scope: s, adjust: st, ranged: &ranged{}})
		case *syntax.Declaration:
			if st.Keyword.Text == "metal" {
				e.defineMetal(s, st)
			}
		}
	}
}

// define enters a name, unless it means something already.
func (e *evaluator) define(s *scope, b *binding) {
	if !e.isNew(b.name, s) {
		return
	}
	if s.names == nil {
		s.names = map[string]*binding{}
	}
	s.names[b.name.Text] = b
}

// isNew reports whether a name may be defined in a scope, and reports why not. One
// that has a meaning elsewhere is reported and defined all the same.
func (e *evaluator) isNew(n syntax.Name, s *scope) bool {
	name := n.Text
	switch first := s.lookup(name); {
	case name == "":
		return false
	case len(name) > MaxName:
		e.report(n.At, "give it a shorter one", "a name has at most %d characters", MaxName)
		return false
	case first != nil:
		note(e.report(n.At, "give one of the two another name", "'%s' is defined twice", name), first.name.At, "first defined here")
		return false
	case isFunction(name) || name == "pi":
		e.report(n.At, "give it another name", "'%s' has a meaning of its own in the language", name)
	}
	if f, ok := e.families[name]; ok {
		note(e.report(n.At, "give one of the two another name", "'%s' is the name of a part too", name), f.at, "the part is declared here")
	}
	return true
}

// read returns the value of a name, working it out when it is first read.
func (e *evaluator) read(b *binding, at source.Span) value {
	switch b.state {
	case done:
		return b.value
	case busy:
		e.circle(b, at)
		return value{}
	}
	b.state = busy
	e.busy = append(e.busy, b)
	judging := e.judging
	e.judging = nil
	switch {
	case b.let != nil:
		if b.value = e.eval(b.let.Value, b.scope); b.value.kind == function || b.value.kind == thing || b.value.kind == sheet {
			e.report(b.let.Value.Span(), "a let names a number, a point, a condition or a text", "'%s' cannot stand for %s", b.name.Text, b.value)
			b.value = value{}
		}
	case b.adjust != nil:
		b.value = e.workOutAdjust(b)
	}
	e.judging = judging
	e.busy = e.busy[:len(e.busy)-1]
	if b.state == busy { // else it was found in a circle, and has failed
		b.state = done
	}
	return b.value
}

// circle reports names that are defined by each other.
func (e *evaluator) circle(b *binding, at source.Span) {
	from := slices.Index(e.busy, b)
	names := make([]string, 0, len(e.busy)-from)
	for _, c := range e.busy[from:] {
		names = append(names, c.name.Text)
	}
	if len(names) == 1 {
		e.report(at, "define it by a number, or by another name", "'%s' is defined by itself", b.name.Text)
		return
	}
	const most = 8 // names shown of a long circle
	and := quoted(names, "and")
	if len(names) > most {
		and = quoted(names[:most], "…") + " …"
	}
	e.report(at, "define one of them by a number", "%s are defined by each other in a circle", and)
}
