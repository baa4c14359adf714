package pack

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// A sector is laid out about its apex: its angles are counted from the middle
// line, growing to the right as the bearings do.

// away is 1 where the middle of a sector is above its apex, and -1 where it is
// below.
func away(s *flat.Fan) float64 {
	if s.Apex.Y > 0 {
		return -1
	}
	return 1
}

// onFan returns the point of a sector's flat at a radius and an angle.
func onFan(s *flat.Fan, radius, angle float64) r2.Vec {
	sin, cos := math.Sincos(angle)
	return r2.Vec{X: s.Apex.X + radius*sin, Y: s.Apex.Y + away(s)*radius*cos}
}

// fanAngle returns the angle of a point of a sector's flat.
func fanAngle(s *flat.Fan, q r2.Vec) float64 {
	return math.Atan2(q.X-s.Apex.X, away(s)*(q.Y-s.Apex.Y))
}

// fanSteps is the number of chords in which an arc is drawn: over a whole turn
// they leave it by a part in 10,000 of its radius.
const fanSteps = 180

// fanEdge returns the outline of a whole sector: its large arc from left to
// right, then the small one back.
func fanEdge(s *flat.Fan) []r2.Vec {
	path := make([]r2.Vec, 0, 2*fanSteps+2)
	for i := range fanSteps + 1 {
		path = append(path, onFan(s, s.Large, s.Angle*(float64(i)/fanSteps-0.5)))
	}
	for i := range fanSteps + 1 {
		path = append(path, onFan(s, s.Small, s.Angle*(0.5-float64(i)/fanSteps)))
	}
	return path
}

// reach returns the corners of the rectangle about what is laid out of a blank:
// about its outline, and of a sector about the arcs that its ends are trimmed
// from.
func reach(c *flat.Blank) (lo, hi r2.Vec) {
	path := c.Outline
	if c.Fan != nil {
		path = append(fanEdge(c.Fan), path...)
	}
	return bounds(path)
}

// bearingOnFan returns the bearing of the wall at an angle of the sector, known
// from a witness mark. The angle about the axis is that on the flat over the
// sine of the flare, which is the mean radius over the apex's distance.
func bearingOnFan(c *flat.Blank, m *flat.Mark, angle float64) string {
	sine := c.Forming.Radii[0] / math.Abs(c.Fan.Apex.Y)
	return bearing(m.Bearing + (angle-fanAngle(c.Fan, m.From))/sine)
}

// Room about a sector, in mm: for what is written outside its large arc, and for
// the dimensions of its slant and of its angle.
const (
	arcRoom   = 12.0
	slantRoom = 14.0

	letterDepth = 7.0 // of numbers of stations and bearings below a corner
	letterWidth = 3.0 // of a number of a station, to the left of it
)

// lettered reports whether bearings or numbers of stations stand outside the
// large arc of a sector.
func lettered(c *flat.Blank) bool {
	return len(c.Ordinates) > 0 || slices.ContainsFunc(c.Marks, func(m flat.Mark) bool { return m.Kind == flat.Witness })
}

// roomBelow reports whether something of a sector is written below it, before the
// dimension of its chord: numbers and bearings at the large arc, or the angle at
// the small one.
func roomBelow(c *flat.Blank) bool { return away(c.Fan) > 0 || lettered(c) }

// isTrimmed reports whether a sector's outline leaves one of its arcs all along.
func isTrimmed(c *flat.Blank) bool {
	near, far := math.Inf(1), 0.0
	for _, q := range c.Outline {
		r := r2.Norm(r2.Sub(q, c.Fan.Apex))
		near, far = min(near, r), max(far, r)
	}
	return len(c.Ordinates) > 0 || near > c.Fan.Small+2*flat.Chord || far < c.Fan.Large-2*flat.Chord
}

// sector draws the lines to lay a sector out from and its dimensions.
func (f *flatDrawing) sector() {
	s := f.blank.Fan
	if isTrimmed(f.blank) {
		f.draw.Put(&ink.Stroke{Line: ink.Phantom, Path: f.path(fanEdge(s)), Closed: true, Group: markGroup})
	}
	f.bendLines()
	apex := f.at(s.Apex)
	if f.onPaper(apex, 3) {
		f.draw.CentreMark(apex, 0)
	}
	b := f.box
	below, left := b.Min.Y, b.Min.X
	if roomBelow(f.blank) {
		below -= arcRoom
	}
	corner := [2]r2.Vec{f.at(onFan(s, s.Large, -s.Angle/2)), f.at(onFan(s, s.Large, s.Angle/2))}
	across := draft.Dim{From: corner[0], To: corner[1], Text: f.dim(s.Chord)}
	if away(s) < 0 && s.Angle < math.Pi/2 && lettered(f.blank) {
		// The extension lines start below what is written at the corners.
		across.From.Y, across.To.Y = across.From.Y-letterDepth, across.To.Y-letterDepth
	}
	if s.Angle > math.Pi {
		across.From, across.To = r2.Vec{X: b.Min.X, Y: apex.Y}, r2.Vec{X: b.Max.X, Y: apex.Y}
	}
	f.draw.Stack(draft.Below, below, []draft.Dim{across})
	if s.Angle > math.Pi/2 && lettered(f.blank) {
		left -= arcRoom
	}
	start := b.Min.X // of the extension lines, clear of what is written at a corner
	if lettered(f.blank) {
		start -= letterWidth
	}
	f.draw.Stack(draft.Left, left, []draft.Dim{{From: r2.Vec{X: start, Y: b.Min.Y}, To: r2.Vec{X: start, Y: b.Max.Y}, Text: f.dim(f.hi.Y - f.lo.Y), Under: true}})
	f.slant()
	f.included(apex)
	if l := s.Long; l != nil {
		f.arcRise(apex, s.Large, &l.Large, 1)
		f.arcRise(apex, s.Small, &l.Small, -1)
		return
	}
	f.arcRadius(apex, s.Large, "R "+f.dim(s.Large), 1)
	f.arcRadius(apex, s.Small, "R "+f.dim(s.Small), -1)
}

// arcRise points at an arc that is laid out by its chord with its rise over that, and with
// its radius where there is room for both.
func (f *flatDrawing) arcRise(apex r2.Vec, radius float64, by *flat.ByChord, out float64) {
	text := "rise " + f.fineOrExact(by.Rise)
	if !f.arcRadius(apex, radius, text+", R "+f.dim(radius), out) {
		f.arcRadius(apex, radius, text, out)
	}
}

// onPaper reports whether a point lies in the flat's place, by a margin.
func (f *flatDrawing) onPaper(q r2.Vec, margin float64) bool {
	return q.X > f.place.Min.X+margin && q.X < f.place.Max.X-margin && q.Y > f.place.Min.Y+margin && q.Y < f.place.Max.Y-margin
}

// bendLines draws two of the lines along which the rolls lie: they point to the
// apex.
func (f *flatDrawing) bendLines() {
	s := f.blank.Fan
	for _, share := range [2]float64{-0.375, 0.375} {
		// From edge to edge of the metal, which may be trimmed or opened.
		from, to := s.Large, s.Small
		for i := range fanSteps + 1 {
			r := s.Small + (s.Large-s.Small)*float64(i)/fanSteps
			if inPolygon(onFan(s, r, share*s.Angle), f.blank.Outline) {
				from, to = min(from, r), max(to, r)
			}
		}
		if from < to {
			a, b := onFan(s, from, share*s.Angle), onFan(s, to, share*s.Angle)
			f.draw.Put(&ink.Stroke{Line: ink.BendLines, Path: []r2.Vec{f.at(a), f.at(b)}, Group: markGroup})
		}
	}
}

// slant draws the length of the straight edge at the right.
func (f *flatDrawing) slant() {
	s := f.blank.Fan
	p, q := f.at(onFan(s, s.Small, s.Angle/2)), f.at(onFan(s, s.Large, s.Angle/2))
	// Beyond the edge, where no metal is.
	side := f.at(onFan(s, (s.Small+s.Large)/2, s.Angle/2+0.01))
	off := f.style.First - 1
	if (2*math.Pi-s.Angle)*s.Small*f.scale < 3*f.style.First {
		if slices.ContainsFunc(f.blank.Marks, func(m flat.Mark) bool { return m.Kind == flat.Standing }) {
			return // nor on the metal: the notes have it
		}
		off = 1 - f.style.First // no room between the edges: on the metal
	}
	if r2.Cross(r2.Sub(q, p), r2.Sub(side, p)) < 0 {
		off = -off
	}
	text := f.dim(s.Large - s.Small)
	if !f.style.Fits(r2.Norm(r2.Sub(q, p)), text) {
		return // the notes have it
	}
	f.draw.Aligned(p, q, off, text)
}

// included draws the angle between the straight edges, on an arc about the apex
// within the small one where there is room for it.
func (f *flatDrawing) included(apex r2.Vec) {
	s := f.blank.Fan
	text := f.pack.say().Laid(s.Angle)
	off := f.style.First - 2
	radius := s.Small*f.scale - off
	if radius < 8 || radius*s.Angle < 4*f.style.Arrow {
		return // the notes have it
	}
	middle := math.Pi / 2 * away(s)
	f.draw.Included(apex, s.Small*f.scale, radius, middle-s.Angle/2, middle+s.Angle/2, text)
}

// arcRadius points at an arc with its radius: from outside at the large one,
// from the side of the apex at the small one. It reports whether there is room.
func (f *flatDrawing) arcRadius(apex r2.Vec, radius float64, text string, out float64) bool {
	s := f.blank.Fan
	middle := math.Pi / 2 * away(s)
	for _, thin := range [...]int{0, 1, 2} {
		for _, share := range [...]float64{0.2, -0.2, 0.3, -0.3, 0.1, -0.1, 0.42, -0.42, 0.02} {
			for length := 7.0; length < 40; length += 2 {
				if f.draw.ArcRadius(apex, radius*f.scale, middle+share*s.Angle, out*length, thin, text) {
					return true
				}
			}
		}
	}
	return false
}

// sectorStations marks the stations of a trimmed sector along the arcs that they
// are measured from, and numbers them.
func (f *flatDrawing) sectorStations() {
	c, s := f.blank, f.blank.Fan
	n := len(c.Ordinates[0].Stations) - 1
	every := everyNth(s.Large*s.Angle*f.scale/float64(n), 5.5)
	for i := range n + 1 {
		angle := s.Angle * (float64(i)/float64(n) - 0.5)
		for j := range c.Ordinates {
			o := &c.Ordinates[j]
			if i >= len(o.Stations) || i == 0 || i == n {
				continue
			}
			// The foot's arc is the large one where the apex is above.
			from, to := s.Small, s.Small+o.Stations[i].Ordinate
			if (o.Edge == flat.HeadEdge) == (away(s) > 0) {
				from, to = s.Large, s.Large-o.Stations[i].Ordinate
			}
			if o.Stations[i].Ordinate*f.scale > 0.5 {
				f.rule(f.at(onFan(s, from, angle)), f.at(onFan(s, to, angle)))
			}
		}
		at := func(mm float64) r2.Vec { return f.at(onFan(s, s.Large+mm/f.scale, angle)) }
		f.draw.Put(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{at(0.7), at(2.2)}, Group: markGroup})
		if i%every == 0 {
			q := at(4.2)
			f.draw.Put(&ink.Text{At: r2.Vec{X: q.X, Y: q.Y - sheet.Small/2}, Height: sheet.Small, Anchor: ink.Middle, Text: fmt.Sprint(i)})
		}
	}
}

// fanBearings writes the bearings of the witness lines and of the edges of a
// taper outside the large arc, or inside the small one where the numbers of
// stations stand outside.
func (f *flatDrawing) fanBearings() {
	c, s := f.blank, f.blank.Fan
	var first *flat.Mark
	labels := []label{}
	for i := range c.Marks {
		if m := &c.Marks[i]; m.Kind == flat.Witness {
			if first == nil {
				first = m
			}
			labels = append(labels, label{fanAngle(s, m.From), bearing(m.Bearing)})
		}
	}
	if first == nil || len(c.Ordinates) > 0 {
		return // the table has them
	}
	// Those of the edges stand within them, clear of extension lines.
	edge := s.Angle / 2
	in := edge - min((sheet.Small/2+1)/(s.Large*f.scale), edge/4)
	labels = append([]label{{-in, bearingOnFan(c, first, -edge)}, {in, bearingOnFan(c, first, edge)}}, labels...)
	var taken []r2.Vec
	for _, l := range labels {
		p := f.at(onFan(s, s.Large, l.x))
		q := f.at(onFan(s, s.Large+2/f.scale, l.x))
		near := false
		for _, t := range taken {
			near = near || r2.Norm(r2.Sub(t, p)) < sheet.Small+0.8
		}
		if near {
			continue
		}
		taken = append(taken, p)
		angle := math.Atan2(q.Y-p.Y, q.X-p.X)
		t := &ink.Text{Height: sheet.Small, Angle: upright(p, q), Anchor: ink.Start, Text: l.text}
		if math.Cos(angle-t.Angle) < 0 {
			t.Anchor = ink.End
		}
		// The middle of the letters stands on the line.
		sin, cos := math.Sincos(t.Angle)
		t.At = r2.Add(q, r2.Scale(sheet.Small/2, r2.Vec{X: sin, Y: -cos}))
		f.draw.Put(t)
	}
}

// arcTable lists how high the arcs of a sector rise over their chords; nil for arcs that
// are struck.
func (k *pack) arcTable(s *flat.Fan) *sheet.Table {
	l := s.Long
	if l == nil {
		return nil
	}
	t := &sheet.Table{Tight: true, Title: "Arcs over their chords, " + k.unit()}
	for _, header := range [...]string{"From middle", "Large arc", "Small arc"} {
		k.column(t, header)
	}
	for i, h := range l.Large.Heights {
		small := "–"
		if i < len(l.Small.Heights) {
			small = k.cell(l.Small.Heights[i])
		}
		t.Rows = append(t.Rows, []string{k.cell(float64(i) * l.Step), k.cell(h), small})
	}
	return t
}

// layingOut says how a sector is struck, in the design's units.
func (k *pack) layingOut(s *flat.Fan) string {
	if l := s.Long; l != nil {
		return fmt.Sprintf("Arcs of radius %s and %s, longer than a beam compass. On the middle line, square to it and %s apart, lay out their chords, %s and %s: over each its arc rises, away from the apex, by %s and %s; straight edges %s, included angle %s.",
			k.both(s.Large), k.both(s.Small), k.both(l.Apart), k.both(l.Large.Chord), k.both(l.Small.Chord), k.both(l.Large.Rise), k.both(l.Small.Rise),
			k.both(s.Large-s.Small), k.say().Laid(s.Angle))
	}
	what := "apart at the corners of the large one"
	if s.Angle > math.Pi {
		what = "across the large one"
	}
	return fmt.Sprintf("Strike arcs of radius %s and %s about one point, %s %s: included angle %s, straight edges %s.",
		k.both(s.Large), k.both(s.Small), k.both(s.Chord), what,
		k.say().Laid(s.Angle), k.both(s.Large-s.Small))
}
