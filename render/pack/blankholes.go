package pack

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/render/ink"
)

// A holeGroup is the holes of one name and size in a blank.
type holeGroup struct {
	name, size string
	at         []r2.Vec
}

// holeGroups returns the design's holes in a blank, those alike together.
func (b *blankPanel) holeGroups() (groups []holeGroup) {
	for i := range b.Holes {
		h := &b.Holes[i]
		if h.Name == "" {
			continue
		}
		g := holeGroup{name: h.Name, size: b.holeSize(h)}
		k := 0
		for k < len(groups) && (groups[k].name != g.name || groups[k].size != g.size) {
			k++
		}
		if k == len(groups) {
			groups = append(groups, g)
		}
		groups[k].at = append(groups[k].at, h.Center)
	}
	return groups
}

// holeSize says how large a hole is on the flat: one that is not round by its width and its
// height over all.
func (k *pack) holeSize(h *flat.Hole) string {
	if h.Diameter > 0 {
		return "Ø" + k.fine(h.Diameter)
	}
	lo, hi := bounds(h.Outline)
	across, up := k.fine(hi.X-lo.X), k.fine(hi.Y-lo.Y)
	if across == up {
		return "about Ø" + across
	}
	return across + " × " + up + " over all"
}

// holePlaces says where the design's holes are in a blank, group by group.
func (b *blankPanel) holePlaces(say func(string)) {
	groups := b.holeGroups()
	if len(groups) == 0 {
		return
	}
	lo, _ := bounds(b.Outline)
	from := "the lower left corner of the rectangle"
	signed := b.Shape == flat.Gore || b.Shape == flat.Disc
	if signed {
		lo, from = r2.Vec{}, "the middle, right and up +"
	}
	write := func(mm float64) string {
		if signed {
			return b.signedCell(mm)
		}
		return b.fine(mm)
	}
	for i, g := range groups {
		text := fmt.Sprintf("%s %s, %s, ", count(len(g.at), "hole"), g.name, g.size)
		if i == 0 {
			text += "middles across and up from " + from + ": "
		}
		say(text + placesOf(g.at, lo, write) + ".")
	}
}

func count(n int, what string) string {
	if n == 1 {
		return "One " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// placesOf lists points: those of a grid by their columns and rows.
func placesOf(at []r2.Vec, lo r2.Vec, write func(float64) string) string {
	var xs, ys []float64
	for _, q := range at {
		xs, ys = append(xs, q.X-lo.X), append(ys, q.Y-lo.Y)
	}
	xs, ys = distinct(xs), distinct(ys)
	list := func(all []float64) string {
		var words []string
		for _, x := range all {
			words = append(words, write(zeroed(x)))
		}
		return strings.Join(words, ", ")
	}
	if len(xs)*len(ys) == len(at) && len(at) > 1 {
		return "across " + list(xs) + "; up " + list(ys)
	}
	var points []string
	for _, q := range at {
		points = append(points, "("+write(zeroed(q.X-lo.X))+", "+write(zeroed(q.Y-lo.Y))+")")
	}
	return strings.Join(points, ", ")
}

// zeroed returns a length without what is left of rounding.
func zeroed(mm float64) float64 {
	if math.Abs(mm) < 1e-6 {
		return 0
	}
	return mm
}

// cutHoles draws the holes of the flat.
func (f *flatDrawing) cutHoles() {
	for _, h := range f.blank.Holes {
		if h.Diameter > 0 {
			a := ink.Circle(ink.Outline, f.at(h.Center), h.Diameter/2*f.scale)
			a.Group = cutGroup
			f.draw.Put(a)
			f.draw.CentreMark(f.at(h.Center), h.Diameter/2*f.scale)
		} else {
			f.draw.Put(&ink.Stroke{Line: ink.Outline, Path: f.path(h.Outline), Closed: true, Group: cutGroup})
		}
	}
}
