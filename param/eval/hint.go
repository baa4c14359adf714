package eval

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// hint shows how a property is written, in the units of the design.
func (b *body) hint(p *Property, a *Argument) string {
	if a.Example != "" {
		return "write it as " + b.example(a.Example)
	}
	return "write it as " + b.example(p.Example)
}

// measures finds the measures of an example.
var measures = regexp.MustCompile(`(\d+-\d+/\d+|\d+/\d+|\d+(?:\.\d+)?) (in|ft|mm|m/s|mph|m|lbf|lb|kg|N|psi|ksi|MPa)\b`)

// other is what stands for a unit in a design of the other units: the unit, how
// many of it a coherent one is about, and the step to which an example is rounded.
var other = map[string]struct {
	unit  string
	times float64
	step  float64
}{
	"in": {"mm", 25, 5}, "ft": {"m", 0.3, 0.5}, "lb": {"kg", 0.45, 5}, "lbf": {"N", 4.5, 50}, "mph": {"m/s", 0.45, 5},
	"psi": {"MPa", 0.007, 1}, "ksi": {"MPa", 7, 10},
	"mm": {"in", 1. / 25, 1. / 16}, "m": {"ft", 3.3, 1}, "kg": {"lb", 2.2, 5}, "N": {"lbf", 0.22, 10}, "m/s": {"mph", 2.2, 5}, "MPa": {"psi", 145, 1000},
}

// example returns an example of the language in the units of the design: in a
// design in mm "length 36 in" is "length 900 mm". It is a sample of what may be
// written, so round figures stand for each other.
func (e *evaluator) example(text string) string {
	inches := e.design.Units == quantity.Inch
	switch {
	case strings.Contains(text, "/m3"):
		return text
	case strings.Contains(text, " / "): // a price: by one unit of either kind
		if inches {
			return strings.NewReplacer("1 kg", "1 lb", "1 m ", "1 ft ", "1 m)", "1 ft)").Replace(text)
		}
		return strings.NewReplacer("1 lb", "1 kg", "1 ft ", "1 m ", "1 ft)", "1 m)").Replace(text)
	}
	return measures.ReplaceAllStringFunc(text, func(m string) string {
		number, unit, _ := strings.Cut(m, " ")
		isInch := strings.Contains(" in ft lb lbf mph psi ksi ", " "+unit+" ")
		if isInch == inches {
			return m
		}
		o := other[unit]
		x := max(math.Round(fractional(number)*o.times/o.step)*o.step, smallest(fractional(number)*o.times, o.step))
		if o.unit == "in" {
			return quantity.Inch.Length(x*25.4, quantity.Fine)
		}
		return quantity.Decimal(x, 2) + " " + o.unit
	})
}

// smallest returns a size that rounds to nothing as a step or a half of one.
func smallest(x, step float64) float64 {
	if x < step/2 {
		return math.Ceil(x/(step/5)) * step / 5
	}
	return step
}

// fractional returns the value of a number such as 2-1/2.
func fractional(s string) float64 {
	whole, part, mixed := strings.Cut(s, "-")
	if !mixed {
		whole, part = "0", s
	}
	over, under, isFraction := strings.Cut(part, "/")
	w, _ := strconv.ParseFloat(whole, 64)
	x, _ := strconv.ParseFloat(over, 64)
	if y, _ := strconv.ParseFloat(under, 64); isFraction && y != 0 {
		x /= y
	}
	return w + x
}

// written returns the number of a literal as it is written, without its sign and
// its unit; "" for any other expression.
func written(x syntax.Expression) (number string, negative bool) {
	if u, ok := x.(*syntax.Unary); ok && u.Operator == syntax.Subtract {
		n, _ := written(u.Operand)
		return n, n != ""
	}
	lit, ok := x.(*syntax.Literal)
	if !ok || len(lit.Terms) != 1 {
		return "", false
	}
	t := lit.Terms[0]
	text := t.At.Text()
	if t.Unit.Text != "" {
		text = lit.Span().File.Text[t.At.From:t.Unit.At.From]
	}
	return strings.TrimSpace(text), false
}

// inDimension returns the number that is written with a unit of the wanted
// dimension, such as "36 in"; "" where no number is written or none fits.
func (b *body) inDimension(want *Argument, x syntax.Expression) string {
	n, negative := written(x)
	unit := b.unitFor(want.dimension())
	if n == "" || negative || unit == "" || want.Noun != "" {
		return ""
	}
	u, _ := quantity.LookupUnit(unit)
	if !want.Range.holds(fractional(n) * u.Scale) {
		return ""
	}
	return n + " " + unit
}

// unitFor returns the unit in which a design of these units gives a dimension.
func (e *evaluator) unitFor(d quantity.Dimension) string {
	inches := e.design.Units == quantity.Inch
	of := func(inch, metric string) string {
		if inches {
			return inch
		}
		return metric
	}
	switch d {
	case quantity.Length:
		return of("in", "mm")
	case quantity.Angle:
		return "deg"
	case quantity.Mass:
		return of("lb", "kg")
	case quantity.Force:
		return of("lbf", "N")
	case quantity.Pressure:
		return of("psi", "MPa")
	case quantity.Speed:
		return of("mph", "m/s")
	}
	return ""
}

// turned is the hint for a size below nothing that has a way to go: the same size
// the other way, and what to put in its place where that can be written. It reports
// false where the property has no bearing.
func (b *body) turned(p *Property, want *Argument, x syntax.Expression, v value, toward *syntax.Argument, s *scope) (string, *source.Cure, bool) {
	if v.q.Number >= 0 || want.Kind != Measure || len(p.Arguments) < 2 || p.Arguments[1].Kind != Bearing {
		return "", nil, false
	}
	size := v
	size.q.Number = -v.q.Number
	wording := b.say(size)
	if n, negative := written(x); negative && n != "" {
		wording = unsigned(x)
	}
	form := "write it as " + p.Word + " " + wording
	if toward == nil || isBad(toward.Value) {
		return form + " toward the opposite side", nil, true
	}
	if _, named := toward.Value.(*syntax.Ident); named {
		return form + " toward the side opposite '" + toward.Value.Span().Text() + "'", nil, true
	}
	way := b.eval(toward.Value, s)
	if !way.is(quantity.Angle) {
		return form + " toward the opposite side", nil, true
	}
	to := " toward " + quantity.Degrees(once(way.q.Number+math.Pi))
	return form + to, &source.Cure{Span: x.Span().Join(toward.Value.Span()), Words: wording + to}, true
}

// isSingle reports whether the property may be written with one value alone.
func (p *Property) isSingle() bool {
	for _, a := range p.Arguments[1:] {
		if !a.Optional || a.Kind == Bearing {
			return false
		}
	}
	return true
}

// nearest is the end of its range that is nearest to a whole number out of it, and which
// others there are.
func nearest(p *Property, want *Argument, n float64) (end, others string, ok bool) {
	r := want.Range
	switch {
	case want.Kind != Whole || r.From < 1 || r.To > 1e3 || !p.isSingle():
		return "", "", false
	case n < r.From:
		return quantity.Decimal(r.From, 0), ", or more", true
	}
	return quantity.Decimal(r.To, 0), ", or less", true
}

// outOfRange returns the hint for a value that is out of its range, and what to put in its
// place where that is known.
func (b *body) outOfRange(p *Property, want *Argument, v value, x syntax.Expression, toward *syntax.Argument, s *scope) (string, *source.Cure) {
	if hint, cure, ok := b.turned(p, want, x, v, toward, s); ok {
		return hint, cure
	}
	if end, more, ok := nearest(p, want, v.q.Number); ok {
		return "write it as " + p.Word + " " + end + more, &source.Cure{Span: x.Span(), Words: end}
	}
	if n, negative := written(x); negative && p.isSingle() && want.Range.holds(-v.q.Number) && n != "" {
		return "write it as " + p.Word + " " + unsigned(x), &source.Cure{Span: x.Span(), Words: unsigned(x)}
	}
	return b.hint(p, want), nil
}

// unsigned returns an expression as it is written, without its sign.
func unsigned(x syntax.Expression) string {
	return strings.TrimSpace(strings.TrimPrefix(x.Span().Text(), "-"))
}
