package edit

import (
	"math"
	"strconv"
	"strings"

	"stabile/param/quantity"
	"stabile/param/syntax"
)

// Steps to which numbers are rounded unless another is given, in coherent
// units: 1/16 in and 0.5 mm, as general work is read off a rule.
const (
	inch      = 25.4
	inchStep  = inch / 16
	metreStep = 0.5
	degree    = math.Pi / 180
	angleStep = 0.5 * degree
	someStep  = 0.1  // of its unit, for what is no length or angle
	plainStep = 0.01 // of a plain number that is no count
)

// lengthStep returns the step of a length in a system of units.
func lengthStep(s quantity.System) float64 {
	if s == quantity.Inch {
		return inchStep
	}
	return metreStep
}

// stepOf returns the step of a quantity written in a unit; a plain number has a
// unit without a name.
func stepOf(u quantity.Unit) float64 {
	switch {
	case u.Dim == quantity.Length && (u.Name == "in" || u.Name == "ft"):
		return inchStep
	case u.Dim == quantity.Length:
		return metreStep
	case u.Dim == quantity.Angle:
		return angleStep
	case u.Dim == quantity.Number:
		return plainStep
	}
	return someStep * u.Scale
}

// usual returns the step of a dimension in the units of the text.
func (t *Text) usual(d quantity.Dimension) float64 {
	if d == quantity.Length {
		return lengthStep(t.units(t.tree.Source))
	}
	u, _ := unitOf(d)
	return stepOf(u)
}

// leafStep returns the step of a number of which the wanted one is slope times as
// great, so that the wanted one comes out within its own step. It is 0 for
// the step of the number's own unit.
func leafStep(want, usual, slope float64, same bool) float64 {
	slope = math.Abs(slope)
	base := want
	switch {
	case want == exact:
		return exact
	case want == 0:
		base = usual
	}
	switch {
	case same && slope <= 1+rounding:
		return want
	case same:
		return base / math.Exp2(math.Ceil(math.Log2(slope)-rounding))
	}
	return quantity.RoundStep(base / slope)
}

// write changes a number of the text, before which a minus may stand.
func (s *setter) write(lit *syntax.Literal, minus *syntax.Unary, want wanted) error {
	at := lit.Span()
	if !s.own(at) {
		name := at.Text()
		if want.name != "" {
			name = want.name
		}
		return refuse(Elsewhere, at, name, at.File.Name)
	}
	first := lit.Terms[0]
	u, ok := quantity.LookupUnit(first.Unit.Text)
	bare := !ok
	if bare {
		u = quantity.Unit{Scale: 1}
		if want.Dim == quantity.Length {
			u, ok = s.units(at.File).Unit()
			if !ok {
				return refuse(Mistakes, at, at.Text())
			}
		}
	}
	if u.Dim != want.Dim {
		return refuse(NotANumber, at, at.Text())
	}
	if want.turn && want.adjust == nil {
		want.Number = turned(want.Number, 0)
	}
	value := math.Abs(want.Number)
	step := want.step
	if step == 0 {
		step = stepOf(u)
	}
	if step > 0 {
		snapped := math.Round(value/step) * step
		sign := math.Copysign(1, want.Number)
		if want.adjust == nil || sign*snapped >= want.from && sign*snapped <= want.to {
			value = snapped
		}
	}
	if want.turn && want.adjust == nil && value > fullTurn-rounding {
		value = 0 // 359.9 deg on a step
	}
	below := want.Number < 0 && value > 0
	n := notation{unit: u, bare: bare, direct: want.direct, step: step}
	if len(lit.Terms) == 2 {
		value = s.writeTwo(lit, n, value)
	} else {
		value = s.writeOne(first, n, value)
	}
	switch {
	case below && minus == nil:
		s.put(at.From, at.From, "-")
	case !below && minus != nil:
		s.put(minus.Span().From, at.From, "")
	}
	if below {
		value = -value
	}
	s.numbers = append(s.numbers, Number{
		Place: s.at, Value: quantity.Quantity{Number: value, Dim: u.Dim}, Name: want.name,
		Adjust: want.adjust != nil, Limited: want.limit, Row: s.row,
	})
	return nil
}

// put notes a change of the text, unless it changes nothing. Two at one place
// are made one.
func (s *setter) put(from, to int, text string) {
	c := s.change(from, to, text)
	if c.Old == c.New {
		return
	}
	for i, d := range s.changes {
		switch {
		case c == d:
			return
		case c.From == c.To && d.From == d.To && c.From == d.From: // two properties put in at one place
			first, second := d.New, c.New
			if strings.HasPrefix(c.New, " ") { // a further value of the property before them
				first, second = second, first
			}
			s.changes[i].New = first + second
			return
		case c.From == c.To && c.To == d.From: // a minus before a number
			s.changes[i] = Change{From: d.From, To: d.To, Old: d.Old, New: c.New + d.New}
			return
		case c.To == d.From && c.New == "":
			s.changes[i] = Change{From: c.From, To: d.To, Old: c.Old + d.Old, New: d.New}
			return
		}
	}
	s.changes = append(s.changes, c)
}

// A notation is how a number is written.
type notation struct {
	unit   quantity.Unit
	bare   bool    // without its unit
	direct bool    // as the value of a property
	step   float64 // in coherent units
}

// numberEnd returns where the number of a term ends, before its unit.
func (s *setter) numberEnd(t syntax.Term) int {
	if t.Unit.Text == "" {
		return t.At.To
	}
	return t.At.From + len(strings.TrimRight(s.tree.Source.Text[t.At.From:t.Unit.At.From], " \t"))
}

// writeOne writes a number of one term, and returns what it is then.
func (s *setter) writeOne(t syntax.Term, n notation, value float64) float64 {
	end := s.numberEnd(t)
	old := s.tree.Source.Text[t.At.From:end]
	x := value / n.unit.Scale
	if n.unit.Name == "ft" && !n.bare && !strings.Contains(old, ".") {
		if text, ok := n.fraction(x); ok && (isWhole(x) || strings.Contains(old, "/")) {
			s.put(t.At.From, end, text)
			return value
		}
		// Feet that are no longer whole go on in inches.
		feet := math.Floor(x + rounding)
		in, _ := quantity.LookupUnit("in")
		text, rest := notation{unit: in, step: n.step}.text("", max(0, value-feet*n.unit.Scale)/inch)
		s.put(t.At.From, t.At.To, quantity.Decimal(feet, 0)+s.tree.Source.Text[end:t.At.To]+" "+text+" in")
		return feet*n.unit.Scale + rest*inch
	}
	text, x := n.text(old, x)
	s.put(t.At.From, end, text)
	return x * n.unit.Scale
}

// writeTwo writes feet and inches, or pounds and ounces.
func (s *setter) writeTwo(lit *syntax.Literal, n notation, value float64) float64 {
	a, b := lit.Terms[0], lit.Terms[1]
	small, _ := quantity.LookupUnit(b.Unit.Text)
	whole := math.Floor(value/n.unit.Scale + rounding)
	end := s.numberEnd(b)
	fine := notation{unit: small, step: n.step}
	text, rest := fine.text(s.tree.Source.Text[b.At.From:end], max(0, value-whole*n.unit.Scale)/small.Scale)
	s.put(a.At.From, s.numberEnd(a), quantity.Decimal(whole, 0))
	s.put(b.At.From, end, text)
	return whole*n.unit.Scale + rest*small.Scale
}

func isWhole(x float64) bool { return math.Abs(x-math.Round(x)) <= rounding*max(1, math.Abs(x)) }

// finest is the finest fraction of an inch that is written, 1/64.
const finest = 64

// fraction returns a number as a fraction, in lowest terms; false where it is
// none that a rule has.
func (n notation) fraction(x float64) (string, bool) {
	if !isWhole(x * finest) {
		return "", false
	}
	return quantity.Fraction(x, finest), true
}

// text returns a number, of the unit, in the notation of an old one, and what it
// reads as.
func (n notation) text(old string, x float64) (string, float64) {
	point := strings.IndexByte(old, '.')
	fractions := strings.Contains(old, "/") || point < 0 && n.unit.Name == "in"
	if n.bare && !n.direct && x >= 1 && !isWhole(x) {
		fractions = false // a mixed number without a unit is a length wherever it stands
	}
	if fractions && point < 0 {
		if text, ok := n.fraction(x); ok {
			return text, math.Round(x*finest) / finest
		}
	}
	decimals := 0
	if point >= 0 {
		decimals = len(old) - point - 1
	}
	const most = 9 // decimals: a millionth of a millimetre
	near := 1e-3 * n.step / n.unit.Scale
	if n.step == exact {
		near = 1e-9
	}
	for ; decimals < most; decimals++ {
		p := math.Pow(10, float64(decimals))
		if math.Abs(math.Round(x*p)/p-x) <= near {
			break
		}
	}
	text := formatDecimal(x, decimals)
	if strings.HasPrefix(old, ".") {
		text = strings.TrimPrefix(text, "0")
	}
	p := math.Pow(10, float64(decimals))
	return text, math.Round(x*p) / p
}

// formatDecimal returns x with the given number of decimals.
func formatDecimal(x float64, decimals int) string {
	return strconv.FormatFloat(x, 'f', decimals, 64)
}
