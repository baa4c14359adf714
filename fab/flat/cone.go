package flat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A cone's wall is developed about its apex: an angle a round the axis becomes
// a sin(flare) on the flat, and a height along the slant stays one along a
// radial line. On a tube, whose apex is infinitely far, radial lines are
// parallel.

// widest returns the greatest outside radius of the wall.
func (t *tube) widest() float64 { return t.outer + max(0, t.length*t.sin) }

// lay returns where a point of the wall comes to lie on the flat: on a tube at
// x from the seam, on a cone with the radial line at the angle middle upright
// and the foot of the wall there at the origin.
func (t *tube) lay(angle, y, middle float64) r2.Vec {
	if t.flare == 0 {
		return r2.Vec{X: t.lie * angle, Y: y}
	}
	apex := t.mean / t.sin
	sin, cos := math.Sincos((angle - middle) * t.sin)
	half := math.Sin((angle - middle) * t.sin / 2)
	// y cos - apex (1 - cos), without cancelling where the apex is far.
	return r2.Vec{X: (apex + y) * sin, Y: y*cos - 2*apex*half*half}
}

// taper makes the blanks of a taper: an annular sector, or several side by side
// where one is too deep for the sheet. One that is too long for every sheet stays
// whole: it is for courses, and no piece is slit because it is long.
func (d *developer) taper(ends *[2]trim, on *[2]meeting, c course) {
	foot, head := &ends[0], &ends[1]
	t := foot.tube
	bottom, _ := foot.reach()
	_, top := head.reach()
	narrowest := min(t.girth(bottom), t.girth(top))
	var made []Blank
	var off strip
	for _, n := range d.partings(top - bottom) {
		if t.gap >= math.Pi*narrowest/float64(n) {
			break // nothing would be left of a piece at its narrow end
		}
		list, gaps, fit := d.sectors(foot, head, n, bottom, top)
		if n == 1 || fit {
			made, off = list, gaps
		}
		if fit {
			break
		}
	}
	if len(made) == 0 {
		d.wideGap()
		return
	}
	n := len(made)
	c.pieces = n
	for k := range made {
		b := &made[k]
		from, to := t.turn*float64(k)/float64(n), t.turn*float64(k+1)/float64(n)
		c.name(b, d.part.Name, k+1, n)
		b.Marks = d.witness(ends, on, from, min(foot.beside(to, t.gap), head.beside(to, t.gap)), (from+to)/2)
		b.Ordinates = radialOrdinates(foot, head, bottom, top, k, n)
		b.Notes = d.tubeNotes(foot, head, bottom, top, c)
		if n > 1 {
			b.Notes[0] = PieceEdges{k + 1, n, t.seam + from, t.seam + to}
		}
		b.Notes = append(b.Notes, b.Fan.note())
		if t.gap > 0 {
			b.Notes = append(b.Notes, GapOff{t.gap})
		}
		d.stand(ends, from, to, c)
		d.add(*b)
		first, _ := foot.level(from)
		last, _ := head.level(from)
		d.sew(Seam{Kind: TubeSeam, Count: 1, Length: last - first, Bearing: bearingOf(t.seam + from), Course: c.index()})
	}
	d.CG = t.conicBalance(foot, head, off)
}

// sectors cuts the wall of a taper into a number of pieces. It returns what the gaps
// of all their seams take as well, and whether each piece fits a sheet.
func (d *developer) sectors(foot, head *trim, n int, bottom, top float64) (made []Blank, off strip, fit bool) {
	t := foot.tube
	fit = true
	for k := range n {
		from, to := t.turn*float64(k)/float64(n), t.turn*float64(k+1)/float64(n)
		middle := (from + to) / 2
		gap := t.strip(foot, head, to)
		off.add(gap)
		b := Blank{
			Quantity: 1,
			Outline:  foot.edge(nil, from, foot.beside(to, t.gap), middle),
			Area:     head.area(from, to) - foot.area(from, to) - gap.area,
		}
		for _, q := range slices.Backward(head.edge(nil, from, head.beside(to, t.gap), middle)) {
			b.Outline = append(b.Outline, q)
		}
		t.fan(&b, from, to, bottom, top)
		fit = fit && d.fits(d.part.Metal, b.Width, b.Length)
		made = append(made, b)
	}
	return made, off, fit
}

// pieces returns the numbers of pieces that a ring of sheet may be cut in: those
// that part its stations evenly.
func pieces() [7]int { return [...]int{1, 2, 3, 4, 6, 8, 12} }

// partings returns the numbers of pieces that a taper may be cut in: one alone where a
// strip of its length fits no sheet, however narrow.
func (d *developer) partings(slant float64) []int {
	all := pieces()
	if !d.fits(d.part.Metal, 0, slant) {
		return all[:1]
	}
	return all[:]
}

// level returns the height of the curve at an angle, and its segment.
func (e *trim) level(angle float64) (y float64, i int) {
	i, _ = slices.BinarySearchFunc(e.curve, angle, func(p point, a float64) int {
		if p.angle < a {
			return -1
		}
		return 1
	})
	i = min(max(i, 1), len(e.curve)-1)
	a, b := e.curve[i-1], e.curve[i]
	return between(a, b, (angle-a.angle)/(b.angle-a.angle)), i
}

// fan fills in a sector's shape and forming; its outline is given. The arcs are
// at two heights.
func (t *tube) fan(b *Blank, from, to, bottom, top float64) {
	b.Shape = Sector
	low, high := bounds(b.Outline)
	b.Width, b.Length = high.X-low.X, high.Y-low.Y
	foot, head := t.girth(0), t.girth(t.length)
	b.Forming = Forming{How: "cone", Axis: "y", MeanRadius: (foot + head) / 2, Radii: [2]float64{foot, head}}
	apex := t.mean / t.sin
	f := &Fan{Apex: r2.Vec{Y: -apex}, Small: math.Abs(apex + bottom), Large: math.Abs(apex + top), Angle: (to - from) * math.Abs(t.sin), Gap: t.gap}
	if f.Small > f.Large {
		f.Small, f.Large = f.Large, f.Small
	}
	f.Chord = 2 * f.Large * math.Sin(min(f.Angle, math.Pi)/2)
	b.Fan = f
}

// bounds returns the corners of the rectangle about points.
func bounds(points []r2.Vec) (low, high r2.Vec) {
	b := design.Bounds(points)
	return b.Min, b.Max
}

// note says how a sector is laid out.
func (f *Fan) note() Arcs {
	return Arcs{f.Large, f.Small, f.Chord, f.Angle, f.Large > BeamCompass && f.Angle < math.Pi}
}

// radialOrdinates returns the tables of a sector's trimmed ends: of piece k of n,
// along radial lines an even angle apart.
func radialOrdinates(foot, head *trim, bottom, top float64, k, n int) []Ordinates {
	var tables []Ordinates
	t := foot.tube
	for i, e := range [2]*trim{foot, head} {
		if !e.laidOut() {
			continue
		}
		// The foot's arc is the small one where the cone widens upward.
		arc, from := math.Abs(t.mean/t.sin+bottom), FromSmallArc
		if i == 1 {
			arc = math.Abs(t.mean/t.sin + top)
		}
		if i == 0 == (t.sin < 0) {
			from = FromLargeArc
		}
		stride := max(1, perPitch/n)
		count := steps / n / stride
		table := Ordinates{
			Edge:     edgeOf(i),
			From:     from,
			Pitch:    arc * math.Abs(t.sin) * t.turn / float64(n*count),
			Stations: make([]Station, count+1),
		}
		for s := range table.Stations {
			c := &e.even[k*steps/n+s*stride]
			table.Stations[s] = Station{At: table.Pitch * float64(s), Bearing: bearingOf(e.seam + c.angle), Ordinate: c.y - bottom}
			if e.head {
				table.Stations[s].Ordinate = top - c.y
			}
		}
		tables = append(tables, table)
	}
	return tables
}

// gauss returns the Gauss-Legendre rule of three points from 0 to 1.
func gauss() (at, weight [3]float64) {
	const off = 0.3872983346207417 // sqrt(0.6) / 2
	return [3]float64{0.5 - off, 0.5, 0.5 + off}, [3]float64{5.0 / 18, 8.0 / 18, 5.0 / 18}
}

// integrate adds up, between two angles, what add makes of the heights of the
// curve, by the Gauss-Legendre rule of three points on each of its pieces. add
// gets a weight in rad.
func (e *trim) integrate(from, to float64, add func(weight, angle, y float64)) {
	at, weight := gauss()
	for i := 1; i < len(e.curve); i++ {
		a, b := e.curve[i-1], e.curve[i]
		lo, hi := max(a.angle, from), min(b.angle, to)
		if !(lo < hi) {
			continue
		}
		// A square end is one long piece.
		n := max(1, math.Ceil((hi-lo)*steps/(2*math.Pi)-onEdge))
		for k := range int(n) {
			start := lo + (hi-lo)*float64(k)/n
			for g := range at {
				angle := start + (hi-lo)/n*at[g]
				add((hi-lo)/n*weight[g], angle, between(a, b, (angle-a.angle)/(b.angle-a.angle)))
			}
		}
	}
}

// area returns the area of the middle of the wall below the curve, from height
// 0, between two angles.
func (e *trim) area(from, to float64) float64 {
	sum := 0.0
	e.integrate(from, to, func(w, _, y float64) { sum += w * y * (e.mean + y*e.sin/2) })
	return sum
}

// conicBalance returns the centre of gravity of a taper's trimmed wall, that of
// its middle, of which the gaps of its seams take some off.
func (t *tube) conicBalance(foot, head *trim, off strip) r3.Vec {
	area, along, east, north := -off.area, -off.along, -off.east, -off.north
	for i, e := range [2]*trim{foot, head} {
		sign := float64(2*i - 1)
		e.integrate(0, t.turn, func(w, angle, y float64) {
			w *= sign
			area += w * y * (t.mean + y*t.sin/2)
			along += w * y * y * (t.mean/2 + y*t.sin/3)
			across := w * y * (t.mean*t.mean + y*t.sin*(t.mean+y*t.sin/3))
			sin, cos := math.Sincos(t.seam + angle)
			east += across * cos
			north += across * sin
		})
	}
	cg := r3.Add(t.foot, r3.Scale(along*t.cos/area, t.along))
	cg = r3.Add(cg, r3.Scale(east/area, t.zero))
	return r3.Add(cg, r3.Scale(north/area, t.right))
}
