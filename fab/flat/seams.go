package flat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/finding"
	"stabile/param/design"
)

// A SeamKind is a kind of seam within a part.
type SeamKind int

// The kinds of seam.
const (
	TubeSeam    SeamKind = iota // the butt seam along a tube, a taper or its pieces
	DiscEdge                    // round the disc that closes a head
	GoreSeam                    // gore to gore
	CapEdge                     // gores to a cap
	RingSeam                    // the seam of a ball's ring
	RingEdge                    // ring to ring
	PoleEdge                    // ring to the disc at a pole
	Equator                     // half to half
	CourseSeam                  // round a post, from one course to the next
	PointFill                   // the point of a cone, built up with weld
	DoublerEdge                 // round a disc that doubles the wall of a ball
)

// A Seam is where two edges of a part's blanks are welded to each other, or
// several that are alike.
//
// Its length is that of the finished seam at the middle of the sheet. On the flat
// the edges are as long, but for what is stretched or shrunk in forming: a domed
// gore's edge shrinks to the meridian, that of a dished cap or half to its circle.
type Seam struct {
	Kind    SeamKind
	Count   int     // how many are alike
	Length  float64 // mm, of one
	Bearing float64 // rad, of a tube's seam and of that of a tube with a disc in its head or in courses; else 0
	Course  int     // of a tube's seam, which course it is along, from 0 at the foot
	Volume  float64 // mm3, of the weld metal of a point that is built up; else 0, since it goes by its bead
	Arc     bool    // of an edge that goes round: it does not go all round, since an opening takes the rest
	Root    float64 // mm, the gap at its root
	Top     float64 // mm, how much wider it is at the outside, at most, since square edges meet by their inner corners
}

const (
	// leastSeam is the shortest seam, in mm: as far as outlines may be from the true
	// curve.
	leastSeam = Chord
	// alikeSeams is how far apart the lengths of seams may be that are counted as
	// alike, as a share: a millimetre in half a metre, less than a weld is cut short
	// or run on at its ends.
	alikeSeams = 0.002
)

// sew adds seams of one length.
func (d *developer) sew(s Seam) {
	if s.Count == 0 || !(s.Length > leastSeam) {
		return
	}
	d.Seam += float64(s.Count) * s.Length
	s.Root, s.Top = d.open(s.Kind)
	for i := range d.Seams {
		o := &d.Seams[i]
		if o.Kind == s.Kind && o.Arc == s.Arc && o.Bearing == s.Bearing && s.Kind != TubeSeam && math.Abs(o.Length-s.Length) <= max(leastSeam, alikeSeams*o.Length) {
			n, m := float64(o.Count), float64(s.Count)
			o.Length = (n*o.Length + m*s.Length) / (n + m)
			o.Count += s.Count
			return
		}
	}
	d.Seams = append(d.Seams, s)
}

// joins lists the seams of a ball of which nothing is cut away.
func (d *developer) joins() {
	b := d.part.Ball
	mean := b.Radius - d.part.Metal.Thickness/2
	switch b.Build {
	case design.Halves:
		if b.Bowl {
			return // of one piece
		}
		d.sew(Seam{Kind: Equator, Count: 1, Length: 2 * math.Pi * mean})
	case design.Zones:
		for k := range b.Zones {
			f := d.frustum(k)
			d.sew(Seam{Kind: RingSeam, Count: d.ringPieces(f), Length: f.slant})
		}
		for _, k := range outward(b.Zones) {
			d.sew(Seam{Kind: ringKind(k, b.Zones), Count: 1, Length: 2 * math.Pi * d.ringEdge(k)})
		}
	default:
		s, _ := d.segment()
		d.sew(Seam{Kind: GoreSeam, Count: b.Gores, Length: s.seam(b.Build, s.End[design.UpperPole]) + s.seam(b.Build, s.End[design.LowerPole])})
		if b.Caps > 0 {
			for _, pole := range poles(b) {
				d.sew(Seam{Kind: CapEdge, Count: 1, Length: 2 * math.Pi * s.capRound(b, pole)})
			}
		}
	}
}

// capRound returns the radius of the circle that is as long as the edge of a cap.
func (s *segmented) capRound(b *design.Ball, pole int) float64 {
	if n := float64(b.Gores); b.Straight {
		return s.CapEdge[pole] * n / math.Pi * math.Tan(math.Pi/n)
	}
	return s.CapEdge[pole]
}

// cutJoins lists the seams of a ball by what is left of the edges of its pieces:
// a seam is where both of the edges that meet there are left.
func (d *developer) cutJoins(list []piece, cuts []cutOut) {
	if !slices.ContainsFunc(cuts, func(c cutOut) bool { return c.changed }) {
		d.joins()
		return
	}
	mean := d.part.Ball.Radius - d.part.Metal.Thickness/2
	switch d.part.Ball.Build {
	case design.Halves:
		if d.part.Ball.Bowl {
			return // of one piece
		}
		var left [2][]span
		for i := range left {
			line := circle(r2.Vec{}, d.halfReach(), equatorPoints)
			left[i] = cuts[i].turns(append(line, line[0]), 0, 2*math.Pi*float64(1-2*i))
		}
		d.sewRound(Equator, mean, left[0], left[1])
	case design.Zones:
		d.cutZones(list, cuts)
	default:
		d.cutGores(list, cuts)
	}
}

// equatorPoints is the number of points of the line along which a dished half is
// trimmed: enough for a chord to miss the circle by a hundred-thousandth of its
// radius.
const equatorPoints = 720

// cutGores lists the seams of a ball of gores that is cut open.
func (d *developer) cutGores(list []piece, cuts []cutOut) {
	b := d.part.Ball
	s, _ := d.segment()
	n := b.Gores
	edge := func(i int, right bool) []span {
		p := &list[i]
		half := len(p.outline) / 2
		line := slices.Clone(p.outline[:half])
		if !right {
			line = slices.Clone(p.outline[half:])
			slices.Reverse(line)
		}
		for k := range line {
			line[k].X *= inside
		}
		left := cuts[i].along(line)
		for k := range left {
			left[k] = span{pointAt(line, left[k].from).Y, pointAt(line, left[k].to).Y}
		}
		return left
	}
	for i := range n {
		for _, r := range common(edge(i, true), edge((i+1)%n, false), leastSeam) {
			d.sew(Seam{Kind: GoreSeam, Count: 1, Length: s.seam(b.Build, r.to) - s.seam(b.Build, r.from)})
		}
	}
	if b.Caps == 0 {
		return
	}
	for k, pole := range poles(b) {
		end := s.End[pole]
		level, _ := s.At(end)
		y := end * design.Poles[pole]
		var tips []span
		for i := range n {
			out := 2 * math.Pi * float64(i) / float64(n)
			wide := s.width(end)
			if list[i].period > 0 {
				wide /= level / s.Mean
			}
			line := []r2.Vec{{X: -wide * inside, Y: y * inside}, {X: wide * inside, Y: y * inside}}
			for _, r := range cuts[i].along(line) {
				from, to := pointAt(line, r.from).X/inside, pointAt(line, r.to).X/inside
				if list[i].period > 0 {
					full := s.Half / wide
					from, to = full*from/s.Mean, full*to/s.Mean
				} else {
					// The groove beside it is filled.
					full := s.across * level / wide
					from, to = math.Atan(full*from/level), math.Atan(full*to/level)
				}
				tips = append(tips, span{out + from, out + to})
			}
		}
		d.sewRound(CapEdge, s.capRound(b, pole), tips, cuts[n+k].rim(list[n+k].outline, pole == design.LowerPole))
	}
}

// cutZones lists the seams of a ball of zones that is cut open.
func (d *developer) cutZones(list []piece, cuts []cutOut) {
	n := d.part.Ball.Zones
	rims := make([][2][]span, n) // of each ring, what is left of its edges toward the lower pole and the upper
	first := 0
	for k := range n {
		upper := max(k, n-1-k)
		f := d.frustum(upper)
		slant, count := f.slant, d.ringPieces(f)
		turn := 2 * math.Pi / float64(count)
		t, angle := d.around(f, count)
		side := func(i int, right bool) []span {
			low, high := turn*(1-inside), turn*(1-inside)
			if right { // well within what the gap leaves
				low, high = t.edgeAt(angle, 0, 2*t.gap)*inside, t.edgeAt(angle, slant, 2*t.gap)*inside
			}
			line := []r2.Vec{{X: low}, {X: high, Y: slant}}
			left := cuts[i].along(line)
			for k := range left {
				left[k] = span{left[k].from * slant, left[k].to * slant}
			}
			return left
		}
		for part := range count {
			i := first + part
			for _, r := range common(side(i, true), side(first+(part+1)%count, false), leastSeam) {
				d.sew(Seam{Kind: RingSeam, Count: 1, Length: r.to - r.from})
			}
			for end := range 2 {
				// The lower rings are the upper ones turned over.
				y, sense := slant*(1-inside), 1.0
				if (end == 1) == (k == upper) {
					y = slant * inside
				}
				if k != upper {
					sense = -1
				}
				from := sense * (sense*ringSeam(k) + turn*float64(part))
				line := []r2.Vec{{Y: y}, {X: turn, Y: y}}
				rims[k][end] = append(rims[k][end], cuts[i].turns(line, from, sense*turn)...)
			}
		}
		first += count
	}
	for _, k := range outward(n) {
		var below, above []span
		switch k {
		case 0:
			below, above = cuts[first+1].rim(list[first+1].outline, true), rims[0][0]
		case n:
			below, above = rims[n-1][1], cuts[first].rim(list[first].outline, false)
		default:
			below, above = rims[k-1][1], rims[k][0]
		}
		d.sewRound(ringKind(k, n), d.ringEdge(k), below, above)
	}
}

// outward lists the edges between the rings of a ball of zones and of its discs,
// counted from the lower pole, in the order from the equator out.
func outward(zones int) []int {
	var list []int
	for k := zones % 2; k <= zones; k += 2 {
		list = append(list, (zones+k)/2)
		if k > 0 {
			list = append(list, (zones-k)/2)
		}
	}
	return list
}

// ringEdge returns the radius of such an edge.
func (d *developer) ringEdge(k int) float64 {
	b := d.part.Ball
	zones, mean := b.Zones, b.Radius-d.part.Metal.Thickness/2
	if b.IsEgg() {
		radius, _ := b.RingCorner(k, d.part.Metal.Thickness/2)
		return radius
	}
	half := mean * math.Tan(math.Pi/float64(zones+1)/2)
	if k == zones {
		return ring(k-1, zones, mean, half).upper
	}
	return ring(k, zones, mean, half).lower
}

func ringKind(k, zones int) SeamKind {
	if k == 0 || k == zones {
		return PoleEdge
	}
	return RingEdge
}

// RingTurns returns the angles about the pole of a ball of zones, in rad from its
// prime direction, at which the seams of its rings lie by turns, from the lowest
// ring on. Of a ring in several pieces it is that of one seam; the others part the
// circle evenly.
func RingTurns() [2]float64 { return [2]float64{ringSeam(0), ringSeam(1)} }

// sewRound adds the seams between two edges that go round the pole at a radius,
// of which the stretches that are left are given as angles.
func (d *developer) sewRound(kind SeamKind, radius float64, a, b []span) {
	least := leastSeam / radius
	runs := common(unwound(a), unwound(b), least)
	if n := len(runs); n > 0 && runs[0].from <= least && runs[n-1].to >= 2*math.Pi-least {
		if n == 1 {
			d.sew(Seam{Kind: kind, Count: 1, Length: 2 * math.Pi * radius})
			return
		}
		// One that goes over the prime direction.
		runs[0].from = runs[n-1].from - 2*math.Pi
		runs = runs[:n-1]
	}
	for _, r := range runs {
		d.sew(Seam{Kind: kind, Count: 1, Length: radius * (r.to - r.from), Arc: true})
	}
}

// reportCaps adds what there is to say of the caps that are left, or that an
// opening takes them away.
func (d *developer) reportCaps() {
	b := d.part.Ball
	if b.Caps == 0 || b.Gores == 0 || b.PoleDiscs {
		return
	}
	left := 0
	for i := range d.Blanks {
		if d.Blanks[i].Shape == Disc {
			left += d.Blanks[i].Quantity
		}
	}
	switch {
	case left > 0:
		d.Findings = append(d.Findings, d.ofCaps...)
	case b.Around != nil:
		d.note(finding.Note, CapsGone{b.Caps, b.Around.Name})
	}
}
