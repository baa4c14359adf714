package pack

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

const arrangementCaution = "Aid to judgement. A licensed engineer and the local code decide for anything the public can reach."

// A general is the general arrangement in the making.
type general struct {
	*pack
	lay   arrangement
	page  *sheet.Page
	draw  *draft.Drawing
	scene *draft.Scene
	lines [3][]draft.Line

	hidden []int // numbers of parts that have no balloon
}

// generalArrangement makes the first sheet: three views in third angle, with
// dimensions, notes and the table for setting out.
func (k *pack) generalArrangement() {
	heights := k.heights()
	levels := len(heights)
	if len(k.job.Parts) > crowded {
		levels = 1
	}
	block := sheet.Block{
		Subtitle: "General arrangement", Document: "Assembly drawing", Material: "See parts list",
		Tolerances: k.generalTolerance(), Caution: arrangementCaution, DoNotScale: true, Projection: true,
	}
	g := &general{pack: k, scene: draft.NewScene(k.job.Parts)}
	g.lay = k.arrange(levels, func(p sheet.Paper) r2.Box { return k.newPage(p, "arrangement", block).Free })
	block.Scale = g.lay.scale.Name
	g.page = k.page(g.lay.paper, "arrangement", block)
	g.draw = draft.New(k.style, g.lay.free)
	for p, v := range g.lay.views {
		g.lines[p] = g.draw.Picture(g.scene, v, false)
		g.draw.Axes(g.scene, v)
		if v.Projection != draft.Plan {
			g.draw.Ground(g.lay.boxes[p].Min.X-groundReach, g.lay.boxes[p].Max.X+groundReach, v.At(r3.Vec{}).Y)
		}
	}
	for _, v := range g.lay.views {
		g.draw.Gravity(v.At(k.job.CG), 2)
	}
	g.dimension(heights)
	for p, v := range g.lay.views {
		g.title(v.Projection, g.lay.boxes[p])
	}
	rest := g.settingOut()
	g.callouts()
	g.page.Add(g.draw.Items...)
	g.summary()
	if rest != nil {
		k.tablePage("setting-out", "Setting out", rest)
	}
}

// groundReach is how far the ground line passes the piece, in mm on paper.
const groundReach = 6

// generalTolerance says how near the assembly is to be: what a hand-driven shop
// holds over a metre or two (common practice, no source).
func (k *pack) generalTolerance() string {
	if k.units == quantity.Inch {
		return "Sizes of assembly ±1/8, angles ±1°, unless stated."
	}
	return "Sizes of assembly ±3, angles ±1°, unless stated."
}

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
	top := height{part: -1}
	for i := range k.job.Parts {
		p := &k.job.Parts[i]
		switch {
		case p.Ball != nil:
			add(p.Ball.Center, i)
			if z := p.Ball.Center.Z + p.Ball.Radius; z > top.at.Z {
				top.at, top.part = r3.Add(p.Ball.Center, r3.Vec{Z: p.Ball.Radius}), i
			}
		case p.Post != nil:
			for _, q := range p.Rims[1] {
				if q.Z > top.at.Z+1e-6 {
					top.at, top.part = q, i
				}
			}
			if p.Post.HeadEnd.Meets == design.Free {
				if top.part == i {
					continue
				}
				add(p.Post.Head, i)
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
	ground := front.At(r3.Vec{}).Y
	if len(g.job.Parts) > crowded && len(heights) > 0 {
		heights = heights[len(heights)-1:]
	}
	var dims []draft.Dim
	for _, h := range heights {
		at := front.At(h.at)
		if b := g.job.Parts[h.part].Ball; b != nil && h.at == b.Center {
			at.X -= b.Radius*front.Scale + 2
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
	g.leans()
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
	below := v.At(r3.Vec{}).Y - groundDepth
	at := func(x float64) r2.Vec { return r2.Vec{X: v.At(along(x)).X, Y: below} }
	// An extension line starts at the part that reaches out farthest.
	from := func(edge, side float64) r2.Vec {
		for i := range g.job.Parts {
			if b := g.job.Parts[i].Ball; b != nil {
				if q := r3.Add(b.Center, r3.Scale(side*b.Radius, along(1))); math.Abs(r3.Dot(q, along(1))-edge) < 0.5 {
					return v.At(q)
				}
			}
			for _, rim := range g.job.Parts[i].Rims {
				for _, q := range rim {
					if math.Abs(r3.Dot(q, along(1))-edge) < 0.5 {
						return v.At(q)
					}
				}
			}
		}
		return at(edge)
	}
	dims := []draft.Dim{{
		From: from(lo, -1), To: from(hi, 1), Text: g.rule(hi - lo),
		Hide: func(q r2.Vec) bool { return g.scene.Covered(v, q) },
	}}
	if base := g.job.Design.Base(); base != nil && base.Base.Shape != design.Feet {
		w := base.Base.Width
		if proj == draft.Side {
			w = base.Base.Depth
		}
		if g.rule(w) != g.rule(hi-lo) {
			dims = append(dims, draft.Dim{From: at(-w / 2), To: at(w / 2), Text: g.rule(w)})
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
	if len(g.job.Parts) > crowded {
		return
	}
	for i := range g.job.Parts {
		p := g.job.Parts[i].Post
		if p == nil || p.Lean == 0 {
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
			a, b := v.At(p.Foot), v.At(p.Head)
			if g.draw.Lean(a, math.Atan2(b.Y-a.Y, b.X-a.X), run, degrees(p.Lean)) {
				break
			}
		}
	}
}

// title writes a view's name under an elevation and over a plan.
func (g *general) title(proj draft.Projection, box r2.Box) {
	y := g.lay.views[proj].At(r3.Vec{}).Y - stackRoom - levelRoom - titleRoom
	if proj == draft.Plan {
		y = box.Max.Y + 6
	}
	g.draw.Put(&ink.Text{
		At: r2.Vec{X: (box.Min.X + box.Max.X) / 2, Y: y}, Height: sheet.Medium,
		Anchor: ink.Middle, Face: ink.Bold, Text: proj.String(),
	})
}

// settingOut draws the table of places in the corner over the side elevation,
// and returns what found no room there.
func (g *general) settingOut() *sheet.Table {
	t := g.settingTable()
	side := g.lay.boxes[draft.Side]
	plan := g.lay.boxes[draft.Plan]
	corner := sheet.Box(max(plan.Max.X+betweenGap, side.Min.X-10), side.Max.Y+14, g.lay.free.Max.X, g.lay.free.Max.Y)
	if corner.Max.X-corner.Min.X < 60 || corner.Max.Y-corner.Min.Y < 20 {
		return t
	}
	trial := &ink.Sheet{}
	used, rest := t.Draw(trial, corner)
	if rest != nil {
		return t
	}
	g.draw.Reserve(used)
	g.page.Add(trial.Items...)
	return nil
}

// settingTable returns the table for setting out: where each centre is from
// the middle of the base, and how high when the views do not say.
func (k *pack) settingTable() *sheet.Table {
	unit := "mm"
	if k.units == quantity.Inch {
		unit = "in"
	}
	many := len(k.job.Parts) > crowded
	t := &sheet.Table{
		Title: "Setting out, " + unit,
		Columns: []sheet.Column{
			{Header: "No.", Align: ink.End}, {Header: "Part"}, {Header: "Point"},
		},
	}
	if many {
		t.Columns = append(t.Columns, sheet.Column{Header: "Size"}, sheet.Column{Header: "Height", Align: ink.End})
	}
	t.Columns = append(t.Columns, sheet.Column{Header: "Right", Align: ink.End}, sheet.Column{Header: "Back", Align: ink.End})
	for i := range k.job.Parts {
		p := &k.job.Parts[i]
		if p.Base != nil {
			continue
		}
		at, point := r3.Vec{}, "centre"
		if p.Post != nil {
			at, point = p.Post.Foot, "foot"
		} else {
			at = p.Ball.Center
		}
		row := []string{fmt.Sprint(i + 1), short(p.Name), point}
		if many {
			size := k.size(p)
			text := size[0]
			if len(size) > 1 && p.Post != nil && p.Post.Lean > 0 {
				text += ", " + size[1]
			}
			row = append(row, text, k.rule(at.Z))
		}
		t.Rows = append(t.Rows, append(row, k.rule(at.X), k.rule(at.Y)))
	}
	return t
}

// summary writes what the whole comes to beside the title block.
func (g *general) summary() {
	box := g.page.Beside
	if box.Max.X-box.Min.X < 60 {
		return
	}
	mark := draft.New(g.style, box)
	mark.Gravity(r2.Vec{X: box.Min.X + 2, Y: box.Max.Y - 5.2}, 2)
	g.page.Add(mark.Items...)
	m := g.job.Mass
	texts := []string{
		g.gravity(),
		fmt.Sprintf("Weight about %s (%s to %s).", g.units.Weight(m.Total), g.units.Weight(m.Low), g.units.Weight(m.High)),
		"Balloons: see the parts list. Right and back are from " + g.datum() + ". Bearings: 0° right, 90° back.",
	}
	if len(g.hidden) > 0 {
		var list []string
		for _, n := range g.hidden {
			list = append(list, fmt.Sprint(n))
		}
		texts = slices.Insert(texts, 1, "Not to be seen in these views: "+strings.Join(list, ", ")+".")
	}
	box.Max.Y -= 4
	words := func(f *sheet.Flow) {
		for _, t := range texts {
			f.Item("", ink.Regular, t)
		}
	}
	for len(texts) > 1 && wordsHeight(box.Max.X-box.Min.X, words) > box.Max.Y-box.Min.Y {
		texts = texts[:len(texts)-1] // said on the parts list too
	}
	write(g.page.Sheet, box, words)
}

func (k *pack) length(mm float64) string { return k.units.Length(mm, quantity.Coarse) }

// gravity says where the centre of gravity is.
func (k *pack) gravity() string {
	cg := k.job.CG
	text := "Centre of gravity: " + k.length(cg.Z) + " above the ground, "
	var off []string
	for _, d := range []struct {
		by          float64
		plus, minus string
	}{{cg.X, "to the right", "to the left"}, {cg.Y, "to the back", "to the front"}} {
		switch {
		case k.rule(d.by) == "0":
		case d.by < 0:
			off = append(off, k.length(-d.by)+" "+d.minus)
		default:
			off = append(off, k.length(d.by)+" "+d.plus)
		}
	}
	if len(off) == 0 {
		return text + "over " + k.datum() + "."
	}
	return text + strings.Join(off, " and ") + " of " + k.datum() + "."
}

// datum names the point in plan from which things are set out.
func (k *pack) datum() string {
	if b := k.job.Design.Base(); b != nil && b.Base.Shape != design.Feet {
		return "the middle of the base"
	}
	return "the crossed lines in the plan"
}

// tablePage adds a page with a table alone.
func (k *pack) tablePage(slug, subtitle string, t *sheet.Table) {
	for t != nil {
		p := k.page(k.bench(), slug, sheet.Block{Subtitle: subtitle, Document: "Table", DoNotScale: true})
		var rest *sheet.Table
		if _, rest = t.Draw(p.Sheet, p.Free); rest == t {
			return
		}
		t = rest
	}
}
