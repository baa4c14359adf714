package pack

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// floorDrop is how far the floor is drawn under a piece on a wall at most, in mm: where it is
// farther a break line says so.
const floorDrop = 13.0

// drop returns the room under a piece on a wall for the floor, in mm on paper; 0 where the
// piece stands on the ground.
func (k *pack) drop() float64 {
	if k.job.Design.Wall() != nil {
		return floorDrop
	}
	return 0
}

// ground returns the height on paper of the ground, or of the floor under a piece on a wall,
// and whether it is drawn nearer than it is.
func (g *general) ground(proj draft.Projection) (y float64, nearer bool) {
	y = g.lay.views[proj].At(r3.Vec{}).Y
	if g.job.Design.Wall() == nil {
		return y, false
	}
	if least := g.lay.boxes[proj].Min.Y - floorDrop; y < least {
		return least, true
	}
	return y, false
}

// under returns the height on paper below which an elevation has nothing of the piece, nor of
// what lies in the ground.
func (g *general) under(proj draft.Projection) float64 {
	if g.job.Design.Wall() != nil {
		y, _ := g.ground(proj)
		return y
	}
	return g.lay.views[proj].At(r3.Vec{Z: -g.job.Size.Below}).Y
}

// grounds draws what the piece stands on or hangs on in a view.
func (g *general) grounds(proj draft.Projection) {
	v, box := g.lay.views[proj], g.lay.boxes[proj]
	wall := g.job.Design.Wall() != nil
	if proj == draft.Plan {
		if wall {
			y := v.At(r3.Vec{}).Y
			g.draw.Wall(r2.Vec{X: box.Min.X - groundReach, Y: y}, r2.Vec{X: box.Max.X + groundReach, Y: y}, r2.Vec{Y: 1})
		}
		return
	}
	y, nearer := g.ground(proj)
	from, to := box.Min.X-groundReach, box.Max.X+groundReach
	if wall && v.Projection != draft.Front {
		x, into := v.At(r3.Vec{}).X, r2.Vec{X: 1}
		if from = min(from, x-groundReach); v.Projection == draft.FromLeft {
			into, to = r2.Vec{X: -1}, max(to, x+groundReach)
			from = x
		} else {
			to = x
		}
		g.draw.Wall(r2.Vec{X: x, Y: y}, r2.Vec{X: x, Y: box.Max.Y + groundReach}, into)
	}
	g.draw.Ground(from, to, y)
	if nearer {
		at := (y + box.Min.Y) / 2
		g.draw.Break(r2.Vec{X: from, Y: at}, r2.Vec{X: to + 2, Y: at})
	}
	if wall {
		// Beyond the end of the line that no wall stands at.
		text := &ink.Text{At: r2.Vec{X: to + 1.5, Y: y - sheet.Small/3}, Height: sheet.Small, Text: "floor"}
		if v.Projection == draft.Side {
			text.At.X, text.Anchor = from-1.5, ink.End
		}
		g.draw.Put(text)
	}
}

// own returns a point of the piece as it is set out: from the middle of the plate on a wall to
// the right, up and out of the wall, or to the right and back over the middle of the base, and up.
func (k *pack) own(at r3.Vec) r3.Vec {
	if b := k.job.Design.Wall(); b != nil {
		return b.Own(at)
	}
	return at
}

// shown returns the levels that are dimensioned: of many parts the highest alone, and how high a
// plate hangs on its wall, which comes first.
func (k *pack) shown(levels []height) []height {
	if k.listed() <= crowded || len(levels) < 2 {
		return levels
	}
	top := levels[len(levels)-1:]
	if k.job.Design.Wall() != nil {
		return append(levels[:1:1], top...)
	}
	return top
}

// plateHeight is the level of the middle of a plate on a wall, to be dimensioned.
func plateHeight(b *design.Base) r3.Vec { return b.Face(-b.Width/2, 0) }
