package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/param/design"
)

// A Plate is the bending of the base plate, in its worst case, as a strip that
// sticks out from the post that bears the greatest moment at its foot.
type Plate struct {
	Post    *design.Part
	Case    string
	Foot    float64 // N mm, the moment at its foot
	How     string  // what bends it
	Force   float64 // N, at the far end of the strip
	Lever   float64 // mm, from the face of the post to the force
	Width   float64 // mm, of the strip: twice the lever, a spread of 45 deg each way
	Moment  float64 // N mm
	Stress  float64 // MPa, elastic
	Allowed float64 // N mm, of moment: Fy Z / 1.67, AISC 360 F11
	Ratio   float64
}

// Anchors is the pull on the anchors, the plate stiff and turning about an edge
// of the footprint. Prying is not included.
type Anchors struct {
	Tension  float64 // N, the greatest on one anchor; 0 where weight holds it down
	Anchor   int     // the one that bears it
	Edge     int     // the edge about which it tips
	Case     string
	Moment   float64 // N mm, that tips it over the edge, less what the weight holds
	Lever    float64 // mm, from the edge to the anchor
	Shear    float64 // N, the greatest level force, shared evenly, on one anchor
	Ignoring string  // what is left out, in words
}

// Tensions returns the pull in N on each anchor, the levers from the tipping
// edge in mm, under a moment in N mm: it grows evenly from the edge,
// M y / sum of y2. Anchors on or outside the edge bear nothing.
func Tensions(moment float64, levers []float64) []float64 {
	sum := 0.0
	for _, y := range levers {
		sum += max(0, y) * max(0, y)
	}
	list := make([]float64, len(levers))
	if !(moment > 0) || sum == 0 {
		return list
	}
	for i, y := range levers {
		list[i] = moment * max(0, y) / sum
	}
	return list
}

// reactions returns what the ground bears in every case.
func (c *cases) reactions() []frame.Wrench {
	columns := make([]frame.Wrench, c.width())
	for k := range columns {
		columns[k] = c.solved.Reaction(k)
	}
	list := make([]frame.Wrench, len(c.list))
	for n := range c.list {
		for _, t := range c.list[n].terms[:c.list[n].count] {
			list[n].Force = r3.Add(list[n].Force, r3.Scale(t.share, columns[t.column].Force))
			list[n].Moment = r3.Add(list[n].Moment, r3.Scale(t.share, columns[t.column].Moment))
		}
	}
	return list
}

// tipping returns the moment that the loads, which are the opposite of what the
// ground bears, tip over an edge with, weight taken off.
func tipping(w frame.Wrench, from, to r2.Vec) float64 {
	a, b := r3.Vec{X: from.X, Y: from.Y}, r3.Vec{X: to.X, Y: to.Y}
	way := r3.Unit(r3.Sub(b, a))
	return -r3.Dot(r3.Sub(w.Moment, r3.Cross(a, w.Force)), way)
}

func (s *Strength) anchors(c *cases, in Input) {
	if len(in.Anchors) == 0 || len(in.Footprint) < 3 {
		return
	}
	a := &Anchors{Ignoring: "prying, the give of the plate and of the anchors, ballast"}
	levers := make([]float64, len(in.Anchors))
	for n, w := range c.reactions() {
		a.Shear = max(a.Shear, math.Hypot(w.Force.X, w.Force.Y)/float64(len(in.Anchors)))
		for e, from := range in.Footprint {
			to := in.Footprint[(e+1)%len(in.Footprint)]
			moment := tipping(w, from, to)
			if moment <= 0 {
				continue
			}
			side := r2.Unit(r2.Sub(to, from))
			for i, at := range in.Anchors {
				levers[i] = r2.Cross(side, r2.Sub(at, from))
			}
			for i, pull := range Tensions(moment, levers) {
				if pull > a.Tension {
					a.Tension, a.Anchor, a.Edge, a.Case, a.Moment, a.Lever = pull, i, e, c.list[n].name(), moment, levers[i]
				}
			}
		}
	}
	s.Anchors = a
}

// foot takes note of a post on the plate whose foot bears more moment than that
// of any before.
func (s *Strength) foot(cuts []cut, b *frame.Beam, p *design.Part) {
	if s.Plate == nil {
		s.Plate = &Plate{Foot: -1}
	}
	for n := range cuts {
		if _, _, bending, _ := cuts[n].Resultants(b.Axis); bending > s.Plate.Foot {
			s.Plate.Foot, s.Plate.Post, s.Plate.Case = bending, p, cuts[n].in.name()
		}
	}
}

// base checks the plate as a strip that sticks out: from the post with the
// greatest moment at its foot to the nearest anchor that could pull, or, without
// anchors, to the nearest edge, on which the whole weight stands when the piece
// is about to tip.
func (s *Strength) base(f *frame.Frame, c *cases, in Input) {
	p, pl := in.Design.Base(), s.Plate
	if pl == nil || p == nil || p.Base.Shape == design.Feet || p.Metal == nil || len(in.Footprint) < 3 {
		s.Plate = nil
		return
	}
	at, r := design.Plan(pl.Post.Post.Foot), pl.Post.Post.Diameter[0]/2
	if len(in.Anchors) > 0 {
		// All of the moment at the foot goes down one anchor across the post: the
		// push of the post's other side is at its far face.
		lever := math.Inf(1)
		for _, a := range in.Anchors {
			lever = min(lever, r2.Norm(r2.Sub(a, at)))
		}
		pl.How = "the moment at the post's foot, held by the nearest anchor"
		pl.Lever = max(0, lever-r)
		pl.Force = pl.Foot / max(lever, r)
	} else {
		reach := math.Inf(1)
		for e, q := range in.Footprint {
			side := r2.Unit(r2.Sub(in.Footprint[(e+1)%len(in.Footprint)], q))
			reach = min(reach, r2.Cross(side, r2.Sub(at, q)))
		}
		most := 0.0
		for _, w := range c.reactions() {
			most = max(most, w.Force.Z)
		}
		pl.How = "the whole weight on the edge nearest to the post, as when it is about to tip"
		pl.Lever = max(0, reach-r)
		pl.Force = most
	}
	t := p.Metal.Thickness
	yield, _ := Yield(p.Metal)
	pl.Width = max(2*pl.Lever, 2*r)
	pl.Moment = pl.Force * pl.Lever
	pl.Stress = 6 * pl.Moment / (pl.Width * t * t)
	pl.Allowed = yield * pl.Width * t * t / 4 / omega
	pl.Ratio = pl.Moment / pl.Allowed
	if len(f.Posts) > 1 {
		s.lack("bending of the plate between several posts", "", "%s, beyond the strip at %s", p.Name, pl.Post.Name)
	}
}
