package edit

import (
	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/syntax"
)

// A GivenNumber is a number of a part as it stands in the text.
type GivenNumber struct {
	Place
	Label string // "length", "lean toward", "at y"
	Text  string // as written
	Dim   quantity.Dimension
}

// NumbersOf returns the numbers that a part's declaration gives, in its order.
func (t *Text) NumbersOf(part string) ([]GivenNumber, error) {
	f, err := t.find(part)
	if err != nil {
		return nil, err
	}
	table := declarationOf(f.Keyword.Text)
	var list []GivenNumber
	if x := outright(f.Declaration, "at"); x != nil {
		list = t.coordinates(list, x, f.scope, Place{Part: part, Property: "at"})
	}
	for i := range f.Body {
		q := &f.Body[i]
		entry := propertyOf(table, wordOf(table, q), t.hostOf(f.Declaration))
		if entry == nil {
			continue
		}
		for n := range max(len(entry.Arguments), len(q.Arguments)) {
			arg, x := entryOf(entry, n), syntax.Expression(nil)
			if arg != nil {
				x = argumentOf(entry, q, n)
			}
			if x == nil {
				continue
			}
			at := Place{Part: part, Property: entry.Word, Argument: n}
			label := entry.Word
			if arg.Link != "" && !arg.List {
				label += " " + arg.Link
			}
			g := GivenNumber{Place: at, Label: label, Text: x.Span().Text(), Dim: arg.Dim}
			switch arg.Kind {
			case eval.Measure:
			case eval.Whole:
				g.Dim = quantity.Number
			case eval.Bearing:
				g.Dim = quantity.Angle
			case eval.Place:
				list = t.coordinates(list, x, f.scope, at)
				continue
			default:
				continue
			}
			list = append(list, g)
		}
	}
	return list, nil
}

// coordinates adds the coordinates of a point that is written as one.
func (t *Text) coordinates(list []GivenNumber, x syntax.Expression, sc *scope, at Place) []GivenNumber {
	s := &setter{Text: t}
	y, _, err := s.point(x, sc)
	p, ok := y.(*syntax.Point)
	if err != nil || !ok {
		return list
	}
	for i, c := range p.Coordinates {
		at.Coordinate = i
		list = append(list, GivenNumber{Place: at, Label: at.Property + " " + [...]string{"x", "y", "z"}[min(i, 2)], Text: c.Span().Text(), Dim: quantity.Length})
	}
	return list
}
