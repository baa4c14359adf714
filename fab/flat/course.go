package flat

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
)

// A post that is rolled in courses is cut across its axis at levels, between which each
// course is a tube or a taper of its own, with its seam turned by the stagger.

// A course is a length of a post that is rolled by itself. The zero course is all of it.
type course struct {
	number int // from 1 at the foot; 0 where it is all
	of     int // how many there are
	end    [2]bool
	pieces int // that each is cut in; 0 for one
}

// index counts the course from 0.
func (c *course) index() int { return max(0, c.number-1) }

// ownEnd reports whether a course has an end of the post itself.
func (c *course) ownEnd(i int) bool { return c.number == 0 || c.end[i] }

// name names the blank of a course, or its piece where it is in several.
func (c *course) name(b *Blank, part string, piece, of int) {
	b.Name, b.Courses = part, max(1, c.of)
	if c.number > 0 {
		b.Label = part + " course"
		b.Numbers = []string{strconv.Itoa(c.number)}
		b.Name = b.Written()
	}
	if of > 1 {
		b.Label, b.Numbers = "", nil
		b.Name = fmt.Sprintf("%s %d of %d", b.Name, piece, of)
	}
}

// A wall is a piece of a tube's wall as its blank has it: between two angles from the
// seam, and between two heights where it is a course.
type wall struct {
	tube
	from, to  float64 // rad
	low, high float64 // mm; infinite at the post's own ends
	blank     int
}

// middle returns the angle whose radial line is upright on the flat.
func (w *wall) middle() float64 { return (w.from + w.to) / 2 }

// laid is a course whose blanks are made: they follow each other, one for each piece.
type laid struct {
	ends         *[2]trim
	first, count int
}

// CoursesFor returns the fewest courses in which the post of a blank is to be rolled so
// that those of this blank's length pass, given by their sizes in mm as the blank's are;
// 0 for other blanks, and where no number helps.
func (b *Blank) CoursesFor(pass func(width, length float64) bool) int {
	if b.Courses == 0 {
		return 0
	}
	arc := 0.0 // what a sector's arcs add to its length
	if f := b.Fan; f != nil {
		arc = f.Large * (1 - math.Cos(min(f.Angle, math.Pi)/2))
	}
	for n := 2; n*b.Courses <= mostCourses; n++ {
		if pass(b.Width, (b.Length-arc)/float64(n)+arc) {
			return n * b.Courses
		}
	}
	return 0
}

// levels returns the heights at which the post is parted into courses, from the foot up;
// none where it is in one length. It reports false, and says so, where it cannot be.
func (d *developer) levels(ends *[2]trim) ([]float64, bool) {
	p := d.part.Post
	if !p.InCourses() {
		return nil, true
	}
	low, rise := ends[design.Foot].reach()
	fall, high := ends[design.Head].reach()
	n := p.Courses
	if n == 0 {
		n = int(math.Ceil((high-low)/p.CourseLength - onEdge))
	}
	// A round seam keeps off what is trimmed.
	clear := design.SeamThicknesses*d.part.Metal.Thickness + p.Gap/2
	for ; n <= mostCourses; n++ {
		if n < 2 {
			return nil, true
		}
		each := (high - low) / float64(n)
		first, last := max(low+each, rise+clear), min(high-each, fall-clear)
		if n == 2 {
			first = min(first, fall-clear)
			last = first
		}
		if first > last+onEdge || first < rise+clear-onEdge {
			break
		}
		list := make([]float64, n-1)
		longest := max(first-low, high-last)
		for k := range list {
			list[k] = first
			if n > 2 {
				list[k] += (last - first) * float64(k) / float64(n-2)
				longest = max(longest, (last-first)/float64(n-2))
			}
		}
		if p.Courses == 0 && longest > p.CourseLength+square {
			continue
		}
		return list, true
	}
	d.fail("courses", "take fewer courses, or longer ones", "cannot be parted into courses so short: round it, its foot is cut over %s and its head over %s, and no round seam may run into either",
		d.length(rise-low), d.length(high-fall))
	return nil, false
}

// mostCourses is the greatest number of courses of a post.
const mostCourses = 100

// inCourses makes the blanks of a post in courses that are parted at levels. The head is
// traced again from the seam of its own course. It returns the lowest and the highest.
func (d *developer) inCourses(ends *[2]trim, on *[2]meeting, levels []float64) (lowest, highest laid) {
	p := d.part.Post
	whole := ends[0].tube
	n := len(levels) + 1
	parts := make([][2]trim, n)
	tubes := make([]tube, n)
	for k := range n {
		t := &tubes[k]
		*t = *whole
		t.seam = p.CourseSeam(k)
		round := t.round()
		c := course{number: k + 1, of: n, end: [2]bool{k == 0, k == n-1}}
		e := &parts[k]
		for i := range e {
			e[i].tube, e[i].head, e[i].hand = t, i == 1, ends[i].hand
			switch {
			case !c.end[i]:
				y := levels[k-1+i] + (p.Gap-d.shrink)/2*float64(1-2*i)
				e[i].free = true
				e[i].flush(y, &round)
			case i == 0 || t.seam == whole.seam:
				e[i] = ends[i]
				e[i].tube = t
			default:
				e[i].run(&on[i], &round)
			}
		}
		first, mass, cg := len(d.Blanks), d.Mass, d.CG
		d.roll(e, on, c)
		if len(d.wrong) > 0 {
			return
		}
		d.CG = balanced(mass, cg, d.Mass-mass, d.CG)
		made := laid{e, first, len(d.Blanks) - first}
		if k == 0 {
			lowest = made
		}
		highest = made
	}
	for _, y := range levels {
		d.Rounds = append(d.Rounds, y*whole.cos+(whole.outer-whole.mean)*whole.sin)
		d.sew(Seam{Kind: CourseSeam, Count: 1, Length: 2 * math.Pi * whole.girth(y), Bearing: whole.seam})
	}
	return lowest, highest
}

// gatherCourses counts those courses together that are cut, marked and bent alike.
func gatherCourses(made *Developed) {
	if len(made.Rounds) == 0 {
		return
	}
	var list []Blank
	for _, b := range made.Blanks {
		k := slices.IndexFunc(list, func(o Blank) bool { return b.Label != "" && b.Label == o.Label && courseAlike(&o, &b) })
		if k < 0 {
			list = append(list, b)
			continue
		}
		o := &list[k]
		o.Quantity++
		o.Numbers = append(o.Numbers, b.Numbers...)
		o.Name = o.Written()
	}
	made.Blanks = list
}

// courseAlike reports whether two courses are alike but for where along the post they
// are.
func courseAlike(a, b *Blank) bool {
	if a.Fan != nil || b.Fan != nil || len(a.Marks) != len(b.Marks) || len(a.Ordinates)+len(b.Ordinates) > 0 || !reflect.DeepEqual(a.Notes, b.Notes) {
		return false
	}
	low, _ := bounds(a.Outline)
	other, _ := bounds(b.Outline)
	rise := r2.Vec{Y: low.Y - other.Y}
	moved := func(points []r2.Vec) []r2.Vec {
		out := make([]r2.Vec, len(points))
		for i, q := range points {
			out[i] = r2.Add(q, rise)
		}
		return out
	}
	c := Blank{Outline: moved(b.Outline), Holes: slices.Clone(b.Holes)}
	for i := range c.Holes {
		c.Holes[i].Outline = moved(c.Holes[i].Outline)
	}
	if !cutAlike(a, &c) {
		return false
	}
	for i := range a.Marks {
		m, n := &a.Marks[i], &b.Marks[i]
		lines := [2]Blank{{Outline: append([]r2.Vec{m.From, m.To}, m.Path...)}, {Outline: append(moved([]r2.Vec{n.From, n.To}), moved(n.Path)...)}}
		if m.Kind != n.Kind || m.Part != n.Part || m.Bearing != n.Bearing || !cutAlike(&lines[0], &lines[1]) {
			return false
		}
	}
	return true
}
