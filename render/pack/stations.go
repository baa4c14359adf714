package pack

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// inside is how far within the edge, in mm, a station's point is looked for: a
// station at the very end of a gore lies on its edge.
const inside = 0.3

// exists reports whether a station of a gore has an edge above the middle (side
// 1) or below it (-1): what is opened for a post has lost those beyond.
func exists(c *flat.Blank, s flat.Station, side float64) bool {
	y := side * max(s.At-inside, 0)
	if o := &c.Ordinates[0]; o.From == flat.FromRim {
		if side > 0 {
			return false // it has one side alone
		}
		y = o.Start - max(s.At-inside, inside)
	}
	x := max(s.Ordinate-inside, s.Ordinate/2)
	return inPolygon(r2.Vec{X: x, Y: y}, c.Outline) || inPolygon(r2.Vec{X: -x, Y: y}, c.Outline)
}

// listed reports whether a station of a blank belongs in its table.
func listed(c *flat.Blank, s flat.Station) bool {
	return c.Shape != flat.Gore || exists(c, s, 1) || exists(c, s, -1)
}

// stations marks the stations of the table of ordinates and numbers them.
func (f *flatDrawing) stations() {
	switch c := f.blank; {
	case len(c.Ordinates) == 0:
	case c.Shape == flat.Tube:
		f.tubeStations()
	case c.Shape == flat.Sector:
		f.sectorStations()
	default:
		f.goreStations()
	}
}

func (f *flatDrawing) rule(path ...r2.Vec) {
	f.draw.Put(&ink.Stroke{Line: ink.Rule, Path: path, Group: markGroup})
}

func (f *flatDrawing) tubeStations() {
	c := f.blank
	o := &c.Ordinates[0]
	every := everyNth(o.Pitch*f.scale, 5.5)
	for i, s := range o.Stations {
		x := f.at(r2.Vec{X: s.At}).X
		for j := range c.Ordinates {
			y, dir := f.box.Min.Y, 1.0
			if c.Ordinates[j].Edge == flat.HeadEdge {
				y, dir = f.box.Max.Y, -1.0
			}
			ord := c.Ordinates[j].Stations[i].Ordinate * f.scale
			if ord > 0.5 && 0 < i && i < len(o.Stations)-1 {
				f.rule(r2.Vec{X: x, Y: y}, r2.Vec{X: x, Y: y + dir*ord})
			}
		}
		f.draw.Put(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: x, Y: f.box.Min.Y - 2.2}, {X: x, Y: f.box.Min.Y - 0.7}}, Group: markGroup})
		if i%every == 0 {
			f.draw.Put(&ink.Text{At: r2.Vec{X: x, Y: f.box.Min.Y - 5.8}, Height: sheet.Small, Anchor: ink.Middle, Text: fmt.Sprint(i)})
		}
	}
}

func (f *flatDrawing) goreStations() {
	c := f.blank
	o := &c.Ordinates[0]
	every := everyNth(o.Pitch*f.scale, 4)
	last := len(o.Stations) - 1
	for i, s := range o.Stations {
		// The last, at the tip, has its number before the one next to it.
		numbered := i == last || i%every == 0 && (o.Stations[last].At-s.At)*f.scale >= 4
		for _, side := range [2]float64{1, -1} {
			if i == 0 && side < 0 && o.From != flat.FromRim || !exists(c, s, side) {
				continue
			}
			y := o.Start + side*s.At
			f.across(y, s.Ordinate)
			if numbered {
				f.draw.Put(&ink.Text{At: r2.Vec{X: f.box.Max.X + 4, Y: f.at(r2.Vec{Y: y}).Y - sheet.Small/2}, Height: sheet.Small, Text: fmt.Sprint(i)})
			}
		}
	}
}

// across rules a station of a gore from edge to edge, where there is metal.
func (f *flatDrawing) across(y, half float64) {
	const parts = 64
	look := y - math.Copysign(min(inside, math.Abs(y)), y)
	from := -1
	for i := range parts + 1 {
		x := func(i int) float64 { return half * (2*float64(i)/parts - 1) }
		in := i < parts && inPolygon(r2.Vec{X: (x(i) + x(i+1)) / 2, Y: look}, f.blank.Outline)
		switch {
		case in && from < 0:
			from = i
		case !in && from >= 0:
			f.rule(f.at(r2.Vec{X: x(from), Y: y}), f.at(r2.Vec{X: x(i), Y: y}))
			from = -1
		}
	}
}

// everyNth returns of how many stations one is numbered, so that numbers stand
// at least a distance apart.
func everyNth(pitch, least float64) int {
	n := 1
	for _, n = range [...]int{1, 2, 3, 4, 6, 8, 12, 24} {
		if pitch*float64(n) >= least {
			break
		}
	}
	return n
}

// sharp is the turn of an outline, in rad, from which it is a corner: the edges of a
// gore and of an opening turn by less from point to point.
const sharp = 0.4

// straightEnd is how far, in mm, the points of a gore's end may lie from the line
// between its corners for it to be cut straight.
const straightEnd = 0.3

// ends returns the ends of a gore that are cut along a curve, the upper one first:
// each from its left corner to its right one. An end that does not lie between two
// corners is left out.
func ends(outline []r2.Vec) [2][]r2.Vec {
	n := len(outline)
	var corners []int
	for i, q := range outline {
		a, b := r2.Sub(q, outline[(i+n-1)%n]), r2.Sub(outline[(i+1)%n], q)
		if math.Abs(math.Atan2(r2.Cross(a, b), r2.Dot(a, b))) > sharp {
			corners = append(corners, i)
		}
	}
	var out [2][]r2.Vec
	if len(corners) != 4 {
		return out
	}
	for k, from := range corners {
		to := corners[(k+1)%4]
		a, b := outline[from], outline[to]
		if a.Y*b.Y < 0 {
			continue // an edge of the gore
		}
		path := []r2.Vec{a}
		for i := from; i != to; {
			i = (i + 1) % n
			path = append(path, outline[i])
		}
		off := 0.0
		for _, q := range path {
			off = max(off, math.Abs(r2.Cross(r2.Unit(r2.Sub(b, a)), r2.Sub(q, a))))
		}
		if off < straightEnd {
			continue
		}
		if a.X > b.X {
			slices.Reverse(path)
		}
		if a.Y > 0 {
			out[0] = path
		} else {
			out[1] = path
		}
	}
	return out
}

// isOpened reports whether a blank is opened for a post.
func isOpened(b *flat.Blank) bool {
	return slices.ContainsFunc(b.Notes, func(n finding.Fact) bool { _, ok := n.(flat.OpenedFor); return ok })
}

// openingPoints is how many steps from corner to corner the end of an opened gore is
// laid out by: a batten does the rest.
const openingPoints = 4

// An openedEnd is an end of a gore that is opened for a post, by its points: right of the
// centre line and along from the middle.
type openedEnd struct {
	end    string // "upper" or "lower"
	points []string
}

// openedEnds returns the ends of a gore that are opened for a post and can be laid out
// by points.
func (b *blankPanel) openedEnds() (list []openedEnd) {
	if b.Shape != flat.Gore || !isOpened(b.Blank) {
		return nil
	}
	for i, path := range ends(b.Outline) {
		if path == nil {
			continue
		}
		e, sign := openedEnd{end: "upper"}, 1.0
		if i == 1 {
			e.end, sign = "lower", -1
		}
		add := func(q r2.Vec) { e.points = append(e.points, b.fine(q.X)+" / "+b.fine(sign*(q.Y-b.start()))) }
		from, to := path[0], path[len(path)-1]
		add(from)
		k := 1
		for j := 1; j < openingPoints; j++ {
			x := from.X + (to.X-from.X)*float64(j)/openingPoints
			for k < len(path)-1 && path[k].X < x {
				k++
			}
			p, q := path[k-1], path[k]
			t := 0.0
			if q.X != p.X {
				t = (x - p.X) / (q.X - p.X)
			}
			add(r2.Vec{X: x, Y: p.Y + t*(q.Y-p.Y)})
		}
		add(to)
		list = append(list, e)
	}
	return list
}

// start returns the height on a gore's flat from which what is along it is measured.
func (b *blankPanel) start() float64 {
	if b.Shape != flat.Gore || len(b.Ordinates) == 0 {
		return 0
	}
	return b.Ordinates[0].Start
}

// openings says how the ends of a gore are laid out that are opened for a post, and
// how many there are; it is empty where none is.
func (b *blankPanel) openings() (text string, n int) {
	list := b.openedEnds()
	if len(list) == 0 {
		return "", 0
	}
	text = "Openings, right of the centre line / along from the middle."
	for _, e := range list {
		text += " " + words.Capital(e.end) + ": " + strings.Join(e.points, ", ") + "."
	}
	return text, len(list)
}
