package strength

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/param/design"
)

// A Net is the section of a tube at holes: what is left of the ring, and the strips of wall
// between them. Holes whose heights overlap count as in one section, each with its full width.
// It is elastic throughout; the strips carry shear and twist past the holes by bending in
// their own plane, each held at both ends (Vierendeel), and in compression they are as pinned
// columns as long as the holes are high, without the help of their curve: all derived.
type Net struct {
	frame.Section
	Left     float64 // share of the ring's girth
	Shift    float64 // mm, of its centre of gravity from the axis
	PerShear float64 // MPa in the strips for each N of shear
	PerTwist float64 // MPa in the strips for each N mm of twist
	High     float64 // mm, of the holes together
}

// arc is a part of the ring between two bearings.
type arc struct{ from, to float64 }

// NetAt returns the net section of a post at a length along it in mm; not ok where no hole
// is. A hole counts there that is no farther from it than the frame merges stations.
func NetAt(p *design.Part, along float64) (net Net, ok bool) {
	post := p.Post
	d, t := post.DiameterAt(along), p.Metal.Thickness
	r := d/2 - t/2
	var gone []arc
	low, high := math.Inf(1), math.Inf(-1)
	for _, h := range p.Holes {
		reach := h.Extent(post.Direction)
		if h.Disc || math.Abs(h.Along-along) > reach+frame.Merge*d {
			continue
		}
		low, high = min(low, h.Along-reach), max(high, h.Along+reach)
		half := math.Asin(min(1, h.Extent(r3.Cross(h.Way, post.Direction))/r))
		gone = append(gone, arc{h.Bearing - half, h.Bearing + half})
		if h.Through {
			gone = append(gone, arc{h.Bearing + math.Pi - half, h.Bearing + math.Pi + half})
		}
	}
	if len(gone) == 0 || !(r > 0) {
		return net, false
	}
	strips := strips(gone)
	net = sectionOf(strips, r, t)
	net.Diameter, net.Thickness, net.High = d, t, high-low
	net.bend(strips, r, t)
	return net, true
}

// strips returns what is left of a ring between arcs that are gone.
func strips(gone []arc) (left []arc) {
	for i := range gone {
		turn := 2 * math.Pi * math.Floor(gone[i].from/(2*math.Pi))
		gone[i] = arc{gone[i].from - turn, gone[i].to - turn}
	}
	slices.SortFunc(gone, func(a, b arc) int { return cmp.Compare(a.from, b.from) })
	end := gone[0].to
	for _, a := range gone[1:] {
		if a.from > end {
			left = append(left, arc{end, a.from})
		}
		end = max(end, a.to)
	}
	if last := gone[0].from + 2*math.Pi; last > end {
		left = append(left, arc{end, last})
	}
	return left
}

// sectionOf returns the section of strips of a thin ring: elastic, by its weakest axis.
func sectionOf(strips []arc, r, t float64) (net Net) {
	var area, girth float64
	var first r2.Vec
	var xx, yy, xy float64
	for _, a := range strips {
		turn := a.to - a.from
		girth += turn
		s0, c0 := math.Sincos(a.from)
		s1, c1 := math.Sincos(a.to)
		area += r * t * turn
		first = r2.Add(first, r2.Scale(r*r*t, r2.Vec{X: s1 - s0, Y: c0 - c1}))
		k := r * r * r * t
		xx += k * (turn/2 + (s1*c1-s0*c0)/2)
		yy += k * (turn/2 - (s1*c1-s0*c0)/2)
		xy += k * (s1*s1 - s0*s0) / 2
	}
	net.Left = girth / (2 * math.Pi)
	net.Area = area
	if !(area > 0) {
		return net
	}
	middle := r2.Scale(1/area, first)
	net.Shift = r2.Norm(middle)
	xx, yy, xy = xx-area*middle.X*middle.X, yy-area*middle.Y*middle.Y, xy-area*middle.X*middle.Y
	net.Inertia = (xx+yy)/2 - math.Hypot((xx-yy)/2, xy)
	// The stress at p under a moment of 1 from its worst way is the length of J^-1 p.
	most := 0.0
	for _, a := range strips {
		const parts = 64
		for i := range parts + 1 {
			sin, cos := math.Sincos(a.from + (a.to-a.from)*float64(i)/parts)
			x, y := (r+t/2)*cos-middle.X, (r+t/2)*sin-middle.Y
			most = max(most, math.Hypot(yy*x-xy*y, xx*y-xy*x)/(xx*yy-xy*xy))
		}
	}
	net.Elastic = 1 / most
	net.Plastic = net.Elastic // no reserve is counted on
	net.Torsion = 2 * net.Inertia
	return net
}

// bend works out the stress by which strips carry shear and twist past the holes. Fixed at
// both ends, one of width w that carries a force F along itself bends by F h / 2 in its plane,
// with the modulus t w2 / 6; they share forces by their stiffness, w3.
func (n *Net) bend(strips []arc, r, t float64) {
	cubes := 0.0
	widest := 0.0
	for _, a := range strips {
		w := r * (a.to - a.from)
		cubes += w * w * w
		widest = max(widest, w)
	}
	if !(cubes > 0) {
		n.PerShear, n.PerTwist = math.Inf(1), math.Inf(1)
		return
	}
	n.PerTwist = 3 * n.High * widest / (r * t * cubes)
	const ways = 90
	for k := range ways {
		way := math.Pi * float64(k) / ways
		sum, most := 0.0, 0.0
		for _, a := range strips {
			w, turn := r*(a.to-a.from), a.to-a.from
			// The mean square of how much of the strip's own way lies along the shear.
			square := 0.5 - (math.Sin(2*(a.to-way))-math.Sin(2*(a.from-way)))/(4*turn)
			sum += w * w * w * square
			most = max(most, w*math.Sqrt(square))
		}
		n.PerShear = max(n.PerShear, 3*n.High*most/(t*sum))
	}
}

// allow returns what a net section may carry.
func (n *Net) allow(yield, modulus, elastic, length float64) Allowable {
	a := allow(n.Section, yield, modulus, elastic, length)
	slender := n.Thickness / n.High
	strip := ColumnStress(yield, math.Pi*math.Pi*modulus/12*slender*slender) / omega
	a.Twist *= n.Left
	a.Bending = min(a.Bending, strip*n.Elastic)
	a.Compression = min(a.Compression, strip*n.Area)
	// An axial force bends the section by its shift.
	a.Compression = 1 / (1/a.Compression + n.Shift/a.Bending)
	a.Tension = 1 / (1/a.Tension + n.Shift/a.Bending)
	a.Strip = strip
	a.ShearBends, a.TwistBends = n.PerShear/strip, n.PerTwist/strip
	return a
}
