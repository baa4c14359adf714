package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// Diameter draws a dimension across a circle at the given angle, its value
// beyond the circle on a level shoulder. The text has its own sign for
// diameter.
func (d *Drawing) Diameter(center r2.Vec, radius, angle float64, text string) {
	p, q := polar(center, angle+math.Pi, radius), polar(center, angle, radius)
	if 2*radius >= 3*d.Style.Arrow {
		d.head(p, angle+math.Pi)
		d.head(q, angle)
		d.stroke(ink.Thin, thinLine, nobody, p, q)
	} else {
		d.head(q, angle+math.Pi)
	}
	d.shoulder(q, polar(q, angle, 2*d.Style.Arrow+2), text)
}

// Radius draws a dimension from the centre to the arc, its value beyond.
func (d *Drawing) Radius(center r2.Vec, radius, angle float64, text string) {
	q := polar(center, angle, radius)
	d.head(q, angle)
	d.stroke(ink.Thin, thinLine, nobody, center, q)
	d.shoulder(q, polar(q, angle, 2*d.Style.Arrow+2), text)
}

// shoulder draws a line from q to its knee, and from there a level shoulder with
// the text on it.
func (d *Drawing) shoulder(q, knee r2.Vec, text string) {
	w := ink.Width(text, d.Style.Text, ink.Regular)
	dir, anchor := 1.0, ink.Start
	if knee.X < q.X {
		dir, anchor = -1, ink.End
	}
	d.stroke(ink.Thin, thinLine, nobody, q, knee, r2.Vec{X: knee.X + dir*(w+2*between), Y: knee.Y})
	d.text(r2.Vec{X: knee.X + dir*between, Y: knee.Y + above}, 0, anchor, text)
}

// Lean draws the angle between upright and a line that starts at foot, along
// the given angle on paper, with an arc across both. It looks along the line,
// from its farther end to its nearer, for an arc whose value stands free of
// lines and writing, beyond one or the other side; it reports false, and draws
// nothing, where there is none.
func (d *Drawing) Lean(foot r2.Vec, angle, length float64, text string) bool {
	const up = math.Pi / 2
	from, to := min(up, angle), max(up, angle)
	for _, share := range [...]float64{0.7, 0.8, 0.6, 0.5, 0.4, 0.9, 0.3} {
		radius := share * length
		for tail := outside; tail < leanReach; tail += 1 {
			for _, left := range [2]bool{angle > up, angle <= up} {
				at, anchor := polar(foot, to+tail/radius, radius), ink.End
				if !left {
					at, anchor = polar(foot, from-tail/radius, radius), ink.Start
				}
				t := &ink.Text{At: r2.Vec{X: at.X, Y: at.Y - d.Style.Text/2}, Height: d.Style.Text, Anchor: anchor, Text: text}
				if anchor == ink.End {
					t.At.X -= between
				} else {
					t.At.X += between
				}
				box := grow(boxOf(t.Box()...), margin)
				if !d.Space.clear(box) || d.Space.crossed(box) || d.overWriting(polar(foot, from-0.05, radius), polar(foot, to+0.05, radius)) || d.overWriting(foot, polar(foot, up, radius)) {
					continue
				}
				d.lean(foot, from, to, radius, tail, left)
				d.put(t, nobody)
				return true
			}
		}
	}
	return false
}

// overWriting reports whether a line runs through writing or a mark.
func (d *Drawing) overWriting(a, b r2.Vec) bool {
	_, written := d.Space.cross(a, b)
	return written
}

// leanReach is how far beyond its angle, in mm, the value of a lean may stand.
const leanReach = 16

// lean draws the arc of a lean with its tail to the value, and the upright that
// it is measured from.
func (d *Drawing) lean(foot r2.Vec, from, to, radius, tail float64, left bool) {
	d.stroke(ink.Thin, thinLine, nobody, foot, polar(foot, math.Pi/2, radius+overshoot))
	a, b := from, to
	if radius*(to-from) > 2*d.Style.Arrow+2 {
		d.head(polar(foot, from, radius), from-math.Pi/2)
		d.head(polar(foot, to, radius), to+math.Pi/2)
	} else { // too short for two heads: they point in from outside
		d.head(polar(foot, from, radius), from+math.Pi/2)
		d.head(polar(foot, to, radius), to-math.Pi/2)
		a, b = a-outside/radius, b+outside/radius
	}
	if left {
		b = to + tail/radius
	} else {
		a = from - tail/radius
	}
	d.put(&ink.Arc{Line: ink.Thin, Center: foot, Radius: radius, From: a, To: b}, nobody)
}

// CentreMark draws the crossed centre lines of a circle, a little past its
// outline.
func (d *Drawing) CentreMark(center r2.Vec, radius float64) {
	r := radius + 2.5
	for _, v := range [2]r2.Vec{{X: r}, {Y: r}} {
		d.Line(ink.Centre, r2.Sub(center, v), r2.Add(center, v))
	}
}

// Gravity draws the mark of a centre of gravity: a circle with two opposite
// quarters filled.
func (d *Drawing) Gravity(at r2.Vec, radius float64) {
	disc := arcPath(&ink.Arc{Center: at, Radius: radius, To: 2 * math.Pi})
	d.Items = append(d.Items, &ink.Fill{Path: disc[:len(disc)-1], Shade: 1})
	for _, from := range [2]float64{0, math.Pi} {
		quarter := append([]r2.Vec{at}, arcPath(&ink.Arc{Center: at, Radius: radius, From: from, To: from + math.Pi/2})...)
		d.Items = append(d.Items, &ink.Fill{Path: quarter})
	}
	d.Items = append(d.Items, ink.Circle(ink.Thin, at, radius))
	d.Space.addBox(grow(boxOf(disc...), margin), nobody)
}

// Ground draws the ground line from x0 to x1 with hatching below it.
func (d *Drawing) Ground(x0, x1, y float64) {
	const pitch, depth = 3.0, 2.2
	d.Line(ink.Outline, r2.Vec{X: x0, Y: y}, r2.Vec{X: x1, Y: y})
	for x := x0 + depth; x <= x1; x += pitch {
		d.Items = append(d.Items, &ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: x, Y: y}, {X: x - depth, Y: y - depth}}})
	}
	d.Space.addBox(r2.Box{Min: r2.Vec{X: x0, Y: y - depth}, Max: r2.Vec{X: x1, Y: y}}, nobody)
}

// Leader points at a circle from the knee of a leader, with the text on a level
// shoulder that goes on from the knee, away from the circle.
func (d *Drawing) Leader(center r2.Vec, radius float64, knee r2.Vec, text string) {
	angle := math.Atan2(knee.Y-center.Y, knee.X-center.X)
	q := polar(center, angle, radius)
	d.head(q, angle+math.Pi)
	d.shoulder(q, knee, text)
}

// Arrow draws a line with a head at both ends.
func (d *Drawing) Arrow(a, b r2.Vec) {
	angle := math.Atan2(b.Y-a.Y, b.X-a.X)
	d.head(a, angle+math.Pi)
	d.head(b, angle)
	d.stroke(ink.Thin, thinLine, nobody, a, b)
}

// ArcRadius points along the radius at an arc about a center, with the text on a
// level shoulder: from outside by out mm, or by -out mm from the side of the
// center. It reports false, and draws nothing, where the text would meet lines
// or writing, or the leader more than the given number of thin lines.
func (d *Drawing) ArcRadius(center r2.Vec, radius, angle, out float64, thin int, text string) bool {
	if out < 0 && -out > radius {
		return false
	}
	q, knee := polar(center, angle, radius), polar(center, angle, radius+out)
	w := ink.Width(text, d.Style.Text, ink.Regular)
	dir, anchor := 1.0, ink.Start
	if knee.X < q.X {
		dir, anchor = -1, ink.End
	}
	t := &ink.Text{At: r2.Vec{X: knee.X + dir*between, Y: knee.Y + above}, Height: d.Style.Text, Anchor: anchor, Text: text}
	box := grow(boxOf(t.Box()...), margin)
	end := r2.Vec{X: knee.X + dir*(w+2*between), Y: knee.Y}
	n, written := d.Space.cross(polar(center, angle, radius+math.Copysign(leaderStart, out)), knee)
	if !d.Space.clear(box) || d.Space.crossed(box) || written || n[objectLine]+n[leaderLine] > 0 || n[thinLine] > thin || d.overWriting(knee, end) {
		return false
	}
	head := angle + math.Pi
	if out < 0 {
		head = angle
	}
	d.head(q, head)
	d.shoulder(q, knee, text)
	return true
}

// Included draws the angle between two radii, on an arc of the given radius
// about their center, which lies nearer to it than the edges that start at
// edge. Where its value meets other lines or writing along the whole of the arc
// nothing is drawn, and it reports false.
func (d *Drawing) Included(center r2.Vec, edge, radius, from, to float64, text string) bool {
	w := ink.Width(text, d.Style.Text, ink.Regular)
	sign := 1.0 // of the side of the arc, away from the center, where the value stands
	for _, share := range [...]float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
		angle := from + share*(to-from)
		turn := readable(angle - math.Pi/2)
		if math.Cos(turn-(angle-math.Pi/2)) < 0 {
			sign = -1
		} else {
			sign = 1
		}
		// On the concave side an arc rises toward the value at both ends.
		lift := above
		if sign < 0 {
			lift += radius - math.Sqrt(max(radius*radius-w*w/4, 0))
		}
		at := polar(center, angle, radius+sign*lift)
		t := &ink.Text{At: at, Height: d.Style.Text, Angle: turn, Anchor: ink.Middle, Text: text}
		box := grow(boxOf(t.Box()...), margin/2)
		if w > 2*radius || !d.Space.clear(box) || d.Space.crossed(box) {
			continue
		}
		for _, a := range [2]float64{from, to} {
			d.stroke(ink.Thin, thinLine, nobody, polar(center, a, edge-gap), polar(center, a, radius-overshoot))
		}
		d.head(polar(center, from, radius), from-math.Pi/2)
		d.head(polar(center, to, radius), to+math.Pi/2)
		d.put(&ink.Arc{Line: ink.Thin, Center: center, Radius: radius, From: from, To: to}, nobody)
		d.put(t, nobody)
		return true
	}
	return false
}
