package pack

import (
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/render/draft"
	"stabile/render/sheet"
)

// Room kept about the views of the arrangement, in mm.
const (
	levelRoom  = 8.0  // each level of a stack of dimensions
	leftRoom   = 9.0  // before the first level at the left, and beyond the last
	stackRoom  = 16.0 // before the first level below, and beyond the last
	titleRoom  = 6.5  // the title of a view, its own height included
	betweenGap = 32.0 // between the elevations, for notes and their leaders
	besideGap  = 16.0 // right of the side elevation
	mostSpare  = 40.0 // that is added between two views of what is left over
	planGap    = 22.0 // between an elevation and the plan over it
	planTitle  = 11.0 // the title over the plan
)

// An arrangement is the place of the three views on a paper.
type arrangement struct {
	paper sheet.Paper
	scale sheet.Scale
	views [3]draft.View // front, side and plan; the side's is the left one in first angle
	boxes [3]r2.Box     // of what each shows
	free  r2.Box        // all that may be drawn on
	fill  float64       // share of the free area that the views take
}

// readable returns the greatest extent on paper, in mm, under which a larger
// paper is tried: what there is to tell needs room that grows with the parts.
func readable(parts int) float64 { return min(45+8*float64(parts), 150) }

// arrange chooses paper and scale: the smallest paper on which the piece is
// large enough to read, lying or upright as gives the larger scale.
func (k *pack) arrange(levels int, free func(sheet.Paper) r2.Box) arrangement {
	least := readable(len(k.job.Parts))
	papers := []sheet.Paper{k.paper("A3", "ANSI B"), k.paper("A2", "ANSI C"), k.paper("A1", "ANSI D")}
	if k.options.Arrangement.Width > 0 {
		papers = []sheet.Paper{k.options.Arrangement}
	}
	var best arrangement
	for i, p := range papers {
		a := k.views(p.Landscape(), free(p.Landscape()), levels)
		if b := k.views(p.Portrait(), free(p.Portrait()), levels); b.scale.Factor > a.scale.Factor {
			a = b
		}
		if best.scale.Factor == 0 || a.scale.Factor > best.scale.Factor {
			best = a
		}
		// The largest paper is for what cannot be distinguished on the others.
		if i == 1 {
			least *= 0.6
		}
		if s := k.drawn(); max(s.Height, s.Width, s.Depth)*best.scale.Factor >= least {
			break
		}
	}
	return best
}

// views puts the views on a paper. In third angle the plan stands over the front
// elevation and the right side elevation to its right; in first angle the plan
// stands under it and the left side elevation to its right.
func (k *pack) views(p sheet.Paper, free r2.Box, levels int) arrangement {
	s := k.drawn()
	width, height := free.Max.X-free.Min.X, free.Max.Y-free.Min.Y
	left := leftRoom + levelRoom*float64(levels)
	below := stackRoom + levelRoom + titleRoom + k.drop()
	roomX := width - left - betweenGap - besideGap
	roomY := height - below - planGap - planTitle
	scale := sheet.ChooseScale(s.Width+s.Depth, s.Height+s.Depth, max(roomX, 1), max(roomY, 1), k.units)
	f := scale.Factor
	// What is left over goes between and around.
	spareX := max(roomX-(s.Width+s.Depth)*f, 0)
	spareY := max(roomY-(s.Height+s.Depth)*f, 0)
	a := arrangement{paper: p, scale: scale, free: free}
	moreX, moreY := min(spareX*0.5, mostSpare), min(spareY*0.5, mostSpare)
	x0 := free.Min.X + left + (spareX-moreX)*0.4
	x1 := x0 + s.Width*f + betweenGap + moreX
	y0 := free.Min.Y + below + (spareY-moreY)*0.4
	y1 := y0 + s.Height*f + planGap + moreY
	side := draft.View{Projection: draft.Side, Scale: f, Origin: r2.Vec{X: x1 - s.Min.Y*f, Y: y0 - s.Min.Z*f}}
	if k.firstAngle() {
		y1 = free.Min.Y + planTitle + (spareY-moreY)*0.4
		y0 = y1 + s.Depth*f + moreY + planGap + below
		side = draft.View{Projection: draft.FromLeft, Scale: f, Origin: r2.Vec{X: x1 + s.Max.Y*f, Y: y0 - s.Min.Z*f}}
	}
	a.views = [3]draft.View{
		draft.Front: {Projection: draft.Front, Scale: f, Origin: r2.Vec{X: x0 - s.Min.X*f, Y: y0 - s.Min.Z*f}},
		draft.Side:  side,
		draft.Plan:  {Projection: draft.Plan, Scale: f, Origin: r2.Vec{X: x0 - s.Min.X*f, Y: y1 - s.Min.Y*f}},
	}
	for i, v := range a.views {
		a.boxes[i] = v.Box(s.Min, s.Max)
	}
	a.fill = (s.Width*(s.Height+s.Depth) + s.Depth*s.Height) * f * f / (width * height)
	return a
}

// drawn returns the size of what is drawn: the whole, with what of it lies in the ground.
func (k *pack) drawn() fab.Size {
	s := k.job.Size
	s.Min.Z -= s.Below
	for i := range k.job.Parts {
		o, half := r2.Vec{}, r2.Vec{}
		switch p := &k.job.Parts[i]; {
		case p.Base != nil && p.Base.Footing.Given():
			half = r2.Vec{X: p.Base.Footing.Width / 2, Y: p.Base.Footing.Depth / 2}
		case p.Post != nil && p.Post.Sunk > 0:
			o, half = p.Post.PierAt(), r2.Vec{X: p.Post.Pier / 2, Y: p.Post.Pier / 2}
		default:
			continue
		}
		s.Min.X, s.Max.X = min(s.Min.X, o.X-half.X), max(s.Max.X, o.X+half.X)
		s.Min.Y, s.Max.Y = min(s.Min.Y, o.Y-half.Y), max(s.Max.Y, o.Y+half.Y)
	}
	s.Width, s.Depth, s.Height = s.Max.X-s.Min.X, s.Max.Y-s.Min.Y, s.Max.Z-s.Min.Z
	return s
}
