package strength

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/frame"
	"stabile/fab/people"
	"stabile/param/design"
)

// A push is where the site's push can be laid.
type push struct {
	part  *design.Part
	at    r3.Vec
	where check.Where   // Anywhere where the part is pushed in one place alone
	along float64       // where it is Inside, as a share of its length
	loads []people.Load // of people, instead of the site's push
}

// pushes returns where each post and ball can be pushed at the height of the push;
// where that is above all of them, the highest part at its top.
func pushes(in Input) []push {
	if in.people != nil {
		return reached(in, in.people)
	}
	site := in.Design.Site
	if site == nil || !(site.Push > 0) {
		return nil
	}
	var list []push
	var highest push
	var joints map[*design.Part][]float64
	// leaning returns the pushes on a post that lies rather than stands.
	leaning := func(p *design.Part, height float64) []push {
		if joints == nil {
			joints = frame.Joints(in.Items)
		}
		return lengthwise(p, height, joints[p])
	}
	for _, it := range in.Items {
		p, h := it.Part, site.PushHeight
		var lo, hi r3.Vec
		var under, over float64 // how far a leaning post's rim is beyond the middle of its ends
		switch {
		case p.Post != nil:
			lo, hi = p.Post.Ends[design.Foot].At, p.Post.Ends[design.Head].At
			under, over = level(p.Post)*p.Post.Ends[design.Foot].Diameter/2, level(p.Post)*p.Post.Ends[design.Head].Diameter/2
			if lo.Z > hi.Z {
				lo, hi, under, over = hi, lo, over, under
			}
		case p.Ball != nil:
			r := r3.Vec{Z: p.Ball.Reach(design.Upright)}
			lo, hi = r3.Sub(p.Ball.Center, r), r3.Add(p.Ball.Center, r)
		default:
			continue
		}
		if highest.part == nil || hi.Z > highest.at.Z {
			highest = push{part: p, at: hi}
		}
		if p.Post != nil && lies(p.Post) {
			list = append(list, leaning(p, h)...)
			continue
		}
		switch {
		case lo.Z <= h && h <= hi.Z && lo.Z < hi.Z:
			share := (h - lo.Z) / (hi.Z - lo.Z)
			list = append(list, push{part: p, at: r3.Add(lo, r3.Scale(share, r3.Sub(hi, lo)))})
		case hi.Z < h && h <= hi.Z+over:
			list = append(list, push{part: p, at: hi})
		case lo.Z-under <= h && h < lo.Z:
			list = append(list, push{part: p, at: lo})
		}
	}
	if top := highest.at.Z; list == nil && highest.part != nil && site.PushHeight > top {
		if list = []push{highest}; highest.part.Post != nil && lies(highest.part.Post) {
			list = leaning(highest.part, top)
		}
	}
	return list
}

// level returns the share of a post's axis that is level: 0 of one that stands
// upright, 1 of one that lies.
func level(p *design.Post) float64 { return math.Hypot(p.Direction.X, p.Direction.Y) }

// lies reports whether a post leans more than half way to level. One that does can
// be pushed at a height all along a good part of it; of one that stands, no further
// than its own diameter from where its axis has that height.
func lies(p *design.Post) bool { return level(p) > math.Abs(p.Direction.Z) }

// lengthwise returns where a post that lies can be pushed at a height, given where
// something is fastened to it. Its wall covers the height wherever the axis is within
// its outside radius of it, which may be all along. There it is pushed where it is
// worst: a beam that is held at both ends is bent most in the middle with its ends
// free to turn, P L / 4, and where it is clamped most at an end, with the push a third
// of the way from that: P a b2 / L2, which is 4/27 P L (AISC Manual Table 3-23, from
// memory); one that is held at its foot alone, at its head.
func lengthwise(part *design.Part, height float64, joints []float64) []push {
	p := part.Post
	from, to := covered(p, height)
	if !(from <= to) {
		return nil
	}
	var list []push
	var taken []float64
	near := frame.Merge * p.Narrowest() // the frame has one station for places nearer to each other
	add := func(at float64) {
		if !slices.ContainsFunc(taken, func(x float64) bool { return math.Abs(x-at) <= near }) {
			taken = append(taken, at)
			list = append(list, push{
				part: part, at: r3.Add(p.Ends[design.Foot].At, r3.Scale(at, p.Direction)),
				where: check.Inside, along: at / p.Length,
			})
		}
	}
	// Where the height is that of the axis, unless that is so, or nearly, all along.
	if x := (height - p.Ends[design.Foot].At.Z) / p.Direction.Z; 0 <= x && x <= p.Length && (from > 0 || to < p.Length) {
		add(x)
	}
	for _, share := range []float64{1. / 2, 1. / 3, 2. / 3} {
		add(max(from, min(share*p.Length, to)))
	}
	for _, x := range joints {
		if from <= x && x <= to {
			add(x)
		}
	}
	if p.Ends[design.Head].Meets == design.Free && to == p.Length {
		add(to)
	}
	if len(list) == 1 {
		list[0].where, list[0].along = check.Anywhere, 0
	}
	return list
}

// covered returns from where to where along its axis, in mm from its foot, the wall
// of a post covers a height; from above to where it does not.
func covered(p *design.Post, height float64) (from, to float64) {
	from, to = 0, p.Length
	s := level(p)
	// By how much the top of the wall is above the height, or its bottom under it, at
	// both ends: between them it changes evenly.
	for _, side := range []float64{1, -1} {
		a := side*(p.Ends[design.Foot].At.Z-height) + s*p.Ends[design.Foot].Diameter/2
		b := side*(p.Ends[design.Head].At.Z-height) + s*p.Ends[design.Head].Diameter/2
		switch x := a / (a - b) * p.Length; {
		case a < 0 && b < 0:
			return 1, 0
		case a < 0:
			from = max(from, x)
		case b < 0:
			to = min(to, x)
		}
	}
	return from, to
}

// stationed returns the items with a station on each post where it is pushed.
func stationed(items []frame.Item, pushes []push) []frame.Item {
	if len(pushes) == 0 {
		return items
	}
	cuts := map[*design.Part][]float64{}
	for _, p := range pushes {
		if post := p.part.Post; post != nil {
			cuts[p.part] = append(cuts[p.part], r3.Dot(r3.Sub(p.at, post.Ends[design.Foot].At), post.Direction))
		}
	}
	list := slices.Clone(items)
	for i := range list {
		if more := cuts[list[i].Part]; more != nil {
			list[i].Cuts = append(slices.Clone(list[i].Cuts), more...)
		}
	}
	return list
}
