package bench

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
	"stabile/param/edit"
	"stabile/param/quantity"
	"stabile/render/draft"
)

// A hand is a handle of a part: what is dragged, and the numbers of the text that
// it changes.
type hand struct {
	Name string         `json:"name"`           // "head", "foot", "side", "centre", "size", "tall", "width", "depth"
	Says string         `json:"says"`           // for readers of the screen
	At   [3]*[2]float64 `json:"at"`             // in each view; null where it has no place
	Grey string         `json:"grey,omitempty"` // why it changes nothing

	wishes func(by r3.Vec, v draft.Projection) []edit.Wish // for a movement in a view, in mm
}

func (h *hand) place(view draft.Projection, at [2]float64) { h.At[view] = &at }

// everywhere puts a handle at a point in all views.
func (h *hand) everywhere(at r3.Vec) *hand {
	for _, p := range projections {
		h.place(p, flat(p, at))
	}
	return h
}

func length(mm float64) quantity.Quantity {
	return quantity.Quantity{Number: mm, Dim: quantity.Length}
}
func angle(rad float64) quantity.Quantity {
	return quantity.Quantity{Number: rad, Dim: quantity.Angle}
}

// plumb is the lean under which a post counts as upright: half of the least step.
const plumb = 0.25 * math.Pi / 180

// on returns a wish for a number of a part.
func on(part, property string, argument, coordinate int, q quantity.Quantity) edit.Wish {
	return edit.Wish{Place: edit.Place{Part: part, Property: property, Argument: argument, Coordinate: coordinate}, Value: q}
}

// bearing returns the bearing of a vector in plan, from 0 up.
func bearing(v r2.Vec) float64 {
	b := math.Atan2(v.Y, v.X)
	if b < 0 {
		b += 2 * math.Pi
	}
	return b
}

// offsets wishes for an offset with its bearing: of nothing there is none.
func offsets(part, property string, v r2.Vec) []edit.Wish {
	list := []edit.Wish{on(part, property, 0, 0, length(r2.Norm(v)))}
	if r2.Norm(v) > 0.5 {
		list = append(list, on(part, property, 1, 0, angle(bearing(v))))
	}
	return list
}

// hands returns the handles of a part.
func hands(j *fab.Job, name string) []*hand {
	i := slices.IndexFunc(j.Design.Parts, func(p *design.Part) bool { return p.Name == name })
	if i < 0 {
		return nil
	}
	switch p := j.Design.Parts[i]; {
	case p.Post != nil && p.Post.Ring != nil:
		return ringHands(p)
	case p.Post != nil:
		return postHands(p)
	case p.Ball != nil:
		return ballHands(p, j.Ties.OnGround(i))
	default:
		return baseHands(p)
	}
}

func postHands(p *design.Part) []*hand {
	post := p.Post
	foot, head := post.Ends[design.Foot], post.Ends[design.Head]
	host := p.Host()
	branch := host != nil && host.Post != nil
	hung := host != nil && host.Base != nil && host.Base.OnWall()
	var list []*hand
	if !post.Between {
		h := &hand{Name: "head", Says: "head of " + p.Name + ": length and lean"}
		h.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
			v := r3.Sub(r3.Add(head.At, by), foot.At)
			if (branch || hung) && !given(p, "lean") {
				return []edit.Wish{on(p.Name, "length", 0, 0, length(max(1, post.Length+r3.Dot(by, post.Direction))))}
			}
			long := r3.Norm(v)
			if long < 1 {
				return nil
			}
			out := []edit.Wish{on(p.Name, "length", 0, 0, length(long))}
			lean := math.Acos(max(-1, min(1, v.Z/long)))
			switch {
			case lean >= plumb:
				out = append(out, on(p.Name, "lean", 0, 0, angle(lean)), on(p.Name, "lean", 1, 0, angle(bearing(design.Plan(v)))))
			case given(p, "lean"):
				out = append(out, on(p.Name, "lean", 0, 0, angle(0)))
			}
			return out
		}
		list = append(list, h.everywhere(head.At))
	}
	if h := footHand(p, host, branch); h != nil {
		list = append(list, h.everywhere(foot.At))
	}
	side := func(says string, share float64, argument int) {
		h := &hand{Name: [...]string{"side", "side at the head"}[argument], Says: says}
		at := r3.Add(foot.At, r3.Scale(post.Length*share, post.Direction))
		radius := post.DiameterAt(post.Length*share) / 2
		for _, v := range projections {
			q := r2.Add(v.Flat(at), r2.Scale(radius, aside(v.Flat(post.Direction))))
			h.place(v, [2]float64{tenth(q.X), tenth(-q.Y)})
		}
		h.wishes = func(by r3.Vec, v draft.Projection) []edit.Wish {
			grow := r2.Dot(v.Flat(by), aside(v.Flat(post.Direction)))
			return []edit.Wish{on(p.Name, "diameter", argument, 0, length(max(1, 2*(radius+grow))))}
		}
		list = append(list, h)
	}
	if post.IsTaper() {
		side("diameter of "+p.Name+" at the foot", 0.15, 0)
		side("diameter of "+p.Name+" at the head", 0.85, 1)
	} else {
		side("diameter of "+p.Name, 0.5, 0)
	}
	return list
}

// aside returns the unit vector square to an axis, to its right as it rises; level
// for one that is seen end on.
func aside(axis r2.Vec) r2.Vec {
	if r2.Norm(axis) < 0.05 {
		return r2.Vec{X: 1}
	}
	return r2.Scale(1/r2.Norm(axis), r2.Vec{X: axis.Y, Y: -axis.X})
}

// given reports whether a property of a part stands in the text.
func given(p *design.Part, property string) bool {
	_, ok := p.Props[property]
	return ok
}

// footHand returns the handle of a post's foot: where it stands on the plate, off
// the middle of a ball, or up the side of another post.
func footHand(p *design.Part, host *design.Part, branch bool) *hand {
	post := p.Post
	foot := post.Ends[design.Foot]
	h := &hand{Name: "foot", Says: "foot of " + p.Name}
	switch {
	case post.Between:
		return nil
	case branch && given(p, "at"):
		axis := r3.Add(host.Post.Ends[design.Foot].At, r3.Scale(post.Along, host.Post.Direction))
		h.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
			along := r3.Dot(by, host.Post.Direction)
			out := []edit.Wish{on(p.Name, "at", 0, 0, length(max(0, post.Along+along)))}
			across := design.Plan(r3.Sub(r3.Add(foot.At, by), axis))
			if math.Hypot(by.X, by.Y) > 0.5 && r2.Norm(across) > 1 && math.Abs(along) < r3.Norm(by)/2 {
				out = []edit.Wish{on(p.Name, "at", 1, 0, angle(bearing(across)))}
			}
			return out
		}
	case branch:
		return nil
	case host != nil && host.Ball != nil:
		h.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
			sin, cos := math.Sincos(post.OffsetBear)
			v := r2.Vec{X: post.Offset*cos + by.X, Y: post.Offset*sin + by.Y}
			return offsets(p.Name, "offset", v)
		}
	default:
		h.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
			if host != nil && host.Base != nil {
				return places(p, design.Plan(host.Base.Own(foot.At)), host.Base.OwnWay(by))
			}
			return places(p, r2.Vec{X: foot.At.X, Y: foot.At.Y}, by)
		}
	}
	return h
}

// places wishes for a place on the base, in the coordinates in which it moved.
func places(p *design.Part, was r2.Vec, by r3.Vec) []edit.Wish {
	if !given(p, "at") {
		return []edit.Wish{on(p.Name, "at", 0, 0, length(was.X+by.X)), on(p.Name, "at", 0, 1, length(was.Y+by.Y))}
	}
	var list []edit.Wish
	if by.X != 0 {
		list = append(list, on(p.Name, "at", 0, 0, length(was.X+by.X)))
	}
	if by.Y != 0 {
		list = append(list, on(p.Name, "at", 0, 1, length(was.Y+by.Y)))
	}
	if list == nil {
		list = []edit.Wish{on(p.Name, "at", 0, 0, length(was.X)), on(p.Name, "at", 0, 1, length(was.Y))}
	}
	return list
}

func ballHands(p *design.Part, onGround bool) []*hand {
	b := p.Ball
	h := &hand{Name: "centre", Says: "centre of " + p.Name}
	switch {
	case b.Around != nil:
		h.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
			return []edit.Wish{on(p.Name, "height", 0, 0, length(max(0, b.Along+r3.Dot(by, b.Around.Post.Direction))))}
		}
	case b.On != nil && b.On.Base == nil:
		h.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
			sin, cos := math.Sincos(b.OffsetBear)
			return offsets(p.Name, "offset", r2.Vec{X: b.Offset*cos + by.X, Y: b.Offset*sin + by.Y})
		}
	case b.On != nil || onGround:
		h.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
			return places(p, r2.Vec{X: b.Center.X, Y: b.Center.Y}, by)
		}
	default:
		h.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
			at := r3.Add(b.Mouth(), by)
			return []edit.Wish{on(p.Name, "at", 0, 0, length(at.X)), on(p.Name, "at", 0, 1, length(at.Y)), on(p.Name, "at", 0, 2, length(at.Z))}
		}
	}
	size := &hand{Name: "size", Says: "diameter of " + p.Name}
	middle, radius := b.Mouth(), b.RimRadius()
	if b.Bowl {
		h.Says, size.Says = "rim of "+p.Name, "diameter of the rim of "+p.Name
	}
	for _, v := range projections {
		q := v.Flat(middle)
		size.place(v, [2]float64{tenth(q.X + radius), tenth(-q.Y)})
	}
	size.wishes = func(by r3.Vec, v draft.Projection) []edit.Wish {
		return []edit.Wish{on(p.Name, "diameter", 0, 0, length(max(1, 2*(radius+v.Flat(by).X))))}
	}
	list := []*hand{h.everywhere(middle), size}
	if b.IsEgg() && math.Abs(b.Pole.Z) > 1-1e-9 {
		tall := &hand{Name: "tall", Says: "height of " + p.Name}
		for _, v := range []draft.Projection{draft.Front, draft.Side} {
			q := v.Flat(middle)
			tall.place(v, [2]float64{tenth(q.X), tenth(-q.Y - b.Polar())})
		}
		tall.wishes = func(by r3.Vec, v draft.Projection) []edit.Wish {
			return []edit.Wish{on(p.Name, "tall", 0, 0, length(max(1, 2*(b.Polar()+v.Flat(by).Y))))}
		}
		list = append(list, tall)
	}
	return list
}

func baseHands(p *design.Part) []*hand {
	b := p.Base
	if b.Pad || b.Shape != design.Plate && b.Shape != design.Disc {
		return nil
	}
	if b.OnWall() {
		return wallHands(p)
	}
	property := map[design.BaseShape]string{design.Plate: "plate", design.Disc: "disc"}[b.Shape]
	width := &hand{Name: "width", Says: "width of " + p.Name}
	right := r3.Vec{X: b.Width / 2, Z: (b.Under() + b.Top) / 2}
	width.place(draft.Front, flat(draft.Front, right))
	width.place(draft.Plan, flat(draft.Plan, right))
	width.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
		return []edit.Wish{on(p.Name, property, 0, 0, length(max(1, b.Width+2*by.X)))}
	}
	if b.Shape == design.Disc {
		return []*hand{width}
	}
	depth := &hand{Name: "depth", Says: "depth of " + p.Name}
	back := r3.Vec{Y: b.Depth / 2, Z: (b.Under() + b.Top) / 2}
	depth.place(draft.Side, flat(draft.Side, back))
	depth.place(draft.Plan, flat(draft.Plan, back))
	depth.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
		return []edit.Wish{on(p.Name, property, 1, 0, length(max(1, b.Depth+2*by.Y)))}
	}
	return []*hand{width, depth}
}

// wallHands are those of a plate on a wall: its width, its height and how high it is.
func wallHands(p *design.Part) []*hand {
	b := p.Base
	one := func(name, says string, argument int, at r3.Vec, size func(by r3.Vec) float64) *hand {
		h := &hand{Name: name, Says: says + " of " + p.Name}
		h.place(draft.Front, flat(draft.Front, b.InSpace(at)))
		h.wishes = func(by r3.Vec, _ draft.Projection) []edit.Wish {
			return []edit.Wish{on(p.Name, "wall", argument, 0, length(max(1, size(by))))}
		}
		return h
	}
	return []*hand{
		one("width", "width", 0, r3.Vec{X: b.Width / 2}, func(by r3.Vec) float64 { return b.Width + 2*by.X }),
		one("depth", "height", 1, r3.Vec{Y: b.Depth / 2}, func(by r3.Vec) float64 { return b.Depth + 2*by.Z }),
		one("centre", "place", 2, r3.Vec{}, func(by r3.Vec) float64 { return b.Wall + by.Z }),
	}
}

// A drag moves a handle of a part as it stands in the text of the question.
type drag struct {
	Part string     `json:"part"`
	Hand string     `json:"hand"`
	View int        `json:"view"`
	By   [2]float64 `json:"by"` // mm, to the right and up
	Fine bool       `json:"fine"`
	Keys bool       `json:"keys"` // By counts steps of the shop
}

// A dragged is what came of a drag.
type dragged struct {
	Text string `json:"text"`
	From int    `json:"from"` // of what was changed, in the new text
	To   int    `json:"to"`
	Says string `json:"says"` // the numbers as they are now

	named bool // they are of a let or adjust, by which other parts may go too
}

// Steps of a key, in mm: the shop's, and finer ones.
const (
	inchStep, inchFine     = 25.4 / 16, 25.4 / 64
	metricStep, metricFine = 0.5, 0.1
	fineAngle              = 0.1 * math.Pi / 180
)

// step returns the step of lengths in a system of units.
func step(u quantity.System, fine bool) float64 {
	switch {
	case u == quantity.Inch && fine:
		return inchFine
	case u == quantity.Inch:
		return inchStep
	case fine:
		return metricFine
	}
	return metricStep
}

// drag moves a handle, and returns the text with the numbers that do so.
func (s *Server) drag(ctx context.Context, q *state, d *drag) (*dragged, error) {
	j, err := s.standing(ctx, q)
	if err != nil {
		return nil, err
	}
	if d.View < 0 || d.View >= len(projections) || !quantity.Finite(d.By[0]) || !quantity.Finite(d.By[1]) {
		return nil, refuse(400, "this is not understood")
	}
	h := handOf(hands(j, d.Part), d.Hand)
	if h == nil {
		return nil, refuse(404, "there is no such handle")
	}
	x, y := d.By[0], d.By[1]
	if d.Keys {
		unit := step(j.Design.Units, d.Fine)
		x, y = x*unit, y*unit
	}
	var by r3.Vec
	switch projections[d.View] {
	case draft.Front:
		by = r3.Vec{X: x, Z: y}
	case draft.Side:
		by = r3.Vec{Y: x, Z: y}
	default:
		by = r3.Vec{X: x, Y: y}
	}
	text := s.reader(q)
	set, err := setAll(text, h.wishes(by, projections[d.View]), d.Fine, j.Design.Units)
	if err != nil {
		return nil, err
	}
	return changedBy(set), nil
}

func handOf(list []*hand, name string) *hand {
	for _, h := range list {
		if h.Name == name {
			return h
		}
	}
	return nil
}

// standing returns the job of a state, the last one if it is of the same text.
func (s *Server) standing(ctx context.Context, q *state) (*fab.Job, error) {
	r := s.jobs.like(q)
	if r == nil {
		var err error
		if r, err = s.do(ctx, q, quick); err != nil {
			return nil, err
		}
	}
	j := r.seen()
	if j == nil {
		return nil, refuse(422, "the text has mistakes that must be mended first")
	}
	return j, nil
}

// setAll sets as many of some numbers as can be: all, or those of each property,
// or each alone. The error is that of the first where none can.
func setAll(t *edit.Text, wishes []edit.Wish, fine bool, u quantity.System) (*edit.Set, error) {
	if len(wishes) == 0 {
		return nil, refuse(422, "it does not go there")
	}
	for i := range wishes {
		switch {
		case !fine:
		case wishes[i].Value.Dim == quantity.Angle:
			wishes[i].Step = fineAngle
		default:
			wishes[i].Step = step(u, true)
		}
	}
	set, first := t.Set(wishes...)
	if first == nil {
		return set, nil
	}
	var can []edit.Wish
	for _, group := range groups(wishes) {
		if _, err := t.Set(group...); err == nil {
			can = append(can, group...)
			continue
		}
		for _, w := range group {
			if _, err := t.Set(w); err == nil {
				can = append(can, w)
			}
		}
	}
	for n := len(can); n > 0; n-- { // two that come from one number do not go together
		if set, err := t.Set(can[:n]...); err == nil {
			return set, nil
		}
	}
	return nil, first
}

// groups parts wishes by their property.
func groups(wishes []edit.Wish) [][]edit.Wish {
	var list [][]edit.Wish
	for _, w := range wishes {
		if n := len(list); n > 0 && list[n-1][0].Property == w.Property {
			list[n-1] = append(list[n-1], w)
			continue
		}
		list = append(list, []edit.Wish{w})
	}
	return list
}

// changedBy says what a setting changed.
func changedBy(set *edit.Set) *dragged {
	d := &dragged{Text: set.Text}
	if len(set.Edit) > 0 {
		after := &ruler{text: set.Text}
		last := set.Undo[len(set.Undo)-1]
		d.From, d.To = after.units(set.Undo[0].From), after.units(last.To)
	}
	var says []string
	for _, n := range set.Numbers {
		says = append(says, saysNumber(&n))
		d.named = d.named || n.Name != ""
	}
	d.Says = strings.Join(says, ", ")
	return d
}

func saysNumber(n *edit.Number) string {
	name := n.Property
	if n.Name != "" {
		name = n.Name
	}
	text := name
	if n.Limited {
		text += " (at the end of its range)"
	}
	return text
}

// said puts an error of an edit into words for the maker.
func said(err error) string {
	var r *edit.Refusal
	if !errors.As(err, &r) {
		return err.Error()
	}
	if len(r.On) == 0 {
		return r.Reason.String()
	}
	return fmt.Sprintf("%v: %s", r.Reason, strings.Join(r.On, ", "))
}
