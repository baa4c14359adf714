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

// A spot is a place for a name, clear of all lines and writing, and its leader.
type spot struct {
	text     *ink.Text
	from, to r2.Vec
	beside   bool // the leader runs beside another line
	thin     int  // lines of dimensions and axes that it crosses
}

// name writes a mark's text near it, clear of all lines and writing, with a
// leader to the mark. A leader crosses the outline or a thin line only where no
// other can be drawn, and runs beside another line last of all. It reports whether
// there was a place.
func (f *flatDrawing) name(path []r2.Vec, text string) bool {
	var spots []spot // looked for once: most of paper is taken
	for i := range 16 * nameSteps {
		s, ok := f.spot(path, text, i)
		if !ok {
			continue
		}
		if f.point(&s, 0) {
			return true
		}
		spots = append(spots, s)
	}
	for pass := 1; pass < 6; pass++ {
		for i := range spots {
			if f.point(&spots[i], pass) {
				return true
			}
		}
	}
	return false
}

// spot returns the place of a name in one of 16 directions from a path, farther off with
// each round of them, and whether it is clear.
func (f *flatDrawing) spot(path []r2.Vec, text string, i int) (spot, bool) {
	lo, hi := bounds(path)
	middle, half := r2.Scale(0.5, r2.Add(lo, hi)), r2.Scale(0.5, r2.Sub(hi, lo))
	off := 3 + 1.5*float64(i/16)
	sin, cos := math.Sincos(2 * math.Pi * float64(i%16) / 16)
	at := r2.Vec{X: middle.X + cos*(half.X+off), Y: middle.Y + sin*(half.Y+off)}
	t := &ink.Text{At: r2.Vec{X: at.X + nameGap, Y: at.Y - sheet.Small/2}, Height: sheet.Small, Anchor: ink.Start, Text: text}
	if cos < 0 {
		t.At.X, t.Anchor = at.X-nameGap, ink.End
	}
	box := t.Box()
	if box[0].X < f.place.Min.X || box[1].X > f.place.Max.X || !f.draw.Free(t) {
		return spot{}, false
	}
	to := nearest(path, at)
	if gap(box, []r2.Vec{at, to}) < nameGap/2 {
		return spot{}, false // the leader would run under its own name
	}
	return spot{t, at, to, f.draw.Alongside(at, to), f.draw.Crossings(at, to)}, true
}

// point writes a name at its place and draws its leader, or reports that the
// leader may not be drawn in this pass: the later, the more it may do.
func (f *flatDrawing) point(s *spot, pass int) bool {
	if pass < 4 && s.beside || pass < 2 && s.thin > 0 || !f.draw.Pointer(s.from, s.to, pass%2) {
		return false
	}
	f.draw.Put(s.text)
	return true
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
