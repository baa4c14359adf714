package pack

import (
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
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

	hidden   []int // numbers of parts that have no balloon
	leaning  int   // posts that lean
	revolved int   // of these, posts with their section on them
	removed  []removed
	spare    *draft.Spare
	lost     bool // there is no room for the sections that are removed
}

// generalArrangement makes the first sheet: three views, with dimensions, notes
// and the table for setting out.
func (k *pack) generalArrangement() {
	heights := k.shown(k.heights())
	levels := len(heights)
	if k.listed() > crowded {
		levels = max(levels, 1)
	}
	block := sheet.Block{
		Subtitle: "General arrangement", Document: "Assembly drawing", Material: "See parts list",
		Tolerances: k.generalTolerance(), Caution: arrangementCaution, DoNotScale: true, Projection: true, FirstAngle: k.firstAngle(),
		Revisions: k.job.Design.Revisions,
	}
	g := &general{pack: k, scene: draft.NewScene(k.job.Parts)}
	g.lay = k.arrange(levels, func(p sheet.Paper) r2.Box { return k.newPage(p, "arrangement", block).Free })
	block.Scale = g.lay.scale.Name
	g.page = k.page(g.lay.paper, "arrangement", block)
	g.draw = draft.New(k.style, g.lay.free)
	for p, v := range g.lay.views {
		g.lines[p] = g.draw.Picture(g.scene, v, false)
		g.draw.InGround(g.scene, v)
		g.draw.Axes(g.scene, v)
		g.grounds(draft.Projection(p))
	}
	for _, v := range g.lay.views {
		g.draw.Gravity(v.At(k.job.CG), 2)
	}
	g.dimension(heights)
	g.sections()
	g.leans()
	for p, v := range g.lay.views {
		g.title(v, g.lay.boxes[p])
	}
	tables := g.settingOut()
	g.callouts()
	if len(tables)+len(g.removed) > 0 {
		g.spare = g.draw.Spare(g.lay.boxes[:]...)
	}
	var rest *sheet.Table
	if len(tables) > 0 && !slices.ContainsFunc(tables, g.tableElsewhere) {
		rest = tables[0]
	}
	g.removedSections()
	g.page.Add(g.draw.Items...)
	g.summary()
	if rest != nil {
		k.tablePage("setting-out", "Setting out", rest)
	}
}

// groundReach is how far the ground line passes the piece, in mm on paper.
const groundReach = 6

// generalTolerance says how near the assembly is to be, by the size: what a hand-driven
// shop holds (common practice, no source). Leans have no tolerance of their own: an angle
// of 1° is little on a short post and much on a long one.
func (k *pack) generalTolerance() string {
	if k.units == quantity.Inch {
		return "Up to 4 ±1/32; to 12 ±1/16; to 40 ±1/8; over ±3/16. Leans by the setting-out points."
	}
	return "Up to 100 ±1; to 300 ±1.5; to 1000 ±3; over ±5. Leans by the setting-out points."
}

// firstAngle reports whether views stand in first-angle projection, as is the custom
// where work is in millimetres; work in inches has third angle (ASME Y14.3). The paper
// changes nothing of it.
func (k *pack) firstAngle() bool { return k.units != quantity.Inch }

// elevation returns the place in an arrangement of a view that is not the plan.
func elevation(v draft.View) draft.Projection {
	if v.Projection == draft.FromLeft {
		return draft.Side
	}
	return v.Projection
}

// title writes a view's name under an elevation, and on the side of the plan
// that is away from the elevation.
func (g *general) title(v draft.View, box r2.Box) {
	y := -stackRoom - levelRoom - titleRoom
	if v.Projection != draft.Plan {
		y += g.under(elevation(v))
	}
	switch {
	case v.Projection == draft.Plan && g.firstAngle():
		y = box.Min.Y - 6 - sheet.Medium
	case v.Projection == draft.Plan:
		y = box.Max.Y + 6
	}
	g.draw.Put(&ink.Text{
		At: r2.Vec{X: (box.Min.X + box.Max.X) / 2, Y: y}, Height: sheet.Medium,
		Anchor: ink.Middle, Face: ink.Bold, Text: v.Projection.String(),
	})
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
	if g.job.Design.Wall() != nil {
		texts[len(texts)-1] = "Balloons: see the parts list. Right and up are from " + g.datum() + ", out is from the face of the wall. Bearings: 0° right, 90° into the wall, 270° out of it."
	}
	if g.listed() <= crowded && g.plumb() {
		texts = slices.Insert(texts, 1, "All feet and centres stand over "+g.datum()+".")
	}
	if b := g.job.Design.Base(); b != nil && b.Base.Block.Given() {
		texts[len(texts)-1] = "Under the plate: " + g.say().Block(b.Base.Block) + ", about " + g.units.Weight(m.Block) + ", by others. " + texts[len(texts)-1]
	}
	if len(g.hidden) > 0 {
		texts = slices.Insert(texts, 1, "No balloon in these views: "+words.Runs(g.hidden)+".")
	}
	if text := g.sectionWords(); text != "" {
		texts = append(texts, text)
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
	if k.job.Design.Wall() != nil {
		text, cg.Y = "Centre of gravity: "+k.length(cg.Z)+" above the floor, "+k.length(-cg.Y)+" out from the wall, ", 0
	}
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
	if b := k.job.Design.Base(); b != nil {
		if b.Base.OnWall() {
			return "the middle of the plate"
		}
		return "the middle of the base"
	}
	return "the crossed lines in the plan"
}
