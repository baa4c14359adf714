package syntax

import "stabile/param/source"

// A Sweep is the values that an adjustable name is to take. What it
// leaves out is nil.
type Sweep struct {
	node
	Name     Name
	From, To Expression
	Step     Expression
	Values   Expression // how many
}

// sweepForm is how a sweep is written.
const sweepForm = "NAME from least to most step size, or NAME values count"

// ParseSweep reads a text that names an adjustable and the values that it is to
// take: NAME [from expr to expr] [step expr | values expr].
func ParseSweep(f *source.File) (*Sweep, source.List) {
	var list source.List
	var comments []Comment
	s := &Sweep{}
	p := newParser(f, &list, &comments)
	if p == nil {
		return s, list
	}
	start := p.tok
	if start.kind != word || isConnective(start.text) {
		p.errorHere("write "+sweepForm, "the name of an adjustable value is missing")
		list.Sort()
		return s, list
	}
	s.Name = p.nameOf(p.advance())
	if p.takeWord("from") {
		s.From = p.expression()
		if p.takeWord("to") {
			s.To = p.expression()
		} else {
			p.errorHere("write "+sweepForm, "'to' is missing after 'from'")
		}
	}
	switch {
	case p.takeWord("step"):
		s.Step = p.expression()
	case p.takeWord("values"):
		s.Values = p.expression()
	}
	if p.tok.kind != endOfText {
		p.leftover("the values")
	}
	s.node = p.nodeFrom(start.from)
	list.Sort()
	return s, list
}
