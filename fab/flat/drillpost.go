package flat

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
)

// drillPost takes the design's holes out of the wall of a post. It reports false, and says
// so, where one cannot be cut.
func (d *developer) drillPost(foot, head *trim) bool {
	if len(d.part.Holes) == 0 {
		return true
	}
	t := &d.walls[0].tube
	lies := seamsAt{least: d.ligament()}
	var gone moment
	for _, h := range d.part.Holes {
		if h.Disc {
			continue
		}
		outline := section(h, roundMultiple, t.mean)
		for side := range sides(h) {
			o := Opening{Hole: h, Far: side == 1, Way: r3.Scale(float64(1-2*side), h.Way)}
			chart, ok := t.drilled(h, o.Way, outline, &o)
			if !ok {
				d.pastSide(h, "make it smaller")
				return false
			}
			if end, by := beyond(foot, head, chart); by > 0 {
				d.wrong.Add(h.Place(placeOf(h)), "move it away by more than "+d.length(by)+", or make it smaller", "hole '%s' in post '%s' runs into its %s, by %s",
					h.Name, d.part.Name, end, d.length(by))
				return false
			}
			m := t.taken(h, o.Way, outline, chart)
			o.Area = m.area
			gone = gone.plus(m)
			if !d.drillWalls(h, chart, m.area, &lies) {
				return false
			}
			d.Openings = append(d.Openings, o)
		}
	}
	lies.report(d)
	whole := d.Mass + d.weigh(gone.area)
	rel := r3.Scale(whole, r3.Sub(d.CG, t.foot))
	d.CG = r3.Add(t.foot, r3.Scale(1/d.Mass, r3.Sub(rel, r3.Scale(d.weigh(1), gone.first))))
	return true
}

// drilled returns the outline of a hole on the wall, of sheet at its middle and of what is
// bought at its outside, as an angle from bearing 0 and a height, counter-clockwise. It gives
// the opening its edge on the outside.
func (t *tube) drilled(h *design.Hole, way r3.Vec, outline []r2.Vec, o *Opening) ([]r2.Vec, bool) {
	chart := make([]r2.Vec, len(outline))
	for i, q := range outline {
		c, ok := t.through(h, way, q)
		if !ok {
			return nil, false
		}
		chart[i] = c
		sin, cos := math.Sincos(c.X)
		o.Edge = append(o.Edge, t.at(&cut{sin: sin, cos: cos}, c.Y))
	}
	if enclosed(chart) < 0 {
		slices.Reverse(chart)
		slices.Reverse(o.Edge)
	}
	return chart, true
}

// beyond returns by how much an outline on the wall reaches beyond one of its trimmed ends,
// and which.
func beyond(foot, head *trim, chart []r2.Vec) (end string, by float64) {
	for _, q := range chart {
		for i, e := range [2]*trim{foot, head} {
			y, _ := e.level(min(bearingOf(q.X-e.seam), e.turn))
			if over := (q.Y - y) * float64(2*i-1); over > by {
				end, by = endName(i), over
			}
		}
	}
	return end, by
}

// through returns where a line of a hole comes through the wall, as an angle from bearing 0
// and a height; q is the line as one sees it who looks at the hole from outside.
func (t *tube) through(h *design.Hole, way r3.Vec, q r2.Vec) (r2.Vec, bool) {
	off := spot(h, r3.Sub(h.At, t.foot), q)
	y := r3.Dot(off, t.along) / t.cos
	radius := t.girth(y)
	if t.bought {
		radius = t.outer
	}
	// Across the axis, toward growing bearing.
	across := r3.Dot(off, r3.Cross(t.along, way)) / radius
	if !(math.Abs(across) < 1) {
		return r2.Vec{}, false
	}
	bearing := math.Atan2(r3.Dot(way, t.right), r3.Dot(way, t.zero))
	return r2.Vec{X: bearing + math.Asin(across), Y: y}, true
}

// taken returns the area of the middle of the wall that a hole takes, and its first moment
// about the foot of the wall. What is bought is drilled straight through: its area is the
// volume that is drilled out over the thickness.
func (t *tube) taken(h *design.Hole, way r3.Vec, outline, chart []r2.Vec) moment {
	if !t.bought {
		return integral(chart, 2, func(q r2.Vec) moment {
			r := t.girth(q.Y)
			return moment{r, r3.Scale(r, t.onMiddle(q.X, q.Y))}
		})
	}
	thick := t.outer - t.inner
	return integral(outline, 4, func(q r2.Vec) moment {
		off := spot(h, r3.Sub(h.At, t.foot), q)
		side := r3.Sub(off, r3.Scale(r3.Dot(off, way), way)) // beside the axis, without depth
		c := r3.Dot(off, r3.Cross(t.along, way))
		out, in := math.Sqrt(max(0, t.outer*t.outer-c*c)), math.Sqrt(max(0, t.inner*t.inner-c*c))
		depth := (out - in) / thick
		return moment{depth, r3.Add(r3.Scale(depth, side), r3.Scale((out*out-in*in)/2/thick, way))}
	})
}

// drillWalls takes a hole of the given area out of the blanks of the wall that it lies in.
func (d *developer) drillWalls(h *design.Hole, chart []r2.Vec, area float64, lies *seamsAt) bool {
	pieces, whole := 0, false
	all := 0.0 // on the flats
	var parts []float64
	for k := range d.walls {
		w := &d.walls[k]
		b := &d.Blanks[w.blank]
		was := 0.0
		for _, turn := range [3]float64{-2 * math.Pi, 0, 2 * math.Pi} {
			edge := make([]r2.Vec, len(chart))
			for i, q := range chart {
				edge[i] = w.lay(nearTo(chart[0].X-w.seam, w.middle(), 2*math.Pi)+turn+q.X-chart[0].X, q.Y, w.middle())
			}
			before := enclosed(b.Outline)
			left, inside := subtract(b.Outline, edge)
			switch {
			case inside:
				whole = true
				if !w.bought {
					lies.near(h, b.Outline, edge)
				}
				low, high := bounds(edge)
				hole := Hole{Center: r2.Scale(0.5, r2.Add(low, high)), Outline: edge}
				hole.named(h)
				if w.bought {
					hole.Diameter = 0 // the outline of a template is traced
				}
				b.Holes = append(b.Holes, hole)
				was += enclosed(edge)
			case len(left) == 1 && &left[0][0] != &b.Outline[0]:
				pieces++
				b.Outline = left[0]
				was += before - enclosed(b.Outline)
			case len(left) != 1:
				d.wrong.Add(h.Place("diameter"), "make it smaller, or the post in fewer courses", "hole '%s' parts a blank of post '%s'", h.Name, d.part.Name)
				return false
			}
		}
		parts = append(parts, was)
		all += was
	}
	if !whole && d.part.Post.Bought == nil {
		lies.over(h, pieces)
	}
	for k, was := range parts {
		if was > 0 {
			b := &d.Blanks[d.walls[k].blank]
			gone := area * was / all
			b.Area -= gone
			b.Mass -= d.weigh(gone)
			d.Mass -= d.weigh(gone)
			b.pierce(h)
		}
	}
	return true
}

// pierce notes on a blank that a hole is in it or in its edge.
func (b *Blank) pierce(h *design.Hole) {
	more := func(holes string) string { return strings.Join(withName(strings.Split(holes, ", "), h), ", ") }
	for i, f := range b.Notes {
		switch f := f.(type) {
		case DrilledThrough:
			b.Notes[i] = DrilledThrough{more(f.Holes)}
			return
		case Pierced:
			f.Holes = more(f.Holes)
			b.Notes[i] = f
			return
		}
	}
	var f finding.Fact = Pierced{Holes: family(h.Name)}
	if b.Bought != nil {
		f = DrilledThrough{family(h.Name)}
	}
	b.Notes = append(b.Notes, f)
}
