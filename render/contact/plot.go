package contact

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/check"
	"stabile/fab/study"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// An Axis is one figure of a plot: its name, the question of the study that it
// answers, and the unit in which its numbers are written.
type Axis struct {
	Name     string
	Question int
	Unit     quantity.Unit // without a name for a plain number
}

// value returns the figure of a result in the axis's unit.
func (a *Axis) value(r *study.Result) (float64, bool) {
	if r.Err != nil || r.Answers[a.Question].Unchecked {
		return 0, false
	}
	x := r.Answers[a.Question].Number.Number
	if a.Unit.Scale != 0 {
		x /= a.Unit.Scale
	}
	return x, !math.IsNaN(x) && !math.IsInf(x, 0)
}

func (a *Axis) label() string {
	if a.Unit.Name == "" {
		return a.Name
	}
	return a.Name + ", " + a.Unit.Name
}

// Measures of a plot, in mm.
const (
	plotLeft  = 20.0 // room for the numbers of the upright axis
	plotBelow = 16.0 // for those of the level one, and its name
	plotAbove = 13.0 // for the key, and the upright axis's name under it
	plotRight = 12.0
	dot       = 0.9 // radius
	tick      = 1.5
)

// errNoPoints reports that there is nothing to plot.
var errNoPoints = errors.New("none of the variations has both figures")

// A mark is how a result is drawn on a plot.
type mark int

const (
	does      mark = iota // all that is asked holds, and all was checked: a full point
	unchecked             // nothing fails, but something was not checked: a ring
	fails                 // something fails or is at fault: a cross
)

func markOf(r *study.Result) mark {
	return map[check.Verdict]mark{check.Holds: does, check.Undecided: unchecked, check.Fails: fails}[r.Verdict]
}

// key says what a mark means.
func (m mark) key() string {
	return [...]string{
		does:      "all holds",
		unchecked: "nothing fails, not all was checked",
		fails:     "something fails or is at fault",
	}[m]
}

// items draws a mark.
func (m mark) items(at r2.Vec) []ink.Item {
	switch m {
	case does:
		return []ink.Item{&ink.Fill{Path: round(at, dot)}}
	case unchecked:
		return []ink.Item{ink.Circle(ink.Thin, at, dot)}
	}
	return []ink.Item{
		&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: at.X - dot, Y: at.Y - dot}, {X: at.X + dot, Y: at.Y + dot}}},
		&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: at.X - dot, Y: at.Y + dot}, {X: at.X + dot, Y: at.Y - dot}}},
	}
}

// Plot returns a sheet with a point for each result: y against x. The point shows
// whether it meets all that is required. Each point has its number beside it, or on a leader. Results
// that have no point are listed under the plot, with the reason.
func Plot(d *design.Design, results []study.Result, x, y Axis, o Options) (*ink.Sheet, error) {
	type point struct {
		x, y float64
		r    *study.Result
	}
	var points []point
	for i := range results {
		px, okX := x.value(&results[i])
		py, okY := y.value(&results[i])
		if okX && okY {
			points = append(points, point{px, py, &results[i]})
		}
	}
	if len(points) == 0 {
		return nil, errNoPoints
	}
	paper := o.Paper
	if paper.Width == 0 {
		name := "A4"
		if d.Units == quantity.Inch {
			name = "ANSI A"
		}
		p, _ := sheet.LookupPaper(name)
		paper = p.Landscape()
	}
	page := sheet.NewPage(paper, "trade-off", sheet.Block{
		Title: d.Title, Subtitle: words.Capital(fmt.Sprintf("%s against %s", y.Name, x.Name)), Document: "Plot", Material: "See the drawings",
		Owner: d.Owner(), Revision: d.Revision(), Date: o.Date, Caution: caution, Strip: true,
	})
	left := leftOut(d, results, &x, &y, page.Free.Max.X-page.Free.Min.X)
	below := plotBelow + float64(len(left))*linePitch
	box := sheet.Box(page.Free.Min.X+plotLeft, page.Free.Min.Y+below, page.Free.Max.X-plotRight, page.Free.Max.Y-plotAbove)
	if box.Max.X-box.Min.X < 40 || box.Max.Y-box.Min.Y < 30 {
		return nil, fmt.Errorf("plot: %s paper is too small", paper.Name)
	}
	var xs, ys []float64
	for _, p := range points {
		xs, ys = append(xs, p.x), append(ys, p.y)
	}
	level := newScale(slices.Min(xs), slices.Max(xs), box.Min.X, box.Max.X, 8)
	upright := newScale(slices.Min(ys), slices.Max(ys), box.Min.Y, box.Max.Y, 6)
	axes(page, box, level, upright, x.label(), y.label())
	for _, p := range points {
		at := r2.Vec{X: level.at(p.x), Y: upright.at(p.y)}
		page.Add(markOf(p.r).items(at)...)
	}
	w := writing{box: box}
	for _, p := range points {
		w.dots = append(w.dots, r2.Vec{X: level.at(p.x), Y: upright.at(p.y)})
	}
	var crowded []int // numbers of points that no number goes near
	for i, p := range points {
		t, lead := w.number(i, strconv.Itoa(p.r.Number))
		if t == nil {
			crowded = append(crowded, p.r.Number)
			continue
		}
		page.Add(t)
		if lead != nil {
			page.Add(lead)
		}
	}
	at := r2.Vec{X: page.Free.Min.X, Y: page.Free.Max.Y - sheet.Small}
	for m := does; m <= fails; m++ {
		page.Add(m.items(r2.Vec{X: at.X + dot, Y: at.Y + sheet.Small/2})...)
		t := &ink.Text{Text: m.key(), At: r2.Vec{X: at.X + 2*dot + 1.5, Y: at.Y}, Height: sheet.Small}
		page.Add(t)
		at.X = t.At.X + t.Width() + 6
	}
	if len(crowded) > 0 {
		text := "too close to number: " + words.Runs(crowded)
		page.Add(&ink.Text{Text: sheet.Elide(text, page.Free.Max.X-at.X, sheet.Small, ink.Regular), At: at, Height: sheet.Small})
	}
	at = r2.Vec{X: page.Free.Min.X, Y: page.Free.Min.Y + below - plotBelow - sheet.Small}
	for _, text := range left {
		page.Add(&ink.Text{Text: text, At: at, Height: sheet.Small})
		at.Y -= linePitch
	}
	return sheet.Finish([]*sheet.Page{page})[0], nil
}

// mostLeftOut is how many lines under a plot name what is not on it.
const mostLeftOut = 4

// leftOut reports which results have no point on a plot, and why, in lines no wider
// than a width.
func leftOut(d *design.Design, results []study.Result, x, y *Axis, width float64) []string {
	var reasons []string
	at := map[string][]int{}
	for i := range results {
		r := &results[i]
		why := ""
		switch {
		case r.Err != nil:
			why = "cannot be made: " + study.Why(r.Err)
		default:
			for _, a := range []*Axis{y, x} {
				if _, ok := a.value(r); ok || why != "" {
					continue
				}
				why = a.Name + " has no value"
				if q := r.Answers[a.Question]; q.Unchecked {
					why = a.Name + " was not worked out: " + words.In(d.Units).Fact(q.Missing)
				}
			}
		}
		if why == "" {
			continue
		}
		if at[why] == nil {
			reasons = append(reasons, why)
		}
		at[why] = append(at[why], r.Number)
	}
	if len(reasons) == 0 {
		return nil
	}
	n := 0
	var lines []string
	for _, why := range reasons {
		n += len(at[why])
		lines = append(lines, words.Runs(at[why])+" "+why)
	}
	text := fmt.Sprintf("Not on the plot, %d of %d: %s.", n, len(results), strings.Join(lines, "; "))
	return wrapped(text, width, ink.Regular, mostLeftOut)
}

func round(c r2.Vec, radius float64) []r2.Vec {
	const corners = 24
	path := make([]r2.Vec, corners)
	for i := range path {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		path[i] = r2.Vec{X: c.X + radius*cos, Y: c.Y + radius*sin}
	}
	return path
}

// axes draws the frame of a plot with its ticks and names, which may be long.
func axes(s *sheet.Page, box r2.Box, level, upright scale, x, y string) {
	s.Add(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{box.Min, {X: box.Max.X, Y: box.Min.Y}, box.Max, {X: box.Min.X, Y: box.Max.Y}}, Closed: true})
	for _, v := range level.ticks {
		at := level.at(v)
		s.Add(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: at, Y: box.Min.Y}, {X: at, Y: box.Min.Y - tick}}},
			&ink.Text{Text: level.write(v), At: r2.Vec{X: at, Y: box.Min.Y - tick - 1 - sheet.Small}, Height: sheet.Small, Anchor: ink.Middle})
	}
	for _, v := range upright.ticks {
		at := upright.at(v)
		s.Add(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: box.Min.X, Y: at}, {X: box.Min.X - tick, Y: at}}},
			&ink.Text{Text: upright.write(v), At: r2.Vec{X: box.Min.X - tick - 1, Y: at - sheet.Small/2}, Height: sheet.Small, Anchor: ink.End})
	}
	middle := (box.Min.X + box.Max.X) / 2
	x = sheet.Elide(x, 2*min(s.Free.Max.X-middle, middle-s.Free.Min.X), sheet.Medium, ink.Bold)
	y = sheet.Elide(y, s.Free.Max.X-box.Min.X, sheet.Medium, ink.Bold)
	s.Add(&ink.Text{Text: x, At: r2.Vec{X: middle, Y: box.Min.Y - tick - 3 - 2*sheet.Small - sheet.Medium/2}, Height: sheet.Medium, Face: ink.Bold, Anchor: ink.Middle},
		&ink.Text{Text: y, At: r2.Vec{X: box.Min.X, Y: box.Max.Y + 3}, Height: sheet.Medium, Face: ink.Bold})
}

// A scale lays a range of numbers along a line on paper.
type scale struct {
	lo, hi   float64 // numbers at its ends
	from, to float64 // mm
	ticks    []float64
	decimals int
}

// newScale returns a scale with room about the numbers and some ticks at round
// ones.
func newScale(least, most, from, to float64, ticks int) scale {
	span := most - least
	if !(span > 1e-9*max(math.Abs(least), math.Abs(most))) {
		span = max(math.Abs(least)/5, 1e-6)
	}
	const room = 0.06
	middle := least + (most-least)/2
	s := scale{lo: middle - span*(0.5+room), hi: middle + span*(0.5+room), from: from, to: to}
	step := math.Pow(10, math.Floor(math.Log10(span/float64(ticks))))
	for _, k := range []float64{2, 2.5, 2} {
		if span/step > float64(ticks) {
			step *= k
		}
	}
	s.decimals = max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	if d := step * math.Pow(10, float64(s.decimals)); math.Abs(d-math.Round(d)) > 1e-6 {
		s.decimals++ // 0.25
	}
	for i := math.Ceil(s.lo / step); i*step <= s.hi; i++ {
		s.ticks = append(s.ticks, i*step)
	}
	return s
}

func (s *scale) at(x float64) float64 { return s.from + (x-s.lo)/(s.hi-s.lo)*(s.to-s.from) }

func (s *scale) write(x float64) string {
	if math.Abs(x) < 1e-9*(s.hi-s.lo) {
		x = 0
	}
	return strconv.FormatFloat(x, 'f', s.decimals, 64)
}

// A writing keeps what is taken of a plot, so that numbers are only written
// where they are clear of points and of each other.
type writing struct {
	box   r2.Box
	dots  []r2.Vec
	taken []r2.Box
	lines [][2]r2.Vec // leaders
}

// leads are how far from its point a number stands on a leader, in mm, the nearest
// first, and leadWays in how many directions it is tried.
var leads = []float64{4, 6, 8.5, 11.5, 15, 20, 27}

const leadWays = 16

// number returns the number of a point beside it, or where there is no room further
// off with the leader to it; nil where there is none even so.
func (w *writing) number(i int, text string) (*ink.Text, *ink.Stroke) {
	const height = sheet.Small
	width := ink.Width(text, height, ink.Regular)
	p := w.dots[i]
	for _, at := range []r2.Vec{
		{X: p.X + dot + 0.6, Y: p.Y - height/2},
		{X: p.X - dot - 0.6 - width, Y: p.Y - height/2},
		{X: p.X - width/2, Y: p.Y + dot + 0.8},
		{X: p.X - width/2, Y: p.Y - dot - 0.8 - height},
	} {
		b := sheet.Box(at.X-0.3, at.Y-0.3, at.X+width+0.3, at.Y+height+0.3)
		if w.free(b, i) {
			w.taken = append(w.taken, b)
			return &ink.Text{Text: text, At: at, Height: height}, nil
		}
	}
	for _, reach := range leads {
		for k := range leadWays {
			sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / leadWays)
			end := r2.Vec{X: p.X + reach*cos, Y: p.Y + reach*sin}
			at := r2.Vec{X: end.X + 0.8, Y: end.Y - height/2}
			if cos < 0 {
				at.X = end.X - 0.8 - width
			}
			b := sheet.Box(at.X-0.3, at.Y-0.3, at.X+width+0.3, at.Y+height+0.3)
			from := r2.Vec{X: p.X + (dot+0.3)*cos, Y: p.Y + (dot+0.3)*sin}
			if !w.free(b, i) || w.crosses(from, end) {
				continue
			}
			w.taken = append(w.taken, b)
			w.lines = append(w.lines, [2]r2.Vec{from, end})
			return &ink.Text{Text: text, At: at, Height: height}, &ink.Stroke{Line: ink.Thin, Path: []r2.Vec{from, end}}
		}
	}
	return nil, nil
}

// leadStep is how closely a leader is looked at, in mm.
const leadStep = 0.5

// crosses reports whether a leader runs over a number.
func (w *writing) crosses(from, to r2.Vec) bool {
	return slices.ContainsFunc(w.taken, func(b r2.Box) bool { return meets(b, from, to) })
}

// meets reports whether a line meets a box.
func meets(b r2.Box, from, to r2.Vec) bool {
	n := int(r2.Norm(r2.Sub(to, from))/leadStep) + 1
	for k := range n + 1 {
		p := r2.Add(from, r2.Scale(float64(k)/float64(n), r2.Sub(to, from)))
		if p.X > b.Min.X && p.X < b.Max.X && p.Y > b.Min.Y && p.Y < b.Max.Y {
			return true
		}
	}
	return false
}

func (w *writing) free(b r2.Box, but int) bool {
	if b.Min.X < w.box.Min.X || b.Max.X > w.box.Max.X || b.Min.Y < w.box.Min.Y || b.Max.Y > w.box.Max.Y {
		return false
	}
	for i, p := range w.dots {
		if i != but && p.X > b.Min.X-dot && p.X < b.Max.X+dot && p.Y > b.Min.Y-dot && p.Y < b.Max.Y+dot {
			return false
		}
	}
	for _, l := range w.lines {
		if meets(b, l[0], l[1]) {
			return false
		}
	}
	for _, t := range w.taken {
		if b.Min.X < t.Max.X && t.Min.X < b.Max.X && b.Min.Y < t.Max.Y && t.Min.Y < b.Max.Y {
			return false
		}
	}
	return true
}

// NewAxis returns the axis of a question that was asked of the design, in the
// design's units.
func NewAxis(d *design.Design, question int) Axis {
	q := d.Questions[question]
	a := Axis{Name: q.Text, Question: question}
	if u, ok := d.Units.UnitOf(q.Dim); ok {
		a.Unit = u
	}
	return a
}
