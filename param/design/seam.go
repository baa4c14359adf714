package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// SeamsApart is how far, in mm, the seam of a post keeps from other seams and joints
// by itself, and SeamThicknesses the least distance in thicknesses of its sheet: nearer
// than that one weld is laid on the heat of another. Common practice, no source.
const (
	SeamsApart      = 10.0
	SeamThicknesses = 3.0
)

// RingSeam is the angle about the pole, in rad from the ball's prime direction, at
// which the seams of every other ring of a ball of zones lie, from the lowest ring on;
// those between lie at twice that.
const RingSeam = math.Pi / 3

// SeamRoom returns how far, in mm on the outside of a post, its seams keep, if that of its
// foot lies at a bearing, from the seams that they could meet at the post's ends and from
// what stands on its side, and the part of the nearest; infinite where there is none.
// Others are parts that may stand on the post.
func (p *Part) SeamRoom(seam float64, others []*Part) (room float64, with *Part) {
	post := *p.Post
	post.Seam = seam
	room = math.Inf(1)
	if post.Bought != nil {
		return room, nil // without a seam that the shop welds
	}
	near := func(r float64, q *Part) {
		if r < room {
			room, with = r, q
		}
	}
	for i, end := range post.Ends {
		q := end.With
		for _, seam := range post.endSeams(i) {
			at := post.onOutside(i, seam)
			switch {
			case q == nil:
			case end.Meets == OnBall && q.Ball != nil:
				near(q.seamFrom(at, post.Inward(i)), q)
			case end.Meets == OnHead && q.Post != nil && q.Post.Bought == nil:
				j := q.Post.EndBy(p, end.At)
				for _, other := range q.Post.endSeams(j) {
					near(r3.Norm(r3.Sub(q.Post.onOutside(j, other), at)), q)
				}
			}
		}
	}
	for _, q := range others {
		if e := q.Post.Ends[Foot]; e.Meets == OnSide && e.With == p {
			radius := post.DiameterAt(q.Post.Along) / 2
			for _, seam := range post.seams() {
				near(radius*math.Abs(math.Remainder(seam-q.Post.AlongBear, 2*math.Pi))-e.Diameter/2, q)
			}
		}
	}
	return room, with
}

// onOutside returns the point on the outside of the post, cut square, at an end and a
// bearing.
func (p *Post) onOutside(end int, bearing float64) r3.Vec {
	zero, right := p.Bearings()
	sin, cos := math.Sincos(bearing)
	e := &p.Ends[end]
	return r3.Add(e.At, r3.Scale(e.Diameter/2, r3.Add(r3.Scale(cos, zero), r3.Scale(sin, right))))
}

// seamFrom returns how far the seams of a ball's gores or rings are from where a line
// comes to its outside, taken as its sphere or its egg; the line is given by a point near there and
// the unit vector away from the ball.
func (p *Part) seamFrom(at, away r3.Vec) float64 {
	b := p.Ball
	rel := r3.Sub(at, b.Center)
	t, ok := b.Leave(at, away)
	if !ok {
		return math.Inf(1)
	}
	x := r3.Add(rel, r3.Scale(t, away))
	z := r3.Dot(x, b.Pole)
	level := r3.Norm(r3.Sub(x, r3.Scale(z, b.Pole)))
	drawn := math.Atan2(z*(b.Radius/b.Polar()), level) // the angle by which the profile is drawn
	latitude := math.Atan2(z*(b.Radius/b.Polar())*(b.Radius/b.Polar()), level)
	turn := math.Atan2(r3.Dot(x, r3.Cross(b.Pole, b.Prime)), r3.Dot(x, b.Prime))
	switch {
	case b.Gores > 0 && b.Build != Bought:
		if latitude < -p.CapLatitude(LowerPole) || latitude > p.CapLatitude(UpperPole) {
			return math.Inf(1) // on a cap
		}
		step := 2 * math.Pi / float64(b.Gores)
		return level * math.Abs(math.Remainder(turn-step/2, step))
	case b.IsZoned():
		ring := int(math.Round((drawn+math.Pi/2)/b.ZoneStep())) - 1
		if ring < 0 || ring >= b.Zones {
			return math.Inf(1) // on a disc
		}
		return level * math.Abs(math.Remainder(turn-RingSeam*float64(1+ring%2), 2*math.Pi))
	}
	return math.Inf(1)
}
