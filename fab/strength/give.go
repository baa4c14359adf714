package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/frame"
	"stabile/fab/plate"
	"stabile/param/design"
)

// onPlate gives the ends of posts on a plate the give of the plate: on three anchors or
// more by plate elements, nothing being counted on the ground; lying free by its lifting
// on rigid ground, with the share of the tipping moment that the loads come to. The softer
// of the two ways that a plate turns is taken for both.
func onPlate(items []frame.Item, in Input) []plate.Spring {
	for _, p := range in.Pads {
		alone := in.alone(p)
		alone.Before = nil
		onPlate(items, alone)
	}
	base := in.plated()
	if base == nil || base.Metal == nil || !(base.Metal.Thickness > 0) {
		return nil
	}
	type place struct{ item, end int }
	var places []place
	p := plate.Plate{Outline: in.Footprint, Anchors: in.Anchors, Thickness: base.Metal.Thickness, Modulus: base.Metal.Modulus}
	for i := range items {
		post := items[i].Part.Post
		if post == nil {
			continue
		}
		for k := range ends {
			if end := &post.Ends[k]; end.Meets == design.OnPlate && end.With == base {
				places = append(places, place{i, k})
				p.Posts = append(p.Posts, plate.Post{At: design.Plan(base.Base.Own(end.At)), Radius: end.Diameter / 2})
			}
		}
	}
	if len(in.Anchors) > 0 {
		list, err := []plate.Spring(nil), error(nil)
		if in.Before != nil {
			list = in.Before.plate
		}
		if len(list) != len(places) {
			list, err = p.Springs()
		}
		if err == nil {
			for n, at := range places {
				items[at.item].Give[at.end] = frame.Spring{Rotational: min(list[n].Rotational[0], list[n].Rotational[1]), Axial: list[n].Axial}
			}
			return list
		}
	}
	give, err := plate.Loose(p.Thickness, p.Modulus, min(1, max(0, in.Tips)))
	if err != nil {
		return nil
	}
	for _, at := range places {
		items[at.item].Give[at.end].Rotational = give.Spring
	}
	return nil
}

// between checks the strip of the plate between each two posts on it, in which their
// moments bend it the opposite way: the greater of the two moments, on a strip as wide as
// the narrower post and 45 degrees of spread from each face to the middle, and no wider
// than the plate.
func (pl *Plate) between(in Input, m *design.Metal) (worst Plate) {
	yield, _ := Yield(m)
	for i := range pl.feet {
		a := &pl.feet[i]
		from, ra := a.spot()
		for k := range pl.feet[:i] {
			b := &pl.feet[k]
			if a.idle || b.idle {
				continue
			}
			to, rb := b.spot()
			way := r2.Sub(to, from)
			gap := r2.Norm(way) - ra - rb
			if !(gap > 0) {
				continue
			}
			way = r2.Unit(way)
			d := 2 * min(ra, rb)
			width := min(chord(in.Footprint, from, way, d+gap), chord(in.Footprint, to, way, d+gap))
			foot := a
			if b.moment > a.moment {
				foot = b
			}
			if !(width > 0) || !(foot.moment > 0) {
				continue
			}
			line, err := plate.Between(foot.moment, min(d, width), 0, max(0, width-d), width, m.Thickness, yield)
			if err != nil || line.Use <= worst.Ratio {
				continue
			}
			worst = Plate{
				Post: foot.part, Foot: foot.moment, Moment: foot.moment, Width: width, Spread: d + gap, Ratio: line.Use,
				Allowed: line.Allowed * width, Stress: 6 * foot.moment / (width * m.Thickness * m.Thickness), foot: foot, toward: way, pair: true,
			}
			if foot == b {
				worst.toward = r2.Scale(-1, way)
			}
		}
	}
	if math.IsNaN(worst.Ratio) {
		return Plate{}
	}
	return worst
}
