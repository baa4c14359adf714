package assembly

import (
	"math"

	"stabile/param/design"
)

const (
	// tackDistance is the distance of tacks, in mm, where the shop says none;
	// thinTack the most, in thicknesses of the sheet, since thin sheet pulls open
	// between far tacks; leastTack the least in mm. Common practice, no source.
	tackDistance = 40.0
	thinTack     = 25.0
	leastTack    = 10.0

	// ringTacks is the least number round a ring: two pairs of opposite points.
	ringTacks = 4

	// mostTacks is the most that are listed on one weld; longer ones are parted
	// by it at a wider distance.
	mostTacks = 2000
)

// spacing returns the greatest distance in mm from tack to tack: the shop's, or
// closer where the sheet is thin.
func spacing(w *design.Welding, thickness float64) float64 {
	d := tackDistance
	if w != nil && w.Tack > 0 {
		d = w.Tack
	}
	return max(leastTack, min(d, thinTack*thickness))
}

// A From is what the places of tacks are measured from.
type From int

// What tacks are measured from.
const (
	FromFoot   From = iota // mm along a tube's seam from its foot, or across a ring from its wide edge
	FromMiddle             // mm from the middle of a seam, both ways
	RoundPost              // rad, bearings of the tube standing upright
	RoundPole              // rad about a ball's pole, from its prime direction
	RoundUp                // rad, bearings in plan
)

// String says what is measured.
func (f From) String() string {
	return [...]string{
		FromFoot: "from the foot", FromMiddle: "from the middle",
		RoundPost: "bearings round the post", RoundPole: "round the pole", RoundUp: "bearings",
	}[f]
}

// Angles reports whether the places are angles.
func (f From) Angles() bool { return f >= RoundPost }

// Tacks are where a weld is tacked, in the order of tacking: each new one where
// the widest stretch is still free, opposite points of a ring one after the
// other, so that what one tack pulls the next one pulls back. Common practice,
// no source.
type Tacks struct {
	Spacing float64 // mm, from tack to tack
	From    From
	At      []float64 // mm or rad, by From
}

// Number returns how many tacks there are.
func (t Tacks) Number() int { return len(t.At) }

// tacks sets the tacks of a weld, at most the given distance apart.
func tacks(w Weld, apart float64) Tacks {
	l := w.Length
	if !(l > 0) || math.IsInf(l, 0) {
		return Tacks{}
	}
	apart = max(apart, l/mostTacks)
	switch {
	case w.Kind == TubeSeam || w.Kind == RingSeam || w.Kind == LieJoint:
		// Ends first, then halving.
		n := int(math.Ceil(l/apart)) + 1
		t := Tacks{Spacing: l / float64(n-1), From: FromFoot, At: []float64{0, l}}
		for _, k := range halving(n - 1) {
			t.At = append(t.At, t.Spacing*float64(k))
		}
		return t
	case w.Kind == GoreSeam || w.Arc:
		// The middle first, then both tips, which are narrow and burn away, then
		// halving, both ways alike.
		half := int(math.Ceil(l / 2 / apart))
		t := Tacks{Spacing: l / 2 / float64(half), From: FromMiddle, At: []float64{0, l / 2, -l / 2}}
		for _, k := range halving(half) {
			s := t.Spacing * float64(k)
			t.At = append(t.At, s, -s)
		}
		return t
	}
	pairs := (max(ringTacks, int(math.Ceil(l/apart))) + 1) / 2
	n := 2 * pairs
	t := Tacks{Spacing: l / float64(n), From: RoundPole}
	switch w.Kind {
	case PostJoint, DiscEdge, CourseSeam, DoublerEdge, Thread:
		t.From = RoundPost
	case RestJoint, SeatJoint:
		t.From = RoundUp
	}
	// Half a step from the seam, so that none falls on its end.
	step := 2 * math.Pi / float64(n)
	first := w.Bearing + step/2
	for _, k := range append([]int{0}, halving(pairs)...) {
		a := turned(first + step*float64(k))
		t.At = append(t.At, a, turned(a+math.Pi))
	}
	return t
}

// halving returns the whole numbers between 0 and n in an order that halves what
// is left free.
func halving(n int) []int {
	if n < 2 {
		return nil
	}
	order := make([]int, 0, n-1)
	type stretch struct{ from, to int }
	queue := make([]stretch, 1, n)
	queue[0] = stretch{0, n}
	for i := 0; i < len(queue); i++ {
		s := queue[i]
		if s.to-s.from < 2 {
			continue
		}
		mid := (s.from + s.to) / 2
		order = append(order, mid)
		queue = append(queue, stretch{s.from, mid}, stretch{mid, s.to})
	}
	return order
}

// turned returns an angle in [0, 2 pi).
func turned(a float64) float64 {
	if a = math.Mod(a, 2*math.Pi); a < 0 {
		a += 2 * math.Pi
	}
	return a
}
