package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/people"
	"stabile/param/design"
)

// Crowded returns the input for the loads of people, without wind and push: they are on
// every part within reach, where they are worst, one at a time.
func (in Input) Crowded(loads []people.Load) Input {
	d, site := *in.Design, siteOf(in.Design)
	site.Push, site.Wind = 0, 0
	d.Site = &site
	in.Design, in.Wind, in.people, in.Still = &d, nil, loads, true
	return in
}

// Shaken returns the input for a level force of a share of the weight, under 1, from every
// side, as weight on a slope has it, with a factor that brings it to strength level.
func (in Input) Shaken(share, strength float64) Input {
	d, site := *in.Design, siteOf(in.Design)
	site.Push, site.Wind, site.Slope = 0, 0, math.Asin(share)
	d.Site = &site
	in.Design, in.Wind, in.shake, in.Still = &d, nil, strength, true
	return in
}

// Places returns where the loads of people are laid on the parts within reach, with the
// loads that come there.
func Places(in Input, loads []people.Load) []Loaded {
	var list []Loaded
	for _, p := range reached(in, loads) {
		list = append(list, Loaded{Part: p.part.Name, At: p.at, Loads: p.loads})
	}
	return list
}

// A Loaded is where people load a part.
type Loaded struct {
	Part  string
	At    r3.Vec // mm
	Loads []people.Load
}

// reached returns where the loads of people are laid: they lean on a post or a ball at the
// height of a guard's top, or at its own where it ends lower; what is above that, or
// ends below the height of a step, is not leant on. They climb on a post where
// it is held least, its head, or the middle and the ends of what is within reach, and on a
// ball at its sides.
func reached(in Input, loads []people.Load) []push {
	var list []push
	var leans, climbs []people.Load
	height := 0.0
	for _, l := range loads {
		if l.Vertical > 0 {
			climbs = append(climbs, l)
		} else {
			leans, height = append(leans, l), l.Height
		}
	}
	for _, it := range in.Items {
		p := it.Part
		switch {
		case p.Post != nil:
			list = append(list, reachedPost(p, leans, climbs, height)...)
		case p.Ball != nil:
			c, r := p.Ball.Center, p.Ball.Reach(design.Upright)
			if _, ok := people.Within(c.Z-r, c.Z+r); !ok {
				continue
			}
			if len(leans) > 0 && c.Z-r <= height && c.Z+r >= people.Foothold {
				list = append(list, push{part: p, at: r3.Add(c, r3.Vec{Z: min(height-c.Z, r)}), loads: leans})
			}
			if len(climbs) == 0 {
				continue
			}
			for k := range 4 {
				sin, cos := math.Sincos(float64(k) * math.Pi / 2)
				side := r3.Vec{X: cos, Y: sin}
				list = append(list, push{part: p, at: r3.Add(c, r3.Scale(p.Ball.Reach(side), side)), loads: climbs})
			}
		}
	}
	return list
}

func reachedPost(p *design.Part, leans, climbs []people.Load, height float64) (list []push) {
	foot, head := p.Post.Ends[design.Foot].At, p.Post.Ends[design.Head].At
	if _, ok := people.Within(min(foot.Z, head.Z), max(foot.Z, head.Z)); !ok {
		return nil
	}
	rise := head.Z - foot.Z
	// The shares of the length between which it is within reach.
	from, to := 0.0, 1.0
	if rise > 0 {
		to = min(1, (people.Reach-foot.Z)/rise)
	} else if rise < 0 {
		from = max(0, (people.Reach-foot.Z)/rise)
	}
	add := func(share float64, loads []people.Load) {
		if len(loads) > 0 {
			list = append(list, push{
				part: p, at: r3.Add(foot, r3.Scale(share, r3.Sub(head, foot))), where: check.Inside, along: share, loads: loads,
			})
		}
	}
	share := 0.5
	if rise != 0 {
		share = (height - foot.Z) / rise
	}
	if min(foot.Z, head.Z) <= height && max(foot.Z, head.Z) >= people.Foothold {
		add(max(from, min(share, to)), leans)
	}
	add(to, climbs)
	add((from+to)/2, climbs)
	if from > 0 {
		add(from, climbs)
	}
	return list
}

// leanings returns the cases of people on a place, shares of the columns of 1 N along x, along
// y and down. On a slope a weight alone comes with the ground falling every way.
func leanings(loads []people.Load, slope bool) (list [][3]float64, from []float64) {
	for _, l := range loads {
		if !(l.Level > 0) && !slope {
			list, from = append(list, [3]float64{0, 0, l.Vertical}), append(from, 0)
			continue
		}
		for k := range bearings {
			at := 2 * math.Pi * float64(k) / bearings
			sin, cos := math.Sincos(at)
			list, from = append(list, [3]float64{-l.Level * cos, -l.Level * sin, l.Vertical}), append(from, at)
		}
	}
	return list, from
}

// most returns the greatest level force and weight of people on a place, in N.
func (p *push) most() (level, down float64) {
	for _, l := range p.loads {
		level, down = max(level, l.Level), max(down, l.Vertical)
	}
	return level, down
}

// levels reports whether a case of people has a level force.
func (c *cases) levels(l *loadCase) bool {
	for _, t := range l.terms[:l.count] {
		if k := t.column - c.push; k >= 0 && k%c.each < 2 && t.share != 0 {
			return true
		}
	}
	return false
}
