package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Laid returns a design on a wall as it lies on the bench: its plate flat, with its face up.
// Its parts are copies, in the same order, in the frame of the plate; bearings and leans are
// those that they have there. Holes stay as they are in the finished piece.
func (d *Design) Laid() *Design {
	base := d.Wall()
	if base == nil {
		return d
	}
	out := *d
	out.Parts = make([]*Part, len(d.Parts))
	laid := make(map[*Part]*Part, len(d.Parts))
	for i, p := range d.Parts {
		c := *p
		laid[p], out.Parts[i] = &c, &c
	}
	out.Rings = make([]*Ring, len(d.Rings))
	rings := make(map[*Ring]*Ring, len(d.Rings))
	for i, r := range d.Rings {
		c := Ring{Name: r.Name, Center: base.Own(r.Center), Axis: base.OwnWay(r.Axis), First: base.OwnWay(r.First), Across: r.Across, Flat: r.Flat, On: laid[r.On]}
		for _, p := range r.Tubes {
			c.Tubes = append(c.Tubes, laid[p])
		}
		rings[r], out.Rings[i] = &c, &c
	}
	for _, p := range out.Parts {
		switch {
		case p.Base != nil:
			b := *p.Base
			b.Wall = 0
			p.Base = &b
		case p.Post != nil:
			p.Post = p.Post.laid(base, laid)
			p.Post.Ring = rings[p.Post.Ring]
		case p.Ball != nil:
			p.Ball = p.Ball.laid(base, laid)
		}
	}
	// Bearings hang on how what they are of lies.
	for i, p := range d.Parts {
		switch c := out.Parts[i]; {
		case p.Post != nil:
			c.Post.turnBearings(base, p.Post)
		case p.Ball != nil && p.Ball.On != nil && p.Ball.On.Post != nil:
			c.Ball.OffsetBear = base.turned(p.Ball.On.Post, c.Ball.On.Post, p.Ball.OffsetBear)
		}
	}
	out.Joints = make([]Joint, len(d.Joints))
	for i, j := range d.Joints {
		out.Joints[i] = Joint{Kind: j.Kind, Post: laid[j.Post], End: j.End, A: laid[j.A], B: laid[j.B], At: base.Own(j.At)}
	}
	return &out
}

// laid returns a copy of a post in the frame of a plate.
func (p *Post) laid(base *Base, parts map[*Part]*Part) *Post {
	c := *p
	for i := range c.Ends {
		c.Ends[i].At, c.Ends[i].With = base.Own(c.Ends[i].At), parts[c.Ends[i].With]
	}
	c.Direction = base.OwnWay(p.Direction)
	c.Lean, c.LeanBearing = math.Acos(max(-1, min(1, c.Direction.Z))), BearingOf(c.Direction)
	if foot := &p.Ends[Foot]; foot.Meets == OnBall && foot.With != nil && p.Offset > 0 {
		c.Offset, c.OffsetBear = level(base.OwnWay(r3.Sub(foot.At, foot.With.Ball.Center)))
	}
	return &c
}

// turnBearings sets the bearings of a post that lies in the frame of a plate by those that it
// has in space.
func (p *Post) turnBearings(base *Base, was *Post) {
	p.Seam = base.turned(was, p, was.Seam)
	if foot := &was.Ends[Foot]; foot.Meets == OnSide && foot.With != nil {
		p.AlongBear = base.turned(foot.With.Post, p.Ends[Foot].With.Post, was.AlongBear)
	}
}

// laid returns a copy of a ball in the frame of a plate.
func (b *Ball) laid(base *Base, parts map[*Part]*Part) *Ball {
	c := *b
	c.Center, c.Pole, c.Prime = base.Own(b.Center), base.OwnWay(b.Pole), base.OwnWay(b.Prime)
	c.On, c.Around = parts[b.On], parts[b.Around]
	if b.On != nil && b.On.Ball != nil {
		c.Offset, c.OffsetBear = level(base.OwnWay(r3.Sub(b.Center, b.On.Ball.Center)))
	}
	return &c
}

// turned returns the bearing on a post that lies in the plate's own frame of what has a bearing
// on it in space.
func (b *Base) turned(was, is *Post, bearing float64) float64 {
	return is.BearingTo(b.OwnWay(was.Facing(bearing)))
}

// level returns how far a vector leads to the side, in plan, and its bearing.
func level(v r3.Vec) (far, bearing float64) { return math.Hypot(v.X, v.Y), BearingOf(v) }
