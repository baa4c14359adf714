package sheets

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/param/design"
)

// A kind is blanks of one metal and one outline: on the sheet they are one as
// good as another.
type kind struct {
	metal   *design.Metal
	outline []r2.Vec // of the first of them, in its own flat
	area    float64  // mm2, inside the outline
	many    []batch
	count   int

	lie     pose     // how it lies in its rectangle
	laid    []r2.Vec // the outline there
	w, h    float64  // the rectangle
	sheared bool     // the outline is the rectangle: nothing is cut by hand
	edges   *sides   // nil until needed
}

// A batch is a number of pieces of one blank.
type batch struct {
	blank int
	count int
}

// alike is how far, in mm, two outlines may be apart and still be cut alike:
// finer than any of them can be cut.
const alike = 0.01

// gather returns the kinds among the blanks, in the order in which they come.
// Where turning is not allowed a blank lies as it is drawn, its y along the
// rolling direction; else in its smallest rectangle.
func gather(blanks []*flat.Blank, turn func(*design.Metal) bool) []*kind {
	var kinds []*kind
	type key struct {
		metal  *design.Metal
		points int
	}
	at := map[key][]*kind{}
	for i, b := range blanks {
		if b.Quantity <= 0 || b.Metal == nil || len(b.Outline) < 3 {
			continue
		}
		k := key{b.Metal, len(b.Outline)}
		n := slices.IndexFunc(at[k], func(k *kind) bool {
			return slices.EqualFunc(k.outline, b.Outline, func(p, q r2.Vec) bool { return r2.Norm2(r2.Sub(p, q)) <= alike*alike })
		})
		if n < 0 {
			n = len(at[k])
			fresh := &kind{metal: b.Metal, outline: b.Outline, area: area(b.Outline)}
			fresh.lay(turn(b.Metal))
			fresh.sheared = fresh.sheared || b.Filed() && len(b.Ordinates) == 0 && b.Fan == nil
			at[k] = append(at[k], fresh)
			kinds = append(kinds, fresh)
		}
		at[k][n].many = append(at[k][n].many, batch{i, b.Quantity})
		at[k][n].count += b.Quantity
	}
	return kinds
}

// split takes a number of pieces off the kind, the last ones, and returns them as a
// kind of their own.
func (k *kind) split(n int) *kind {
	other := *k
	other.count, other.many = n, nil
	k.count -= n
	for i := len(k.many) - 1; i >= 0 && n > 0; i-- {
		take := min(n, k.many[i].count)
		if take == 0 {
			continue
		}
		other.many = append(other.many, batch{k.many[i].blank, take})
		k.many[i].count -= take
		n -= take
	}
	slices.Reverse(other.many)
	return &other
}

// area returns the area inside a counter-clockwise outline.
func area(outline []r2.Vec) (a float64) {
	q := outline[len(outline)-1]
	for _, p := range outline {
		a += float64(q.X*p.Y) - float64(q.Y*p.X)
		q = p
	}
	return a / 2
}

// asDrawn is the angle by which a blank's y comes to lie along the sheet's x.
const asDrawn = -math.Pi / 2

// worth is the least share of its rectangle's area that a blank must save to be
// laid askew, where its sides no longer help to lay it out.
const worth = 0.01

// square is the share of its rectangle that a blank fills when the rectangle is
// all that there is to cut: what is beside it is within the reach of alike.
const square = 1 - 1e-5

func (k *kind) lay(turn bool) {
	k.lie, k.w, k.h = standing(k.outline, asDrawn)
	if k.area >= square*k.w*k.h {
		k.sheared = true
	} else if turn && k.area < k.w*k.h*(1-worth) { // no rectangle is smaller than what is in it
		if q, w, h := smallest(k.outline); w*h < k.w*k.h*(1-worth) {
			k.lie, k.w, k.h = q, w, h
			k.sheared = k.area >= square*k.w*k.h
		}
	}
	k.laid = k.lie.all(k.outline)
}

// smallest returns how an outline lies in its smallest rectangle. One side of
// that lies on a side of the outline's hull: Freeman and Shapira, "Determining
// the minimum-area encasing rectangle for an arbitrary closed curve",
// Communications of the ACM 18 (1975).
// The corners that lie farthest along a side, from it and against it go round with
// the sides: Toussaint, "Solving geometric problems with the rotating calipers" (1983).
func smallest(outline []r2.Vec) (best pose, w, h float64) {
	hull := design.Hull(outline)
	least := math.Inf(1)
	angle := asDrawn
	next := func(i int) int {
		if i++; i == len(hull) {
			return 0
		}
		return i
	}
	// last goes on from a corner for as long as the next lies no less far in a direction.
	last := func(i int, way r2.Vec) int {
		for range hull {
			if r2.Dot(r2.Sub(hull[next(i)], hull[i]), way) < 0 {
				break
			}
			i = next(i)
		}
		return i
	}
	along, over, against := 0, none, none
	for i, p := range hull {
		d := r2.Sub(hull[next(i)], p)
		n := math.Sqrt(r2.Norm2(d))
		if n == 0 {
			continue
		}
		u := r2.Scale(1/n, d)
		if over == none {
			along = i
		}
		if along = last(along, u); over == none {
			over = along
		}
		if over = last(over, r2.Vec{X: -u.Y, Y: u.X}); against == none {
			against = over
		}
		against = last(against, r2.Scale(-1, u))
		high, low := r2.Dot(r2.Sub(hull[along], p), u), r2.Dot(r2.Sub(hull[against], p), u)
		if a := (high - low) * r2.Cross(u, r2.Sub(hull[over], p)); a < least*(1-1e-9) {
			least, angle = a, -math.Atan2(d.Y, d.X)
		}
	}
	// The longer side along x, as a blank that is longer than wide lies.
	best, w, h = standing(outline, angle)
	if h > w {
		best, w, h = standing(outline, angle+asDrawn)
	}
	return best, w, h
}
