package assembly_test

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/assembly"
	"stabile/fab/flat"
	"stabile/param/design"
)

const (
	// onSeam is how far, in mm, a point of an outline may be from the seam's curve:
	// a chord's error and a rounding.
	onSeam = 0.06
	// onChord is that where a hole runs out at the side of a rolled gore: narrower,
	// so that none of the hole's own edge count as seam.
	onChord = 0.02
	// seamShare and seamSlack are how far a weld may be from the edge: half a
	// percent for chords, and twice what an outline may be from the true curve, once
	// at either end of the stretch.
	seamShare, seamSlack = 0.005, 0.1
	// leastStretch is the shortest stretch, in mm, that is compared: shorter ones
	// are made or lost by where the outline's corners fall.
	leastStretch = 4.0
)

// stretches walks round an outline and returns the lengths of its stretches of
// which each side has a positive length by measure.
func stretches(outline []r2.Vec, measure func(p, q r2.Vec) float64) []float64 {
	n := len(outline)
	side := func(i int) float64 { return measure(outline[i%n], outline[(i+1)%n]) }
	start := 0
	for i := range n {
		if side(i) == 0 {
			start = i
			break
		}
	}
	var all []float64
	sum := 0.0
	for i := range n {
		if l := side(start + 1 + i); l > 0 {
			sum += l
			continue
		}
		if sum > 0 {
			all = append(all, sum)
		}
		sum = 0
	}
	return all
}

// An edges is what a ball's blanks have of edges to be welded, by the kind of seam:
// stretch by stretch where seams run from pole to pole, else in sum, since rings and
// tips that meet are parted in different places.
type edges struct {
	stretches map[assembly.Kind][]float64
	sum       map[assembly.Kind]float64
}

func (e *edges) add(kind assembly.Kind, n int, lengths []float64) {
	for range n {
		for _, l := range lengths {
			if l > leastStretch {
				e.stretches[kind] = append(e.stretches[kind], l)
			}
		}
	}
}

// edgesOf walks along the blanks of a ball.
func edgesOf(p *fab.Part) edges {
	e := edges{map[assembly.Kind][]float64{}, map[assembly.Kind]float64{}}
	b := p.Ball
	mean := b.Radius - p.Metal.Thickness/2
	for i := range p.Blanks {
		blank := &p.Blanks[i]
		n := float64(blank.Quantity)
		switch {
		case b.Build == design.Halves:
			e.sum[assembly.Equator] += n * mean * roundWithin(blank, math.Sqrt2*mean)
		case blank.Shape == flat.Disc && b.Build == design.Zones:
			tan := math.Tan(math.Pi / float64(b.Zones+1) / 2)
			e.sum[assembly.PoleEdge] += n * mean * tan * roundWithin(blank, meets(p)*tan-1e-4)
		case blank.Shape == flat.Disc:
			e.sum[assembly.CapEdge] += n * b.Caps / 2 * sidesWithin(p, blank)
		case blank.Shape == flat.Gore:
			e.gore(b, mean, meets(p), blank)
		default:
			e.ring(b, mean, meets(p), blank)
		}
	}
	return e
}

// meets returns the radius at which square edges meet: that of the inside, or of the
// middle of the sheet.
func meets(p *fab.Part) float64 {
	if p.Ball.EdgeMid {
		return p.Ball.Radius - p.Metal.Thickness/2
	}
	return p.Ball.Radius - p.Metal.Thickness
}

// sidesWithin returns what is left of the edge of a cap, as a share of the radius of the
// circle within it: straight sides count by their length.
func sidesWithin(p *fab.Part, blank *flat.Blank) float64 {
	b := p.Ball
	mean, thick := b.Radius-p.Metal.Thickness/2, p.Metal.Thickness
	end := math.Acos(b.Caps / 2 / mean)
	turn := math.Pi / float64(b.Gores)
	reach := b.Caps / 2
	switch {
	case blank.Forming.How == "dish":
		reach = 2 * mean * math.Sin((math.Pi/2-end)/2)
		if b.Straight && !b.EdgeMid {
			reach -= thick * math.Pow(math.Sin(turn), 2) * math.Sin(end) * math.Cos(end)
		}
	case !b.EdgeMid:
		reach -= thick / 2 / math.Tan(end)
	}
	if !b.Straight {
		return roundWithin(blank, reach-1e-4)
	}
	const tries = 4000
	sum := 0.0
	for i := range tries {
		angle := 2 * math.Pi * (float64(i) + 0.5) / tries
		off := math.Remainder(angle, 2*turn)
		sin, cos := math.Sincos(angle)
		q := r2.Scale((reach-1e-4)/math.Cos(off), r2.Vec{X: cos, Y: sin})
		if onBlank(q, blank) {
			sum += 2 * math.Pi / tries / math.Pow(math.Cos(off), 2)
		}
	}
	return sum
}

// onBlank reports whether a point lies on a blank; a vent takes nothing.
func onBlank(q r2.Vec, b *flat.Blank) bool {
	ok := winds(q, b.Outline)
	for _, h := range b.Holes {
		ok = ok && (h.Diameter > 0 || !winds(q, h.Outline))
	}
	return ok
}

// gore measures the sides of a gore, and its tips by the angle that they span.
func (e *edges) gore(b *design.Ball, mean, meet float64, blank *flat.Blank) {
	half := meet * math.Tan(math.Pi/float64(b.Gores))
	if b.Build == design.DomedGores {
		half = mean * math.Pi / float64(b.Gores)
	}
	end := math.Inf(1)
	if b.Caps > 0 {
		end = mean * math.Acos(b.Caps/2/mean)
	}
	near := onChord
	if b.Build == design.DomedGores {
		near = 1e-6 // cut where its side is straight
	}
	on := func(q r2.Vec) bool { return math.Abs(math.Abs(q.X)-half*math.Cos(q.Y/mean)) < near }
	tip := func(q r2.Vec) bool { return math.Abs(math.Abs(q.Y)-end) < 1e-6 }
	e.add(assembly.GoreSeam, blank.Quantity, stretches(blank.Outline, func(p, q r2.Vec) float64 {
		switch {
		case !on(p) || !on(q) || p.X*q.X < 0 || tip(p) && tip(q):
			return 0
		case b.Build == design.DomedGores:
			return math.Abs(q.Y - p.Y) // shrunk to the meridian
		}
		return r2.Norm(r2.Sub(q, p))
	}))
	for _, l := range stretches(blank.Outline, func(p, q r2.Vec) float64 {
		switch {
		case !tip(p) || !tip(q) || p.Y*q.Y < 0:
			return 0
		case b.Build == design.DomedGores:
			return math.Abs(q.X - p.X)
		}
		level := mean * math.Cos(end/mean)
		full := mean / meet // the groove beside it is filled
		if b.Straight {
			return full * math.Abs(q.X-p.X)
		}
		level /= full
		return b.Caps / 2 * math.Abs(math.Atan(q.X/level)-math.Atan(p.X/level))
	}) {
		e.sum[assembly.CapEdge] += float64(blank.Quantity) * l
	}
}

// ring measures the straight sides of a ring's blank, and its two edges.
func (e *edges) ring(b *design.Ball, mean, meet float64, blank *flat.Blank) {
	place := func(q r2.Vec) (along float64, side, edge bool) {
		// A cylinder; how many pieces it is in is not known.
		for _, n := range []float64{1, 2, 3, 4, 6, 8, 12} {
			side = side || math.Abs(q.X-2*math.Pi*mean/n) < 1e-6
		}
		wide := 2 * meet * math.Tan(math.Pi/float64(b.Zones+1)/2)
		return q.Y, side || math.Abs(q.X) < 1e-6, math.Abs(q.Y) < 1e-6 || math.Abs(q.Y-wide) < 1e-6
	}
	if f := blank.Fan; f != nil {
		place = func(q r2.Vec) (along float64, side, edge bool) {
			q = r2.Sub(q, f.Apex)
			along = r2.Norm(q)
			turn := math.Abs(math.Atan2(q.X, math.Copysign(q.Y, -f.Apex.Y)))
			if -f.Apex.Y < 0 {
				turn = math.Abs(math.Atan2(q.X, -q.Y))
			}
			side = math.Abs(turn-f.Angle/2)*along < 1e-6
			edge = math.Abs(along-f.Small) < onSeam || math.Abs(along-f.Large) < onSeam
			return along, side, edge
		}
	}
	e.add(assembly.RingSeam, blank.Quantity, stretches(blank.Outline, func(p, q r2.Vec) float64 {
		a, sideP, _ := place(p)
		c, sideQ, _ := place(q)
		if l := r2.Norm(r2.Sub(q, p)); sideP && sideQ && l-math.Abs(a-c) < 1e-6 {
			return l
		}
		return 0
	}))
	for _, l := range stretches(blank.Outline, func(p, q r2.Vec) float64 {
		a, _, edgeP := place(p)
		c, _, edgeQ := place(q)
		if edgeP && edgeQ && math.Abs(a-c) < onSeam {
			return r2.Norm(r2.Sub(q, p)) * grown(b, mean, meet, blank.Fan, a)
		}
		return 0
	}) {
		e.sum[assembly.RingEdge] += float64(blank.Quantity) * l
	}
}

// grown returns by how much the edge of a ring is longer at the middle of its seam than
// on its flat: the groove there is filled.
func grown(b *design.Ball, mean, meet float64, f *flat.Fan, along float64) float64 {
	if f == nil {
		return 1
	}
	step := math.Pi / float64(b.Zones+1)
	for k := range b.Zones {
		sin, cos := math.Sincos(math.Abs(float64(k+1)*step - math.Pi/2))
		for _, way := range [2]float64{1, -1} {
			at := mean*cos + way*meet*math.Tan(step/2)*sin
			if math.Abs(along*sin-at) < 1e-3 && math.Abs(f.Large-f.Small-2*meet*math.Tan(step/2)) < 1e-6 && sin > 1e-9 {
				return (mean*cos + way*mean*math.Tan(step/2)*sin) / at
			}
		}
	}
	return 1
}

// roundWithin returns the angle, in rad, of a circle about the middle of a disc
// that is left of it, by trying points.
func roundWithin(b *flat.Blank, radius float64) float64 {
	const tries = 4000
	left := 0
	for i := range tries {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / tries)
		// A little in, since the outline's own chords cut the circle.
		q := r2.Scale(radius-onSeam, r2.Vec{X: cos, Y: sin})
		if onBlank(q, b) {
			left++
		}
	}
	return 2 * math.Pi * float64(left) / tries
}

// winds reports whether a polygon goes round a point, by the sides that a level
// line from it crosses.
func winds(at r2.Vec, polygon []r2.Vec) bool {
	turns := 0
	for i, p := range polygon {
		p, q := r2.Sub(p, at), r2.Sub(polygon[(i+1)%len(polygon)], at)
		switch cross := r2.Cross(p, q); {
		case p.Y <= 0 && q.Y > 0 && cross > 0:
			turns++
		case p.Y > 0 && q.Y <= 0 && cross < 0:
			turns--
		}
	}
	return turns != 0
}
