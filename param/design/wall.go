package design

import "gonum.org/v1/gonum/spatial/r3"

// A plate on a wall has its back on y = 0, where the face of the wall is, and its middle at
// x = 0 and at the height of Wall. What is said of a plate is said in its own frame: x to the
// right, y up the plate and z out of it, from the middle of its back. That of any other plate
// is the frame of the whole.

// OnWall reports whether the plate is fixed to a wall.
func (b *Base) OnWall() bool { return b.Wall > 0 }

// Wall returns the plate that holds the whole to a wall; nil where it stands on the ground.
func (d *Design) Wall() *Base {
	if p := d.Base(); p != nil && p.Base.OnWall() {
		return p.Base
	}
	return nil
}

// InSpace returns where a point of the plate's own frame is in space.
func (b *Base) InSpace(q r3.Vec) r3.Vec {
	if b.OnWall() {
		return r3.Vec{X: q.X, Y: -q.Z, Z: b.Wall + q.Y}
	}
	return q
}

// Own returns where a point in space is in the plate's own frame.
func (b *Base) Own(p r3.Vec) r3.Vec {
	if b.OnWall() {
		return r3.Vec{X: p.X, Y: p.Z - b.Wall, Z: -p.Y}
	}
	return p
}

// OwnWay returns a way in space in the plate's own frame.
func (b *Base) OwnWay(w r3.Vec) r3.Vec {
	if b.OnWall() {
		return r3.Vec{X: w.X, Y: w.Z, Z: -w.Y}
	}
	return w
}

// Face returns the point of the plate's outer face at x and y of its own frame, in space.
func (b *Base) Face(x, y float64) r3.Vec { return b.InSpace(r3.Vec{X: x, Y: y, Z: b.Top}) }

// Out returns the unit vector in space that leads out of the plate's face.
func (b *Base) Out() r3.Vec {
	if b.OnWall() {
		return r3.Vec{Y: -1}
	}
	return Upright
}

// UpFace returns the unit vector in space along y of the plate's own frame.
func (b *Base) UpFace() r3.Vec {
	if b.OnWall() {
		return r3.Vec{Z: 1}
	}
	return r3.Vec{Y: 1}
}

// StraightOut reports whether the part is a post that comes square out of a plate on a wall.
func (p *Part) StraightOut() bool {
	if p.Post == nil {
		return false
	}
	foot := &p.Post.Ends[Foot]
	return foot.Meets == OnPlate && foot.With != nil && foot.With.Base.OnWall() && r3.Dot(p.Post.Direction, foot.With.Base.Out()) > 1-1e-12
}
