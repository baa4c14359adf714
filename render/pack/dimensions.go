package pack

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
	"stabile/render/draft"
	"stabile/render/ink"
)

// A height is a level that is dimensioned from the ground.
type height struct {
	at   r3.Vec
	part int
	text string
}

// heights returns the levels to dimension, each once: centres of balls, free
// heads of posts, and the top of the whole.
func (k *pack) heights() []height {
	var hs []height
	add := func(at r3.Vec, part int) {
		text := k.rule(at.Z)
		for _, h := range hs {
			if h.text == text {
				return
			}
		}
		hs = append(hs, height{at, part, text})
	}
	if b := k.job.Design.Base(); b != nil && b.Base.OnWall() {
		add(plateHeight(b.Base), slices.IndexFunc(k.job.Parts, func(p fab.Part) bool { return p.Part == b }))
	} else if b != nil && b.Base.Block.Given() {
		of := b.Base.Block
		add(r3.Vec{X: -of.Width / 2, Y: -of.Depth / 2, Z: of.Height}, slices.IndexFunc(k.job.Parts, func(p fab.Part) bool { return p.Part == b }))
	}
	top := height{part: -1}
	for i := range k.job.Parts {
		p := &k.job.Parts[i]
		switch {
		case p.Ball != nil && p.Ball.Bowl:
			add(p.Ball.Mouth(), i)
			if z := p.Top(); z > top.at.Z {
				top.at, top.part = r3.Vec{X: p.Ball.Mouth().X, Y: p.Ball.Mouth().Y, Z: z}, i
			}
		case p.Ball != nil:
			add(p.Ball.Center, i)
			if z := p.Ball.Center.Z + p.Ball.Reach(design.Upright); z > top.at.Z {
				top.at, top.part = r3.Add(p.Ball.Center, p.Ball.Far(design.Upright)), i
			}
		case p.Post != nil:
			if r, first := ringOf(p); first {
				add(r.Center, i)
			}
			for _, q := range p.Body.Rims[1] {
				if q.Z > top.at.Z+1e-6 {
					top.at, top.part = q, i
				}
			}
			if p.Post.Ends[design.Head].Meets == design.Free {
				if top.part == i {
					continue
				}
				if at := p.Post.Ends[design.Head].At; p.Post.IsPointed() && at.Z > top.at.Z+1e-6 {
					top.at, top.part = at, i
					continue
				}
				add(p.Post.Ends[design.Head].At, i)
			}
		}
	}
	if top.part >= 0 {
		top.at.Z = k.job.Size.Max.Z
		add(top.at, top.part)
	}
	return hs
}

// dimension draws the stacks of dimensions beside the elevations: heights at
// the left, widths and depths below.
func (g *general) dimension(heights []height) {
	front, box := g.lay.views[draft.Front], g.lay.boxes[draft.Front]
	ground, _ := g.ground(draft.Front)
	var dims []draft.Dim
	for _, h := range heights {
		at := front.At(h.at)
		if b := g.job.Parts[h.part].Ball; b != nil && h.at == b.Center {
			at.X -= b.Outline(r3.Vec{X: 1}, r3.Vec{Y: 1})*front.Scale + 2
		}
		dims = append(dims, draft.Dim{
			From: r2.Vec{X: box.Min.X - groundReach, Y: ground}, To: at, Text: h.text, Bare: [2]bool{true, false},
			Hide: func(q r2.Vec) bool { return g.scene.Covered(front, q, h.part) },
		})
	}
	if len(dims) > 0 {
		end := g.draw.Stack(draft.Left, box.Min.X, dims)
		g.draw.Line(ink.Thin, r2.Vec{X: box.Min.X - groundReach - 1, Y: ground}, r2.Vec{X: end + g.style.Text, Y: ground})
	}
	g.widths(draft.Front, g.job.Size.Min.X, g.job.Size.Max.X)
	g.widths(draft.Side, g.job.Size.Min.Y, g.job.Size.Max.Y)
}

// widths draws the overall width of a view below it, and the base's where it
// is another.
func (g *general) widths(proj draft.Projection, lo, hi float64) {
	v := g.lay.views[proj]
	along := func(x float64) r3.Vec {
		if proj == draft.Side {
			return r3.Vec{Y: x}
		}
		return r3.Vec{X: x}
	}
	below := g.under(proj) - groundDepth
	at := func(x float64) r2.Vec { return r2.Vec{X: v.At(along(x)).X, Y: below} }
	// An extension line starts at the outline that reaches out farthest, at the
	// lowest of its points.
	from := func(edge float64) r2.Vec {
		const near = 0.15 // mm on paper: a chord of an outline, a hair
		x, found := v.At(along(edge)).X, at(edge)
		for i := range g.lines[proj] {
			l := &g.lines[proj][i]
			if l.Hidden || l.Kind != ink.Outline {
				continue
			}
			for _, q := range l.Path {
				if math.Abs(q.X-x) < near && (found.Y == below || q.Y < found.Y) {
					found = r2.Vec{X: x, Y: q.Y}
				}
			}
		}
		return found
	}
	dims := []draft.Dim{{
		From: from(lo), To: from(hi), Text: g.rule(hi - lo),
		Hide: func(q r2.Vec) bool { return g.scene.Covered(v, q) },
	}}
	if base := g.job.Design.Base(); base != nil {
		box := base.Base.Outline().Box()
		from, to := box.Min.X, box.Max.X
		switch {
		case proj == draft.Side && base.Base.OnWall():
			from, to = -base.Base.Top, 0
		case proj == draft.Side:
			from, to = box.Min.Y, box.Max.Y
		}
		w := to - from
		if g.rule(w) != g.rule(hi-lo) {
			dims = append(dims, draft.Dim{From: at(from), To: at(to), Text: g.rule(w)})
		} else {
			dims[0].From, dims[0].To = at(lo), at(hi)
		}
	}
	g.draw.Stack(draft.Below, below, dims)
}

// groundDepth is the depth of the hatching under the ground line, in mm.
const groundDepth = 2.5

// leans draws the angle of each post that leans in the plane of an elevation,
// where it is seen true and there is room for it.
func (g *general) leans() {
	if g.listed() > crowded {
		return
	}
	for i := range g.job.Parts {
		p := g.job.Parts[i].Post
		if p == nil || p.Lean == 0 || p.Ring != nil || g.job.Parts[i].StraightOut() {
			continue
		}
		for _, proj := range [2]draft.Projection{draft.Front, draft.Side} {
			v := g.lay.views[proj]
			across := p.Direction.Y
			if proj == draft.Side {
				across = p.Direction.X
			}
			run := p.Length * v.Scale
			if math.Abs(across) > 1e-3 || run < 25 || !g.scene.Seen(v, i) {
				continue
			}
			a, b := v.At(p.Ends[design.Foot].At), v.At(p.Ends[design.Head].At)
			if g.draw.Lean(a, math.Atan2(b.Y-a.Y, b.X-a.X), run, degrees(p.Lean)) {
				break
			}
		}
	}
}
