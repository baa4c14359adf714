package pack

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// A writing is a block of lines that stands on a piece.
type writing struct {
	lines  []string
	big    float64 // height of the first line
	small  float64 // of the others
	angle  float64
	width  float64
	height float64
}

func newWriting(big, small, angle float64, lines []string) writing {
	w := writing{lines: lines, big: big, small: small, angle: angle}
	for i, text := range lines {
		h, face := w.of(i)
		w.width = max(w.width, ink.Width(text, h, face))
	}
	w.height = big + float64(len(lines)-1)*sheet.LineHeight(small)
	if len(lines) > 1 {
		w.height += big * 0.15
	}
	return w
}

func (w *writing) of(i int) (float64, ink.Face) {
	if i == 0 {
		return w.big, ink.Bold
	}
	return w.small, ink.Regular
}

// texts returns the lines, the middle of the block at a point.
func (w *writing) texts(at r2.Vec) []*ink.Text {
	sin, cos := math.Sincos(w.angle)
	var out []*ink.Text
	y := w.height / 2
	for i, text := range w.lines {
		h, face := w.of(i)
		switch i {
		case 0:
			y -= h
		case 1:
			y -= sheet.LineHeight(w.small) + w.big*0.15
		default:
			y -= sheet.LineHeight(w.small)
		}
		out = append(out, &ink.Text{
			At: r2.Add(at, r2.Vec{X: -sin * y, Y: cos * y}), Height: h, Angle: w.angle, Anchor: ink.Middle, Face: face, Text: text,
			Group: textGroup,
		})
	}
	return out
}

// shape returns the corners of the block about a point, with air.
func (w *writing) shape(at r2.Vec, air float64) []r2.Vec {
	sin, cos := math.Sincos(w.angle)
	u, v := r2.Vec{X: cos, Y: sin}, r2.Vec{X: -sin, Y: cos}
	a, b := w.width/2+air, w.height/2+air
	corner := func(x, y float64) r2.Vec { return r2.Add(at, r2.Add(r2.Scale(x*a, u), r2.Scale(y*b, v))) }
	return []r2.Vec{corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)}
}

// textGroup is the group of the words on a file for a cutting table.
const textGroup = "text"

// pieceWords returns what is written on a piece, the fullest first.
func (t *tracing) pieceWords() []writing {
	b, d := t.blank, t.job.Design
	name := title(t.cut)
	rolls := []string(nil)
	if along := t.alongRolls(); along != "" {
		rolls = []string{along}
	}
	head := []string{fmt.Sprintf("Quantity %d – %s", t.cut.Quantity, faceUp(b)), t.metalShort(b.Metal)}
	tail := []string{d.Title + ", revision " + d.Revision()}
	forming := sheet.Wrap(t.forming(b), 70, sheet.Small, ink.Regular)
	full := slices.Concat([]string{name}, head, forming, rolls, tail)
	part := slices.Concat([]string{name}, head, rolls, tail)
	least := []string{name, faceUp(b)}
	var all []writing
	for _, w := range []struct {
		big, small float64
		lines      []string
	}{
		{sheet.Large, sheet.Small, full},
		{sheet.Medium, sheet.Small, part},
		{sheet.Small, sheet.Small, least},
		{sheet.Small, sheet.Small, least[:1]},
	} {
		all = append(all, newWriting(w.big, w.small, 0, w.lines), newWriting(w.big, w.small, math.Pi/2, w.lines))
	}
	return all
}

// alongRolls says how the piece lies in the rolls, as it is traced.
func (t *tracing) alongRolls() string {
	b := t.blank
	if b.Forming.Axis != "x" && b.Forming.Axis != "y" || b.Shape == flat.Disc || b.Shape == flat.Plate {
		return ""
	}
	if slices.ContainsFunc(b.Marks, func(m flat.Mark) bool { return m.Kind == flat.BendLine }) {
		return "The bend lines lie along the rolls"
	}
	if (b.Forming.Axis == "y") != t.turned {
		return "The rolls lie this way: ↕"
	}
	return "The rolls lie this way: ↔"
}

// faceUp says which face of a blank is seen.
func faceUp(b *flat.Blank) string {
	if b.Bought != nil {
		return "TEMPLATE, HEAD UP"
	}
	if slices.Contains(b.Notes, finding.Fact(flat.FromFront)) {
		return "FRONT FACE UP"
	}
	if b.Shape == flat.Plate || b.Forming.How == "flat" {
		return "UPPER FACE UP"
	}
	return "OUTSIDE FACE UP"
}

// metalShort returns a metal by its name in the design, with its gauge and
// thickness.
func (k *pack) metalShort(m *design.Metal) string {
	if m == nil {
		return "metal not given"
	}
	thickness := k.thickness(m) + " " + k.unit()
	if m.Gauge > 0 {
		return fmt.Sprintf("%s, %d gauge (%s)", m.Name, m.Gauge, thickness)
	}
	if m.Ounces > 0 {
		return fmt.Sprintf("%s, %d oz (%s)", m.Name, m.Ounces, thickness)
	}
	return m.Name + ", " + thickness
}

// words writes on the piece what it is, where there is room, and along its
// marks what they are.
func (g *tiling) words(pages []*tilePage) {
	middle := r2.Vec{X: g.width / 2, Y: g.height / 2}
	near := slices.Clone(pages)
	slices.SortStableFunc(near, func(a, b *tilePage) int {
		return cmp.Compare(a.far(middle), b.far(middle))
	})
	g.apart = true
	for _, l := range g.bandLetterings() {
		said := false
		for _, p := range pages {
			said = p.letter(l) || said
		}
		g.apart = g.apart && said
	}
	if edges := g.bandEdges(); len(edges) > 0 { // what is on it would be cut away
		for _, p := range pages {
			a, b := r2.Add(edges[0][0], p.shift), r2.Add(edges[1][1], p.shift)
			p.room.take(boxPath(sheet.Box(min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y))))
		}
	}
	g.pieceWord(near, middle)
	for _, l := range g.letterings() {
		for _, p := range pages {
			p.letter(l)
		}
	}
	for i := range g.blank.Holes {
		h := &g.blank.Holes[i]
		if h.Diameter == 0 {
			continue
		}
		for _, p := range pages {
			p.holeSize(h)
		}
	}
}

// far returns how far what is seen of the tile is from a point of the tracing.
func (p *tilePage) far(q r2.Vec) float64 {
	q = r2.Add(q, p.shift)
	return math.Hypot(max(p.core.Min.X-q.X, q.X-p.core.Max.X, 0), max(p.core.Min.Y-q.Y, q.Y-p.core.Max.Y, 0))
}

func (g *tiling) pieceWord(near []*tilePage, middle r2.Vec) {
	for _, w := range g.pieceWords() {
		for _, p := range near {
			at, ok := p.tracing.spot(&p.room, &w, p.core, p.shift, middle)
			if !ok {
				continue
			}
			for _, t := range w.texts(at) {
				p.put(t)
			}
			return
		}
	}
}

// spot returns the place nearest to the middle of the piece at which a block
// of words is on the metal and clear of lines, in a box. shift leads from the
// tracing to where the room is.
func (t *tracing) spot(r *room, w *writing, box r2.Box, shift, middle r2.Vec) (r2.Vec, bool) {
	const step, air = 4.0, 1.5
	lo, hi := bounds(w.shape(r2.Vec{}, air))
	x0, x1 := max(box.Min.X, shift.X)-lo.X, min(box.Max.X, shift.X+t.width)-hi.X
	y0, y1 := max(box.Min.Y, shift.Y)-lo.Y, min(box.Max.Y, shift.Y+t.height)-hi.Y
	if x0 > x1 || y0 > y1 {
		return r2.Vec{}, false
	}
	goal := r2.Add(middle, shift)
	var places []r2.Vec
	nx, ny := max(1, math.Ceil((x1-x0)/step)), max(1, math.Ceil((y1-y0)/step))
	for i := range int(nx) + 1 {
		for j := range int(ny) + 1 {
			places = append(places, r2.Vec{X: x0 + (x1-x0)*float64(i)/nx, Y: y0 + (y1-y0)*float64(j)/ny})
		}
	}
	if within(goal, sheet.Box(x0, y0, x1, y1)) {
		places = append(places, goal)
	}
	slices.SortStableFunc(places, func(a, b r2.Vec) int {
		return cmp.Compare(r2.Norm2(r2.Sub(a, goal)), r2.Norm2(r2.Sub(b, goal)))
	})
	for _, at := range places {
		// A block that no line crosses is on the metal if a point of it is.
		if t.within(r2.Sub(at, shift)) && r.clear(w.shape(at, 0), air) {
			return at, true
		}
	}
	return r2.Vec{}, false
}

// letter writes along a line where it is on this tile, once, and reports whether it does.
func (p *tilePage) letter(l lettering) bool {
	from, to, ok := clipSegment(r2.Add(l.from, p.shift), r2.Add(l.to, p.shift), p.core)
	if !ok {
		return false
	}
	return p.room.write(p.page.Sheet, p.core, func(yield func(*ink.Text) bool) {
		for t := range p.besideLine(l, from, to) {
			if !yield(t) {
				return
			}
		}
	})
}

// besideLine yields the places of a text along a line, on either side of it,
// on the metal.
func (t *tracing) besideLine(l lettering, from, to r2.Vec) func(yield func(*ink.Text) bool) {
	return func(yield func(*ink.Text) bool) {
		angle := upright(from, to)
		sin, cos := math.Sincos(angle)
		for _, along := range [...]float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.125, 0.875, 0.1, 0.9} {
			on := r2.Add(from, r2.Scale(along, r2.Sub(to, from)))
			for _, off := range [2]float64{1.1, -1.1 - sheet.Small} {
				at := r2.Add(on, r2.Vec{X: -sin * off, Y: cos * off})
				if !yield(&ink.Text{At: at, Height: sheet.Small, Angle: angle, Anchor: ink.Middle, Text: l.text, Group: textGroup}) {
					return
				}
			}
		}
	}
}

// holeSize writes a hole's diameter beside it.
func (p *tilePage) holeSize(h *flat.Hole) {
	c, r := r2.Add(p.at(h.Center), p.shift), h.Diameter/2
	if !within(c, p.core) {
		return
	}
	p.room.write(p.page.Sheet, p.core, p.besideHole(c, r))
}

// besideHole yields the places of a hole's diameter about it.
func (k *pack) besideHole(c r2.Vec, r float64) func(yield func(*ink.Text) bool) {
	return func(yield func(*ink.Text) bool) {
		text := "Ø" + k.dim(2*r)
		for _, t := range [...]ink.Text{
			{At: r2.Vec{X: c.X + r + 1.5, Y: c.Y - sheet.Small/2}},
			{At: r2.Vec{X: c.X - r - 1.5, Y: c.Y - sheet.Small/2}, Anchor: ink.End},
			{At: r2.Vec{X: c.X, Y: c.Y + r + 1.5}, Anchor: ink.Middle},
			{At: r2.Vec{X: c.X, Y: c.Y - r - 1.5 - sheet.Small}, Anchor: ink.Middle},
		} {
			t.Height, t.Text, t.Group = sheet.Small, text, textGroup
			if !yield(&t) {
				return
			}
		}
	}
}
