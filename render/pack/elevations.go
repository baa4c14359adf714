package pack

import (
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// Room about the two elevations that stand alone, in mm.
const (
	aloneGap   = 24.0 // between them
	aloneBelow = 14.0 // under the ground, for the widths
	aloneRim   = 6.5  // at the edges of the picture
)

// Elevations returns the front and the side elevation by themselves, without
// paper, frame or words, with the overall sizes and the heights of centres: for a
// page of the web. The picture is as large as it can be within a width
// and a height in mm, to no scale of a series.
func Elevations(j *fab.Job, width, height float64) *ink.Sheet {
	k := newPack(j, Options{})
	heights := k.shown(k.heights())
	levels := len(heights)
	s := j.Size
	left, below := aloneRim+leftRoom+levelRoom*float64(levels), aloneRim+aloneBelow+k.drop()
	if b := j.Design.Base(); b != nil && (k.rule(s.Width) != k.rule(b.Base.Width) || k.rule(s.Depth) != k.rule(b.Base.Depth)) {
		below += k.style.Step // the base's own width has a line too
	}
	right := aloneRim + groundReach
	f := min((width-left-aloneGap-right)/max(s.Width+s.Depth, 1), (height-below-aloneRim)/max(s.Height, 1))
	p := &ink.Sheet{Name: "elevations", Title: j.Design.Title, Width: left + aloneGap + right + (s.Width+s.Depth)*f, Height: below + aloneRim + s.Height*f}
	if f <= 0 {
		return p
	}

	x := left + s.Width*f + aloneGap
	side := draft.View{Projection: draft.Side, Scale: f, Origin: r2.Vec{X: x - s.Min.Y*f, Y: below - s.Min.Z*f}}
	if k.firstAngle() {
		side = draft.View{Projection: draft.FromLeft, Scale: f, Origin: r2.Vec{X: x + s.Max.Y*f, Y: below - s.Min.Z*f}}
	}
	g := &general{pack: k, scene: draft.NewScene(j.Parts), draw: draft.New(k.style, sheet.Box(0, 0, p.Width, p.Height))}
	g.lay.views = [3]draft.View{
		draft.Front: {Projection: draft.Front, Scale: f, Origin: r2.Vec{X: left - s.Min.X*f, Y: below - s.Min.Z*f}},
		draft.Side:  side,
	}
	for _, e := range [2]draft.Projection{draft.Front, draft.Side} {
		v := g.lay.views[e]
		g.lay.boxes[e] = v.Box(s.Min, s.Max)
		g.lines[e] = g.draw.Picture(g.scene, v, false)
		g.draw.Axes(g.scene, v)
		g.grounds(e)
		g.draw.Gravity(v.At(j.CG), 2)
	}
	g.dimension(heights)
	g.leans()
	p.Add(g.draw.Items...)
	return p
}
