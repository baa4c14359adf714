package bench

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"sync"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/words"
)

// A drawing is three views of a piece, in mm of the piece, y down as on a page.
type drawing struct {
	Views []view `json:"views"`
}

// A view is one projection: lines and bodies part by part, the parts by their
// place in the list.
type view struct {
	Name    string      `json:"name"`
	Box     [4]float64  `json:"box"` // left, top, width, height
	Lines   []stroke    `json:"lines"`
	Bodies  []body      `json:"bodies"` // the farthest first
	Ground  bool        `json:"ground"` // level 0 is the ground
	Wall    *[4]float64 `json:"wall"`   // the face of a wall, from one point to another; null for none
	Gravity [2]float64  `json:"gravity"`
	Dims    []dimension `json:"dims"`
}

// A stroke is lines of one part and one kind.
type stroke struct {
	Part int    `json:"part"`
	Seam bool   `json:"seam,omitempty"`
	Path string `json:"path"` // as of an SVG
}

// A body is the area of a part, to be touched.
type body struct {
	Part int    `json:"part"`
	Path string `json:"path"`
}

// A dimension is a length between two points, its line beside them.
type dimension struct {
	From  [2]float64 `json:"from"`
	To    [2]float64 `json:"to"`
	Text  string     `json:"text"`
	Level bool       `json:"level"` // measured from left to right, below; else upright, at the left
}

// The three views, and how large a piece is drawn: so that its longest side comes
// to a number of mm of paper, which sets how closely lines are followed.
var projections = [...]draft.Projection{draft.Front, draft.Side, draft.Plan}

const (
	paperSide   = 160.0
	crowdedSide = 90.0
	crowd       = 60 // parts
)

// drawing returns the views of a result, drawn once; nil where there is nothing.
func (r *result) drawing() *drawing {
	r.drawn.Do(func() {
		if r.draw != nil {
			return
		}
		if j := r.seen(); j != nil && len(j.Parts) > 0 {
			r.draw = drawingOf(j)
		}
	})
	return r.draw
}

func drawingOf(j *fab.Job) *drawing {
	side := paperSide
	if len(j.Parts) > crowd {
		side = crowdedSide
	}
	scale := side / max(j.Size.Width, j.Size.Depth, j.Size.Height, 1)
	scene := draft.NewScene(j.Parts)
	d := &drawing{Views: make([]view, len(projections))}
	var wait sync.WaitGroup
	for i, p := range projections {
		wait.Go(func() { d.Views[i] = viewOf(j, scene, p, scale) })
	}
	wait.Wait()
	return d
}

var viewNames = [...]string{draft.Front: "Front", draft.Side: "Right", draft.Plan: "Plan"}

func viewOf(j *fab.Job, scene *draft.Scene, p draft.Projection, scale float64) view {
	// On paper lines are followed at the scale; the page has them in mm.
	v := draft.View{Projection: p, Scale: scale}
	lo, hi := p.Flat(j.Size.Min), p.Flat(j.Size.Max)
	out := view{Name: viewNames[p], Ground: p != draft.Plan, Lines: []stroke{}, Bodies: []body{}}
	if out.Ground {
		lo.Y = min(lo.Y, 0)
	}
	out.Box = [4]float64{tenth(lo.X), tenth(-hi.Y), tenth(hi.X - lo.X), tenth(hi.Y - lo.Y)}
	if j.Design.Wall() != nil && p != draft.Front {
		out.Wall = wallIn(p, lo, hi)
	}
	out.Gravity = flat(p, j.CG)
	var w pen
	w.scale = 1 / scale
	lines := scene.Shown(v)
	for i := 0; i < len(lines); {
		l := &lines[i]
		w.reset()
		for ; i < len(lines) && lines[i].Part == l.Part && lines[i].Kind == l.Kind; i++ {
			w.line(&lines[i])
		}
		out.Lines = append(out.Lines, stroke{Part: l.Part, Seam: l.Kind == ink.Seam, Path: w.String()})
	}
	out.Bodies = bodies(j, p)
	out.Dims = dimensions(j, p)
	return out
}

// wallIn returns the face of a wall, which is y = 0, where a view shows it on edge, along the
// box of what is drawn.
func wallIn(p draft.Projection, lo, hi r2.Vec) *[4]float64 {
	reach := 0.04 * max(hi.X-lo.X, hi.Y-lo.Y)
	if p == draft.Plan {
		return &[4]float64{tenth(lo.X - reach), 0, tenth(hi.X + reach), 0}
	}
	return &[4]float64{0, 0, 0, tenth(-hi.Y - reach)}
}

// flat returns a point as the page has it in a view.
func flat(p draft.Projection, at r3.Vec) [2]float64 {
	q := p.Flat(at)
	return [2]float64{tenth(q.X), tenth(-q.Y)}
}

// tenth rounds to a tenth of a millimetre, far less than a line is wide.
func tenth(x float64) float64 {
	return math.Round(x*10)/10 + 0 // never -0
}

// A pen writes paths of an SVG in mm of the piece, y down.
type pen struct {
	buf   []byte
	scale float64 // mm of the piece for each of the paper
}

func (w *pen) reset()         { w.buf = w.buf[:0] }
func (w *pen) String() string { return string(w.buf) }

func (w *pen) number(x float64) {
	w.buf = strconv.AppendFloat(w.buf, tenth(x), 'f', -1, 64)
}

func (w *pen) point(command byte, p r2.Vec) {
	w.buf = append(w.buf, command)
	w.number(p.X * w.scale)
	w.buf = append(w.buf, ' ')
	w.number(-p.Y * w.scale)
}

// line writes a line of a drawing: a circle as one, else its points without those
// that lie between others.
func (w *pen) line(l *draft.Line) {
	switch {
	case len(l.Path) < 2:
	case l.Radius > 0 && l.Closed:
		w.circle(l.Center, l.Radius)
	case l.Radius > 0:
		w.arc(l)
	default:
		w.path(thinned(l.Path), l.Closed)
	}
}

func (w *pen) path(path []r2.Vec, closed bool) {
	for i, p := range path {
		command := byte('L')
		if i == 0 {
			command = 'M'
		}
		w.point(command, p)
	}
	if closed {
		w.buf = append(w.buf, 'Z')
	}
}

func (w *pen) circle(center r2.Vec, radius float64) {
	left, right := center, center
	left.X -= radius
	right.X += radius
	w.point('M', left)
	w.arcTo(radius, false, right)
	w.arcTo(radius, false, left)
	w.buf = append(w.buf, 'Z')
}

// arc writes part of a circle that is run along counter-clockwise.
func (w *pen) arc(l *draft.Line) {
	first, last := l.Path[0], l.Path[len(l.Path)-1]
	middle := l.Path[len(l.Path)/2]
	w.point('M', first)
	w.arcTo(l.Radius, false, middle)
	w.arcTo(l.Radius, false, last)
}

// arcTo goes on along a circle, counter-clockwise as seen with y up, by less than
// half a turn.
func (w *pen) arcTo(radius float64, large bool, to r2.Vec) {
	w.buf = append(w.buf, 'A')
	w.number(radius * w.scale)
	w.buf = append(w.buf, ' ')
	w.number(radius * w.scale)
	w.buf = append(w.buf, " 0 "...)
	if large {
		w.buf = append(w.buf, '1')
	} else {
		w.buf = append(w.buf, '0')
	}
	w.buf = append(w.buf, " 0 "...)
	w.number(to.X * w.scale)
	w.buf = append(w.buf, ' ')
	w.number(-to.Y * w.scale)
}

// hair is how far, in mm of paper, a line may pass a point that is left out: a
// tenth of its width.
const hair = 0.025

// thinned returns a path without the points that lie on the line between others,
// by halving at the farthest one (Douglas and Peucker, 1973).
func thinned(path []r2.Vec) []r2.Vec {
	keep := make([]bool, len(path))
	keep[0], keep[len(path)-1] = true, true
	var part func(a, b int)
	part = func(a, b int) {
		far, most := -1, hair
		v := r2.Sub(path[b], path[a])
		long := r2.Norm(v)
		for i := a + 1; i < b; i++ {
			d := r2.Norm(r2.Sub(path[i], path[a]))
			if long > 0 {
				d = math.Abs(r2.Cross(v, r2.Sub(path[i], path[a]))) / long
			}
			if d > most {
				far, most = i, d
			}
		}
		if far > 0 {
			keep[far] = true
			part(a, far)
			part(far, b)
		}
	}
	part(0, len(path)-1)
	out := make([]r2.Vec, 0, 16)
	for i, p := range path {
		if keep[i] {
			out = append(out, p)
		}
	}
	return out
}

// bodies returns the areas of the parts in a view, those behind first.
func bodies(j *fab.Job, p draft.Projection) []body {
	type placed struct {
		body
		near float64
	}
	toward := towards[p]
	list := make([]placed, 0, len(j.Parts))
	var w pen
	w.scale = 1
	for i := range j.Parts {
		part := &j.Parts[i]
		w.reset()
		var at r3.Vec
		switch {
		case part.Ball != nil && part.Ball.Bowl:
			at = part.Ball.Middle()
			w.circle(p.Flat(at), part.Ball.Depth()/2)
		case part.Ball != nil:
			at = part.Ball.Center
			w.circle(p.Flat(at), min(part.Ball.Radius, part.Ball.Polar()))
		case part.Post != nil:
			foot, head := part.Post.Ends[design.Foot], part.Post.Ends[design.Head]
			at = r3.Scale(0.5, r3.Add(foot.At, head.At))
			w.tube(p.Flat(foot.At), p.Flat(head.At), foot.Diameter/2, head.Diameter/2)
		default:
			o := part.Base.Outline()
			under := part.Base.Under()
			at = part.Base.InSpace(r3.Vec{X: part.Base.At.X, Y: part.Base.At.Y, Z: (under + part.Base.Top) / 2})
			if part.Base.OnWall() {
				b := part.Body.Bounds()
				lo, hi := p.Flat(b.Min), p.Flat(b.Max)
				w.path([]r2.Vec{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}}, true)
			} else if p == draft.Plan {
				w.path(o.Path(48), true)
			} else {
				right := rights[p]
				lo, hi := -o.Reach(r2.Scale(-1, right)), o.Reach(right)
				w.path([]r2.Vec{{X: lo, Y: under}, {X: hi, Y: under}, {X: hi, Y: part.Base.Top}, {X: lo, Y: part.Base.Top}}, true)
			}
		}
		list = append(list, placed{body{i, w.String()}, r3.Dot(at, toward)})
	}
	slices.SortStableFunc(list, func(a, b placed) int {
		switch {
		case a.near < b.near:
			return -1
		case a.near > b.near:
			return 1
		}
		return 0
	})
	out := make([]body, len(list))
	for i := range list {
		out[i] = list[i].body
	}
	return out
}

// Where the viewer of each view is, and what is to the right there in plan.
var (
	towards = [...]r3.Vec{draft.Front: {Y: -1}, draft.Side: {X: 1}, draft.Plan: {Z: 1}}
	rights  = [...]r2.Vec{draft.Front: {X: 1}, draft.Side: {Y: 1}}
)

// tube writes the area of a tube between two points, with round ends where it is
// seen end on.
func (w *pen) tube(a, b r2.Vec, ra, rb float64) {
	v := r2.Sub(b, a)
	long := r2.Norm(v)
	if long < max(ra, rb)/2 {
		w.circle(a, max(ra, rb))
		return
	}
	n := r2.Vec{X: -v.Y / long, Y: v.X / long}
	w.path([]r2.Vec{
		r2.Add(a, r2.Scale(ra, n)), r2.Add(b, r2.Scale(rb, n)), r2.Sub(b, r2.Scale(rb, n)), r2.Sub(a, r2.Scale(ra, n)),
	}, true)
}

// sizing returns what writes the sizes of a design: in mm where it gives no units.
func sizing(d *design.Design) words.Writer {
	return words.In(cmp.Or(d.Units, quantity.Millimetre))
}

// dimensions returns the overall sizes, and in front the heights of the balls.
func dimensions(j *fab.Job, p draft.Projection) []dimension {
	w := sizing(j.Design)
	lo, hi := j.Size.Min, j.Size.Max
	at := func(v r3.Vec) [2]float64 { return flat(p, v) }
	level := func(mm float64, from, to r3.Vec) dimension {
		return dimension{From: at(from), To: at(to), Text: w.Long(mm), Level: true}
	}
	switch p {
	case draft.Front:
		list := []dimension{
			level(j.Size.Width, r3.Vec{X: lo.X}, r3.Vec{X: hi.X}),
			{From: at(r3.Vec{X: lo.X}), To: at(r3.Vec{X: lo.X, Z: hi.Z}), Text: w.Long(hi.Z)},
		}
		const most = 6
		for i := range j.Parts {
			if b := j.Parts[i].Ball; b != nil && len(list) < most+2 {
				middle := b.Mouth()
				list = append(list, dimension{From: at(r3.Vec{X: lo.X}), To: at(middle), Text: w.Long(middle.Z)})
			}
		}
		// The lowest stands nearest, so that no line crosses another's.
		slices.SortStableFunc(list[1:], func(a, b dimension) int { return cmp.Compare(b.To[1], a.To[1]) })
		return list
	case draft.Side:
		return []dimension{level(j.Size.Depth, r3.Vec{Y: lo.Y}, r3.Vec{Y: hi.Y})}
	}
	return []dimension{}
}
