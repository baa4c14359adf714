package edit

import (
	"math"
	"strings"
	"unicode/utf8"

	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/syntax"
)

// said returns a quantity in the units of the text, on the usual step or another.
func (t *Text) said(q quantity.Quantity, step float64) (string, float64) {
	system := t.units(t.tree.Source)
	u, _ := unitOf(q.Dim)
	switch q.Dim {
	case quantity.Length:
		u, _ = quantity.LookupUnit("mm")
		if system == quantity.Inch {
			u, _ = quantity.LookupUnit("in")
		}
	case quantity.Angle:
		u, _ = quantity.LookupUnit("deg")
	case quantity.Mass:
		u, _ = quantity.LookupUnit("kg")
		if system == quantity.Inch {
			u, _ = quantity.LookupUnit("lb")
		}
	}
	if step == 0 {
		step = stepOf(u)
	}
	value := math.Round(math.Abs(q.Number)/step) * step
	text, x := notation{unit: u, step: step}.text("", value/u.Scale)
	if q.Number < 0 && x != 0 {
		text, x = "-"+text, -x
	}
	if u.Name != "" {
		text += " " + u.Name
	}
	return text, x * u.Scale
}

// insert puts a property in that is not given yet, with all of its values that
// are wished for.
func (s *setter) insert(f *found, p *eval.Property, all []Wish, i int) error {
	text := p.Word
	for n := range p.Arguments {
		arg := &p.Arguments[n]
		if arg.List {
			return refuse(NoProperty, f.Name.At, p.Word)
		}
		value, ok := s.argument(arg, all, i, n)
		switch {
		case ok && arg.Link != "":
			text += " " + arg.Link + " " + value
		case ok:
			text += " " + value
		case !arg.Optional || arg.Kind == eval.Bearing && !arg.Free && turns(all, i):
			return refuse(Missing, f.Name.At, strings.TrimSpace(p.Word+" "+arg.Link))
		}
	}
	at, text, ok := s.place(f.Declaration, text)
	if !ok {
		return refuse(Mistakes, f.Name.At, f.Name.Text)
	}
	s.put(at, at, text)
	return nil
}

// turns reports whether a wish is for a size other than 0, which must say which
// way it goes.
func turns(all []Wish, i int) bool {
	j := partner(all, i, 0, 0)
	return j >= 0 && all[j].Value.Number != 0
}

// argument returns the text of an argument that is wished for.
func (s *setter) argument(arg *eval.Argument, all []Wish, i, n int) (string, bool) {
	if arg.Kind != eval.Place {
		w := s.take(all, i, n, 0)
		if w == nil || w.Value.Dim != dimension(arg) {
			return "", false
		}
		return s.note(arg, w), true
	}
	x, y := s.take(all, i, n, 0), s.take(all, i, n, 1)
	zero := Wish{Place: s.at, Value: quantity.Quantity{Dim: quantity.Length}}
	zero.Coordinate = 0
	if x == nil {
		x = &zero
	}
	if y == nil {
		other := zero
		other.Coordinate = 1
		y = &other
	}
	if x.Value.Dim != quantity.Length || y.Value.Dim != quantity.Length {
		return "", false
	}
	return "(" + s.note(arg, x) + ", " + s.note(arg, y) + ")", true
}

// note returns the text of a number that is put in, and notes that it is set.
func (s *setter) note(arg *eval.Argument, w *Wish) string {
	step := w.Step
	if arg.Kind == eval.Whole && step == 0 {
		step = 1
	}
	text, value := s.said(w.Value, step)
	s.numbers = append(s.numbers, Number{Place: w.Place, Value: quantity.Quantity{Number: value, Dim: w.Value.Dim}, Row: s.row})
	return text
}

// dimension returns that of an argument.
func dimension(a *eval.Argument) quantity.Dimension {
	switch a.Kind {
	case eval.Bearing:
		return quantity.Angle
	case eval.Place:
		return quantity.Length
	}
	return a.Dim
}

// extend gives a property the further value that it does not have yet, such as
// the bearing of a lean of 0.
func (s *setter) extend(q *syntax.Property, arg *eval.Argument, w Wish) error {
	if arg.Link == "" || arg.List || w.Value.Dim != dimension(arg) || len(q.Arguments) == 0 {
		return refuse(NotANumber, q.At, w.Property)
	}
	at := q.Arguments[len(q.Arguments)-1].Value.Span().To
	s.put(at, at, " "+arg.Link+" "+s.note(arg, &w))
	return nil
}

// place returns where a property goes that is put into a declaration, behind
// the last one, and its text with what parts it from that one.
func (t *Text) place(d *syntax.Declaration, property string) (at int, text string, ok bool) {
	src := t.tree.Source.Text
	end := d.Span().To
	if end == 0 || !strings.HasSuffix(src[:end], "}") {
		return 0, "", false
	}
	if len(d.Body) == 0 {
		open := d.Name.At.To + strings.IndexByte(src[d.Name.At.To:end], '{')
		if n := len(d.Clauses); n > 0 {
			to := d.Clauses[n-1].Value.Span().To
			open = to + strings.IndexByte(src[to:end], '{')
		}
		if strings.TrimSpace(src[open+1:end-1]) != "" {
			return end - 1, "\n  " + property + "\n", true // comments
		}
		return open + 1, " " + property + strings.Repeat(" ", 1-min(1, end-1-open-1)), true
	}
	last := d.Body[len(d.Body)-1]
	start := strings.LastIndexByte(src[:last.At.From], '\n') + 1
	indent := src[start:last.At.From]
	if strings.TrimSpace(indent) != "" || start <= d.Keyword.At.From {
		return last.At.To, ", " + property, true
	}
	// A line of its own, with its value in the column of the one before.
	word, value, _ := strings.Cut(property, " ")
	if len(last.Arguments) > 0 {
		first := last.Arguments[0].Value.Span().From
		if l := last.Arguments[0].Link; l.Text != "" {
			first = l.At.From
		}
		column := utf8.RuneCountInString(src[last.At.From:first])
		property = word + strings.Repeat(" ", max(1, column-len(word))) + value
	}
	at = last.At.To
	line := strings.IndexByte(src[at:end], '\n')
	if line < 0 {
		return at, t.lineEnd() + indent + property, true
	}
	rest := src[at : at+line]
	if mark := strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(rest), ",")); mark == "" || strings.HasPrefix(mark, "#") {
		at += len(strings.TrimRight(rest, "\r"))
	}
	return at, t.lineEnd() + indent + property, true
}

// lineEnd returns what ends the lines of the text.
func (t *Text) lineEnd() string {
	if strings.Contains(t.tree.Source.Text, "\r\n") {
		return "\r\n"
	}
	return "\n"
}
