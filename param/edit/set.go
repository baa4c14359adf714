package edit

import (
	"math"
	"slices"

	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// A Place is a number of a part, as the table of the language counts it.
type Place struct {
	Part       string // such as "mast" or "reed[2]"
	Property   string // the word of the table, such as "length" or "plate polygon"; "at" for a ball placed outright
	Argument   int    // of the property: of "lean 6 deg toward 90 deg" the bearing is 1
	Coordinate int    // of a point: 0 for x, 1 for y, 2 for z
}

// A Wish is a number that somebody wants a part to have.
type Wish struct {
	Place
	Value quantity.Quantity

	// Step is what the number is rounded to, in coherent units; 0 for the shop's
	// step: 1/16 in, 0.5 mm or half a degree, by the unit that stands there.
	Step float64
}

// A Set is what an edit that sets numbers does.
type Set struct {
	Text       string // after it
	Edit, Undo Edit
	Numbers    []Number
}

// A Number is one that an edit has set.
type Number struct {
	Place
	Value quantity.Quantity // as it is written now

	// Name is the let or adjust whose number it is, "" where it stands in the
	// declaration of the part. Adjust reports an adjustable name, and Limited
	// that it stopped at an end of its range.
	Name    string
	Adjust  bool
	Limited bool

	Row bool // the number is that of every part of a row
}

// Set changes the numbers that decide those of some parts, all in one edit. A
// property that is not given yet is put in where all that it needs is asked for
// at once, as the lean of an upright post with its bearing. A wish for the value
// that a number has shows whether it can be set. The error is a *Refusal.
func (t *Text) Set(wishes ...Wish) (*Set, error) {
	s := &setter{Text: t}
	for i, w := range wishes {
		if math.IsNaN(w.Value.Number) || math.IsInf(w.Value.Number, 0) || !(w.Step >= 0) {
			return nil, refuse(NotANumber, source.Span{})
		}
		if err := s.wish(w, wishes, i); err != nil {
			return nil, err
		}
	}
	edit, undo, text, err := t.finish(s.changes)
	if err != nil {
		return nil, err
	}
	return &Set{Text: text, Edit: edit, Undo: undo, Numbers: s.numbers}, nil
}

// A setter gathers the changes of one edit.
type setter struct {
	*Text
	changes []Change
	numbers []Number
	at      Place // what is being set
	row     bool
	done    []bool // wishes that went with another
}

// find returns the declaration of a part.
func (t *Text) find(part string) (*found, error) {
	var list []*found
	for i := range t.parts {
		if t.parts[i].Name.Text == familyOf(part) {
			list = append(list, &t.parts[i])
		}
	}
	switch {
	case len(list) == 0:
		return nil, refuse(NoPart, source.Span{}, part)
	case len(list) == 1 && list[0].Index == nil && list[0].Keyword.Text == "ring":
		return list[0], nil // or one of its tubes
	case len(list) == 1 && (part == familyOf(part)) == (list[0].Index == nil):
		return list[0], nil
	}
	// The name is given more than once, for one of which a condition holds, or
	// which differ in their index.
	o := eval.Options{Used: t.used, Variation: t.options.Variation, Alloys: t.options.Alloys}
	if d, _ := eval.Evaluate(t.tree, o); d != nil {
		if p := d.Part(part); p != nil {
			for _, f := range list {
				if f.Name.At == p.Span {
					return f, nil
				}
			}
		}
		return nil, refuse(NoPart, source.Span{}, part)
	}
	if len(list) == 1 && list[0].Index != nil && part != familyOf(part) {
		return list[0], nil
	}
	return nil, refuse(Mistakes, source.Span{}, part)
}

// wish sets one number.
func (s *setter) wish(w Wish, all []Wish, i int) error {
	if len(s.done) < len(all) {
		s.done = make([]bool, len(all))
	}
	if s.done[i] {
		return nil
	}
	f, err := s.find(w.Part)
	if err != nil {
		return err
	}
	s.at, s.row = w.Place, f.inRow()
	table := declarationOf(f.Keyword.Text)
	entry := propertyOf(table, w.Property, s.hostOf(f.Declaration))
	if x := outright(f.Declaration, w.Property); x != nil {
		return s.coordinate(x, f.scope, w, all, i)
	}
	if entry == nil || entryOf(entry, w.Argument) == nil {
		return refuse(NoProperty, f.Name.At, w.Property)
	}
	arg := entryOf(entry, w.Argument)
	q := given(table, f.Body, w.Property)
	var x syntax.Expression
	if q != nil {
		x = argumentOf(entry, q, w.Argument)
	}
	switch {
	case arg.Kind != eval.Measure && arg.Kind != eval.Whole && arg.Kind != eval.Bearing && arg.Kind != eval.Place:
		return refuse(NotANumber, f.Name.At, w.Property)
	case q == nil:
		return s.insert(f, entry, all, i)
	case x == nil:
		return s.extend(q, arg, w)
	case arg.Kind == eval.Place:
		return s.coordinate(x, f.scope, w, all, i)
	}
	if s.lacksBearing(f, entry, q, w) && partner(all, i, 1, 0) < 0 {
		return refuse(Missing, q.At, w.Property+" "+entry.Arguments[1].Link)
	}
	if arg.Kind == eval.Whole && w.Step == 0 {
		w.Step = 1
	}
	return s.solve(x, f.scope, wanted{Quantity: w.Value, step: w.Step, direct: true, turn: arg.Kind == eval.Bearing})
}

// lacksBearing reports whether a size is wished for that must say which way it
// goes, and does not. The lean of a branch need not.
func (s *setter) lacksBearing(f *found, entry *eval.Property, q *syntax.Property, w Wish) bool {
	if len(entry.Arguments) < 2 || w.Argument != 0 || w.Value.Number == 0 || entry.Arguments[1].Kind != eval.Bearing || entry.Arguments[1].Free {
		return false
	}
	branch := w.Property == "lean" && s.hostOf(f.Declaration) == eval.OnPost
	return !branch && argumentOf(entry, q, 1) == nil
}

// outright returns the point at which a part is placed outright, where that is
// what the word means.
func outright(d *syntax.Declaration, word string) syntax.Expression {
	if len(d.Clauses) == 1 && d.Clauses[0].Word.Text == "at" && word == "at" {
		return d.Clauses[0].Value
	}
	return nil
}

// partner returns which wish is for another number of the same property, or -1.
func partner(all []Wish, i, argument, coordinate int) int {
	want := all[i].Place
	want.Argument, want.Coordinate = argument, coordinate
	return slices.IndexFunc(all, func(w Wish) bool { return w.Place == want })
}

// take returns the wish for another number of the same property, to be settled
// with this one; nil where there is none.
func (s *setter) take(all []Wish, i, argument, coordinate int) *Wish {
	j := partner(all, i, argument, coordinate)
	if j < 0 {
		return nil
	}
	s.done[j] = true
	return &all[j]
}

// coordinate sets one coordinate of a point. Of polar(r, b) radius and bearing
// are set.
func (s *setter) coordinate(x syntax.Expression, sc *scope, w Wish, all []Wish, i int) error {
	whole := x
	x, sc, err := s.point(x, sc)
	if err != nil {
		return err
	}
	if p, ok := x.(*syntax.Point); ok {
		if w.Coordinate < 0 || w.Coordinate >= len(p.Coordinates) {
			return refuse(NoProperty, p.Span(), w.Property)
		}
		return s.solve(p.Coordinates[w.Coordinate], sc, wanted{Quantity: w.Value, step: w.Step, direct: true})
	}
	polar := x.(*syntax.Call)
	now, ok := s.values(
		question{x: &syntax.Member{Of: polar, Name: syntax.Name{Text: "x"}}, scope: sc},
		question{x: &syntax.Member{Of: polar, Name: syntax.Name{Text: "y"}}, scope: sc})
	if !ok {
		return s.unknown(whole, sc)
	}
	at := [2]float64{s.length(now[0], polar.Span()), s.length(now[1], polar.Span())}
	for k := range at {
		if p := s.take(all, i, w.Argument, k); p != nil {
			at[k] = p.Value.Number
		}
	}
	radius, bearing := math.Hypot(at[0], at[1]), math.Atan2(at[1], at[0])
	if bearing < 0 {
		bearing += 2 * math.Pi
	}
	if err := s.solve(polar.Arguments[0], sc, wanted{Quantity: quantity.Quantity{Number: radius, Dim: quantity.Length}, step: w.Step}); err != nil {
		return err
	}
	return s.solve(polar.Arguments[1], sc, wanted{Quantity: quantity.Quantity{Number: bearing, Dim: quantity.Angle}, step: s.turn(radius, w.Step), turn: true})
}

// turn returns the step of a bearing that moves a point at a radius by no more
// than a step of length.
func (s *setter) turn(radius, step float64) float64 {
	if step == 0 {
		step = lengthStep(s.units(s.tree.Source))
	}
	for _, deg := range []float64{0.5, 0.25, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002} {
		if rad := deg * math.Pi / 180; rad*radius <= step {
			return rad
		}
	}
	return 0.001 * math.Pi / 180
}

// point follows names to the point that they stand for, or to polar(r, b).
func (s *setter) point(x syntax.Expression, sc *scope) (syntax.Expression, *scope, error) {
	for range mostNodes {
		switch y := x.(type) {
		case *syntax.Point:
			return y, sc, nil
		case *syntax.Paren:
			x = y.Inner
			continue
		case *syntax.Ident:
			if d := sc.lookup(y.Name); d != nil && d.value != nil {
				x, sc = d.value, d.scope
				continue
			}
		case *syntax.Call:
			if y.Function.Text == "polar" && len(y.Arguments) == 2 {
				return y, sc, nil
			}
		}
		break
	}
	return nil, nil, s.unknown(x, sc)
}

// length returns a quantity as a length in mm: a plain number is in the units of
// the file in which it stands.
func (t *Text) length(q quantity.Quantity, at source.Span) float64 {
	if u, ok := t.units(at.File).Unit(); ok && q.Dim == quantity.Number {
		return q.Number * u.Scale
	}
	return q.Number
}
