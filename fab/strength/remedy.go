package strength

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/frame"
	"stabile/fab/solid"
	"stabile/fab/wind"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/stock"
)

// A Change makes one part heavier: a post, a ball that is made, or the plate.
type Change struct {
	Part      *design.Part
	Thickness float64 // mm; 0 leaves it
	Diameter  float64 // mm, at the foot, a taper's head in proportion; 0 leaves it
	Build     Build
	Doubler   float64 // mm, of the disc under the post on the ball On; 0 leaves it
	On        *design.Part
}

// A Build is another way to make a ball, which curves its wall both ways.
type Build string

// The builds.
const (
	AsBuilt  Build = ""       // leaves it
	OfDomed  Build = "domed"  // of as many gores, stretched both ways
	OfHalves Build = "halves" // of two dished halves
)

// With returns the input with a change made: the part's own mass goes with its
// metal, the wind is worked out again, and everything stays in its place. The
// design that it is made from is not touched.
func (in Input) With(ch Change) (Input, error) {
	copied := map[*design.Part]*design.Part{nil: nil}
	d := *in.Design
	d.Parts = make([]*design.Part, len(in.Design.Parts))
	for i, p := range in.Design.Parts {
		q := *p
		copied[p], d.Parts[i] = &q, &q
	}
	for _, q := range d.Parts {
		if q.Post != nil {
			post := *q.Post
			post.Ends[design.Foot].With, post.Ends[design.Head].With = copied[post.Ends[design.Foot].With], copied[post.Ends[design.Head].With]
			q.Post = &post
		}
		if q.Ball != nil {
			ball := *q.Ball
			ball.On, ball.Around = copied[ball.On], copied[ball.Around]
			q.Ball = &ball
		}
	}
	d.Joints = make([]design.Joint, len(in.Design.Joints))
	for i, j := range in.Design.Joints {
		j.Post, j.A, j.B = copied[j.Post], copied[j.A], copied[j.B]
		d.Joints[i] = j
	}
	p := copied[ch.Part]
	if p == nil || p.Metal == nil || p.Post == nil && ch.Diameter > 0 {
		return in, fmt.Errorf("strength: no part to change")
	}
	metal := *p.Metal
	p.Metal = &metal
	before := wall(p)
	if ch.Doubler > 0 {
		for i := range p.Post.Ends {
			if p.Post.Ends[i].With == copied[ch.On] {
				p.Post.Ends[i].Doubler = ch.Doubler
			}
		}
	}
	if ch.Thickness > 0 {
		p.Metal.Gauge, p.Metal.Ounces, p.Metal.Thickness = 0, 0, ch.Thickness
	}
	if ch.Diameter > 0 {
		k := ch.Diameter / p.Post.Ends[design.Foot].Diameter
		p.Post.Ends[design.Foot].Diameter *= k
		p.Post.Ends[design.Head].Diameter *= k
	}
	if p.Ball != nil {
		switch ch.Build {
		case OfDomed:
			p.Ball.Build = design.DomedGores
		case OfHalves:
			p.Ball.Build, p.Ball.Caps, p.Ball.UpperCap = design.Halves, 0, 0
		}
	}
	out := in
	out.Design = &d
	out.Items = make([]frame.Item, len(in.Items))
	for i, it := range in.Items {
		if it.Part == ch.Part {
			it.Mass *= wall(p) / before
			if ch.Doubler > 0 {
				it.Mass += math.Pi / 4 * ch.Doubler * ch.Doubler * ch.On.Metal.Thickness * ch.On.Metal.Density * 1e-9
			}
		}
		it.Part = copied[it.Part]
		out.Items[i] = it
	}
	out.Pads = make([]PadInput, len(in.Pads))
	for i, pad := range in.Pads {
		pad.Part = copied[pad.Part]
		out.Pads[i] = pad
	}
	if in.Wind != nil {
		opt := wind.Options{}
		if in.Wind.Method == design.ASCE7 {
			opt.Edition = in.Wind.Edition
		}
		var err error
		if out.Wind, err = wind.On(&d, solid.Bodies(&d), opt); err != nil {
			return in, err
		}
	}
	return out, nil
}

// wall returns what the mass of a part goes with: the section of a post's metal, of its foot and
// head together, else the thickness.
func wall(p *design.Part) float64 {
	t := p.Metal.Thickness
	if p.Post == nil {
		return t
	}
	return t * (p.Post.Ends[design.Foot].Diameter + p.Post.Ends[design.Head].Diameter - 2*t)
}

// OfPart returns the greatest ratio of a post and its welds, and whether it has
// any.
func (s *Strength) OfPart(name string) (ratio float64, ok bool) {
	for i := range s.Members {
		if m := &s.Members[i]; m.Part.Name == name {
			ratio, ok = max(ratio, m.Ratio), true
		}
	}
	for i := range s.Welds {
		if w := &s.Welds[i]; w.Part.Name == name {
			ratio, ok = max(ratio, w.Ratio), true
		}
	}
	return ratio, ok
}

// A Remedy is a change that was worked out and the ratio that it has.
type Remedy struct {
	Change
	Gauge int        // of the thickness; 0 where it is none of the alloy's
	Pipe  stock.Pipe // that it then is, of a post that is cut from pipe; else zero
	Ratio float64    // of what was over its limit
}

const (
	// mostTries bounds the changes of a kind that are tried, each of which works the
	// whole out again.
	mostTries = 8

	// MostAdvised is how many parts a piece may have for which it is worked out what
	// helps.
	MostAdvised = mostChecked

	// mostChecked is how many parts are worked out again for a kind, all tries
	// together, which takes about a second: of a piece of more than 300 parts fewer
	// changes are tried, and of one of more than this none.
	mostChecked = 2400
)

// tries returns how many changes of a kind are tried of a piece of that many parts.
func tries(parts int) int { return min(mostTries, mostChecked/max(1, parts)) }

// Remedies tries thicker gauges of the post's alloy, and then wider posts in
// steps in mm, until each has a ratio of 1 or less. It returns the first of
// each kind that does, else the best that was tried where it helps at all. For a piece
// of many parts it goes in larger steps, as far; for one of more than 2400 it tries
// nothing. The input is the one that the strength was worked out from.
func (s *Strength) Remedies(in Input, p *design.Part, step float64) ([]Remedy, error) {
	in.Still = true // ratios do not depend on frequencies
	return s.remedies(in, p, step, func(s *Strength) (float64, bool) { return s.OfPart(p.Name) })
}

// remedies is Remedies of a part for what a measure reads.
func (s *Strength) remedies(in Input, p *design.Part, step float64, measure func(*Strength) (float64, bool)) ([]Remedy, error) {
	var list []Remedy
	before, ok := measure(s)
	most := tries(len(in.Items))
	if !ok || most == 0 || p == nil || p.Metal == nil {
		return nil, nil
	}
	stride := mostTries / most
	try := func(next func(i int) (Remedy, bool)) error {
		best, err := s.best(in, before, func(i int) (Remedy, bool) { return next((i+1)*stride - 1) }, measure)
		if best.Part != nil {
			list = append(list, best)
		}
		return err
	}
	among := func(options []Remedy) func(i int) (Remedy, bool) {
		return func(i int) (Remedy, bool) {
			if i >= len(options) {
				return Remedy{}, false
			}
			return options[i], p.Post == nil || fits(p, max(options[i].Diameter, p.Post.Ends[design.Foot].Diameter))
		}
	}
	if p.Post != nil && p.Post.Bought != nil && p.Post.Bought.IsPipe() {
		walls, sizes := pipes(p)
		err := try(among(walls))
		if err == nil {
			err = try(among(sizes))
		}
		return list, err
	}
	var err error
	if gauges := thicker(p, in.Design.Units); len(gauges) > 0 {
		err = try(among(gauges))
	}
	for _, build := range builds(p) {
		if err != nil || slices.ContainsFunc(list, func(r Remedy) bool { return r.Ratio <= 1 }) {
			break
		}
		options := append([]Remedy{{Change: Change{Part: p}, Gauge: p.Metal.Gauge}}, thicker(p, in.Design.Units)...)
		for i := range options {
			options[i].Build = build
		}
		err = try(among(options))
	}
	if err == nil && step > 0 && p.Post != nil {
		err = try(func(i int) (Remedy, bool) {
			d := p.Post.Ends[design.Foot].Diameter + float64(i+1)*step
			return Remedy{Change: Change{Part: p, Diameter: d}}, fits(p, d)
		})
	}
	return list, err
}

// best tries one change after another on the input that the strength was worked out from, as many
// as may be tried, until a measure of one is 1 or less. It returns that, else the best that was
// tried; its part is nil where none is better than it was before. Next returns the change of
// a count, and false where there are no more.
func (s *Strength) best(in Input, before float64, next func(i int) (Remedy, bool), measure func(*Strength) (float64, bool)) (Remedy, error) {
	best := Remedy{Ratio: before}
	for i := range tries(len(in.Items)) {
		option, ok := next(i)
		if !ok {
			break
		}
		changed, err := in.With(option.Change)
		if err != nil {
			return Remedy{}, err
		}
		changed.Before = nil
		if option.Diameter == 0 && option.Part.Base == nil {
			changed.Before = s // on the same plate
		}
		tried, err := Check(changed)
		if err != nil {
			return Remedy{}, err
		}
		if r, ok := measure(tried); ok && r < best.Ratio {
			best, best.Ratio = option, r
		}
		if best.Ratio <= 1 {
			break
		}
	}
	return best, nil
}

// Cures returns what brings a check that fails within its limit, each tried on the design: of a
// post or its weld, of the wall of a ball or a post by that wall and by the post on it, of the
// plate, and of vibration. It is empty for other checks, and where nothing that was tried does.
func (s *Strength) Cures(in Input, k check.Check) ([]Cure, error) {
	in.Still = k.ID != check.Shedding
	part := in.Design.Part(k.Part)
	measure := func(s *Strength) (float64, bool) { return s.OfPart(k.Part) }
	parts := []*design.Part{part}
	switch k.ID {
	case check.Post, check.Weld:
	case check.BallWall, check.PostWall:
		measure = func(s *Strength) (float64, bool) {
			worst, found := 0.0, false
			for i := range s.Shells {
				if sh := &s.Shells[i]; sh.Ball.Name == k.Part && sh.With.Name == k.With && (sh.Gap.fails() || sh.Gap == WallRidges) {
					worst, found = max(worst, sh.Ratio), true
				}
			}
			return worst, found
		}
		if with := in.Design.Part(k.With); with != nil && with.Post != nil {
			parts = append(parts, with)
		}
	case check.Plate:
		measure = func(s *Strength) (float64, bool) {
			for i := range s.Pads {
				if p := &s.Pads[i]; p.Part.Name == k.Part && p.Plate != nil {
					return p.Plate.Ratio, true
				}
			}
			if s.Plate == nil {
				return 0, false
			}
			return s.Plate.Ratio, true
		}
	case check.Shedding:
		measure = func(s *Strength) (float64, bool) {
			for i := range s.Shedding {
				if sh := &s.Shedding[i]; sh.Part.Name == k.Part {
					if sh.Tiring == nil || sh.Tiring.Fatigue.Harmless() {
						return 1, true
					}
					return sh.Tiring.Use(), true
				}
			}
			return 0, false
		}
	default:
		return nil, nil
	}
	var list []Cure
	if k.ID == check.BallWall && len(parts) == 2 {
		found, err := s.doubled(in, parts[1], part, measure)
		if err != nil {
			return nil, err
		}
		if found.Ratio <= 1 && found.Doubler > 0 {
			list = append(list, Cure{Of: parts[1].Name, Doubler: found.Doubler, Ratio: found.Ratio})
		}
	}
	for _, p := range parts {
		found, err := s.remedies(in, p, step(in.Design.Units), measure)
		if err != nil {
			return nil, err
		}
		for _, r := range found {
			if r.Ratio <= 1 && !(p.Ball != nil && p.Ball.Build == design.Bought) {
				list = append(list, Cure{Of: p.Name, Gauge: r.Gauge, Pipe: r.Pipe, Thickness: r.Thickness, Diameter: r.Diameter, Build: r.Build, Ratio: r.Ratio})
			}
		}
	}
	return list, nil
}

// doubled tries discs that double the wall of a ball under a post, of a dished ball, each half
// the post's diameter wider than the one before; it returns the first with a ratio of 1 or less,
// else the best.
func (s *Strength) doubled(in Input, post, ball *design.Part, measure func(*Strength) (float64, bool)) (Remedy, error) {
	b := ball.Ball
	before, ok := measure(s)
	if !ok || b == nil || b.IsEgg() || b.Build != design.DomedGores && b.Build != design.Halves {
		return Remedy{}, nil
	}
	tube := 0.0
	for _, e := range post.Post.Ends {
		if e.With == ball {
			tube = e.Diameter
		}
	}
	step := step(in.Design.Units)
	return s.best(in, before, func(i int) (Remedy, bool) {
		wide := math.Ceil(tube*(1.5+0.5*float64(i))/step) * step
		return Remedy{Change: Change{Part: post, Doubler: wide, On: ball}}, tube > 0 && wide <= design.MostDoubled*2*b.Radius
	}, measure)
}

// builds returns how else a ball can be made whose wall is curved one way only.
func builds(p *design.Part) []Build {
	switch {
	case p.Ball == nil || p.Ball.Build == design.Bought:
		return nil
	case p.Ball.Build == design.RolledGores:
		return []Build{OfDomed, OfHalves}
	case p.Ball.Build == design.Zones:
		return []Build{OfHalves}
	}
	return nil
}

// fits reports whether a post of another diameter could still stand on the balls
// that it meets, well within their outline.
func fits(p *design.Part, diameter float64) bool {
	k := diameter / p.Post.Ends[design.Foot].Diameter
	for i, end := range p.Post.Ends {
		if end.Meets != design.OnBall || end.With == nil || end.With.Ball == nil {
			continue
		}
		at := p.Post.Ends[i].At
		off := r3.Norm(r3.Cross(r3.Sub(at, end.With.Ball.Center), p.Post.Direction))
		if off+k*p.Post.Ends[i].Diameter/2 > 0.9*nearest(end.With.Ball) {
			return false
		}
	}
	return true
}

// thicker returns the gauges of a part's metal that are thicker than it is, thinnest
// first, or in a design in mm whose sheet goes by no gauge the thicknesses that are sold;
// none for a tube that is bought, which goes by neither.
func thicker(p *design.Part, units quantity.System) (list []Remedy) {
	if p.Post != nil && p.Post.Bought != nil {
		return nil
	}
	if units == quantity.Millimetre && p.Metal.Gauge == 0 {
		for _, t := range stock.MetricSheets {
			if t > p.Metal.Thickness*1.001 {
				list = append(list, Remedy{Change: Change{Part: p, Thickness: t}})
			}
		}
		return list
	}
	alloy := p.Metal.Is()
	first, last := alloy.Family.Gauges()
	for g := last; g >= first; g-- {
		if t, err := alloy.Family.Thickness(g); err == nil && t > p.Metal.Thickness*1.001 {
			list = append(list, Remedy{Change: Change{Part: p, Thickness: t}, Gauge: g})
		}
	}
	return list
}

// pipes returns, of the standard of a post's pipe, the heavier walls of its size, and the
// larger sizes of its schedule.
func pipes(p *design.Part) (walls, sizes []Remedy) {
	was := p.Post.Bought.Pipe
	for _, q := range stock.Pipes() {
		if q.Standard() != was.Standard() {
			continue
		}
		switch {
		case q.NPS == was.NPS && q.Wall > was.Wall*1.001:
			next := Remedy{Change: Change{Part: p, Thickness: q.Wall}, Pipe: q}
			switch n := len(walls); {
			case n == 0 || walls[n-1].Thickness < q.Wall:
				walls = append(walls, next)
			case walls[n-1].Thickness == q.Wall: // of its two names the later, which is the number
				walls[n-1] = next
			}
		case q.Schedule == was.Schedule && q.Outside > was.Outside:
			sizes = append(sizes, Remedy{Change: Change{Part: p, Thickness: q.Wall, Diameter: q.Outside}, Pipe: q})
		}
	}
	return walls, sizes
}
