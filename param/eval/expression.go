package eval

import (
	"fmt"
	"math"

	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// eval works out an expression. A mistake in it has been reported when the value is
// a failed one.
func (e *evaluator) eval(x syntax.Expression, s *scope) value {
	if x == nil || !e.step(x.Span()) {
		return value{}
	}
	if e.depth >= maxDepth {
		e.stop(x.Span(), "break it up with 'let'", "more than %d expressions are nested in one another", maxDepth)
		return value{}
	}
	e.depth++
	v := e.expression(x, s)
	e.depth--
	return v
}

func (e *evaluator) expression(x syntax.Expression, s *scope) value {
	switch x := x.(type) {
	case *syntax.Literal:
		return e.literal(x)
	case *syntax.String:
		return value{kind: text, text: x.Text}
	case *syntax.Ident:
		return e.name(x.Name, x.Span(), s)
	case *syntax.Index:
		return e.index(x, s)
	case *syntax.Member:
		return e.member(x, s)
	case *syntax.Call:
		return e.call(x, s)
	case *syntax.Point:
		return e.pointOf(x, s)
	case *syntax.Paren:
		return e.eval(x.Inner, s)
	case *syntax.Unary:
		return e.unary(x, s)
	case *syntax.Binary:
		return e.binary(x, s)
	}
	return value{} // *syntax.Bad: reported when it was read
}

// literal adds up the terms of a number, such as the feet and inches of one
// length. A mixed number without a unit is a length in the file's units.
func (e *evaluator) literal(x *syntax.Literal) value {
	var sum quantity.Quantity
	for i, t := range x.Terms {
		if i > 0 && !e.step(t.At) {
			return value{}
		}
		q := quantity.Quantity{Number: t.Number}
		switch {
		case t.Unit.Text != "":
			u, ok := quantity.LookupUnit(t.Unit.Text)
			if !ok {
				e.report(t.Unit.At, e.suggest(t.Unit.Text, quantity.UnitNames(nil), ""), "'%s' is not a unit", t.Unit.Text)
				return value{}
			}
			q = u.Of(t.Number)
		case t.Mixed:
			v := e.length(plain(t.Number), t.At)
			if v.kind == failed {
				return v
			}
			q = v.q
		}
		if i > 0 && q.Dim != sum.Dim {
			e.report(x.Span(), "", "%s and %s cannot be combined", sum.Dim, q.Dim)
			return value{}
		}
		sum = quantity.Quantity{Number: sum.Number + q.Number, Dim: q.Dim}
	}
	return e.sound(value{kind: number, q: sum}, x.Span())
}

// sound returns the value if its number is finite, and tells if it is not.
func (e *evaluator) sound(v value, at source.Span) value {
	if quantity.Finite(v.q.Number) {
		return v
	}
	e.report(at, "", "the number is too large to work with")
	return value{}
}

// length takes a plain number as a length in the file's units. Other values it
// leaves as they are.
func (e *evaluator) length(v value, at source.Span) value {
	if !v.is(quantity.Number) {
		return v
	}
	u, f, ok := e.unitsAt(at)
	if v.abroad != nil {
		note(e.report(at, "give it its unit where it is defined", "'%s' is a plain number of a file in other units, and a length is needed here", v.abroad.name.Text),
			v.abroad.name.At, "defined here")
		return value{}
	}
	if !ok {
		if !e.bare[f] {
			e.bare[f] = true // one cause, reported once
			e.report(at, "write 'units inch' or 'units mm' near the top of the file, or give the number its unit",
				"this length has no unit, and the file does not give its units")
		}
		return value{}
	}
	v.q = u.Of(v.q.Number)
	return e.sound(v, at)
}

// name returns what a name stands for.
func (e *evaluator) name(name string, at source.Span, s *scope) value {
	if len(name) > MaxName {
		e.report(at, "give it a shorter one", "a name has at most %d characters", MaxName)
		return value{}
	}
	b := s.lookup(name)
	if e.judging != nil {
		if r, ok := lookupResult(name); ok {
			if b == nil {
				return e.result(name, r.Dim)
			}
			note(e.report(at, "give the definition another name",
				"'%s' is both a result and a definition of this file", name), b.name.At, "defined here")
			return value{}
		}
	}
	if b != nil {
		v := e.read(b, at)
		if len(e.files) > 1 && (v.is(quantity.Number) || v.kind == point) && e.unitsDiffer(b.name.At, at) {
			v.abroad = b
		}
		return v
	}
	if p, ok := e.parts[name]; ok {
		return p.value()
	}
	if r := e.rings[name]; r != nil {
		return e.tubeOf(r, at)
	}
	if name == "pi" {
		return plain(math.Pi)
	}
	if v, ok := e.way(name); ok {
		return v
	}
	return e.unknown(name, at, s)
}

// unknown reports why a name stands for nothing.
func (e *evaluator) unknown(name string, at source.Span, s *scope) value {
	f, declared := e.families[name]
	there, isElsewhere := e.elsewhere[name]
	switch _, isResult := lookupResult(name); {
	case isElsewhere && at.File == there.File:
		e.fromElsewhere(name, at, there)
	case declared && f.lost, e.stopped:
	case declared && f.indexed:
		e.missing(at, fmt.Sprintf("say which one, as %s[1]", name), "'%s' is a row of parts", name)
	case declared:
		e.notThere(name, at, f)
	case isResult:
		e.report(at, "write what depends on it into a 'require'", "'%s' is known only when everything is worked out", name)
	case e.findMetal(name, s) != nil:
		return value{kind: sheet}
	case isFunction(name):
		return value{kind: function}
	case e.reported[at]:
	case e.isHole(name, at):
	case isElsewhere:
		e.fromElsewhere(name, at, there)
	default:
		known := e.known(s)
		if !e.misnamed(name, at, known) {
			e.missingName(name, at, known, e.suggest(name, known, ""), "there is no '%s'", name)
		}
	}
	return value{}
}

// fromElsewhere reports a part that only a used file declares.
func (e *evaluator) fromElsewhere(name string, at, there source.Span) {
	note(e.report(at, "declare the part in this file", "'%s' is a part of '%s'; 'bring' takes over metals, shop, site, finish and values, not parts", name, there.File.Name),
		there, "declared here")
}

// known returns all names that can be read, or none when there are so many
// mistakes that a near one is no help.
func (e *evaluator) known(s *scope) []string {
	if len(e.list) >= mostHints {
		return nil
	}
	names := append(s.visible(), e.partNames()...)
	if e.judging != nil {
		names = append(names, resultNames()...)
	}
	return names
}

// notThere reports a part that the text declares, but not before or not in
// this case.
func (e *evaluator) notThere(name string, at source.Span, f family) {
	if n := len(e.placed); n > 0 && e.placed[n-1].name == name {
		e.report(at, "name a part declared earlier, or give a number", "part '%s' cannot be read in its own declaration", name)
		return
	}
	d := e.missing(at, "move its declaration up", "part '%s' is declared further down; a part can be read only after its declaration", name)
	if f.at.File == at.File && f.at.From < at.From {
		d.Text = fmt.Sprintf("there is no '%s' here: its block was not run", name)
		d.Hint = ""
	}
	note(d, f.at, "declared here")
}

// index picks a part out of a row.
func (e *evaluator) index(x *syntax.Index, s *scope) value {
	of, row, ok := e.rowOf(x.Of, s)
	if !ok {
		return value{}
	}
	n, ok := e.count(x.Index, s, "an index is")
	if !ok {
		return value{}
	}
	name := indexed(row, n)
	if p, ok := e.parts[name]; ok {
		return p.value()
	}
	if r := e.rings[name]; r != nil {
		return e.tubeOf(r, x.Span())
	}
	f, declared := e.families[of.Name]
	if f.ring && e.rings[row] != nil && e.rings[row].lost {
		return value{}
	}
	switch {
	case declared && f.lost, e.stopped:
	case e.isHole(name, x.Span()):
	case !declared:
		if !e.reported[of.Span()] {
			e.missingName(of.Name, of.Span(), e.rowNames(), e.suggest(of.Name, e.rowNames(), ""), "there is no row of parts '%s'", of.Name)
		}
	case !f.indexed:
		e.report(x.Span(), "write it as "+of.Name, "'%s' is one part and takes no index", of.Name)
	case f.at.File != x.Span().File || f.at.From > x.Span().From:
		e.notThere(name, x.Span(), f)
	default:
		e.missing(x.Span(), e.rowHint(row, n), "there is no '%s' here", name)
	}
	return value{}
}

func indexed(name string, i int) string { return fmt.Sprintf("%s[%d]", name, i) }

// partNames returns the names of the parts placed so far, in source order.
func (e *evaluator) partNames() []string {
	names := make([]string, len(e.placed))
	for i, p := range e.placed {
		names[i] = p.name
	}
	return names
}

func (e *evaluator) rowNames() []string {
	var names []string
	for name, f := range e.families {
		if f.indexed && len(names) <= mostNames {
			names = append(names, name)
		}
	}
	return sorted(names)
}

// pointOf works out the coordinates of a point.
func (e *evaluator) pointOf(x *syntax.Point, s *scope) value {
	c := &coordinates{n: len(x.Coordinates)}
	if c.n != 2 && c.n != 3 {
		e.report(x.Span(), "write it as (x, y) or (x, y, z)", "a point has two or three coordinates, and this has %d", c.n)
		return value{}
	}
	v := value{kind: point, point: c}
	for i, k := range x.Coordinates {
		switch q := e.eval(k, s); {
		case q.kind == failed:
			v.kind = failed
		case !q.is(quantity.Length) && !q.is(quantity.Number):
			e.report(k.Span(), "write it as (3 in, 4 in)", "a coordinate is a length, and this is %s", q)
			v.kind = failed
		default:
			c.q[i] = q.q
			v.unknown = v.unknown || q.unknown
			if v.abroad == nil {
				v.abroad = q.abroad
			}
		}
	}
	return v
}

// rowHint says which part of a row is the nearest to one that is not there.
func (e *evaluator) rowHint(row string, index int) string {
	const far = 1000 // past which nobody miscounts
	for d := 1; d <= far; d++ {
		for _, n := range []int{index - d, index + d} {
			if name := indexed(row, n); e.parts[name] != nil {
				return "the nearest is '" + name + "'"
			}
		}
	}
	return ""
}
