package flat

import (
	"math"

	"stabile/fab/finding"
	"stabile/param/design"
)

// onEdge is how near the seam's edge, in mm, a witness mark counts as on it.
const onEdge = 1e-6

// witness returns the lines at the four quarter bearings that fall inside the
// flat, from cut to cut, between two angles from the seam; on that of a taper the
// radial line at the angle middle is upright.
func (d *developer) witness(ends *[2]trim, on *[2]meeting, from, to, middle float64) []Mark {
	t := ends[0].tube
	marks := make([]Mark, 0, 4)
	for quarter := range 4 {
		bearing := float64(quarter) * math.Pi / 2
		angle := bearingOf(bearing - t.seam)
		if t.mean*(angle-from) <= onEdge || t.mean*(to-angle) <= onEdge {
			continue
		}
		marks = append(marks, Mark{
			Kind:    Witness,
			From:    t.lay(angle, ends[0].height(&on[0], angle), middle),
			To:      t.lay(angle, ends[1].height(&on[1], angle), middle),
			Bearing: bearing,
		})
	}
	return marks
}

// height returns the height of the curve at an angle from the seam.
func (e *trim) height(on *meeting, angle float64) float64 {
	if e.square {
		return e.curve[0].y
	}
	return e.cut(on, angle).y
}

// ordinates returns the tables from which the trimmed ends are laid out: the
// blank's width in equal spaces, with a station at both ends of each.
func ordinates(foot, head *trim, bottom, top float64) []Ordinates {
	stride := max(1, min(foot.stride(), head.stride()))
	tables := make([]Ordinates, 0, 2)
	for i, e := range [2]*trim{foot, head} {
		if !e.laidOut() {
			continue
		}
		table := Ordinates{
			Edge:     edgeOf(i),
			From:     [2]Line{FromBottom, FromTop}[i],
			Pitch:    e.lie * e.turn * float64(stride) / steps,
			Stations: make([]Station, steps/stride+1),
		}
		for k := range table.Stations {
			c := e.even[k*stride]
			s := Station{At: e.lie * c.angle, Bearing: bearingOf(e.seam + c.angle), Ordinate: max(0, c.y-bottom)}
			if e.head {
				s.Ordinate = max(0, top-c.y)
			}
			table.Stations[k] = s
		}
		tables = append(tables, table)
	}
	return tables
}

// byBatten is how far, in mm, a curve may stray from a batten that is bent through the
// points of its stations: half of what a trimmed edge may be off.
const byBatten = 0.15

// stride returns how many even steps apart the stations of an end may stand: as many
// as a batten, bent through their points, still follows the curve over; steps for an
// end that is not laid out.
func (e *trim) stride() int {
	if !e.laidOut() {
		return steps
	}
	for _, stride := range [...]int{6, 4} { // 8 and 12 spaces
		if e.batten(stride) <= byBatten {
			return stride
		}
	}
	return perPitch
}

// batten returns how far the curve strays from the cubic through every so many of its
// even steps, with at each point the slope between its neighbours (Catmull-Rom).
func (e *trim) batten(stride int) (most float64) {
	n := steps / stride
	y := func(i int) float64 { return e.even[(i+n)%n*stride].y }
	for i := range n {
		a, b := y(i), y(i+1)
		up, down := (b-y(i-1))/2, (y(i+2)-a)/2
		for k := 1; k < stride; k++ {
			t := float64(k) / float64(stride)
			at := a + t*(up+t*(3*(b-a)-2*up-down+t*(2*(a-b)+up+down)))
			most = max(most, math.Abs(at-e.even[i*stride+k].y))
		}
	}
	return most
}

// bearingOf brings an angle into [0, 2 pi).
func bearingOf(angle float64) float64 {
	b := math.Mod(angle, 2*math.Pi)
	if b < 0 {
		b += 2 * math.Pi
	}
	if b >= 2*math.Pi {
		b = 0
	}
	return b
}

// tubeNotes returns what the bench must know of a tube's blank.
func (d *developer) tubeNotes(foot, head *trim, bottom, top float64, c course) []finding.Fact {
	p := d.part.Post
	t := foot.tube
	if p.Bought != nil {
		return d.pipeNotes(foot, head)
	}
	notes := append(make([]finding.Fact, 0, 6), SeamEdge{t.seam})
	if p.Gap > 0 && t.flare == 0 {
		notes = append(notes, RootGap{p.Gap})
	}
	if d.shrink > 0 {
		f := Shrinks{Width: d.shrink / float64(max(1, c.pieces))}
		for i := range 2 {
			if !c.ownEnd(i) {
				f.Length += d.shrink / 2
			}
		}
		notes = append(notes, f)
	}
	for i, e := range [2]*trim{foot, head} {
		end := p.Ends[i]
		if !c.ownEnd(i) {
			notes = append(notes, CourseEnd{endName(i), t.flare != 0, p.Gap})
			continue
		}
		if e.square {
			notes = append(notes, SquareEnd{endName(i), t.flare != 0})
			continue
		}
		if e.filed() {
			notes = append(notes, d.filedEnd(e, i))
			continue
		}
		notes = append(notes, CurvedEnd{endName(i), targetOf(end)})
		if e.scallop >= scallopWorth {
			f := Scallops{endName(i), end.With.Name, e.scallop, end.With.Ball.Bowl}
			notes = append(notes, f)
			d.note(finding.Note, f)
		}
	}
	if below := -bottom; c.ownEnd(0) && p.Sunk > 0 {
		notes = append(notes, InConcrete{p.Sunk})
	} else if c.ownEnd(0) && below > square {
		notes = append(notes, FootBelow{below, targetOf(p.Ends[design.Foot])})
	}
	if b := p.Ends[design.Foot]; c.ownEnd(0) && b.Meets == design.OnBall && foot.square {
		notes = append(notes, Dividers{dividersOn(b.With.Ball, t.outer)})
	}
	if more := top - t.length; c.ownEnd(1) && more > square {
		notes = append(notes, HeadBeyond{more})
	}
	return notes
}

// filedEnd says how an end is cut that is as good as square. What rises by less than a
// trimmed edge may stand off the true curve is square.
func (d *developer) filedEnd(e *trim, i int) finding.Fact {
	low, high := e.reach()
	if high-low < edgeRoom {
		return SquareEnd{endName(i), e.flare != 0}
	}
	return FiledEnd{endName(i), e.flare != 0, targetOf(d.part.Post.Ends[i]), high - low}
}

// dividers returns the opening of dividers that strikes, on a sphere, the
// circle in which a tube of the given radius meets it: the chord from the
// circle's middle on the sphere to the circle.
func dividers(sphere, radius float64) float64 {
	return 2 * sphere * math.Sin(math.Asin(radius/sphere)/2)
}

// dividersOn is dividers on a ball, of an egg at its pole.
func dividersOn(b *design.Ball, radius float64) float64 {
	if b.IsEgg() {
		return math.Hypot(radius, b.Polar()-b.Chord(2*radius))
	}
	return dividers(b.Radius, radius)
}

// meetsName says what an end meets.
func meetsName(end design.End) string {
	switch {
	case end.With != nil && end.Meets == design.OnSide:
		return "the side of post '" + end.With.Name + "'"
	case end.With != nil && end.Meets == design.OnHead:
		return "the end of post '" + end.With.Name + "'"
	case end.With != nil:
		return end.With.Kind() + " '" + end.With.Name + "'"
	case end.Meets == design.OnPlate:
		return "the ground"
	}
	return "nothing"
}

// scallopWorth is the least depth of scallop, in mm, that is worth naming:
// what a steel rule reads.
const scallopWorth = 0.1
