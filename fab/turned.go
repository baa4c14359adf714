package fab

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
)

// likeTube returns which of the cuts a ring's tube is cut like, as it is or turned end for end;
// -1 for none. Its curves are drawn for a place of its own, so that their points may be others.
func likeTube(cuts []Cut, b *flat.Blank) (found int, turned bool) {
	like := func(b *flat.Blank) int {
		return slices.IndexFunc(cuts, func(c Cut) bool { return cutLike(&c.Blank, b) })
	}
	if found = like(b); found >= 0 {
		return found, false
	}
	if t, ok := turnedEnd(b); ok {
		found = like(&t)
	}
	return found, found >= 0
}

// turnedEnd returns the blank of a ring's tube as it is when it is turned end for end, and
// reports whether it may be: nothing on it says which end is which. The tubes of a ring have
// their seams to one side of the middle of their insides and to the other by turns, so that
// each is like its neighbour turned.
func turnedEnd(b *flat.Blank) (flat.Blank, bool) {
	if len(b.Holes) > 0 || len(b.Outline) == 0 {
		return flat.Blank{}, false
	}
	box := r2.Box{Min: b.Outline[0], Max: b.Outline[0]}
	for _, p := range b.Outline {
		box.Min = r2.Vec{X: min(box.Min.X, p.X), Y: min(box.Min.Y, p.Y)}
		box.Max = r2.Vec{X: max(box.Max.X, p.X), Y: max(box.Max.Y, p.Y)}
	}
	sum := r2.Add(box.Min, box.Max)
	t := *b
	t.Outline = make([]r2.Vec, len(b.Outline))
	for i, p := range b.Outline {
		t.Outline[i] = r2.Sub(sum, p)
	}
	t.Marks = slices.Clone(b.Marks)
	for i := range t.Marks {
		m := &t.Marks[i]
		if m.Kind == flat.Standing || m.Path != nil {
			return flat.Blank{}, false
		}
		m.From, m.To = r2.Sub(sum, m.To), r2.Sub(sum, m.From)
		if m.Bearing > 0 {
			m.Bearing = 2*math.Pi - m.Bearing
		}
	}
	slices.SortStableFunc(t.Marks, func(p, q flat.Mark) int { return cmp.Compare(p.Bearing, q.Bearing) })
	return t, true
}

// cutLike reports whether two blanks are cut, marked and formed alike. The points of their
// curves need not be the same, but each lies on the other's.
func cutLike(a, b *flat.Blank) bool {
	if a.Shape != b.Shape || len(a.Marks) != len(b.Marks) || !follows(a.Outline, b.Outline) || !follows(b.Outline, a.Outline) {
		return false
	}
	t := *b
	t.Outline = a.Outline
	return same(a, &t)
}

// follows reports whether all points of an outline lie on another one, which is drawn to
// within flat.Chord.
func follows(outline, other []r2.Vec) bool {
	return !slices.ContainsFunc(outline, func(p r2.Vec) bool {
		for i, from := range other {
			side := r2.Sub(other[(i+1)%len(other)], from)
			along := 0.0
			if n := r2.Norm2(side); n > 0 {
				along = max(0, min(1, r2.Dot(r2.Sub(p, from), side)/n))
			}
			if r2.Norm(r2.Sub(p, r2.Add(from, r2.Scale(along, side)))) <= flat.Chord+alike {
				return false
			}
		}
		return true
	})
}
