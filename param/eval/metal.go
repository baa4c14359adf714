package eval

import (
	"errors"
	"fmt"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/stock"
	"stabile/param/syntax"
)

// A metal is a declared metal, worked out when it is first asked for.
type metal struct {
	*design.Metal // nil when it has failed
	decl          *syntax.Declaration
	scope         *scope
	state         state
}

func (e *evaluator) defineMetal(s *scope, d *syntax.Declaration) {
	name := d.Name
	if name.Text == "" {
		e.missing(d.Keyword.At, "write it as metal NAME { … }", "a metal needs a name")
		return
	}
	if first := e.findMetal(name.Text, s); first != nil {
		if e.isTorn(d) {
			return // a property, left behind by a brace that closes too early
		}
		note(e.report(name.At, "give one of the two another name", "metal '%s' is declared twice", name.Text),
			first.decl.Name.At, "first declared here")
		return
	}
	if s.metals == nil {
		s.metals = map[string]*metal{}
	}
	s.metals[name.Text] = &metal{decl: d, scope: s}
}

func (e *evaluator) findMetal(name string, s *scope) *metal {
	for ; s != nil; s = s.outer {
		if m, ok := s.metals[name]; ok {
			return m
		}
	}
	return nil
}

// metal returns the metal that a property names.
func (e *evaluator) metal(x syntax.Expression, s *scope) value {
	id, isName := x.(*syntax.Ident)
	var m *metal
	if isName {
		m = e.findMetal(id.Name, s)
	}
	word, _ := syntax.Word(x)
	switch _, isAlloy := e.alloyNamed(word); {
	case m != nil:
	case isAlloy:
		e.report(x.Span(), "declare it: metal skin { alloy "+word+", gauge 18 }",
			"'%s' is an alloy; 'metal' needs the name of a metal, which says the thickness too", word)
		return value{}
	case !isName:
		e.report(x.Span(), "write it as metal skin", "'metal' needs the name of a metal")
		return value{}
	case !e.reported[id.Span()]:
		var names []string
		for t := s; t != nil && len(names)+len(t.metals) <= mostNames; t = t.outer {
			for n := range t.metals {
				names = append(names, n)
			}
		}
		if e.misnamed(id.Name, id.Span(), sorted(names)) {
			return value{}
		}
		hint := "declare it: metal " + id.Name + " { alloy low-carbon-steel, gauge 18 }"
		e.missingName(id.Name, id.Span(), names, e.suggest(id.Name, sorted(names), hint), "there is no metal '%s'", id.Name)
		return value{}
	default:
		return value{}
	}
	if e.workOutMetal(m); m.Metal == nil {
		return value{}
	}
	return value{kind: sheet, metal: m}
}

func (e *evaluator) workOutMetal(m *metal) {
	if m.state != fresh {
		return
	}
	m.state = done
	name := m.decl.Name.Text
	if m.decl.Index != nil {
		e.report(m.decl.Index.Span(), "give it a name without an index", "a metal takes no index")
		return
	}
	e.noClauses(m.decl)
	b := e.readBody(m.decl, lookupDeclaration("metal"), fmt.Sprintf("metal '%s'", name), "", m.scope)
	defer b.done()
	if b.failed {
		return
	}
	alloy, own := e.lookupAlloy(b.find("alloy").args[0].value.text)
	d := &design.Metal{
		Name: name, Alloy: alloy.Name,
		Density: alloy.Density, Yield: alloy.Yield, Modulus: alloy.Modulus, Stock: own,
	}
	if g := b.find("gauge"); g != nil {
		d.Gauge = int(g.args[0].value.q.Number)
		t, err := alloy.Family.Thickness(d.Gauge)
		if err != nil {
			e.noGauge(g.args[0].at, alloy, err)
			return
		}
		d.Thickness, d.GaugeTable = t, alloy.Family.GaugeTable()
	} else if g := b.find("ounces"); g != nil {
		d.Ounces = int(g.args[0].value.q.Number)
		var ok bool
		if d.Thickness, d.GaugeTable, ok = alloy.OunceThickness(d.Ounces); !ok {
			e.report(g.word, "give it a gauge or a thickness", "only copper goes by the ounce, and this is %s", alloy.Name)
			return
		}
	} else {
		d.Thickness = b.number("thickness")
	}
	d.Tolerance = alloy.Family.Tolerance(d.Thickness)
	if g := b.find("density"); g != nil {
		d.Density = g.args[0].value.q.KilogramsPerCubicMetre()
	}
	if g := b.find("yield"); g != nil {
		d.Yield = g.args[0].value.q.Megapascals()
	}
	if g := b.find("modulus"); g != nil {
		d.Modulus = g.args[0].value.q.Megapascals()
	}
	if g := b.find("price"); g != nil {
		switch q := g.args[0].value.q; q.Dim {
		case quantity.Number:
			d.SheetPrice = q.Number
		case quantity.Dimension{Length: -1}:
			d.LengthPrice = q.Number
		default:
			d.Price = q.Number
		}
	}
	m.Metal = d
}

// noGauge reports a gauge that the table of the alloy has not, with its
// neighbours.
func (e *evaluator) noGauge(at source.Span, alloy stock.Alloy, err error) {
	var g *stock.GaugeError
	if !errors.As(err, &g) {
		e.report(at, "", "%v", err)
		return
	}
	near := func(i int) string {
		return fmt.Sprintf("%d gauge is %s", g.Near[i], e.design.Units.Exact(g.Thickness[i]))
	}
	e.report(at, near(0)+" and "+near(1)+"; or give a 'thickness'",
		"there is no %d gauge in %s; the table goes from %d to %d", g.Gauge, alloy.Name, g.First, g.Last)
}

// alloy returns the name of the alloy that a property names.
func (e *evaluator) alloy(x syntax.Expression) value {
	word, ok := syntax.Word(x)
	if !ok {
		if s, isText := x.(*syntax.String); isText {
			word, ok = s.Text, true
		}
	}
	if ok {
		if a, found := e.alloyNamed(word); found {
			return value{kind: text, text: a.Name}
		}
	}
	names := e.alloyNames()
	hint := "it may be " + list(names, "or")
	if ok {
		hint = e.suggest(word, names, hint)
	}
	e.report(x.Span(), hint, "there is no alloy '%s'", x.Span().Text())
	return value{}
}

// alloyNamed returns an alloy that a metal may be of.
func (e *evaluator) alloyNamed(name string) (stock.Alloy, bool) {
	if e.options.Alloys != nil {
		return e.options.Alloys.Lookup(name)
	}
	return stock.LookupAlloy(name)
}

// alloyNames returns the names of all of them.
func (e *evaluator) alloyNames() []string {
	if e.options.Alloys != nil {
		return e.options.Alloys.Names()
	}
	return stock.AlloyNames()
}

// lookupAlloy returns the alloy of a name, and where it is of the caller's own
// table, a pointer to it.
func (e *evaluator) lookupAlloy(name string) (a stock.Alloy, own *stock.Alloy) {
	a, _ = e.alloyNamed(name)
	if e.options.Alloys != nil {
		own = &a
	}
	return a, own
}
