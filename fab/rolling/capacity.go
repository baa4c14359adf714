package rolling

import (
	"math"

	"stabile/fab/flat"
	"stabile/fab/shop"
	"stabile/param/design"
)

// real returns a machine's capacity with the yield that the sheet of its rating
// really has, so that like is set against like.
func real(c design.Capacity) design.Capacity {
	a := c.Is()
	c.Yield = a.RolledYield(c.Yield)
	return c
}

// isRated reports whether a machine says what it takes.
func isRated(c design.Capacity) bool {
	return positive(c.Thickness, c.Width, real(c).Yield)
}

// share returns how much a sheet across mm wide uses of a machine as a share of its
// rating, 0 where the rating is not known.
func share(c design.Capacity, m *design.Metal, across float64) float64 {
	if !isRated(c) {
		return 0
	}
	return shop.Load(real(c.For(m)), m.Thickness, yieldOf(m), across)
}

// takes reports whether the machine takes such a sheet.
func takes(c design.Capacity, m *design.Metal, across float64) bool {
	return shop.Takes(real(c.For(m)), m.Thickness, yieldOf(m), across)
}

// hair is the relative error that rounding may leave in a sheet that is just as
// wide and thick as rated.
const hair = 1e-9

// mostCourses is the largest number of narrower pieces that is worth naming.
const mostCourses = 12

// courses returns the fewest equal courses into which a sheet is to be split
// along the rolls so that the machine takes it; 0 if no number helps.
func courses(c design.Capacity, m *design.Metal, across float64) int {
	for n := 1; n <= mostCourses; n++ {
		if takes(c, m, across/float64(n)) {
			return n
		}
	}
	return 0
}

// CoursesOf returns the fewest courses in which the post of a blank is to be rolled so that
// rolls take its sheet; 0 where they take it as it is or in no number, and for other blanks.
func CoursesOf(rolls *design.Rolls, b *flat.Blank) int {
	p, rolled := PieceOf(b)
	if rolls == nil || !rolled || p.Courses == 0 {
		return 0
	}
	c := rolls.For(p.Metal)
	if n := courses(c, p.Metal, p.Across); isRated(c) && n > 1 {
		return n * p.Courses
	}
	return 0
}

// thinner returns the thickest sheet of the metal that the machine takes at that
// width: the gauge and its thickness in mm where the metal goes by gauge, or a
// gauge of 0 and the limit itself. The thickness is 0 if there is none.
func thinner(c design.Capacity, m *design.Metal, across float64) (gauge int, thickness float64) {
	c = c.For(m)
	if across > c.Width*(1+hair) || !isRated(c) {
		return 0, 0
	}
	if m.Gauge == 0 {
		// The load goes with the square of the thickness.
		limit := m.Thickness / math.Sqrt(share(c, m, across))
		return 0, min(limit, shop.Thickest*c.Thickness, m.Thickness)
	}
	family := m.Is().Family
	_, last := family.Gauges()
	for g := m.Gauge + 1; g <= last; g++ {
		t, err := family.Thickness(g)
		thin := *m
		thin.Thickness = t
		if err == nil && takes(c, &thin, across) {
			return g, t
		}
	}
	return 0, 0
}

// Least returns the smallest outside diameter in mm to which the rolls bring the
// metal. A closed piece must come off over the end of the roll, for which the
// shop says what it takes; no piece comes out tighter than sheet that springs
// back from lying on the roll. 0 if nothing is known, +Inf if sheet springs back
// flat from the roll.
func Least(r *design.Rolls, s Strip, closed bool) float64 {
	least := 0.0
	if roll := r.PinchDiameter / 2; positive(roll) {
		least = 2/s.Released(1/(roll+s.Thickness/2)) + s.Thickness
	}
	if closed {
		least = max(least, r.Least)
	}
	return least
}

// easy returns the outside diameter in mm from which closed work comes off the
// rolls without a struggle, where the shop does not say: 1.5 times the roll's
// diameter inside for light sheet to 2 times for the heaviest. Common practice,
// no source.
func easy(r *design.Rolls, thickness, share float64) float64 {
	if r.Least > 0 {
		return 0
	}
	return (1.5+0.5*min(share, 1))*r.PinchDiameter + 2*thickness
}
