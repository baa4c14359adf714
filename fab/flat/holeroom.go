package flat

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/source"
)

// A boundary is a closed line on a part from which a hole keeps.
type boundary struct {
	what string // in words, such as "the joint with post 'spur'"
	line []r3.Vec
	leg  float64      // mm that a weld beside it, or the wall within it, takes
	part *design.Part // that is joined there; nil for others
	ring bool         // metal lies on both of its sides, as where a tube is welded on; else none lies within
	belt bool         // it goes round the part, so that nothing is within it
	sphere
}

// A sphere is one that holds a line.
type sphere struct {
	center r3.Vec
	radius float64
}

func sphereOf(line []r3.Vec) (s sphere) {
	for _, x := range line {
		s.center = r3.Add(s.center, r3.Scale(1/float64(len(line)), x))
	}
	for _, x := range line {
		s.radius = max(s.radius, r3.Norm(r3.Sub(x, s.center)))
	}
	return s
}

// apart returns the least that lines in the two spheres are apart.
func (s sphere) apart(o sphere) float64 {
	return r3.Norm(r3.Sub(s.center, o.center)) - s.radius - o.radius
}

// roomForHoles reports holes that run into each other, into a joint, into an opening or into
// an edge, or leave less than the least width of sheet beside one.
func roomForHoles(d *design.Design, made []Developed, s *setting) (wrong source.List) {
	for i, p := range d.Parts {
		if len(made[i].Openings) == 0 {
			continue
		}
		list := s.boundaries(d, made, i)
		least := s.ligamentOf(p)
		said := make(map[*design.Hole]bool)
		var spheres []sphere
		for k := range made[i].Openings {
			o := &made[i].Openings[k]
			in := sphereOf(o.Edge)
			r := room{part: p, opening: o, sphere: in, least: least, units: s.units.Exact}
			for b := range list {
				r.beside(&list[b])
			}
			for j := range spheres {
				other := &made[i].Openings[j]
				if r.apart(spheres[j]) < least {
					what := "hole '" + other.Hole.Name + "'"
					if other.Hole == o.Hole {
						what = "its own far side"
					}
					r.beside(&boundary{what: what, line: other.Edge, sphere: spheres[j]})
				}
			}
			if p.Base != nil {
				r.onPlate(p.Base)
			}
			spheres = append(spheres, in)
			if r.text != "" && !said[o.Hole] {
				said[o.Hole] = true
				wrong.Add(o.Hole.Place(placeOf(o.Hole)), r.hint, "%s", r.text)
			}
		}
	}
	return wrong
}

// placeOf returns the property that says where a hole is.
func placeOf(h *design.Hole) string {
	for _, word := range [...]string{"at", "toward", "joint", "up"} {
		if _, ok := h.Props[word]; ok {
			return word
		}
	}
	return "diameter"
}

// boundaries returns the lines on a part from which its holes keep.
func (s *setting) boundaries(d *design.Design, made []Developed, i int) (list []boundary) {
	p := d.Parts[i]
	add := func(b boundary) {
		if len(b.line) > 0 {
			b.sphere = sphereOf(b.line)
			list = append(list, b)
		}
	}
	name := func(q *design.Part) string { return "the joint with " + q.Kind() + " '" + q.Name + "'" }
	dev := developer{part: p, setting: s}
	for _, st := range s.traced(p) {
		b := boundary{what: name(st.part), line: st.line, ring: true, part: st.part}
		if st.part.Post != nil && st.part.Metal != nil {
			b.leg = st.part.Metal.Thickness
		}
		if p.Ball != nil && dev.opensTo(st.part) {
			b.ring = false
		}
		add(b)
	}
	switch {
	case p.Post != nil:
		for _, th := range s.threaded[p] {
			for _, line := range th.lines {
				add(boundary{what: name(th.ball), line: line, belt: true})
			}
		}
		for end, rim := range made[i].Rims {
			add(boundary{what: "its " + endName(end), line: rim, belt: true})
		}
	case p.Ball != nil && p.Ball.Around != nil:
		for _, th := range s.threaded[p.Ball.Around] {
			if th.ball != p {
				continue
			}
			for _, line := range th.lines {
				add(boundary{what: name(p.Ball.Around), line: line, leg: p.Metal.Thickness})
			}
		}
	case p.Base != nil:
		for k, q := range d.Parts {
			if q.Post == nil {
				continue
			}
			for end, e := range q.Post.Ends {
				if e.Meets == design.OnPlate && e.With == p {
					add(boundary{what: name(q), line: made[k].Rims[end], leg: q.Metal.Thickness, ring: true, part: q})
				}
			}
		}
	}
	for _, j := range d.Joints {
		if j.Kind == design.RestJoint && (j.A == p || j.B == p) {
			other := j.A
			if other == p {
				other = j.B
			}
			what := "the place where it stands"
			if other != nil {
				what = name(other)
			}
			add(boundary{what: what, line: []r3.Vec{j.At}})
		}
	}
	return list
}

// A room is that of one hole, and what is wrong with it first.
type room struct {
	sphere
	part       *design.Part
	opening    *Opening
	least      float64
	units      func(float64) string
	text, hint string
}

// beside looks at a hole beside a boundary.
func (r *room) beside(b *boundary) {
	if r.text != "" || r.apart(b.sphere) >= b.leg+r.least {
		return
	}
	clear := min(clearance(r.opening.Edge, b.line), clearance(b.line, r.opening.Edge))
	some, all := false, false
	if !b.belt {
		some, all = r.within(b)
	}
	over := some && !all || r.holds(b)
	if h := r.opening.Hole; all && b.ring && b.part != nil && h.Joint != b.part {
		r.text = fmt.Sprintf("hole '%s' in %s '%s' lies within %s, where it lets out nothing", h.Name, r.part.Kind(), r.part.Name, b.what)
		r.hint = "move it out, or write 'joint " + b.part.Name + "' for a way for a cable"
		return
	}
	r.judge(b.what, clear-b.leg, over || all && !b.ring)
}

// judge takes down a hole that leaves too little beside something.
func (r *room) judge(what string, clear float64, over bool) {
	h := r.opening.Hole
	switch {
	case over:
		r.text = fmt.Sprintf("hole '%s' in %s '%s' runs into %s", h.Name, r.part.Kind(), r.part.Name, what)
		r.hint = "move it away, or make it smaller"
	case clear < r.least-square:
		r.text = fmt.Sprintf("hole '%s' in %s '%s' leaves %s of sheet beside %s, less than the %s that holds",
			h.Name, r.part.Kind(), r.part.Name, r.units(max(0, clear)), what, r.units(r.least))
		r.hint = fmt.Sprintf("move it away by %s or more, or make it smaller", r.units(r.least-max(0, clear)))
	}
}

// onPlate looks at a hole beside the edge and the anchors of a plate.
func (r *room) onPlate(b *design.Base) {
	outline := b.Outline()
	clear := math.Inf(1)
	for _, x := range r.opening.Edge {
		clear = min(clear, -outline.Distance(design.Plan(b.Own(x))))
	}
	if r.text == "" {
		r.judge("the edge of the plate", clear, clear < 0)
	}
	for _, c := range b.AnchorCenters() {
		if r.text != "" {
			return
		}
		line := make([]r3.Vec, 0, holePoints)
		for _, q := range circle(c, b.AnchorDiameter/2, holePoints) {
			line = append(line, b.Face(q.X, q.Y))
		}
		r.beside(&boundary{what: "an anchor hole", line: line, sphere: sphereOf(line)})
	}
}

// flat returns a line as one sees it who looks along the hole.
func (r *room) flat(line []r3.Vec) []r2.Vec {
	h := r.opening.Hole
	out := make([]r2.Vec, len(line))
	for i, x := range line {
		x = r3.Sub(x, h.At)
		out[i] = r2.Vec{X: r3.Dot(x, h.Across()), Y: r3.Dot(x, h.Up)}
	}
	return out
}

// facing reports whether a boundary lies on the side of the part through which the hole comes.
func (r *room) facing(b *boundary) bool {
	switch {
	case r.part.Ball != nil:
		return r3.Dot(r3.Sub(b.center, r.part.Ball.Center), r.opening.Way) > 0
	case r.part.Post != nil && !r.opening.Hole.Disc:
		return r3.Dot(r3.Sub(b.center, r.part.Post.Ends[design.Foot].At), r.opening.Way) > 0
	}
	return true
}

// within reports whether some of the hole lies within a boundary, and whether all does.
func (r *room) within(b *boundary) (some, all bool) {
	if len(b.line) < 3 || !r.facing(b) {
		return false, false
	}
	ring := r.flat(b.line)
	all = true
	for _, q := range r.flat(r.opening.Edge) {
		in := within(q, ring)
		some, all = some || in, all && in
	}
	return some, all
}

// holds reports whether a boundary lies within the hole.
func (r *room) holds(b *boundary) bool {
	return r.facing(b) && within(r.flat(b.line[:1])[0], r.flat(r.opening.Edge))
}

// clearance returns how far the points of a closed line are from the sides of another.
func clearance(line, other []r3.Vec) float64 {
	least := math.Inf(1)
	for _, x := range line {
		for i, a := range other {
			side, rel := r3.Sub(other[(i+1)%len(other)], a), r3.Sub(x, a)
			u := 0.0
			if n := r3.Norm2(side); n > 0 {
				u = min(max(r3.Dot(rel, side)/n, 0), 1)
			}
			least = min(least, r3.Norm2(r3.Sub(rel, r3.Scale(u, side))))
		}
	}
	return math.Sqrt(least)
}
