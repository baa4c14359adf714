package strength

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/param/design"
)

// A push is where the site's push can be laid.
type push struct {
	part *design.Part
	at   r3.Vec
}

// pushes returns each post and ball that stands at the height of the push; where
// none reaches it, the highest part at its top.
func pushes(in Input) []push {
	site := in.Design.Site
	if site == nil || !(site.Push > 0) {
		return nil
	}
	var list []push
	var highest push
	for _, it := range in.Items {
		p, h := it.Part, site.PushHeight
		var lo, hi r3.Vec
		switch {
		case p.Post != nil:
			lo, hi = p.Post.Foot, p.Post.Head
			if lo.Z > hi.Z {
				lo, hi = hi, lo
			}
		case p.Ball != nil:
			r := r3.Vec{Z: p.Ball.Radius}
			lo, hi = r3.Sub(p.Ball.Center, r), r3.Add(p.Ball.Center, r)
		default:
			continue
		}
		if highest.part == nil || hi.Z > highest.at.Z {
			highest = push{p, hi}
		}
		if lo.Z <= h && h <= hi.Z && lo.Z < hi.Z {
			share := (h - lo.Z) / (hi.Z - lo.Z)
			list = append(list, push{p, r3.Add(lo, r3.Scale(share, r3.Sub(hi, lo)))})
		}
	}
	if list == nil && highest.part != nil && site.PushHeight > highest.at.Z {
		list = []push{highest}
	}
	return list
}

// stationed returns the items with a station on each post where it is pushed.
func stationed(items []frame.Item, pushes []push) []frame.Item {
	if len(pushes) == 0 {
		return items
	}
	list := slices.Clone(items)
	for _, p := range pushes {
		for i := range list {
			if post := p.part.Post; post != nil && list[i].Part == p.part {
				along := r3.Dot(r3.Sub(p.at, post.Foot), post.Direction)
				list[i].Cuts = append(slices.Clone(list[i].Cuts), along)
			}
		}
	}
	return list
}
