package frame

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

const (
	// pieces is into how many beams a tube is cut at least. With three, the
	// second frequency of a clamped tube comes out 0.33 % high, the first 0.01 %.
	pieces = 3

	// taperPieces is the same for a taper, whose pieces have the mass of a tube
	// of the diameter at their middles.
	taperPieces = 8

	// firstHalving and tipHalvings are the stations of a cone toward its point: at an
	// eighth of its length from it, and each at half of the distance of the one before. Its
	// lowest frequency then comes out 0.1 % low.
	firstHalving = 3
	tipHalvings  = 4
)

// Merge is the distance, as a share of the least diameter, under which two joints on a post
// share a station.
const Merge = 0.2

// mesh cuts posts into beams and makes bodies, each still by itself, and then
// ties together those that are stiff together.
func (f *Frame) mesh() {
	joins := f.joins()
	most := len(f.Items) // beams and bodies, about
	for _, it := range f.Items {
		if p := it.Part.Post; p != nil {
			most += split(p) + 2*len(joins[it.Part])
		}
	}
	f.Beams, f.Bodies = make([]Beam, 0, most), make([]Body, 1, 1+most)
	for i, it := range f.Items {
		switch p := it.Part; {
		case p.Base != nil:
			f.body[p] = 0
		case p.Ball != nil:
			f.body[p] = len(f.Bodies)
			f.Bodies = append(f.Bodies, Body{At: p.Ball.Center, Part: p})
		case p.Post != nil:
			f.cut(i, joins[p])
		}
	}
	f.seats()
	f.tie()
}

// A join is something fastened to a post along its length, or only a place
// where a station is wanted.
type join struct {
	along float64
	part  *design.Part // nil for a place
}

// joins finds what is fastened along each post: branches, and balls threaded on
// it, which touch it where it enters and leaves.
func (f *Frame) joins() map[*design.Part][]join {
	list := map[*design.Part][]join{}
	add := func(host, p *design.Part, along float64) {
		if along = clamp(along, 0, host.Post.Length); host.Post.Length > 0 {
			list[host] = append(list[host], join{along, p})
		}
	}
	for _, it := range f.Items {
		p := it.Part
		if p.Post != nil {
			if p.Post.IsPointed() {
				// Ever shorter beams toward the point, which else has too much of the mass.
				for k := range tipHalvings {
					add(p, nil, p.Post.Length*(1-math.Ldexp(1, -k-firstHalving)))
				}
			}
			for _, list := range [2][]float64{it.Cuts, it.Rounds} {
				for _, along := range list {
					add(p, nil, along)
				}
			}
			for _, w := range it.Weak {
				add(p, nil, (w.From+w.To)/2)
			}
			if p.Post.Lies {
				add(p, nil, p.Post.Length/2)
			}
			for i, end := range p.Post.Ends {
				if end.Meets == design.OnSide && end.With != nil && end.With.Post != nil {
					host := end.With.Post
					along := p.Post.Along
					if i == 1 || p.Post.Between {
						along = r3.Dot(r3.Sub(end.At, host.Ends[design.Foot].At), host.Direction)
					}
					add(end.With, p, along)
				}
			}
		}
		if b := p.Ball; b != nil && b.Around != nil && b.Around.Post != nil {
			r := b.Around.Post.DiameterAt(b.Along) / 2
			half := math.Sqrt(max(0, b.Radius*b.Radius-r*r))
			add(b.Around, p, b.Along-half)
			add(b.Around, p, b.Along+half)
		}
	}
	return list
}

// Joints returns where along each post, in mm from its foot, something is fastened
// to it between its ends, lowest first.
func Joints(items []Item) map[*design.Part][]float64 {
	f := Frame{Items: items}
	places := map[*design.Part][]float64{}
	for host, list := range f.joins() {
		for _, j := range list {
			if j.part != nil {
				places[host] = append(places[host], j.along)
			}
		}
		slices.Sort(places[host])
	}
	return places
}

// cut makes the stations and beams of the post that is item i.
func (f *Frame) cut(i int, joins []join) {
	p := f.Items[i].Part
	slices.SortStableFunc(joins, func(a, b join) int { return cmp.Compare(a.along, b.along) })
	close := Merge * p.Post.Narrowest()
	stations := []Station{{}}
	for _, j := range joins {
		last := &stations[len(stations)-1]
		switch {
		case j.along-last.Along <= close:
			last.join(j.part)
		default:
			stations = append(stations, Station{Along: j.along})
			stations[len(stations)-1].join(j.part)
		}
	}
	head := Station{Along: p.Post.Length}
	if last := &stations[len(stations)-1]; len(stations) > 1 && head.Along-last.Along <= close {
		head.Joins = last.Joins
		stations = stations[:len(stations)-1]
	}
	stations = append(stations, head)

	step := p.Post.Length / float64(split(p.Post))
	post := Post{Part: p, item: i, First: len(f.Beams), Stations: make([]Station, 0, split(p.Post)+2*len(stations))}
	for k, s := range stations {
		if k > 0 {
			from := stations[k-1].Along
			n := math.Ceil((s.Along-from)/step - 1e-9)
			if sameBall(stations[k-1].Joins, s.Joins) {
				n = 1 // stiff: it runs through the ball
			}
			for j := 1.0; j < n; j++ {
				post.Stations = append(post.Stations, Station{Along: from + (s.Along-from)*j/n})
			}
		}
		post.Stations = append(post.Stations, s)
	}
	for k := range post.Stations {
		s := &post.Stations[k]
		s.At = r3.Add(p.Post.Ends[design.Foot].At, r3.Scale(s.Along, p.Post.Direction))
		s.Body = len(f.Bodies)
		f.Bodies = append(f.Bodies, Body{At: s.At, Part: p})
		if k > 0 {
			f.Beams = append(f.Beams, f.beam(&f.Items[i], &post.Stations[k-1], s))
		}
	}
	f.spread(&f.Items[i], f.Beams[post.First:])
	f.post[p] = len(f.Posts)
	f.Posts = append(f.Posts, post)
}

// split returns into how many beams a post is cut at least.
func split(p *design.Post) int {
	if p.IsTaper() {
		return taperPieces
	}
	return pieces
}

// join notes a part that is fastened at the station.
func (s *Station) join(p *design.Part) {
	if p != nil {
		s.Joins = append(s.Joins, p)
	}
}

// sameBall reports whether a ball is among both.
func sameBall(a, b []*design.Part) bool {
	return slices.ContainsFunc(a, func(p *design.Part) bool { return p.Ball != nil && slices.Contains(b, p) })
}

// beam makes the beam between two stations of a post.
func (f *Frame) beam(it *Item, from, to *Station) Beam {
	p := it.Part
	b := Beam{
		Post: len(f.Posts), A: from.Body, B: to.Body, From: from.At, To: to.At,
		Axis: p.Post.Direction, Length: to.Along - from.Along,
		Section: SectionAt(p, (from.Along+to.Along)/2),
		Modulus: p.Metal.Modulus,
	}
	b.Across[0], b.Across[1] = design.Tilt(p.Post.Direction)
	section := func(float64) Section { return b.Section }
	if p.Post.IsTaper() {
		section = func(share float64) Section {
			return SectionAt(p, from.Along+share*b.Length)
		}
	}
	if soft := soften(it.Weak, from.Along, to.Along); soft < 1 {
		whole := section
		section = func(share float64) Section {
			s := whole(share)
			s.Area, s.Inertia, s.Torsion = soft*s.Area, soft*s.Inertia, soft*s.Torsion
			return s
		}
	}
	var springs [2]Spring
	if from.Along == 0 {
		springs[0] = it.Give[design.Foot]
	}
	if to.Along == p.Post.Length {
		springs[1] = it.Give[design.Head]
	}
	b.k, b.held = stiffness(section, b.Modulus, b.Length, f.slender, springs)
	return b
}

// spread gives the beams of a post its mass: in proportion to their metal,
// tilted along the axis so that the centre of gravity comes to where it is. It
// lies off the axis, as of a seam, by what is left out.
func (f *Frame) spread(it *Item, beams []Beam) {
	var metal, first, second float64 // sums of volume, times the distance from the foot and its square
	middle := func(b *Beam) float64 {
		return r3.Dot(r3.Sub(r3.Scale(0.5, r3.Add(b.From, b.To)), it.Part.Post.Ends[design.Foot].At), b.Axis)
	}
	for i := range beams {
		v, s := beams[i].Area*beams[i].Length, middle(&beams[i])
		metal, first, second = metal+v, first+v*s, second+v*s*s
	}
	if metal == 0 {
		return
	}
	mean := first / metal
	spread := second/metal - mean*mean
	shift := r3.Dot(r3.Sub(it.CG, it.Part.Post.Ends[design.Foot].At), it.Part.Post.Direction) - mean
	tilt := 0.0
	if spread > 0 && math.Abs(shift) < 0.2*math.Sqrt(spread) {
		tilt = shift / spread
	}
	for i := range beams {
		b := &beams[i]
		b.Mass = it.Mass * b.Area * b.Length / metal * (1 + tilt*(middle(b)-mean))
	}
}

func clamp(x, lo, hi float64) float64 { return max(lo, min(x, hi)) }
