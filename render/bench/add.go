package bench

import (
	"context"
	"errors"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
	"stabile/param/edit"
	"stabile/param/quantity"
	"stabile/render/draft"
)

// An addition asks for a part at a place. Of a view that is -1 the place does
// not count.
type addition struct {
	Kind string     `json:"kind"` // "plate", "post", "ball", "bowl", "branch", "bead", "ring", "vent", "hole"
	Host string     `json:"host"` // the part that is pointed at; "" for none
	View int        `json:"view"`
	At   [2]float64 `json:"at"` // mm, right and up
}

// sizes are what a new part begins with: round figures of either system, in mm.
type sizes struct{ plate, depth, post, long, upper, ball, branch, reach, hoop, vent, hole float64 }

func sizesFor(u quantity.System) sizes {
	const in = 25.4
	if u == quantity.Inch {
		return sizes{24 * in, 20 * in, 3 * in, 24 * in, 16 * in, 8 * in, 3 * in, 12 * in, 20 * in, in / 4, 3 * in / 4}
	}
	return sizes{600, 500, 80, 600, 400, 200, 80, 300, 500, 6, 20}
}

func (s *Server) add(ctx context.Context, t *edit.Text, q *edition) (*edited, error) {
	if s.options.Sealed {
		return nil, errors.New("the bench was started to read only")
	}
	a, z := q.Add, sizesFor(t.Units())
	if a.View >= len(projections) || !quantity.Finite(a.At[0]) || !quantity.Finite(a.At[1]) {
		return nil, refuse(400, "this is not understood")
	}
	if a.Kind == "plate" {
		return added(t, edit.Addition{Keyword: "base", Properties: []edit.Given{{Property: "plate", Values: mm(z.plate, z.depth)}}})
	}
	j, err := s.standing(ctx, &q.state)
	if err != nil {
		return nil, err
	}
	host := j.Design.Part(a.Host)
	if host == nil {
		host = fitting(j, a.Kind)
	}
	if host == nil {
		host = ground(t, j)
	}
	if host == nil {
		return nil, refuse(422, "add a plate first, then what stands on it")
	}
	switch a.Kind {
	case "vent":
		return addVent(t, host, z)
	case "hole":
		return addHole(t, a, host, z)
	case "post":
		return addPost(t, a, host, z)
	case "ball":
		return addBall(t, j, a, host, z)
	case "bowl":
		return addBowl(t, a, host, z)
	case "branch":
		return addBranch(t, a, host, z)
	case "bead":
		return addBead(t, a, host, z)
	case "ring":
		return addRing(t, a, host, z)
	}
	return nil, refuse(400, "this is not understood")
}

// fitting returns the part that a new one most likely goes on: the last for which
// there is room.
func fitting(j *fab.Job, kind string) *design.Part {
	taken := map[*design.Part]bool{}
	for _, p := range j.Design.Parts {
		if h := p.Host(); h != nil {
			taken[h] = taken[h] || p.Ball != nil && p.Ball.Around == nil
		}
	}
	for i := len(j.Design.Parts) - 1; i >= 0; i-- {
		p := j.Design.Parts[i]
		bowl := p.Ball != nil && p.Ball.Bowl
		switch kind {
		case "vent":
			if p.Ball != nil {
				return p
			}
		case "hole":
			if !bowl {
				return p
			}
		case "branch", "bead":
			if p.Post != nil {
				return p
			}
		case "post":
			if p.Post == nil && !bowl && !taken[p] {
				return p
			}
		default: // nothing stands in a bowl
			if !bowl && !taken[p] {
				return p
			}
		}
	}
	return nil
}

// ground returns what stands for the ground where nothing but feet is on it: by the
// name that the text has for those. It is nil where there is a base.
func ground(t *edit.Text, j *fab.Job) *design.Part {
	for _, d := range t.Parts() {
		if d.Keyword == "base" && j.Design.Base() == nil {
			return &design.Part{Name: d.Name, Base: &design.Base{}}
		}
	}
	return nil
}

func mm(list ...float64) []edit.Value {
	var v []edit.Value
	for _, x := range list {
		v = append(v, edit.Value{Quantity: length(x)})
	}
	return v
}

func number1(n float64) []edit.Value {
	return []edit.Value{{Quantity: quantity.Quantity{Number: n}}}
}

// pointed returns where in plan was pointed at, for what the view shows of it.
func (a *addition) pointed() (at r2.Vec) {
	switch {
	case a.View < 0:
	case projections[a.View] == draft.Front:
		at.X = a.At[0]
	case projections[a.View] == draft.Side:
		at.Y = a.At[0]
	default:
		at = r2.Vec{X: a.At[0], Y: a.At[1]}
	}
	return at
}

// onWall returns where on a plate on a wall was pointed at, for what the view shows of it.
func (a *addition) onWall(base *design.Base) (at r2.Vec) {
	switch {
	case a.View < 0:
	case projections[a.View] == draft.Front:
		at = r2.Vec{X: a.At[0], Y: a.At[1] - base.Wall}
	case projections[a.View] == draft.Side:
		at.Y = a.At[1] - base.Wall
	default:
		at.X = a.At[0]
	}
	return at
}

// placed returns the place on a plate that was pointed at, kept on it by a margin, or
// on the ground.
func placed(a *addition, base *design.Base, margin float64) []edit.Given {
	at := a.pointed()
	if base.OnWall() {
		at = a.onWall(base)
	}
	box := base.Outline().Box()
	keep := func(x, lo, hi float64) float64 { return max(min(lo+margin, 0), min(x, max(hi-margin, 0))) }
	if base.Top > 0 {
		at.X, at.Y = keep(at.X, box.Min.X, box.Max.X), keep(at.Y, box.Min.Y, box.Max.Y)
	}
	if r2.Norm(at) < margin/4 {
		return nil
	}
	const rough = 25.4 / 4
	return []edit.Given{{Property: "at", Values: []edit.Value{{Point: []quantity.Quantity{length(at.X), length(at.Y)}, Step: rough}}}}
}

// offset returns how far off the middle was pointed, within a reach.
func offset(a *addition, middle r3.Vec, reach float64) []edit.Given {
	if a.View < 0 {
		return nil
	}
	off := r2.Sub(a.pointed(), design.Plan(middle))
	switch projections[a.View] {
	case draft.Front:
		off.Y = 0
	case draft.Side:
		off.X = 0
	}
	far := min(r2.Norm(off), reach)
	if far < reach/5 {
		return nil
	}
	return []edit.Given{{Property: "offset", Values: []edit.Value{
		{Quantity: length(far)}, {Quantity: angle(stepped(bearing(off)))},
	}}}
}

func addPost(t *edit.Text, a *addition, host *design.Part, z sizes) (*edited, error) {
	width, long := z.post, z.long
	p := edit.Addition{Keyword: "post", Host: host.Name}
	var where []edit.Given
	switch {
	case host.Base != nil:
		where = placed(a, host.Base, width)
	case host.Ball != nil:
		width, long = min(width, host.Ball.Radius/2), z.upper
		where = offset(a, host.Ball.Center, host.Ball.Radius/2)
	default:
		width = min(width, host.Post.Ends[design.Head].Diameter)
	}
	p.Properties = append([]edit.Given{
		{Property: "diameter", Values: mm(width)}, {Property: "length", Values: mm(long)},
	}, where...)
	return added(t, p)
}

func addBall(t *edit.Text, j *fab.Job, a *addition, host *design.Part, z sizes) (*edited, error) {
	size := z.ball
	p := edit.Addition{Keyword: "ball", Host: host.Name}
	var where []edit.Given
	switch {
	case host.Base != nil && host.Base.OnWall():
		return nil, refuse(422, "no ball lies on a plate on a wall: put a post on it first, and the ball on that")
	case host.Base != nil:
		where = placed(a, host.Base, size/2)
	case host.Ball != nil:
		size = min(size, host.Ball.Radius*1.4)
		if !host.Ball.IsEgg() { // on which it sits by its pole alone
			where = offset(a, host.Ball.Center, size/6)
		}
	default:
		size = max(size, 1.5*host.Post.Ends[design.Head].Diameter)
	}
	p.Properties = append([]edit.Given{
		{Property: "diameter", Values: mm(size)}, {Property: "gores", Values: number1(8)},
	}, where...)
	return added(t, p)
}

func addBranch(t *edit.Text, a *addition, host *design.Part, z sizes) (*edited, error) {
	if host.Post == nil {
		return nil, refuse(422, "a branch grows from the side of a post: point at one")
	}
	post := host.Post
	along, way := 0.6*post.Length, 0.0
	foot, head := post.Ends[design.Foot].At, post.Ends[design.Head].At
	if a.View >= 0 && projections[a.View] != draft.Plan {
		v := projections[a.View]
		axis := r2.Sub(v.Flat(head), v.Flat(foot))
		off := r2.Sub(r2.Vec{X: a.At[0], Y: a.At[1]}, v.Flat(foot))
		if r2.Norm2(axis) > 1 {
			along = post.Length * alongPost(a, post)
			side := r2.Cross(axis, off) < 0 // to the right of the axis as it rises
			way = map[draft.Projection]float64{draft.Front: 0, draft.Side: math.Pi / 2}[v]
			if !side {
				way += math.Pi
			}
		}
	}
	width := min(z.branch, 0.7*post.DiameterAt(along))
	return added(t, edit.Addition{Keyword: "post", Name: "branch", Host: host.Name, Properties: []edit.Given{
		{Property: "at", Values: []edit.Value{{Quantity: length(along)}, {Quantity: angle(way)}}},
		{Property: "lean", Values: []edit.Value{{Quantity: angle(math.Pi / 3)}, {Quantity: angle(way)}}},
		{Property: "diameter", Values: mm(width)}, {Property: "length", Values: mm(z.reach)},
	}})
}

func addBead(t *edit.Text, a *addition, host *design.Part, z sizes) (*edited, error) {
	if host.Post == nil {
		return nil, refuse(422, "a ball is threaded on a post: point at one")
	}
	return added(t, edit.Addition{Keyword: "ball", Clause: "around", Host: host.Name, Properties: []edit.Given{
		{Property: "diameter", Values: mm(max(z.ball, 2*host.Post.DiameterAt(host.Post.Length/2)))},
		{Property: "height", Values: mm(host.Post.Length / 2)}, {Property: "gores", Values: number1(8)},
	}})
}

// addRing puts a ring on what it stands on: where that is a post, in its middle.
func addRing(t *edit.Text, a *addition, host *design.Part, z sizes) (*edited, error) {
	var where []edit.Given
	width := z.post
	switch {
	case host.Base != nil:
		where = placed(a, host.Base, z.hoop/2)
	case host.Post != nil:
		width = max(width, host.Post.Ends[design.Head].Diameter)
	}
	return added(t, edit.Addition{Keyword: "ring", Host: host.Name, Properties: append([]edit.Given{
		{Property: "across", Values: mm(max(z.hoop, 6*width))}, {Property: "diameter", Values: mm(width)},
	}, where...)})
}

// addBowl puts a bowl on what it stands on.
func addBowl(t *edit.Text, a *addition, host *design.Part, z sizes) (*edited, error) {
	var where []edit.Given
	wide := 2 * z.ball
	switch {
	case host.Base != nil:
		where = placed(a, host.Base, wide/2)
	case host.Post != nil:
		wide = max(wide, 2*host.Post.Ends[design.Head].Diameter)
	}
	return added(t, edit.Addition{Keyword: "bowl", Host: host.Name, Properties: append([]edit.Given{
		{Property: "diameter", Values: mm(wide)}, {Property: "depth", Values: mm(wide / 4)}, {Property: "gores", Values: number1(8)},
	}, where...)})
}

func added(t *edit.Text, a edit.Addition) (*edited, error) {
	r, err := t.Add(a)
	if err != nil {
		return nil, errors.New(said(err))
	}
	at := &ruler{text: r.Text}
	return &edited{dragged: dragged{Text: r.Text, From: at.units(r.From), To: at.units(r.To)}, Part: r.Name}, nil
}
