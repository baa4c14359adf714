package syntax

import (
	"fmt"
	"strings"
)

// show returns an expression in prefix form.
func show(e Expression) string {
	switch e := e.(type) {
	case nil:
		return "nil"
	case *Literal:
		var terms []string
		for _, t := range e.Terms {
			s := fmt.Sprintf("%g", t.Number)
			if t.Mixed {
				s += "mixed"
			}
			terms = append(terms, s+t.Unit.Text)
		}
		return strings.Join(terms, "_")
	case *String:
		return fmt.Sprintf("%q", e.Text)
	case *Ident:
		return e.Name
	case *Index:
		return show(e.Of) + "[" + show(e.Index) + "]"
	case *Member:
		return show(e.Of) + "." + e.Name.Text
	case *Call:
		return e.Function.Text + showAll(e.Arguments)
	case *Point:
		return "point" + showAll(e.Coordinates)
	case *Paren:
		return "(" + show(e.Inner) + ")"
	case *Unary:
		return "{" + string(e.Operator) + " " + show(e.Operand) + "}"
	case *Binary:
		return "{" + show(e.Left) + " " + string(e.Operator) + " " + show(e.Right) + "}"
	case *Bad:
		return "BAD"
	}
	return fmt.Sprintf("%T", e)
}

func showAll(list []Expression) string {
	var s []string
	for _, e := range list {
		s = append(s, show(e))
	}
	return "(" + strings.Join(s, ", ") + ")"
}

// dump writes statements one to a line, blocks indented.
func dump(b *strings.Builder, list []Statement, indent string) {
	for _, s := range list {
		b.WriteString(indent)
		switch s := s.(type) {
		case *Setting:
			fmt.Fprintf(b, "%s %s\n", s.Keyword.Text, show(s.Value))
		case *Let:
			fmt.Fprintf(b, "let %s = %s\n", s.Name.Text, show(s.Value))
		case *Adjust:
			fmt.Fprintf(b, "adjust %s = %s from %s to %s step %s\n", s.Name.Text, show(s.Value), show(s.From), show(s.To), show(s.Step))
		case *Declaration:
			fmt.Fprintf(b, "%s %s", s.Keyword.Text, s.Name.Text)
			if s.Title != nil {
				b.WriteString(show(s.Title))
			}
			if s.Index != nil {
				fmt.Fprintf(b, "[%s]", show(s.Index))
			}
			for _, c := range s.Clauses {
				fmt.Fprintf(b, " <%s %s>", c.Word.Text, show(c.Value))
			}
			b.WriteString("\n")
			dumpBody(b, s.Body, indent+"  ")
		case *Repeat:
			fmt.Fprintf(b, "repeat %s from %s to %s\n", s.Variable.Text, show(s.From), show(s.To))
			dump(b, s.Block, indent+"  ")
		case *When:
			fmt.Fprintf(b, "when %s\n", show(s.Condition))
			dump(b, s.Block, indent+"  ")
		case *Variation:
			fmt.Fprintf(b, "variation %s", show(s.Title))
			for _, a := range s.Set {
				fmt.Fprintf(b, " <%s = %s>", a.Name.Text, show(a.Value))
			}
			b.WriteString("\n")
		case *Require:
			fmt.Fprintf(b, "require %s", show(s.Condition))
			if s.Why != nil {
				fmt.Fprintf(b, " why %s", show(s.Why))
			}
			b.WriteString("\n")
		}
	}
}

func dumpBody(b *strings.Builder, body []Property, indent string) {
	for _, p := range body {
		b.WriteString(indent + p.Word.Text)
		for _, a := range p.Arguments {
			if a.Link.Text != "" {
				b.WriteString(" <" + a.Link.Text + ">")
			}
			b.WriteString(" " + show(a.Value))
		}
		b.WriteString("\n")
		dumpBody(b, p.Body, indent+"  ")
	}
}

func dumpFile(f *File) string {
	var b strings.Builder
	dump(&b, f.Statements, "")
	return b.String()
}

// firstBad returns the first expression of a statement that could not be read.
func firstBad(s Statement) *Bad {
	var bad *Bad
	look := func(list ...Expression) {
		for _, e := range list {
			if b := badIn(e); b != nil && bad == nil {
				bad = b
			}
		}
	}
	var body func([]Property)
	body = func(list []Property) {
		for _, p := range list {
			for _, a := range p.Arguments {
				look(a.Value)
			}
			body(p.Body)
		}
	}
	block := func(list []Statement) {
		for _, s := range list {
			if b := firstBad(s); b != nil && bad == nil {
				bad = b
			}
		}
	}
	switch s := s.(type) {
	case *Setting:
		look(s.Value)
	case *Let:
		look(s.Value)
	case *Adjust:
		look(s.Value, s.From, s.To, s.Step)
	case *Declaration:
		look(s.Index)
		for _, c := range s.Clauses {
			look(c.Value)
		}
		body(s.Body)
	case *Repeat:
		look(s.From, s.To)
		block(s.Block)
	case *When:
		look(s.Condition)
		block(s.Block)
	case *Variation:
		for _, a := range s.Set {
			look(a.Value)
		}
	case *Require:
		look(s.Condition)
	}
	return bad
}

func badIn(e Expression) *Bad {
	var inner []Expression
	switch e := e.(type) {
	case *Bad:
		return e
	case *Index:
		inner = []Expression{e.Of, e.Index}
	case *Member:
		inner = []Expression{e.Of}
	case *Call:
		inner = e.Arguments
	case *Point:
		inner = e.Coordinates
	case *Paren:
		inner = []Expression{e.Inner}
	case *Unary:
		inner = []Expression{e.Operand}
	case *Binary:
		inner = []Expression{e.Left, e.Right}
	}
	for _, e := range inner {
		if b := badIn(e); b != nil {
			return b
		}
	}
	return nil
}
