package pack

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// disc draws the diameter of a round flat.
func (f *flatDrawing) disc() {
	d := f.blank.Diameter
	if d == 0 {
		f.overall()
		return
	}
	c := f.at(r2.Vec{})
	f.draw.CentreMark(c, d/2*f.scale)
	f.draw.Diameter(c, d/2*f.scale, f.freeAngle(), "Ø"+f.dim(d))
}

// freeAngle returns the angle, between level and upright, at which a line
// across the centre keeps farthest from the holes.
func (f *flatDrawing) freeAngle() float64 {
	best, room := math.Pi/4, -1.0
	for _, deg := range [...]float64{45, 40, 50, 35, 55, 30, 60, 25, 65} {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		least := math.Inf(1)
		for _, h := range f.blank.Holes {
			least = min(least, math.Abs(h.Center.X*sin-h.Center.Y*cos)-h.Diameter/2)
		}
		if least > room {
			best, room = deg*math.Pi/180, least
		}
	}
	return best
}

// roundPlate draws the circle on which the holes of a round plate stand, when
// they do, and numbers the holes for their table.
func (f *flatDrawing) roundPlate() {
	f.disc()
	holes := f.blank.Holes
	if len(holes) == 0 {
		return
	}
	radius := r2.Norm(holes[0].Center)
	onCircle := radius > 0 && holes[0].Diameter > 0
	for _, h := range holes {
		onCircle = onCircle && math.Abs(r2.Norm(h.Center)-radius) < 0.01 && math.Abs(h.Diameter-holes[0].Diameter) < 0.01
	}
	if onCircle {
		f.draw.Put(ink.Circle(ink.Centre, f.at(r2.Vec{}), radius*f.scale))
	}
	if len(holes) > 1 { // else there is no other to tell it from
		for i := range holes {
			f.number(&holes[i], i+1)
		}
	}
	if !onCircle {
		return
	}
	text := fmt.Sprintf("%d × Ø%s on Ø%s", len(holes), f.dim(holes[0].Diameter), f.dim(2*radius))
	top := slices.MaxFunc(holes, func(a, b flat.Hole) int { return cmp.Compare(2*a.Center.Y-a.Center.X, 2*b.Center.Y-b.Center.X) })
	c := f.at(top.Center)
	f.draw.Leader(c, top.Diameter/2*f.scale, r2.Vec{X: c.X - 3, Y: f.box.Max.Y + 4}, text)
}

// number writes the number of a hole of a round plate beside it: toward the middle, else
// at the first place about it that is clear of lines and writing, within the plate, and
// not so near the place of a foot that it would be read as the foot's.
func (f *flatDrawing) number(h *flat.Hole, n int) {
	inward := math.Atan2(-h.Center.Y, -h.Center.X)
	middle, within := f.at(r2.Vec{}), f.blank.Diameter/2*f.scale-3
	mistaken := func(at r2.Vec) bool {
		own := r2.Norm(r2.Sub(at, f.at(h.Center)))
		return slices.ContainsFunc(f.blank.Feet, func(foot flat.Foot) bool { return r2.Norm(r2.Sub(at, f.at(foot.At))) < own+1 })
	}
	text := func(off, angle float64) *ink.Text {
		off += h.Diameter / 2 * f.scale
		at := r2.Add(f.at(h.Center), r2.Vec{X: off * math.Cos(angle), Y: off*math.Sin(angle) - sheet.Small/2})
		return &ink.Text{At: at, Height: sheet.Small, Anchor: ink.Middle, Text: fmt.Sprint(n)}
	}
	for _, off := range [...]float64{5.5, 7.5, 9.5} {
		for k := range 16 {
			side := float64((k+1)/2) * math.Pi / 8
			if k%2 > 0 {
				side = -side
			}
			t := text(off, inward+side)
			at := r2.Add(t.At, r2.Vec{Y: sheet.Small / 2})
			if f.draw.Free(t) && r2.Norm(r2.Sub(at, middle)) < within && !mistaken(at) {
				f.draw.Put(t)
				return
			}
		}
	}
	f.draw.Put(text(5.5, inward))
}

// leaderRoom is the room that what is said of a plate's holes needs, in mm.
const leaderRoom = 40.0

// plate draws a plate's size and the places of its holes from its left and
// lower edges.
func (f *flatDrawing) plate() {
	c := f.blank
	if c.Diameter > 0 {
		f.roundPlate()
		return
	}
	b := f.box
	count := map[string]int{}
	anchors := slices.DeleteFunc(slices.Clone(c.Holes), func(h flat.Hole) bool { return h.Name != "" })
	for _, h := range anchors {
		count[f.fine(h.Diameter)]++
	}
	across, up := f.plateDims(c, b, f.scale)
	f.draw.Stack(draft.Below, b.Min.Y, across)
	f.draw.Stack(draft.Left, b.Min.X, up)
	if len(anchors) > 0 && anchors[0].Diameter > 0 {
		h := anchors[len(anchors)-1]
		for _, o := range anchors {
			if o.Center.X+o.Center.Y > h.Center.X+h.Center.Y {
				h = o
			}
		}
		text := "Ø" + f.dim(h.Diameter)
		if n := count[f.fine(h.Diameter)]; n > 1 {
			text = fmt.Sprintf("%d × %s", n, text)
		}
		knee := r2.Vec{X: f.at(h.Center).X - 6, Y: b.Max.Y + 4}
		if b.Max.X-b.Min.X < leaderRoom {
			knee.X = f.at(h.Center).X + 6 // no room for what it says over the plate
		}
		f.draw.Leader(f.at(h.Center), h.Diameter/2*f.scale, knee, text)
	}
}

// plateDims returns the dimensions of a plate that lies on a box of paper at a scale: its
// size, and the places of its holes or of its corners from its left and lower edges.
func (k *pack) plateDims(c *flat.Blank, b r2.Box, scale float64) (across, up []draft.Dim) {
	lo, hi := bounds(c.Outline)
	var xs, ys []float64
	if isSided(c) {
		for _, q := range c.Outline {
			xs, ys = append(xs, q.X-lo.X), append(ys, q.Y-lo.Y)
		}
		within := func(all []float64, size float64) []float64 {
			return slices.DeleteFunc(all, func(x float64) bool { return x < 0.01 || x > size-0.01 })
		}
		xs, ys = within(xs, hi.X-lo.X), within(ys, hi.Y-lo.Y)
	} else {
		for _, h := range c.Holes {
			xs, ys = append(xs, h.Center.X-lo.X), append(ys, h.Center.Y-lo.Y)
		}
	}
	across = append(across, draft.Dim{From: b.Min, To: r2.Vec{X: b.Max.X, Y: b.Min.Y}, Text: k.dim(hi.X - lo.X)})
	up = append(up, draft.Dim{From: b.Min, To: r2.Vec{X: b.Min.X, Y: b.Max.Y}, Text: k.dim(hi.Y - lo.Y)})
	for _, x := range distinct(xs) {
		across = append(across, draft.Dim{From: b.Min, To: r2.Vec{X: b.Min.X + x*scale, Y: b.Min.Y}, Text: k.fine(x), Bare: [2]bool{true, false}})
	}
	for _, y := range distinct(ys) {
		up = append(up, draft.Dim{From: b.Min, To: r2.Vec{X: b.Min.X, Y: b.Min.Y + y*scale}, Text: k.fine(y), Bare: [2]bool{true, false}})
	}
	return across, up
}

// plateDims returns the dimensions of a plate drawn at a scale, from its lower left corner.
func (b *blankPanel) plateDims(scale float64) (across, up []draft.Dim) {
	return b.pack.plateDims(b.Blank, sheet.Box(0, 0, b.width*scale, b.length*scale), scale)
}

// isSided reports whether a plate has other corners than those of the rectangle
// about it: the drawing gives its corners, and its holes are listed.
func isSided(c *flat.Blank) bool {
	if c.Shape != flat.Plate || len(c.Outline) == 0 {
		return false
	}
	for _, q := range c.Outline {
		lo, hi := bounds(c.Outline)
		if q.X != lo.X && q.X != hi.X || q.Y != lo.Y && q.Y != hi.Y {
			return true
		}
	}
	return len(c.Outline) != 4
}

// holesFrom lists where the holes of a plate are, from the lower left corner of the
// rectangle about it.
func (b *blankPanel) holesFrom() string {
	lo, _ := bounds(b.Outline)
	list := make([]string, len(b.Holes))
	for i, h := range b.Holes {
		list[i] = "(" + b.fine(h.Center.X-lo.X) + ", " + b.fine(h.Center.Y-lo.Y) + ")"
	}
	return "Middles of the holes, across and up from the lower left corner of the rectangle: " + strings.Join(list, ", ") + "."
}

// distinct returns the values in order, each once to a hundredth.
func distinct(xs []float64) []float64 {
	slices.Sort(xs)
	var out []float64
	for _, x := range xs {
		if n := len(out); n == 0 || x-out[n-1] > 0.01 {
			out = append(out, x)
		}
	}
	return out
}
