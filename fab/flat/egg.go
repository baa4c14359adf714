package flat

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/solid"
	"stabile/param/design"
)

// An egg is developed as a ball is, but that its meridian is not a circle: a place on it goes
// by the latitude of the line square to the sheet, and how the middle of the sheet lies under
// the outside is worked out there. See design.Profile.

// eggPoints is the number of points of the Gauss-Legendre rules along a meridian, of which no
// more than half is bent 8 times as much at one end as at the other: they come out to ten digits.
const eggPoints = 32

// eggHalves develops two dished halves of an egg, each of which ends short of the equator by
// a length of the meridian.
func (d *developer) eggHalves(short float64) {
	profile, depth := d.part.Ball.Profile(), d.part.Metal.Thickness/2
	edge := profile.Latitude(short, depth)
	b := disc(d.part.Name+" half", 2*profile.Dish(edge, depth), halfTrim)
	b.Quantity = 2
	_, low := profile.At(edge, depth)
	b.Forming = Forming{How: "dish", MeanRadius: profile.Across - depth, Depth: profile.Along - depth - low}
	b.Forming.Egg = [2]float64{2 * profile.Across, 2 * profile.Along}
	b.Forming.Bends = bends(d.part.Ball, depth, edge, math.Pi/2)
	b.Notes = []finding.Fact{DishEgg{b.Forming.Depth}, TrimHalf{halfTrim, short}}
	d.add(b)
}

// halfReach returns the radius of the line to which a dished half is trimmed on its disc.
func (d *developer) halfReach() float64 {
	b, depth := d.part.Ball, d.part.Metal.Thickness/2
	if b.IsEgg() {
		return b.Profile().Dish(0, depth)
	}
	return math.Sqrt2 * (b.Radius - depth)
}

// bends returns the radii to which the middle of an egg's sheet is bent along the meridian at two
// latitudes. Between them it grows or falls all the way.
func bends(b *design.Ball, depth, from, to float64) [2]float64 {
	first, _ := b.Profile().Bends(from)
	last, _ := b.Profile().Bends(to)
	return [2]float64{first - depth, last - depth}
}

// eggStretch is segmented.stretch of an egg, and with it what the greatest change of length is
// three times of. To lie on a surface bent to the radii M and N a flat strip of half width w
// must change the length of its fibres by (w^2 / 2 M N) (1/3 - (x/w)^2).
func (s *segmented) eggStretch(b *design.Ball) (mean, most float64) {
	change := func(latitude float64) float64 {
		along, across := s.Bends(latitude)
		w := across * math.Cos(latitude) * math.Pi / float64(b.Gores)
		return w * w / (2 * along * across)
	}
	var sum, area float64
	for _, end := range s.End {
		to := s.Latitude(end)
		area += s.integrate(0, to, s.WideAt)
		sum += s.integrate(0, to, func(latitude float64) float64 { return s.WideAt(latitude) * change(latitude) })
		const steps = 200
		for k := range steps + 1 {
			most = max(most, change(to*float64(k)/steps))
		}
	}
	return 4 / (9 * math.Sqrt(3)) * sum / area, most
}

// integrate adds up over the length of the meridian between two latitudes.
func (s *segmented) integrate(from, to float64, f func(latitude float64) float64) float64 {
	if to < from {
		return -s.integrate(to, from, f)
	}
	return quad.Fixed(func(latitude float64) float64 {
		bend, _ := s.Bends(latitude)
		return bend * f(latitude)
	}, from, to, eggPoints, nil, 0)
}

// eggArea is segmented.area of an egg.
func (s *segmented) eggArea() float64 {
	area := 0.0
	for _, end := range s.End {
		area += 2*s.integrate(0, s.Latitude(end), s.WideAt) + s.more*end
	}
	return area
}

// eggBent returns the greatest curvature of the edge of an egg's gore: by which it comes nearer to
// its middle line turns with the latitude, the faster the tighter the meridian is bent.
func (s *segmented) eggBent(long float64) float64 {
	most := 0.0
	const steps = 100
	for k := range steps {
		latitude := s.Latitude(long * float64(k) / steps)
		bend, _ := s.Bends(latitude)
		most = max(most, math.Cos(latitude)/bend)
	}
	return s.Half / s.Mean * most
}

// bow returns how far the middle of a gore stands out, at the equator, from the chord from tip
// to tip.
func (s *segmented) bow() float64 {
	low, down := s.At(-s.End[design.LowerPole])
	high, up := s.At(s.End[design.UpperPole])
	return s.Mean - (low + (high-low)*-down/(up-down))
}

// eggSeam is segmented.seam of an egg's rolled gores, which meet in the plane between them:
// for each mm along the meridian they come nearer to the pole by sin(latitude).
func (s *segmented) eggSeam(along float64) float64 {
	return s.integrate(0, s.Latitude(along), func(latitude float64) float64 {
		return math.Hypot(1, s.across*math.Sin(latitude))
	})
}

// meet returns the depth under the outside at which the edges of rings and of discs meet.
func (d *developer) meet() float64 {
	if d.part.Ball.EdgeMid {
		return d.part.Metal.Thickness / 2
	}
	return d.part.Metal.Thickness
}

// eggRing returns ring k of an egg of zones as it is cut, and the height of its lower edge from
// the centre, at the middle of the sheet.
func (d *developer) eggRing(k int) (f frustum, low float64) {
	b, meet := d.part.Ball, d.meet()
	sin, cos := math.Sincos(b.RingLatitude(k))
	lower, low := b.RingCorner(k, meet)
	upper, high := b.RingCorner(k+1, meet)
	f.slant = math.Hypot(upper-lower, high-low)
	out, more := meet-d.part.Metal.Thickness/2, (d.shrink-b.Gap)/2
	f.lower = lower + out*cos + more*sin
	f.upper = upper + out*cos - more*sin
	f.slant += 2 * more
	return f, low + out*sin - more*cos
}

// eggPiece is a gore of an egg: a rolled one straight across, a domed one charted by length
// along the parallel as it would be at the equator; along it the length of the meridian.
func (d *developer) eggPiece(s segmented, k int) piece {
	b, depth := d.part.Ball, d.part.Metal.Thickness/2
	profile := b.Profile()
	out, on := goreAxes(b, k)
	p := piece{
		number:  k + 1,
		outline: d.Blanks[0].Outline,
		normal:  out,
		wedge:   &wedge{center: b.Center, out: out, on: on, slope: math.Tan(math.Pi / float64(b.Gores))},
		behind:  4 * profile.Arc(math.Pi/2, depth),
	}
	// up returns the length of the meridian to a point, by its distance from the axis and its
	// height: past the pole where that is less than 0.
	up := func(radius, height float64) float64 {
		latitude, _ := profile.Nearest(math.Abs(radius), height)
		arc := profile.Arc(latitude, depth)
		if radius < 0 {
			arc = math.Copysign(2*profile.Arc(math.Pi/2, depth), height) - arc
		}
		return arc
	}
	// over returns where the meridian is to which a length leads, and a way out from there.
	over := func(along, w float64) (radius, height float64) {
		return profile.At(s.Latitude(along), depth-w)
	}
	if b.Build == design.RolledGores {
		p.chart = func(x r3.Vec) r2.Vec {
			x = r3.Sub(x, b.Center)
			return r2.Vec{X: r3.Dot(x, on), Y: up(r3.Dot(x, out), r3.Dot(x, b.Pole))}
		}
		p.space = func(q r2.Vec, w float64) r3.Vec {
			radius, height := over(q.Y, w)
			x := r3.Add(b.Center, r3.Scale(q.X, on))
			return r3.Add(x, r3.Add(r3.Scale(radius, out), r3.Scale(height, b.Pole)))
		}
		p.sweep = func(q r2.Vec) moment {
			radius, height := over(q.Y, 0)
			return momentOf(q.X, radius*q.X, q.X*q.X/2, height*q.X, out, on, b.Pole)
		}
		return p
	}
	p.formed, p.period, p.pole, p.behind = true, 2*math.Pi*s.Mean, b.Pole, 0
	p.outline = make([]r2.Vec, len(d.Blanks[0].Outline))
	for i, q := range d.Blanks[0].Outline {
		radius, _ := over(q.Y, 0)
		p.outline[i] = r2.Vec{X: math.Copysign(s.width(q.Y)*s.Mean/radius, q.X), Y: q.Y}
	}
	p.chart = func(x r3.Vec) r2.Vec {
		x = r3.Sub(x, b.Center)
		z, east, north := r3.Dot(x, b.Pole), r3.Dot(x, out), r3.Dot(x, on)
		return r2.Vec{X: s.Mean * math.Atan2(north, east), Y: up(math.Hypot(east, north), z)}
	}
	p.lay = func(q r2.Vec) r2.Vec {
		radius, _ := over(q.Y, 0)
		return r2.Vec{X: q.X * radius / s.Mean, Y: q.Y}
	}
	p.space = func(q r2.Vec, w float64) r3.Vec {
		radius, height := over(q.Y, w)
		north, east := math.Sincos(q.X / s.Mean)
		x := r3.Scale(radius, r3.Add(r3.Scale(east, out), r3.Scale(north, on)))
		return r3.Add(b.Center, r3.Add(x, r3.Scale(height, b.Pole)))
	}
	p.sweep = func(q r2.Vec) moment {
		radius, height := over(q.Y, 0)
		north, east := math.Sincos(q.X / s.Mean)
		return momentOf(q.X*radius/s.Mean, radius*radius*north, -radius*radius*east, height*radius/s.Mean*q.X, out, on, b.Pole)
	}
	return p
}

// eggDisc returns a round piece at a pole of an egg, dished at equal area: a point is as far
// from the middle of the flat as the disc reaches that has the area of what lies beyond it.
func (d *developer) eggDisc(blank, toward int) piece {
	b, depth := d.part.Ball, d.part.Metal.Thickness/2
	profile := b.Profile()
	pole, across := b.Pole, r3.Cross(b.Pole, b.Prime)
	if toward == design.LowerPole {
		pole, across = r3.Scale(-1, pole), r3.Scale(-1, across)
	}
	p := piece{blank: blank, number: poleCount(b) - toward, outline: d.Blanks[blank].Outline, normal: pole, formed: true}
	p.chart = func(x r3.Vec) r2.Vec {
		x = r3.Sub(x, b.Center)
		east, north := r3.Dot(x, b.Prime), r3.Dot(x, across)
		level := math.Hypot(east, north)
		if level == 0 {
			return r2.Vec{}
		}
		latitude, _ := profile.Nearest(level, r3.Dot(x, pole))
		return r2.Scale(profile.Dish(latitude, depth)/level, r2.Vec{X: east, Y: north})
	}
	p.space = func(q r2.Vec, w float64) r3.Vec {
		far := r2.Norm(q)
		radius, height := profile.At(profile.Dished(far, depth), depth-w)
		x := r3.Add(b.Center, r3.Scale(height, pole))
		if far == 0 {
			return x
		}
		return r3.Add(x, r3.Scale(radius/far, r3.Add(r3.Scale(q.X, b.Prime), r3.Scale(q.Y, across))))
	}
	p.sweep = func(q r2.Vec) moment { return d.swept(&p, q) }
	if made := &d.Blanks[blank]; made.Allowance > 0 {
		radius := made.Diameter/2 - made.Allowance
		p.trimmed = circle(r2.Vec{}, radius, roundPoints(radius))
	}
	return p
}

// sweptPanels is the number of stretches in which swept goes along a line.
const sweptPanels = 4

// swept returns F of a piece that keeps its area, along the line across its chart from the
// middle to a point.
func (d *developer) swept(p *piece, q r2.Vec) moment {
	first := r3.Vec{}
	at, weight := gauss()
	const step = 1.0 / sweptPanels
	for k := range sweptPanels {
		for g, u := range at {
			x := p.space(r2.Vec{X: q.X * step * (float64(k) + u), Y: q.Y}, 0)
			first = r3.Add(first, r3.Scale(weight[g]*step*q.X, r3.Sub(x, d.part.Ball.Center)))
		}
	}
	return moment{q.X, first}
}

// eggRoundness is roundness of an egg: how far its outside lies from the true ellipsoid,
// from the nearest point of that.
func eggRoundness(p *design.Part) *Roundness {
	b := p.Ball
	profile := b.Profile()
	outside, ok := solid.Outside(p).(*solid.Egg)
	if !ok || outside.Smooth() {
		return &Roundness{}
	}
	r := &Roundness{}
	sectors, bands := 1, 4*eggBands
	if b.Build == design.RolledGores {
		sectors, bands = eggSectors, eggBands
	}
	var area, sum float64
	// Half of a gore, from its middle to the ridge, from pole to pole. Of what has no gores
	// one line is like all others.
	for k := range sectors {
		turn := 0.0
		if sectors > 1 {
			turn = math.Pi / float64(b.Gores) * (float64(k) + 0.5) / float64(sectors)
		}
		out := b.Meridian(turn)
		for i := range bands {
			latitude := math.Pi * ((float64(i)+0.5)/float64(bands) - 0.5)
			radius, height := profile.At(latitude, 0)
			along, across := profile.Bends(latitude)
			way := r3.Unit(r3.Add(r3.Scale(radius, out), r3.Scale(height, b.Pole)))
			x := r3.Scale(outside.From(way), way)
			up := r3.Dot(x, b.Pole)
			_, off := profile.Nearest(math.Sqrt(max(0, r3.Norm2(x)-up*up)), up)
			part := along * across * math.Cos(latitude)
			area += part
			sum += part * math.Abs(off)
		}
	}
	r.Mean = sum / area
	r.Greatest = eggGreatest(p)
	return r
}

const (
	// eggBands and eggSectors are the numbers of bands from pole to pole and of sectors
	// across half of a gore at which it is looked how round an egg is: they give the mean to a
	// hundredth of itself.
	eggBands, eggSectors = 180, 24
)

// eggGreatest returns how far the outside of an egg is from the ellipsoid at most: at an edge
// of its rings, at a ridge of its gores, or at the middle or the edge of a flat cap.
func eggGreatest(p *design.Part) float64 {
	b := p.Ball
	profile := b.Profile()
	most := 0.0
	look := func(radius, height float64) {
		_, off := profile.Nearest(radius, height)
		most = max(most, math.Abs(off))
	}
	if b.IsZoned() {
		for k := range b.Zones + 1 {
			look(b.RingEdge(k))
		}
		return most
	}
	s, ok := segment(p)
	if !ok {
		return 0
	}
	for pole := range s.End {
		if !s.CapFlat[pole] {
			continue
		}
		_, height := s.At(s.End[pole])
		height += p.Metal.Thickness / 2
		look(0, height)
		look(s.CapEdge[pole], height)
	}
	if b.IsLobed() {
		const steps = 720
		for k := range steps + 1 {
			sin, cos := math.Sincos(p.RidgeLatitude(design.UpperPole) * float64(k) / steps)
			look(b.Ridge()*cos, b.Polar()*sin)
		}
	}
	return most
}
