package syntax

// The sorts of lines that are aligned with each other, beside the keywords of
// declarations.
const (
	values       = "values"
	requirements = "requirements"
	properties   = "properties"
)

// betweenColumns is the blanks before a range and before a reason, which set
// them apart from what they belong to.
const betweenColumns = 2

// statement prints a statement. It returns the sort of line it stands on.
func (p *printer) statement(s Statement) (run string) {
	from := s.Span().From
	keyword := func(w string) { p.put(blank, from, from+len(w)) }
	switch s := s.(type) {
	case *Setting:
		p.at(blank, s.Keyword.At)
		p.expression(blank, s.Value)
	case *Let:
		keyword("let")
		p.named(s.Name, s.Value)
		return values
	case *Adjust:
		keyword("adjust")
		p.adjust(s)
		return values
	case *Require:
		keyword("require")
		p.require(s)
		return requirements
	case *Declaration:
		return p.declaration(s)
	case *Repeat:
		keyword("repeat")
		p.at(blank, s.Variable.At)
		p.sign(blank, "from")
		p.expression(soft, s.From)
		p.sign(blank, "to")
		p.expression(soft, s.To)
		braces(p, s.at.To, s.Block, statementAt, (*printer).statement)
	case *When:
		keyword("when")
		p.expression(soft, s.Condition)
		braces(p, s.at.To, s.Block, statementAt, (*printer).statement)
	case *Variation:
		keyword("variation")
		p.at(blank, s.Title.at)
		p.column(1, 1)
		if braces(p, s.at.To, s.Set, assignmentAt, (*printer).assignment) {
			return "variation"
		}
	}
	return ""
}

// named prints the name and the value of a let or adjust.
func (p *printer) named(n Name, e Expression) {
	p.column(1, 1)
	p.at(blank, n.At)
	p.column(2, 1)
	p.given(e)
}

// given prints a value after its =.
func (p *printer) given(e Expression) {
	p.sign(blank, "=")
	p.expression(soft, e)
}

func (p *printer) adjust(s *Adjust) {
	p.named(s.Name, s.Value)
	for i, part := range []struct {
		word string
		e    Expression
	}{{"from", s.From}, {"to", s.To}, {"step", s.Step}} {
		if part.e == nil {
			continue
		}
		gap := 1
		if i == 0 {
			gap = betweenColumns
		}
		p.column(3+i, gap)
		p.sign(blank, part.word)
		p.expression(soft, part.e)
	}
}

func (p *printer) require(s *Require) {
	if b, ok := s.Condition.(*Binary); ok && compares(b.Operator) && isResult(b.Left) {
		p.expression(soft, b.Left)
		p.column(1, 1)
		p.at(soft, b.OperatorAt)
		p.expression(soft, b.Right)
	} else {
		p.expression(soft, s.Condition)
	}
	if s.Why != nil {
		p.column(2, betweenColumns)
		p.at(blank, s.Why.at)
	}
}

// compares reports whether an operator is a comparison.
func compares(o Operator) bool {
	switch o {
	case Equal, NotEqual, Less, LessEqual, Greater, GreaterEqual:
		return true
	}
	return false
}

// declaration prints a declaration. Those of one keyword that stand on one line
// and have nothing but a name have their braces aligned.
func (p *printer) declaration(s *Declaration) (run string) {
	p.at(blank, s.Keyword.At)
	if s.Name.Text != "" {
		p.at(blank, s.Name.At)
	}
	if s.Title != nil {
		p.at(blank, s.Title.at)
	}
	if s.Index != nil {
		p.index(s.Index)
	}
	for _, c := range s.Clauses {
		p.at(blank, c.Word.At)
		p.expression(soft, c.Value)
	}
	if len(s.Clauses) == 0 {
		p.column(1, 1)
	}
	if braces(p, s.at.To, s.Body, propertyAt, (*printer).property) {
		return s.Keyword.Text
	}
	return ""
}
