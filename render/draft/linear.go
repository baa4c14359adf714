package draft

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// A Dim is one dimension between two points. Its extension lines start at the
// points.
type Dim struct {
	From, To r2.Vec
	Text     string
	Bare     [2]bool           // no extension line from From, from To
	Hide     func(r2.Vec) bool // where extension lines are broken off, such as within other parts; may be nil

	Under bool // a value too wide to stand between the ends stands under the line, or at the left of an upright one, not beyond it

	beyond float64 // mm, from the end to a value that stands outside; 0 for the least
}

// Linear draws a dimension along the given angle (0 level, pi/2 upright), its
// line through the point on.
func (d *Drawing) Linear(m Dim, on r2.Vec, angle float64) {
	along := polar(r2.Vec{}, angle, 1)
	foot := func(p r2.Vec) r2.Vec { return r2.Add(on, r2.Scale(r2.Dot(r2.Sub(p, on), along), along)) }
	p, q := foot(m.From), foot(m.To)
	if !m.Bare[0] {
		d.extension(m.From, p, m.Hide)
	}
	if !m.Bare[1] {
		d.extension(m.To, q, m.Hide)
	}
	if r2.Dot(r2.Sub(q, p), along) < 0 {
		p, q = q, p
	}
	d.span(p, q, angle, &m)
}

// Aligned draws a dimension along the line from a to b, set off to its left by
// the given distance (to its right where negative).
func (d *Drawing) Aligned(a, b r2.Vec, off float64, text string) {
	v := r2.Sub(b, a)
	angle := math.Atan2(v.Y, v.X)
	d.Linear(Dim{From: a, To: b, Text: text}, polar(a, angle+math.Pi/2, off), angle)
}

// extension draws the line from a point of the object to just beyond its
// dimension line, broken off where hide tells.
func (d *Drawing) extension(from, to r2.Vec, hide func(r2.Vec) bool) {
	const step, least = 0.5, 1.5 // mm, of testing and of a piece worth drawing
	v := r2.Sub(to, from)
	l := r2.Norm(v)
	if l < gap+overshoot/2 {
		return
	}
	u := r2.Scale(1/l, v)
	end := l + overshoot
	if hide == nil {
		d.stroke(ink.Thin, thinLine, nobody, r2.Add(from, r2.Scale(gap, u)), r2.Add(from, r2.Scale(end, u)))
		return
	}
	start := gap
	flush := func(at float64) {
		if at-start >= least {
			d.stroke(ink.Thin, thinLine, nobody, r2.Add(from, r2.Scale(start, u)), r2.Add(from, r2.Scale(at, u)))
		}
	}
	inside := false
	for at := gap; at < l; at += step {
		switch in := hide(r2.Add(from, r2.Scale(at, u))); {
		case in && !inside:
			flush(at - gap)
			inside = true
		case !in && inside:
			start, inside = at+gap, false
		}
	}
	if inside {
		start = l - least
	}
	flush(end)
}

// span draws a dimension line from p to q with its heads and value. Where the
// heads or the value do not fit between the ends they go outside.
func (d *Drawing) span(p, q r2.Vec, angle float64, of *Dim) {
	text, beyond := of.Text, of.beyond
	l := r2.Norm(r2.Sub(q, p))
	w := ink.Width(text, d.Style.Text, ink.Regular)
	turn := readable(angle)
	heads := 2*d.Style.Arrow + 1
	lift := polar(r2.Vec{}, turn+math.Pi/2, above)
	if d.Style.InLine {
		lift = polar(r2.Vec{}, turn+math.Pi/2, -d.Style.Text/2)
	}
	inside := l >= heads+1
	if inside {
		d.head(p, angle+math.Pi)
		d.head(q, angle)
	} else {
		d.head(p, angle)
		d.head(q, angle+math.Pi)
	}
	m := r2.Scale(0.5, r2.Add(p, q))
	if of.Under && !d.Style.Fits(l, text) {
		d.stroke(ink.Thin, thinLine, nobody, p, q)
		if !inside {
			d.stroke(ink.Thin, thinLine, nobody, polar(p, angle, -outside), p)
			d.stroke(ink.Thin, thinLine, nobody, q, polar(q, angle, outside))
		}
		off := -d.Style.Text - overshoot - between // under a level line, at the left of an upright one
		if math.Abs(math.Sin(turn)) > 0.5 {
			off = overshoot + between
		}
		d.text(r2.Add(m, polar(r2.Vec{}, turn+math.Pi/2, off)), turn, ink.Middle, text)
		return
	}
	if d.Style.Fits(l, text) {
		switch {
		case !d.Style.InLine:
			d.stroke(ink.Thin, thinLine, nobody, p, q)
		case inside:
			d.stroke(ink.Thin, thinLine, nobody, p, polar(m, angle, -(w/2+between)))
			d.stroke(ink.Thin, thinLine, nobody, polar(m, angle, w/2+between), q)
		}
		if !inside {
			d.stroke(ink.Thin, thinLine, nobody, polar(p, angle, -outside), p)
			d.stroke(ink.Thin, thinLine, nobody, q, polar(q, angle, outside))
		}
		d.text(r2.Add(m, lift), turn, ink.Middle, text)
		return
	}
	// The value stands beyond the end that is read last.
	end, other, out := q, p, angle
	if math.Cos(angle-turn) < 0 {
		end, other, out = p, q, angle+math.Pi
	}
	tail := between
	if !inside {
		tail = outside
		d.stroke(ink.Thin, thinLine, nobody, other, polar(other, out+math.Pi, outside))
	}
	if inside || !d.Style.InLine {
		d.stroke(ink.Thin, thinLine, nobody, p, q)
	}
	tail = max(tail, beyond)
	reach, start := tail, tail+between
	if !d.Style.InLine {
		reach, start = tail+w+between, tail
	}
	d.stroke(ink.Thin, thinLine, nobody, end, polar(end, out, reach))
	d.text(r2.Add(polar(end, out, start), lift), turn, ink.Start, text)
}

// Fits reports whether the value of a dimension stands between its ends.
func (s *Style) Fits(length float64, text string) bool {
	return length >= s.need(text)
}

// need returns the least length of a dimension whose value stands between its
// ends.
func (s *Style) need(text string) float64 {
	n := ink.Width(text, s.Text, ink.Regular) + 2*between
	if s.InLine {
		n += 2*s.Arrow + 1
	}
	return n
}

// A SideOf is the side of an outline on which a stack of dimensions stands.
type SideOf int

// The sides.
const (
	Left SideOf = iota
	Right
	Below
	Above
)

// Stack draws dimensions beside an outline, the shortest nearest to it, so
// that no dimension line is crossed by an extension line of another. Those
// that do not overlap share a line. It returns the place beyond the last line,
// along the side's direction.
func (d *Drawing) Stack(side SideOf, outline float64, dims []Dim) float64 {
	upright := side == Left || side == Right
	ends := endsOn(side)
	sorted := slices.Clone(dims)
	slices.SortStableFunc(sorted, func(a, b Dim) int {
		a0, a1 := ends(a)
		b0, b1 := ends(b)
		switch l, m := a1-a0, b1-b0; {
		case l < m-1e-6:
			return -1
		case l > m+1e-6:
			return 1
		}
		return 0
	})
	sign := 1.0
	if side == Left || side == Below {
		sign = -1
	}
	var levels [][][2]float64 // what is taken of each line, values that stand outside their span included
	for _, m := range sorted {
		lo, hi := ends(m)
		takeLo, takeHi := lo-1, hi+1
		switch w := d.Style.need(m.Text); {
		case d.Style.Fits(hi-lo, m.Text):
		case m.Under:
			half := max((w-hi+lo)/2, outside)
			takeLo, takeHi = lo-half, hi+half
		default:
			m.beyond = outsidePlace(sorted, ends, hi, w)
			takeLo, takeHi = takeLo-outside, hi+m.beyond+w
		}
		k := 0
		for ; k < len(levels); k++ {
			// A dimension line must not be crossed by the extension lines of
			// one farther out: it may share a line or go beyond.
			if !meetsAny(levels[k], takeLo, takeHi) && !beyond(levels, k, lo, hi) {
				break
			}
		}
		if k == len(levels) {
			levels = append(levels, nil)
		}
		levels[k] = append(levels[k], [2]float64{takeLo, takeHi})
		at := outline + sign*(d.Style.First+float64(k)*d.Style.Step)
		if upright {
			d.Linear(m, r2.Vec{X: at}, math.Pi/2)
		} else {
			d.Linear(m, r2.Vec{Y: at}, 0)
		}
	}
	return outline + sign*(d.Style.First+float64(max(len(levels)-1, 0))*d.Style.Step+overshoot+d.Style.Text)
}

// Beyond returns how far a dimension with the given value reaches beyond its
// end, on paper, where its length is the given one.
func (s *Style) Beyond(length float64, text string) float64 {
	if s.Fits(length, text) {
		return 0
	}
	return outside + s.need(text)
}

// Spread returns how far a dimension whose value may stand under it reaches beyond
// each of its ends, on paper, where its length is the given one.
func (s *Style) Spread(length float64, text string) float64 {
	if s.Fits(length, text) {
		return 0
	}
	return max((ink.Width(text, s.Text, ink.Regular)-length)/2, outside)
}

// Past returns how far the values of a stack of dimensions at the left or right reach
// above the highest of their ends, on paper, or those of one below or above to the right
// of the last.
func (s *Style) Past(side SideOf, dims []Dim) float64 {
	ends := endsOn(side)
	last, reach := math.Inf(-1), math.Inf(-1)
	for _, m := range dims {
		lo, hi := ends(m)
		last, reach = max(last, hi), max(reach, hi)
		switch w := s.need(m.Text); {
		case s.Fits(hi-lo, m.Text):
		case m.Under:
			reach = max(reach, hi+s.Spread(hi-lo, m.Text))
		default:
			reach = max(reach, hi+outsidePlace(dims, ends, hi, w)+w)
		}
	}
	if len(dims) == 0 {
		return 0
	}
	return reach - last
}

// endsOn returns what gives the ends of a dimension of a stack on a side, along it.
func endsOn(side SideOf) func(Dim) (lo, hi float64) {
	return func(m Dim) (lo, hi float64) {
		a, b := m.From.X, m.To.X
		if side == Left || side == Right {
			a, b = m.From.Y, m.To.Y
		}
		return min(a, b), max(a, b)
	}
}

// outsidePlace returns how far beyond hi a value of width w stands, so that no
// extension line of another dimension runs through it.
func outsidePlace(dims []Dim, ends func(Dim) (float64, float64), hi, w float64) float64 {
	var lines []float64
	for _, m := range dims {
		lo, hi := ends(m)
		lines = append(lines, lo, hi)
	}
	slices.Sort(lines)
	start := hi + outside
	for _, x := range lines {
		if x > hi && start-between < x && x < start+w {
			start = x + between
		}
	}
	return start - hi
}

func meetsAny(spans [][2]float64, lo, hi float64) bool {
	for _, s := range spans {
		if lo < s[1] && s[0] < hi {
			return true
		}
	}
	return false
}

// beyond reports whether a line beyond level k already stands over the span:
// then a new one must not slip in under it.
func beyond(levels [][][2]float64, k int, lo, hi float64) bool {
	for _, l := range levels[k+1:] {
		if meetsAny(l, lo, hi) {
			return true
		}
	}
	return false
}
