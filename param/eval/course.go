package eval

import (
	"math"

	"stabile/param/design"
	"stabile/param/quantity"
)

// Bounds on the courses of a post: more of them, or shorter ones, are no sheet-metal
// work.
const (
	mostCourses = 100
	leastCourse = 10.0 // mm
)

// staggered is how far round the seam of every other course is turned where the design
// says nothing.
const staggered = math.Pi / 2

// inCourses takes the courses that a post is rolled in.
func (b *body) inCourses(post *design.Post) bool {
	g := b.find("courses")
	if g == nil {
		return true
	}
	at := g.args[0].at
	post.Stagger = staggered
	if b.has("stagger") {
		post.Stagger = b.number("stagger")
	}
	v := g.args[0].value
	if v.is(quantity.Length) {
		post.CourseLength = v.q.Number
		if !(post.CourseLength >= leastCourse && post.Length/post.CourseLength <= mostCourses) {
			b.report(at, "make the courses longer, such as "+b.up(post.Length/3),
				"courses of %s are too short for %s, %s long", b.mm(post.CourseLength), b.what, b.mm(post.Length))
			return false
		}
		return true
	}
	n := int(v.q.Number)
	if n > 1 && post.Length/float64(n) < leastCourse {
		b.report(at, "take fewer", "%d courses of %s would be shorter than %s", n, b.what, b.mm(leastCourse))
		return false
	}
	if n > 1 {
		post.Courses = n
	}
	return true
}
