package flat

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/quantity"
)

// goreSteps is the least number of chords of a gore's edge, from equator to tip.
const goreSteps = 12

// fillable is the widest hole, in mm, that is worth filling with weld: an inch; and
// smallDisc the widest disc that is hardly worth letting in instead: 3/8 in. Common
// practice, no source.
const (
	fillable  = 25.4
	smallDisc = 9.525
)

// width returns the half width of a gore at a distance along the meridian from
// the equator.
func (s segmented) width(along float64) float64 {
	return s.Wide(along) + s.more/2
}

// area returns the area of one gore.
func (s segmented) area() float64 {
	if s.egg {
		return s.eggArea()
	}
	area := 0.0
	for _, end := range s.End {
		area += 2*s.Half*s.Mean*math.Sin(end/s.Mean) + s.more*end
	}
	return area
}

// seam returns the finished length of the seam between two gores from the equator
// to a distance along the meridian, negative for one below. Domed gores
// meet along a meridian of the sphere. Rolled ones meet along an ellipse whose
// half axes are mean and mean / cos(pi/N), which is an incomplete elliptic
// integral of the second kind: with k = half / mean,
//
//	ds = sqrt(1 + k^2 sin^2) = sqrt(1 + k^2) sqrt(1 - k^2 / (1 + k^2) cos^2) .
func (s segmented) seam(build design.Construction, along float64) float64 {
	if build == design.DomedGores {
		return along
	}
	if s.egg {
		return s.eggSeam(along)
	}
	k := s.across
	m := k * k / (1 + k*k)
	rest := math.Pi/2 - math.Abs(along)/s.Mean
	return math.Copysign(s.Mean*math.Sqrt(1+k*k)*(mathext.EllipticE(math.Pi/2, m)-mathext.EllipticE(rest, m)), along)
}

// gore returns the blank of the gores of a ball.
func (d *developer) gore(s segmented) Blank {
	ball := d.part.Ball
	b := Blank{
		Name: d.part.Name + " gore", Shape: Gore, Quantity: ball.Gores,
		Outline: s.outline(),
		Area:    s.area(),
		Width:   2 * s.width(s.widest()),
		Length:  s.End[design.LowerPole] + s.End[design.UpperPole],
	}
	b.Marks = append(make([]Mark, 0, 6), Mark{Kind: CentreLine, From: r2.Vec{Y: -s.End[design.LowerPole]}, To: r2.Vec{Y: s.End[design.UpperPole]}})
	if ball.Build == design.DomedGores {
		crown := math.Sin(math.Pi / 2 / float64(ball.Gores))
		b.Forming = Forming{
			How: "dome", MeanRadius: s.Mean,
			Crown:   2 * s.Mean * math.Cos(s.widest()/s.Mean) * crown * crown, // mean (1 - cos(pi/N)), without cancelling
			Stretch: s.stretch(),
		}
		most := s.Half * s.Half / (s.Mean * s.Mean) / 2
		if ball.IsEgg() {
			b.Forming.Stretch, most = s.eggStretch(ball)
		}
		if !ball.Bowl {
			b.Marks = append(b.Marks, Mark{Kind: CentreLine, From: r2.Vec{X: -s.width(0)}, To: r2.Vec{X: s.width(0)}, Equator: true})
		}
		b.Notes = append(b.Notes,
			RaiseGore{b.Forming.Crown}, Stretches{most / 3, most * 2 / 3, b.Forming.Stretch, ball.IsEgg()})
	} else {
		b.Forming = Forming{How: "roll", Axis: "x", MeanRadius: s.Mean}
		b.Marks = append(b.Marks, s.bends()...)
		b.Notes = append(b.Notes, OneWay)
	}
	if ball.IsEgg() {
		if ball.Build == design.RolledGores {
			b.Forming.How = "bend"
		}
		b.Forming.Bow = s.bow()
		b.Forming.Egg = [2]float64{2 * ball.Radius, ball.Tall}
		b.Forming.Bends = bends(ball, d.part.Metal.Thickness/2, 0, s.Latitude(max(s.End[0], s.End[1])))
	}
	b.Ordinates = []Ordinates{s.table(d.units)}
	if ball.CapsDiffer() {
		b.Notes = append(b.Notes, UnequalEnds{Lower: s.End[design.LowerPole], Upper: s.End[design.UpperPole]})
	}
	if d.shrink > 0 {
		b.Notes = append(b.Notes, Shrinks{Width: d.shrink})
	}
	if ball.Gap > 0 {
		b.Notes = append(b.Notes, SeamGaps{ball.Gap})
	}
	if ball.Build == design.RolledGores {
		b.Notes = append(b.Notes, groove(d.part, math.Pi/float64(ball.Gores)))
	}
	if s.Blunt && !d.throughPoles(s) {
		f := BluntTips{s.Narrow, s.opening(), s.opening() <= fillable}
		b.Notes = append(b.Notes, f)
		d.note(finding.Note, f)
	}
	return b
}

// throughPoles reports whether the ball is threaded along its own axis on a post
// as wide as the holes that its gores would leave at the poles.
func (d *developer) throughPoles(s segmented) bool {
	b := d.part.Ball
	if b.Around == nil || b.Around.Post == nil {
		return false
	}
	p := b.Around.Post
	return r3.Norm(r3.Cross(p.Direction, b.Pole)) < 1e-9 && p.DiameterAt(b.Along) > s.opening()
}

// outline returns the outline of a gore, counter-clockwise from the right of
// its lower tip. A chord of length c lies within c^2/8 times the curvature from
// the curve, which is at most half / mean^2.
func (s segmented) outline() []r2.Vec {
	long := max(s.End[0], s.End[1])
	bent := s.Half / (s.Mean * s.Mean)
	if s.egg {
		bent = s.eggBent(long)
	}
	n := int(math.Ceil(2 * long / math.Sqrt(8*smooth/bent)))
	n = max(n+n%2, goreSteps)
	outline := make([]r2.Vec, 0, 2*n+2)
	for i := range n + 1 {
		y := s.along(2*float64(i)/float64(n) - 1)
		outline = append(outline, r2.Vec{X: s.width(y), Y: y})
	}
	for i := n; i >= 0; i-- {
		outline = append(outline, r2.Vec{X: -outline[i].X, Y: outline[i].Y})
	}
	return outline
}

// bends returns lines along the rolls: the equator, and each third of the way
// to the tips.
func (s segmented) bends() []Mark {
	marks := make([]Mark, 0, 5)
	for i := -2; i <= 2; i++ {
		y := s.along(float64(i) / 3)
		m := Mark{Kind: BendLine, From: r2.Vec{X: -s.width(y), Y: y}, To: r2.Vec{X: s.width(y), Y: y}}
		if i == 0 && !s.open() {
			m.Equator = true
		}
		marks = append(marks, m)
	}
	return marks
}

// open reports whether the gores are those of a bowl, which end below the equator or there.
func (s segmented) open() bool { return s.End[design.UpperPole] <= 0 }

// widest returns where along the meridian a gore is widest.
func (s segmented) widest() float64 { return min(0, s.End[design.UpperPole]) }

// along returns a place along the meridian by its share from the middle to the lower end,
// -1, and the upper: of a ball's gore from the equator.
func (s segmented) along(share float64) float64 {
	low, high := -s.End[design.LowerPole], s.End[design.UpperPole]
	switch {
	case s.open():
		return (low+high)/2 + share*(high-low)/2
	case share < 0:
		return -share * low
	}
	return share * high
}

// table returns the half widths from the equator to a tip, at round steps of the
// shop's rule and at the tips.
func (s segmented) table(units quantity.System) Ordinates {
	if s.open() {
		return s.fromRim(units)
	}
	near, far := min(s.End[0], s.End[1]), max(s.End[0], s.End[1])
	t := Ordinates{Edge: HalfWidth, From: FromCentre, Pitch: roundStep(far, units)}
	add := func(at float64) { t.Stations = append(t.Stations, Station{At: at, Ordinate: s.width(at)}) }
	for i := 0; ; i++ {
		at := t.Pitch * float64(i)
		if near < far && at > near && at-t.Pitch < near {
			add(near)
		}
		if at > far-t.Pitch/4 {
			break // the tip is near
		}
		add(at)
	}
	add(far)
	return t
}

// fromRim is table of a bowl: from the rim down to the tip.
func (s segmented) fromRim(units quantity.System) Ordinates {
	rim := s.End[design.UpperPole]
	long := rim + s.End[design.LowerPole]
	t := Ordinates{Edge: HalfWidth, From: FromRim, Pitch: roundStep(long, units), Start: rim}
	for i := 0; ; i++ {
		at := t.Pitch * float64(i)
		if at > long-t.Pitch/4 {
			break
		}
		t.Stations = append(t.Stations, Station{At: at, Ordinate: s.width(rim - at)})
	}
	t.Stations = append(t.Stations, Station{At: long, Ordinate: s.width(rim - long)})
	return t
}

// roundStep returns the largest round step, of a rule's halves and wholes, that a
// length holds six times.
func roundStep(length float64, units quantity.System) float64 {
	steps := [...]float64{500, 200, 100, 50, 20, 10, 5, 2, 1}
	if units == quantity.Inch {
		const inch = 25.4
		steps = [...]float64{20 * inch, 10 * inch, 5 * inch, 2 * inch, inch, inch / 2, inch / 4, inch / 8, inch / 16}
	}
	for _, s := range steps {
		if length >= leastSteps*s {
			return s
		}
	}
	return length / leastSteps
}

// leastSteps is how many steps a gore's table has at least.
const leastSteps = 6
