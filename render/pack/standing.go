package pack

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// markText returns what is written along a mark; it may be empty.
func markText(m *flat.Mark) string {
	text := words.OnPaper(quantity.NoSystem).Mark(m) // bearings alone
	if m.Kind == flat.Standing && text != "" {
		text += " stands here"
	}
	if m.Piece > 0 {
		text += fmt.Sprintf(", on %d alone", m.Piece)
	}
	return text
}

// isClosed reports whether a mark runs round.
func isClosed(m *flat.Mark) bool { return len(m.Path) > 2 && m.From == m.To }

// strokeOf returns a mark as a line along its path.
func strokeOf(m *flat.Mark, path []r2.Vec) *ink.Stroke {
	closed := isClosed(m)
	if closed && path[0] == path[len(path)-1] {
		path = path[:len(path)-1]
	}
	return &ink.Stroke{Line: markLine(m.Kind), Path: path, Closed: closed, Group: markGroup}
}

// A name that finds no place within nameSteps steps of 1.5 mm off its mark is left out: the
// notes name the mark too.
const (
	nameSteps = 24
	nameGap   = 1.2 // mm, between a leader and the name
)

// name writes a mark's text near it, clear of all lines and writing, with a
// leader to the mark. A leader crosses the outline or a thin line only where no
// other can be drawn, and runs beside another line last of all. It reports whether
// there was a place.
func (f *flatDrawing) name(path []r2.Vec, text string) bool {
	lo, hi := bounds(path)
	middle := r2.Scale(0.5, r2.Add(lo, hi))
	w := ink.Width(text, sheet.Small, ink.Regular)
	half := r2.Scale(0.5, r2.Sub(hi, lo))
	for i := range 6 * 16 * nameSteps {
		pass, off, k := i/(16*nameSteps), 3+1.5*float64(i/16%nameSteps), i%16
		crossed := pass % 2
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 16)
		at := r2.Vec{X: middle.X + cos*(half.X+off), Y: middle.Y + sin*(half.Y+off)}
		t := &ink.Text{At: r2.Vec{X: at.X + nameGap, Y: at.Y - sheet.Small/2}, Height: sheet.Small, Anchor: ink.Start, Text: text}
		if cos < 0 {
			t.At.X, t.Anchor = at.X-nameGap, ink.End
		}
		if t.Start().X < f.place.Min.X || t.Start().X+w > f.place.Max.X || !f.draw.Free(t) {
			continue
		}
		to := nearest(path, at)
		if gap(t.Box(), []r2.Vec{at, to}) < nameGap/2 {
			continue // the leader would run under its own name
		}
		if pass < 4 && f.draw.Alongside(at, to) || pass < 2 && f.draw.Crossings(at, to) > 0 {
			continue
		}
		if !f.draw.Pointer(at, to, crossed) {
			continue
		}
		f.draw.Put(t)
		return true
	}
	return false
}

// nearest returns the point of a path that is nearest to a place.
func nearest(path []r2.Vec, at r2.Vec) r2.Vec {
	best := path[0]
	for i := 1; i < len(path); i++ {
		a, v := path[i-1], r2.Sub(path[i], path[i-1])
		t := 0.0
		if l := r2.Norm2(v); l > 0 {
			t = min(max(r2.Dot(r2.Sub(at, a), v)/l, 0), 1)
		}
		if q := r2.Add(a, r2.Scale(t, v)); r2.Norm(r2.Sub(q, at)) < r2.Norm(r2.Sub(best, at)) {
			best = q
		}
	}
	return best
}

// standings draws where other parts stand on the flat.
func (f *flatDrawing) standings() {
	for i := range f.blank.Marks {
		if m := &f.blank.Marks[i]; m.Kind == flat.Standing {
			f.draw.Put(strokeOf(m, f.path(markPath(m))))
		}
	}
}

// mostNamed is the number of pieces up to which each one's mark of a part is
// named by itself. More lie so near each other that one name does for all.
const mostNamed = 3

// standingNames writes the names of the parts that stand on the flat, each once
// for all of its marks that one piece has, or once for all pieces; and of those that
// rest on a point of it.
func (f *flatDrawing) standingNames() {
	pieces := map[string][]int{}
	for i := range f.blank.Marks {
		if m := &f.blank.Marks[i]; m.Kind == flat.Standing && m.Piece > 0 && !slices.Contains(pieces[m.Part], m.Piece) {
			pieces[m.Part] = append(pieces[m.Part], m.Piece)
		}
	}
	named := map[string]bool{}
	for i := range f.blank.Marks {
		m := &f.blank.Marks[i]
		text := markText(m)
		if m.Kind != flat.Standing || text == "" {
			continue
		}
		short := m.Part
		switch many := pieces[m.Part]; {
		case m.Piece > 0 && len(many) > mostNamed:
			slices.Sort(many)
			text = m.Part + ", pieces " + words.Runs(many)
			short = text
		case m.Piece > 0:
			short += fmt.Sprintf(", piece %d", m.Piece)
		}
		if named[text] {
			continue
		}
		path := f.path(markPath(m))
		named[text] = f.name(path, text) || f.name(path, short)
	}
	for i := range f.blank.Feet {
		if foot := &f.blank.Feet[i]; len(foot.Outline) == 0 {
			at := []r2.Vec{f.at(foot.At)}
			_ = f.name(at, foot.Part+" rests here") || f.name(at, foot.Part)
		}
	}
}
