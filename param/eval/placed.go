package eval

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/syntax"
)

// A placed is a part with its place in the text and what rests on it.
type placed struct {
	name string
	what string      // with its kind, such as "post 'mast'"
	at   source.Span // the name where it is declared
	ties []tie       // what it is joined to, of what is declared before it

	// part is nil where the part has failed, and then all that leans on it
	// stays silent.
	part *design.Part

	feet     bool        // a base that is no part: what stands on it stands on the ground
	hangs    bool        // a base that is on a wall, though it may have failed
	load     *placed     // what stands on a post's head
	carries  bool        // the head keeps its disc, on which the load stands
	headDisc source.Span // where a disc is asked for by name
	headOpen source.Span // where an open head is
	outright source.Span // the point at which a ball is placed outright
}

// A tie joins a part to one that is declared before it.
type tie struct {
	with  *placed
	kind  design.JointKind
	end   int // of a post that is tied by one of its ends: which
	meets design.Meeting
	at    r3.Vec

	under  bool // it is the head of the other post that is welded, to the side of this tube
	closes bool // it is the foot of the other that this head is mitred to, which closes a ring
}

func (p *placed) value() value {
	if p.part == nil {
		return value{}
	}
	return value{kind: thing, part: p}
}

// onto returns what is joined to a part that stands on this one; nil for the ground.
func (p *placed) onto() *design.Part {
	if p.feet {
		return nil
	}
	return p.part
}

// onWall reports whether the part is a plate on a wall.
func (p *placed) onWall() bool {
	return p.part != nil && p.part.Base != nil && p.part.Base.OnWall()
}

func (p *placed) kind() Host { return Host(p.part.Kind()) }

// declare does one declaration.
func (e *evaluator) declare(d *syntax.Declaration, s *scope) {
	table := lookupDeclaration(d.Keyword.Text)
	switch {
	case table == nil:
		e.unknownKeyword(d.Keyword)
		return
	case table.Top && !e.onlyAtTop(d.Keyword, s):
		return
	}
	switch table.Keyword {
	case "metal":
		if m := s.metals[d.Name.Text]; m != nil && m.decl == d {
			e.workOutMetal(m)
		}
	case "site", "shop", "finish", "job":
		e.declareOnce(d, table, s)
	case "revision":
		e.revise(d, table, s)
	case "hole":
		e.placeHole(d, table, s)
	case "ring":
		e.placeRing(d, table, s)
	default:
		e.place(d, table, s)
	}
}

func (e *evaluator) unknownKeyword(k syntax.Name) {
	e.report(k.At, e.suggest(k.Text, keywords(), "start the line with one of "+list(keywords(), "or")), "'%s' declares nothing", k.Text)
}

// place works out a part and enters it, failed or not.
func (e *evaluator) place(d *syntax.Declaration, table *Declaration, s *scope) {
	name, ok := e.partName(d, s)
	if !ok {
		return
	}
	if !e.isNewPart(d, name) {
		return
	}
	if len(e.placed) >= MaxParts {
		e.stop(d.Name.At, "", "the design has more than %d parts", MaxParts)
		return
	}
	p := &placed{name: name, what: table.Keyword + " '" + name + "'", at: d.Name.At}
	e.placed = append(e.placed, p)
	switch table.Keyword {
	case "base":
		e.placeBase(p, d, table, s)
	case "post":
		e.placePost(p, d, table, s)
	case "ball":
		e.placeBall(p, d, table, s)
	case "bowl":
		e.placeBowl(p, d, table, s)
	}
	// Only now can it be read: not by itself.
	e.parts[name] = p
	if p.part != nil && !p.feet {
		e.design.Parts = append(e.design.Parts, p.part)
	}
}

// isNewPart reports whether a name of a declaration is that of no part and of no ring yet,
// and tells if it is not.
func (e *evaluator) isNewPart(d *syntax.Declaration, name string) bool {
	var first source.Span
	switch p, r := e.parts[name], e.rings[name]; {
	case p != nil:
		first = p.at
	case r != nil:
		first = r.decl.Name.At
	default:
		return true
	}
	e.twice(d, name, first, "there are two parts '%s'", "first declared here")
	return false
}

// twice reports a name that is taken, and there the place that took it first, which is its own
// in a repeat.
func (e *evaluator) twice(d *syntax.Declaration, name string, first source.Span, format, there string) {
	hint := "give one of the two another name"
	if d.Index == nil && first == d.Name.At {
		hint = fmt.Sprintf("in a repeat give it an index, as %s[i]", name)
	}
	report := e.report(d.Name.At, hint, format, name)
	if first != d.Name.At {
		note(report, first, there)
	}
}

// partName returns the name of a part with its index.
func (e *evaluator) partName(d *syntax.Declaration, s *scope) (string, bool) {
	name := d.Name.Text
	if name == "" {
		e.missing(d.Keyword.At, "write it as "+lookupDeclaration(d.Keyword.Text).Form, "a %s needs a name", d.Keyword.Text)
		return "", false
	}
	if len(name) > MaxName {
		e.report(d.Name.At, "give it a shorter one", "a name has at most %d characters", MaxName)
		return "", false
	}
	if d.Index != nil {
		n, ok := e.count(d.Index, s, "an index is")
		if !ok {
			e.failBlock([]syntax.Statement{d})
		}
		return indexed(name, n), ok
	}
	return name, true
}

// body returns a part with what all parts have.
func (b *body) part(p *placed) *design.Part {
	part := &design.Part{Name: p.name, Span: p.at, Props: b.spans()}
	if g := b.find("metal"); g != nil {
		part.Metal = g.args[0].value.metal.Metal
	}
	return part
}

// noClauses reports clauses on a thing that is tied to nothing.
func (e *evaluator) noClauses(d *syntax.Declaration) {
	for _, c := range d.Clauses {
		e.report(c.Word.At.Join(c.Value.Span()), "leave it out", "a %s has no '%s' before its braces", d.Keyword.Text, c.Word.Text)
	}
}
