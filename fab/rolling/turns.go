package rolling

import (
	"fmt"
	"math"
	"strconv"

	"stabile/param/quantity"
)

// Turns are turns of a screw, in parts that a person can set by the handle: a
// number of eighths, twelfths or sixteenths.
type Turns struct {
	Parts int // may be negative
	Of    int // to a turn; 0 where turns are not known
}

// Turns returns the number of turns.
func (t Turns) Turns() float64 {
	if t.Of == 0 {
		return 0
	}
	return float64(t.Parts) / float64(t.Of)
}

// String returns whole turns and the rest: "3-5/8", "1/4", "2", "5-4/12". Eighths
// and sixteenths are in lowest terms, as on a rule; twelfths are left as they are,
// as on a clock's face.
func (t Turns) String() string {
	if t.Of == 0 {
		return ""
	}
	if t.Of&(t.Of-1) == 0 {
		return quantity.Fraction(t.Turns(), t.Of)
	}
	sign, n := "", t.Parts
	if n < 0 {
		sign, n = "-", -n
	}
	switch whole, part := n/t.Of, n%t.Of; {
	case part == 0:
		return sign + strconv.Itoa(whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, part, t.Of)
	default:
		return fmt.Sprintf("%s%d-%d/%d", sign, whole, part, t.Of)
	}
}

// turns returns the nearest that can be set to a travel in mm, by a screw of the
// given pitch. A travel beyond all bounds has none.
func turns(travel, pitch float64, of int) Turns {
	n := math.Round(travel / pitch * float64(of))
	if of == 0 || !(math.Abs(n) < 1e6) {
		return Turns{}
	}
	return Turns{int(n), of}
}

// notches are the parts of a turn that are tried, the coarsest first.
func notches() [3]int { return [...]int{8, 12, 16} }

// fine is the share of the diameter that setting a screw to the nearest part may
// cost, where one of the notches keeps to it: as near as the yield of the sheet
// is known, and closer than the check that follows.
const fine = 0.01

// notch returns the parts of a turn to set a screw by, if turning it once changes
// the finished diameter by the given share.
func notch(change float64) int {
	n := notches()
	for _, of := range n {
		if change/float64(2*of) <= fine {
			return of
		}
	}
	return n[len(n)-1]
}
