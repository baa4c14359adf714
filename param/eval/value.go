package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/quantity"
)

// A kind reports what a value is.
type kind uint8

const (
	failed   kind = iota // could not be worked out; the mistake has been reported
	number               // a quantity
	boolean              // yes or no
	text                 // a quoted text or a word
	point                // a place in plan or in space
	thing                // a part
	sheet                // a metal
	function             // the name of a function
)

// A value is what an expression comes to. The zero value is a failed one.
//
// A value that depends on a result that is not known yet is unknown: it has a
// kind and a dimension, so that a requirement can be checked for sense when it
// is read, but no number.
//
// A number that leans on a definition in a file of other units is abroad: where
// it is plain it does not say how long it would be as a length.
type value struct {
	kind    kind
	unknown bool
	abroad  *binding
	yes     bool
	q       quantity.Quantity
	text    string
	point   *coordinates
	part    *placed
	metal   *metal
}

// Coordinates are those of a point; a point in plan has two. Each is a length
// or a plain number that stands for one.
type coordinates struct {
	n int
	q [3]quantity.Quantity
}

// leanOn marks a value as depending on others as well. With a dimension of its
// own it is abroad no more.
func (v value) leanOn(others ...value) value {
	for _, o := range others {
		v.unknown = v.unknown || o.unknown
		if v.abroad == nil {
			v.abroad = o.abroad
		}
	}
	if v.kind == number && v.q.Dim != quantity.Number {
		v.abroad = nil
	}
	return v
}

func plain(x float64) value { return value{kind: number, q: quantity.Quantity{Number: x}} }

func millimetres(mm float64) value {
	return value{kind: number, q: quantity.Quantity{Number: mm, Dim: quantity.Length}}
}

// coordinate returns one coordinate of a point.
func (v value) coordinate(i int) value { return value{kind: number, q: v.point.q[i]}.leanOn(v) }

func space(v r3.Vec) value {
	c := &coordinates{n: 3}
	for i, mm := range [3]float64{v.X, v.Y, v.Z} {
		c.q[i] = quantity.Quantity{Number: mm, Dim: quantity.Length}
	}
	return value{kind: point, point: c}
}

// is reports whether the value is a quantity of the given dimension.
func (v value) is(d quantity.Dimension) bool { return v.kind == number && v.q.Dim == d }

// String returns what the value is in the words of a diagnostic.
func (v value) String() string {
	switch v.kind {
	case number:
		return v.q.Dim.String()
	case boolean:
		return "a condition"
	case text:
		return "a text"
	case point:
		if v.point.n == 2 {
			return "a point in plan"
		}
		return "a point in space"
	case thing:
		return "a part"
	case sheet:
		return "a metal"
	case function:
		return "a function"
	}
	return "nothing"
}

// sameness is how far two numbers may differ, as a share of the larger, and
// still count as the same in a comparison: a thousand times the rounding that
// a long chain of operations gathers, and far less than anything measured.
const sameness = 1e-10

// order compares two numbers, taking them as the same within sameness.
func order(a, b float64) int {
	switch {
	case math.Abs(a-b) <= sameness*max(math.Abs(a), math.Abs(b)):
		return 0
	case a < b:
		return -1
	}
	return 1
}

// whole returns the whole number that x is, within rounding.
func whole(x float64) (int, bool) {
	n := math.Round(x)
	return int(n), math.Abs(x) <= mostWhole && math.Abs(x-n) <= sameness*max(1, math.Abs(x))
}

// mostWhole is the greatest count or index that means anything here.
const mostWhole = 1e9
