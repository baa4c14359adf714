package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/quantity"
)

// leastTurn is the least half turn, in rad, that a mitre may leave between two
// posts: at less, the cut runs along the tube.
const leastTurn = 0.02

// surface returns the surface that an end of the post meets, nil for a square
// cut. It reports false, and says so, where it meets none.
func (d *developer) surface(i int) (solid.Surface, bool) {
	end := d.part.Post.Ends[i]
	with := end.With
	switch {
	case end.Meets == design.OnBall && with != nil && with.Ball != nil:
		if _, ok := end.Doubled(); ok {
			return solid.Met(d.part, i), true
		}
		return solid.Whole(d.body(with).Outside()), true
	case end.Meets == design.OnHead && with != nil && with.Post != nil:
		return d.onHead(i, with)
	case end.Meets == design.Free, end.Meets == design.OnPlate, end.Meets == design.OnSide && with != nil && with.Post != nil:
		return solid.Met(d.part, i), true
	}
	d.later(endName(i))
	return nil, true
}

// onHead returns what an end meets that is joined to another post's end, nil for
// the wider of the two, which stays square.
func (d *developer) onHead(i int, with *design.Part) (solid.Surface, bool) {
	p, q := d.part.Post, with.Post
	j := q.EndBy(d.part, p.Ends[i].At)
	way, other := p.Inward(i), q.Inward(j)
	if math.Acos(min(1, r3.Dot(way, other))) < 2*leastTurn {
		d.fail("lean", "turn one of the two", "folds back on post '%s': there is no mitre between them", with.Name)
		return nil, false
	}
	plane, cut := solid.EndPlane(p, i, q, j)
	if !cut {
		return nil, true
	}
	if r3.Dot(plane.Normal, way) < leastTurn {
		d.fail("lean", "turn it further away from the post that it stands on",
			"lies along the %s of post '%s' that it stands on", endName(j), with.Name)
		return nil, false
	}
	if p.Ends[i].Diameter < q.Ends[j].Diameter-square && j == design.Head && !q.Ends[design.Head].Disc {
		d.note(finding.Caution, OpenHead{endName(i), with.Name})
	}
	return plane, true
}

// misses reports an end that does not stand on what it should meet all round.
func (d *developer) misses(e *trim, i int) {
	p := d.part.Post
	end := p.Ends[i]
	name, bearing := endName(i), quantity.Bearing(e.seam+e.lost)
	property := "diameter"
	for _, given := range [...]string{"lean", "offset", "at"} {
		if _, ok := d.part.Props[given]; ok {
			property = given
		}
	}
	switch end.Meets {
	case design.OnBall:
		ball := end.With.Ball
		if ball.IsEgg() {
			d.fail(property, "bring its axis nearer to the egg's centre, or make the egg larger or the post thinner",
				"runs past ball '%s' with its %s at bearing %s: not all of its end comes down on it", end.With.Name, name, bearing)
			return
		}
		rel := r3.Sub(ball.Center, p.Ends[design.Foot].At)
		off := r3.Norm(r3.Sub(rel, r3.Scale(r3.Dot(rel, p.Direction), p.Direction)))
		d.fail(property, "bring its axis nearer to the ball's centre, or make the ball larger or the post thinner",
			"runs past ball '%s' with its %s at bearing %s: its axis passes %s from the ball's centre and its outside %s, but the ball's radius is %s",
			end.With.Name, name, bearing, d.length(off), d.length(e.passes(ball.Center)), d.length(ball.Radius))
	case design.OnSide:
		q := end.With.Post
		at, way := p.Ends[i].At, p.Inward(i)
		between := r3.Cross(way, q.Direction)
		if r3.Norm(between) < leastTurn {
			d.fail(property, "turn it away from the post that it stands on", "runs along post '%s' that its %s stands on", end.With.Name, name)
			return
		}
		off := math.Abs(r3.Dot(r3.Sub(at, q.Ends[design.Foot].At), r3.Unit(between)))
		d.fail(property, "bring its axis nearer to that of the other post, or make it thinner",
			"runs past the side of post '%s' with its %s at bearing %s: the two axes pass each other at %s and its outside reaches %s, but that post is %s across",
			end.With.Name, name, bearing, d.length(off), d.length(off+p.Ends[i].Diameter/2), d.length(max(q.Ends[design.Foot].Diameter, q.Ends[design.Head].Diameter)))
	case design.OnHead:
		d.fail("lean", "turn it further away from the post that it stands on", "does not meet the end of post '%s' all round with its %s", end.With.Name, name)
	default:
		d.fail("lean", "let it lean less", "leans so far that its %s does not meet the level it stands on", name)
	}
}

// passes returns how far from a point the lines along the outside of the tube pass
// it at most.
func (t *tube) passes(x r3.Vec) float64 {
	most := 0.0
	const lines = 720
	for k := range lines {
		var c cut
		c.sin, c.cos = math.Sincos(2 * math.Pi * float64(k) / lines)
		from := t.at(&c, 0)
		way := r3.Unit(r3.Sub(t.at(&c, t.length), from))
		most = max(most, r3.Norm(r3.Cross(way, r3.Sub(x, from))))
	}
	return most
}

// overhang notes a foot that hangs over an end of the post on whose side it
// stands.
func (d *developer) overhang(i int) {
	end := d.part.Post.Ends[i]
	if end.Meets != design.OnSide {
		return
	}
	q := end.With.Post
	low, high := math.Inf(1), math.Inf(-1)
	for _, x := range d.Toes[i] {
		s := r3.Dot(r3.Sub(x, q.Ends[design.Foot].At), q.Direction)
		low, high = min(low, s), max(high, s)
	}
	if over := max(-low, high-q.Length); over > Chord {
		j := 0
		if high-q.Length > -low {
			j = 1
		}
		d.note(finding.Fault, Overhangs{endName(i), endName(j), end.With.Name, over})
	}
}
