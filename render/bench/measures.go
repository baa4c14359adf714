package bench

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
	"stabile/render/draft"
)

// A size is a number of a part where the drawing shows it, to be typed over there.
type size struct {
	Number int        `json:"number"` // in the list of the card
	View   int        `json:"view"`
	From   [2]float64 `json:"from"` // mm, as on the page
	To     [2]float64 `json:"to"`
	Away   [2]float64 `json:"away"` // which way the line is set off; (0, 0) for not at all
	Text   string     `json:"text"`
}

// A shownSize is a size as it follows from the part: the number is found by its place.
type shownSize struct {
	property string
	argument int
	view     draft.Projection
	from, to r2.Vec // mm, y up
	away     r2.Vec
	mm       float64
}

// measures returns where the drawing shows the numbers of a part.
func measures(j *fab.Job, p *design.Part, numbers []number) []size {
	w := sizing(j.Design)
	page := func(v r2.Vec) [2]float64 { return [2]float64{tenth(v.X), tenth(-v.Y)} }
	list := []size{}
	for _, s := range measuredOf(p) {
		i := slices.IndexFunc(numbers, func(n number) bool {
			return n.Property == s.property && n.Argument == s.argument && n.Coordinate == 0
		})
		if i < 0 {
			continue // it follows from others
		}
		list = append(list, size{
			Number: i, View: int(s.view), From: page(s.from), To: page(s.to), Away: [2]float64{s.away.X + 0, -s.away.Y + 0}, Text: w.Long(s.mm),
		})
	}
	return list
}

func measuredOf(p *design.Part) []shownSize {
	switch {
	case p.Post != nil && p.Post.Ring != nil:
		return ringMeasured(p.Post.Ring)
	case p.Post != nil:
		return postMeasured(p.Post)
	case p.Ball != nil && p.Ball.Bowl:
		return bowlMeasured(p.Ball)
	case p.Ball != nil:
		b := p.Ball
		if b.IsEgg() {
			return eggMeasured(b)
		}
		c := draft.Front.Flat(b.Center)
		low := c.Y - b.Radius
		return []shownSize{{
			property: "diameter", view: draft.Front, mm: 2 * b.Radius,
			from: r2.Vec{X: c.X - b.Radius, Y: low}, to: r2.Vec{X: c.X + b.Radius, Y: low}, away: r2.Vec{Y: -1},
		}}
	}
	b := p.Base
	half := r2.Vec{X: b.Width / 2, Y: b.Depth / 2}
	if b.OnWall() {
		low, high := b.Wall-half.Y, b.Wall+half.Y
		return []shownSize{
			{property: "wall", view: draft.Front, mm: b.Width, from: r2.Vec{X: -half.X, Y: low}, to: r2.Vec{X: half.X, Y: low}, away: r2.Vec{Y: -1}},
			{property: "wall", argument: 1, view: draft.Front, mm: b.Depth, from: r2.Vec{X: half.X, Y: low}, to: r2.Vec{X: half.X, Y: high}, away: r2.Vec{X: 1}},
		}
	}
	wide := shownSize{property: "disc", view: draft.Plan, mm: b.Width, from: r2.Vec{X: -half.X, Y: -half.Y}, to: r2.Vec{X: half.X, Y: -half.Y}, away: r2.Vec{Y: -1}}
	switch b.Shape {
	case design.Disc:
		wide.from.Y, wide.to.Y = -half.X, -half.X
		return []shownSize{wide}
	case design.Plate:
		wide.property = "plate"
		deep := shownSize{
			property: "plate", argument: 1, view: draft.Plan, mm: b.Depth,
			from: r2.Vec{X: half.X, Y: -half.Y}, to: half, away: r2.Vec{X: 1},
		}
		return []shownSize{wide, deep}
	}
	return nil
}

// eggMeasured returns how wide and how tall an egg is; nothing of one whose pole is seen aslant.
func eggMeasured(b *design.Ball) []shownSize {
	if math.Abs(b.Pole.Z) < 1-1e-9 {
		return nil
	}
	c, wide, high := draft.Front.Flat(b.Center), b.Radius, b.Polar()
	right := r2.Vec{X: c.X + wide, Y: c.Y - high}
	return []shownSize{
		{property: "diameter", view: draft.Front, mm: 2 * wide, from: r2.Vec{X: c.X - wide, Y: c.Y - high}, to: right, away: r2.Vec{Y: -1}},
		{property: "tall", view: draft.Front, mm: b.Tall, from: right, to: r2.Vec{X: c.X + wide, Y: c.Y + high}, away: r2.Vec{X: 1}},
	}
}

// bowlMeasured returns the diameter of a bowl's rim and its depth; nothing of one that is
// tilted, whose rim is seen aslant.
func bowlMeasured(b *design.Ball) []shownSize {
	if b.Pole.Z < 1-1e-9 {
		return nil
	}
	rim, r := draft.Front.Flat(b.Mouth()), b.RimRadius()
	right := r2.Vec{X: rim.X + r, Y: rim.Y}
	return []shownSize{
		{property: "diameter", view: draft.Front, mm: 2 * r, from: r2.Vec{X: rim.X - r, Y: rim.Y}, to: right, away: r2.Vec{Y: 1}},
		{property: "depth", view: draft.Front, mm: b.Depth(), from: r2.Vec{X: right.X, Y: rim.Y - b.Depth()}, to: right, away: r2.Vec{X: 1}},
	}
}

// postMeasured returns the length of a post along its side, and its diameters across it.
func postMeasured(post *design.Post) []shownSize {
	foot, head := post.Ends[design.Foot], post.Ends[design.Head]
	// The elevation in which it is seen the longer.
	v := draft.Front
	if long := func(v draft.Projection) float64 { return r2.Norm(v.Flat(post.Direction)) }; long(draft.Side) > long(draft.Front)+1e-6 {
		v = draft.Side
	}
	side := aside(v.Flat(post.Direction))
	beside := func(at r3.Vec, by float64) r2.Vec { return r2.Add(v.Flat(at), r2.Scale(by, side)) }
	wide := max(foot.Diameter, head.Diameter) / 2
	list := []shownSize{{
		property: "length", view: v, mm: post.Length, away: r2.Scale(-1, side),
		from: beside(foot.At, -wide), to: beside(head.At, -wide),
	}}
	across := func(share float64, argument int) {
		at := r3.Add(foot.At, r3.Scale(share*post.Length, post.Direction))
		d := post.DiameterAt(share * post.Length)
		list = append(list, shownSize{property: "diameter", argument: argument, view: v, mm: d, from: beside(at, -d/2), to: beside(at, d/2)})
	}
	if !post.IsTaper() {
		across(1./3, 0)
		return list
	}
	across(0, 0)
	across(1, 1)
	return list
}
