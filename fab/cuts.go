package fab

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
)

// alike is how far, in mm, two blanks may be apart and still count as the same:
// finer than any of them can be cut.
const alike = 0.01

// A Cut is one kind of blank, and all that are made like it.
type Cut struct {
	Blank    flat.Blank // the first of them
	Quantity int        // of pieces in all
	Names    []string   // what is written on the pieces, each once
	Parts    []string   // the parts that they are for, each once
	Turned   []string   // those of Names whose pieces are turned end for end, so that their foot is the head of the blank
}

// cuts returns every different blank once, in the order of the parts. Blanks
// are the same when their metal, forming, outline, holes and marks are: turned
// or mirrored ones are not, but for the tubes of a ring. A mark counts with what is written beside it, since
// a piece that is turned to its place by other bearings is drawn otherwise; but
// not the name of what stands on it, which is then left out.
func (j *Job) cuts() []Cut {
	var cuts []Cut
	type key struct {
		metal  string
		shape  flat.Shape
		x, y   int // the bounding rectangle, in whole mm
		points int
	}
	at := make(map[key][]int)
	for _, p := range j.Parts {
		for i := range p.Blanks {
			b := &p.Blanks[i]
			k := key{shape: b.Shape, points: len(b.Outline)}
			if b.Metal != nil {
				k.metal = b.Metal.Name
			}
			found := -1
			// A size within reach of the next whole mm may have fallen there.
			for _, x := range cellsOf(b.Width) {
				for _, y := range cellsOf(b.Length) {
					k.x, k.y = x, y
					for _, c := range at[k] {
						if found < 0 && same(&cuts[c].Blank, b) {
							found = c
						}
					}
				}
			}
			turned := false
			if found < 0 && p.Post != nil && p.Post.Ring != nil {
				found, turned = likeTube(cuts, b)
			}
			if found < 0 {
				found = len(cuts)
				cuts = append(cuts, Cut{Blank: *b})
				k.x, k.y = int(math.Floor(b.Width)), int(math.Floor(b.Length))
				at[k] = append(at[k], found)
			}
			c := &cuts[found]
			if turned {
				c.Turned = once(c.Turned, b.Name)
			} else {
				forget(&c.Blank, b)
			}
			c.Quantity += b.Quantity
			c.Names = once(c.Names, b.Name)
			c.Parts = once(c.Parts, b.Part)
		}
	}
	return cuts
}

// forget takes the name off the marks of what stands on a blank where it is not
// the same on another that is cut like it.
func forget(first, other *flat.Blank) {
	cloned := false
	for i := range first.Marks {
		if first.Marks[i].Part != other.Marks[i].Part {
			if !cloned {
				first.Marks = slices.Clone(first.Marks)
				cloned = true
			}
			first.Marks[i].Part = ""
		}
	}
}

// cellsOf returns the whole mm in which a size within alike of x may lie.
func cellsOf(x float64) []int {
	lo, hi := int(math.Floor(x-alike)), int(math.Floor(x+alike))
	if lo == hi {
		return []int{lo}
	}
	return []int{lo, hi}
}

// once appends a name that is not the last one. The pieces of a part come
// together, so that a name does not come back later.
func once(names []string, name string) []string {
	if len(names) > 0 && names[len(names)-1] == name || slices.Contains(names, name) {
		return names
	}
	return append(names, name)
}

// same reports whether two blanks are cut, marked and formed alike.
func same(a, b *flat.Blank) bool {
	close := func(x, y float64) bool { return math.Abs(x-y) <= alike }
	if a.Shape != b.Shape || !close(a.Width, b.Width) || !close(a.Length, b.Length) || !close(a.Allowance, b.Allowance) ||
		a.Forming.How != b.Forming.How || a.Forming.Axis != b.Forming.Axis || !close(a.Forming.MeanRadius, b.Forming.MeanRadius) || a.Forming.Egg != b.Forming.Egg ||
		len(a.Holes) != len(b.Holes) || len(a.Marks) != len(b.Marks) || !near(a.Outline, b.Outline) {
		return false
	}
	if a.Metal != b.Metal && (a.Metal == nil || b.Metal == nil || *a.Metal != *b.Metal) {
		return false
	}
	for i := range a.Holes {
		if !near(a.Holes[i].Outline, b.Holes[i].Outline) {
			return false
		}
	}
	for i := range a.Marks {
		p, q := a.Marks[i], b.Marks[i]
		if p.Kind != q.Kind || !written(&p, &q) || p.Piece != q.Piece || !near(p.Path, q.Path) || !near([]r2.Vec{p.From, p.To}, []r2.Vec{q.From, q.To}) {
			return false
		}
	}
	return true
}

// written reports whether the same is written beside two marks of one kind, but for
// the name of what stands there.
func written(p, q *flat.Mark) bool {
	close := func(x, y float64) bool { return math.Abs(x-y) <= 1e-9 }
	return p.Equator == q.Equator && close(p.FromSeam, q.FromSeam) && (p.Kind != flat.Witness || close(p.Bearing, q.Bearing))
}

// near reports whether two rows of points are the same, point by point.
func near(a, b []r2.Vec) bool {
	return slices.EqualFunc(a, b, func(p, q r2.Vec) bool { return r2.Norm2(r2.Sub(p, q)) <= alike*alike })
}
