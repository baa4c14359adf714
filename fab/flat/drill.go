package flat

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/solid"
	"stabile/param/design"
)

// An Opening is where a hole of the design comes through one wall of a part.
type Opening struct {
	Hole *design.Hole
	Far  bool     // through the wall opposite to that which the hole faces
	Way  r3.Vec   // unit vector out of the part along the hole
	Edge []r3.Vec // mm, on the outside, closed without repeating its first point: counter-clockwise to one who looks at it
	Area float64  // mm2, of the middle of the sheet that it takes
}

// A drilledHole is a hole of the design in the chart of a piece, of which it may take a part
// only.
type drilledHole struct {
	edge []r2.Vec
	hole *design.Hole
}

// asRound is how far, in mm, the outline of a hole on the flat may stray from a circle that
// is drilled in its place.
const asRound = 0.02

// named gives a hole in a flat its name, and its diameter where it is as good as round.
func (h *Hole) named(of *design.Hole) {
	h.Name = family(of.Name)
	if !of.IsRound() {
		return
	}
	for _, q := range h.Outline {
		if math.Abs(r2.Norm(r2.Sub(q, h.Center))-of.Width/2) > asRound {
			return
		}
	}
	h.Diameter = of.Width
}

// family returns a name without its index.
func family(name string) string {
	name, _, _ = strings.Cut(name, "[")
	return name
}

// withName returns names of holes with that of one more, once for all that differ in their
// index.
func withName(names []string, h *design.Hole) []string {
	if name := family(h.Name); !slices.Contains(names, name) {
		names = append(names, name)
	}
	return names
}

// pastSide reports a hole that reaches past the side of the part.
func (d *developer) pastSide(h *design.Hole, hint string) {
	d.wrong.Add(h.Place("diameter"), hint, "hole '%s' runs past the side of %s '%s'", h.Name, d.part.Kind(), d.part.Name)
}

// pastBall is what to do about a hole that reaches past the side of a ball.
const pastBall = "make it smaller, or move it to the middle of what it lies in"

// outThrough returns the axis of a hole out through a wall of the ball, the far one for a side
// of 1, from where it passes the middle of the ball.
func outThrough(b *design.Ball, h *design.Hole, side int) line {
	way := r3.Scale(float64(1-2*side), h.Way)
	return line{r3.Add(h.At, r3.Scale(r3.Dot(r3.Sub(b.Center, h.At), way), way)), way}
}

// drillBall takes the design's holes out of the pieces of a ball. It returns their edges.
func (d *developer) drillBall(list []piece, cuts []cutOut) (edges []r3.Vec) {
	b := d.part.Ball
	outside := d.body(d.part).Outside()
	multiple := roundMultiple
	if b.Gores > 0 {
		multiple *= b.Gores // gores alike come out alike beside a hole at a pole
	}
	lies := seamsAt{least: d.ligament()}
	for _, h := range d.part.Holes {
		outline := d.sectionOn(h, multiple)
		for side := range sides(h) {
			axis := outThrough(b, h, side)
			rays := bundle{lines: make([]line, len(outline)), ray: func(turn float64) line {
				share := turn / (2 * math.Pi) * float64(len(outline))
				i := int(share)
				from, to := outline[i%len(outline)], outline[(i+1)%len(outline)]
				return line{spot(h, axis.from, r2.Add(from, r2.Scale(share-float64(i), r2.Sub(to, from)))), axis.way}
			}}
			o := Opening{Hole: h, Far: side == 1, Way: axis.way, Edge: make([]r3.Vec, len(outline))}
			for i, q := range outline {
				rays.lines[i] = line{spot(h, axis.from, q), axis.way}
				t, ok := outside.Leave(rays.lines[i].from, axis.way)
				if !ok {
					d.pastSide(h, pastBall)
					return nil
				}
				o.Edge[i] = rays.lines[i].at(t)
			}
			o.Area = d.pierce(list, cuts, h, &rays, &o, axis, &lies)
			if side == 1 {
				slices.Reverse(o.Edge)
			}
			d.Openings = append(d.Openings, o)
			edges = append(edges, o.Edge...)
		}
	}
	lies.report(d)
	return edges
}

// roundMultiple is what the number of points of a hole's outline is a multiple of, so that it
// is alike to its four sides.
const roundMultiple = 4

// sectionOn returns the outline of a hole in the ball, as section does, with finer points
// where its charts are wound about the pole; of a round hole at a pole from the middle of the
// first gore on.
func (d *developer) sectionOn(h *design.Hole, multiple int) []r2.Vec {
	b := d.part.Ball
	if b.Build == design.Zones || b.Build == design.DomedGores {
		multiple *= woundFiner * ((holePoints + multiple - 1) / multiple)
	}
	outline := section(h, multiple, b.Radius)
	prime := r2.Vec{X: -r3.Dot(b.Prime, h.Across()), Y: r3.Dot(b.Prime, h.Up)}
	if !h.IsRound() || r3.Norm(r3.Cross(h.Way, b.Pole)) > leastTurn {
		return outline
	}
	turn := math.Atan2(prime.Y, prime.X)
	for i, q := range outline {
		outline[i] = r2.Rotate(q, turn, r2.Vec{})
	}
	return outline
}

// sides returns how many walls a hole goes through.
func sides(h *design.Hole) int {
	if h.Through {
		return 2
	}
	return 1
}

// pierce takes a hole through one wall of a ball out of its pieces. It returns the area of
// the middle of the sheet that it takes.
func (d *developer) pierce(list []piece, cuts []cutOut, h *design.Hole, rays *bundle, o *Opening, axis line, lies *seamsAt) (area float64) {
	across, whole := 0, false
	for i := range list {
		p := &list[i]
		if !p.ring && r3.Dot(p.normal, axis.way) < farSide {
			continue
		}
		edge, ok := p.through(rays, o.Edge, axis, func(middle solid.Surface, ray line) (r3.Vec, bool) {
			t, ok := middle.Leave(ray.from, ray.way)
			return ray.at(t), ok
		})
		if !ok {
			continue
		}
		c := &cuts[i]
		for _, edge := range p.turned(edge) {
			holes := len(c.holes)
			before := d.leftArea(p, c)
			if !c.take(edge) {
				continue
			}
			area += before - d.leftArea(p, c)
			c.drilled = append(c.drilled, drilledHole{edge, h})
			if len(c.holes) > holes {
				whole = true
				lies.near(h, p.onFlat(c.outlines[0]), p.onFlat(edge))
			} else {
				across++
			}
		}
	}
	if !whole {
		lies.over(h, across)
	}
	return area
}

// leftArea returns the area of what is left of a piece.
func (d *developer) leftArea(p *piece, c *cutOut) (area float64) {
	for k := range c.outlines {
		area += d.leftOf(p, c, k).area
	}
	return area
}

// pierced says which of the design's holes are in part k of what is left of a piece, or in
// its edge.
func (c *cutOut) pierced(p *piece, k int) []finding.Fact {
	var names []string
	for _, o := range c.drilled {
		beside := slices.ContainsFunc(o.edge, func(q r2.Vec) bool {
			return within(q, c.outlines[k]) || fromEdge(q, c.outlines[k]) < asRound
		})
		if beside {
			names = withName(names, o.hole)
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []finding.Fact{Pierced{strings.Join(names, ", "), p.formed}}
}

// drillBought takes holes out of a ball that is bought: they are drilled by hand, and its
// weight goes by its area.
func (d *developer) drillBought() {
	b := d.part.Ball
	if len(d.part.Holes) == 0 || !(b.Radius > 0) {
		return
	}
	var names []string
	var gone moment
	for _, h := range d.part.Holes {
		names = withName(names, h)
		outline := section(h, roundMultiple, b.Radius)
		for side := range sides(h) {
			axis := outThrough(b, h, side)
			off := r3.Sub(axis.from, b.Center)
			depth := func(q r2.Vec) (r3.Vec, float64) {
				x := spot(h, off, q)
				rise := math.Sqrt(max(0, b.Radius*b.Radius-r3.Norm2(x)))
				return r3.Add(x, r3.Scale(rise, axis.way)), rise
			}
			o := Opening{Hole: h, Far: side == 1, Way: axis.way}
			for _, q := range outline {
				x, rise := depth(q)
				if !(rise > 0) {
					d.pastSide(h, pastBall)
					return
				}
				o.Edge = append(o.Edge, r3.Add(b.Center, x))
			}
			m := integral(outline, 2, func(q r2.Vec) moment {
				x, rise := depth(q)
				return moment{b.Radius / rise, r3.Scale(b.Radius/rise, x)}
			})
			o.Area = m.area
			gone = gone.plus(m)
			if side == 1 {
				slices.Reverse(o.Edge)
			}
			d.Openings = append(d.Openings, o)
		}
	}
	whole := 4 * math.Pi * b.Radius * b.Radius
	d.CG = r3.Sub(b.Center, r3.Scale(1/(whole-gone.area), gone.first))
	d.Mass *= (whole - gone.area) / whole
	d.note(finding.Note, DrillByHand{strings.Join(names, ", ")})
}

// drillFlat takes a hole out of a blank that stays flat. Lay says where a point of the hole's
// section lies on it.
func (d *developer) drillFlat(h *design.Hole, lay func(q r2.Vec) r2.Vec) Hole {
	o := Opening{Hole: h, Way: h.Way, Area: h.Area()}
	hole := Hole{Center: lay(r2.Vec{})}
	for _, q := range section(h, roundMultiple, 0) {
		o.Edge = append(o.Edge, spot(h, h.At, q))
		hole.Outline = append(hole.Outline, lay(q))
	}
	d.Openings = append(d.Openings, o)
	hole.named(h)
	return hole
}

// A seamsAt gathers which holes of a part lie over its seams or just beside them.
type seamsAt struct {
	least        float64 // mm of sheet that there should be between a hole and a seam
	across, ends []string
	beside       []string
}

// over takes note of a hole that lies in so many pieces.
func (s *seamsAt) over(h *design.Hole, pieces int) {
	switch {
	case pieces > 2:
		s.ends = withName(s.ends, h)
	case pieces > 0:
		s.across = withName(s.across, h)
	}
}

// near takes note of a hole whose edge comes near the outline of the flat that it is in.
func (s *seamsAt) near(h *design.Hole, outline, edge []r2.Vec) {
	for _, q := range edge {
		if fromEdge(q, outline) < s.least {
			s.beside = withName(s.beside, h)
			return
		}
	}
}

// report says what the shop must know of them.
func (s *seamsAt) report(d *developer) {
	if len(s.across)+len(s.ends) > 0 {
		d.note(finding.Note, HolesOnSeams{strings.Join(s.across, ", "), strings.Join(s.ends, ", ")})
	}
	if len(s.beside) > 0 {
		d.note(finding.Caution, HolesBesideSeams{strings.Join(s.beside, ", "), s.least})
	}
}

// ligamentThicknesses is how many thicknesses of sheet there must be between a hole and the
// next edge, joint or hole at least, where the narrowest strip that the shop can handle is
// not more. Common practice, no source.
const ligamentThicknesses = 2.0

// ligament returns the least width of sheet, in mm, that a hole leaves beside it.
func (d *developer) ligament() float64 { return d.ligamentOf(d.part) }

func (s *setting) ligamentOf(p *design.Part) float64 {
	if p.Metal == nil {
		return s.narrow
	}
	return max(s.narrow, ligamentThicknesses*p.Metal.Thickness)
}
