package pack

import (
	"fmt"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/render/ink"
)

// cutMargin is left about a piece on a file for a cutting table, in mm.
const cutMargin = 10

// CutFiles returns every different blank of a job at full size as lines alone,
// for a cutting table, bare discs and rectangles too: the lines to cut in the group "cut", those to mark in
// the group "mark", and words in the group "text". Each is seen with the face
// up that its words say. A sheet's name is that of its file.
func CutFiles(j *fab.Job, o PatternOptions) []*ink.Sheet {
	k := newPack(j, Options{Only: o.Only, SkipReadyCut: o.SkipReadyCut})
	var sheets []*ink.Sheet
	for _, c := range j.Cuts {
		if len(c.Blank.Outline) == 0 || !k.wants(&c) {
			continue
		}
		// Pieces with marks of their own have a file each, so that a table scribes on
		// each what is its own.
		marked := markedPieces(&c.Blank)
		if c.Quantity > len(marked) {
			sheets = append(sheets, k.traceOf(&c, false, 0).cutFile())
		}
		for _, piece := range marked {
			s := k.traceOf(&c, false, piece).cutFile()
			s.Name += fmt.Sprintf("-piece-%d", piece)
			s.Title += fmt.Sprintf(", piece %d", piece)
			sheets = append(sheets, s)
		}
	}
	digits := max(leastDigits, len(strconv.Itoa(len(sheets))))
	for i, s := range sheets {
		s.Name = fmt.Sprintf("%0*d-%s", digits, i+1, s.Name)
	}
	return sheets
}

// markedPieces returns the numbers of the pieces of a blank that have marks of their own,
// in order.
func markedPieces(b *flat.Blank) (list []int) {
	for i := range b.Marks {
		if n := b.Marks[i].Piece; n > 0 && !slices.Contains(list, n) {
			list = append(list, n)
		}
	}
	slices.Sort(list)
	return list
}

func (t *tracing) cutFile() *ink.Sheet {
	s := &ink.Sheet{Name: t.slug, Title: title(t.cut), Width: t.width + 2*cutMargin, Height: t.height + 2*cutMargin}
	shift := r2.Vec{X: cutMargin, Y: cutMargin}
	var around room
	full := t.pieceWords()[0]
	words, place, ok := t.standing()
	if !ok || len(words.lines) == 1 {
		// No room on the piece to say all that must be said: it stands below.
		shift.Y += full.height + cutMargin
		s.Height += full.height + cutMargin
		s.Width = max(s.Width, full.width+2*cutMargin)
		shift.X = (s.Width - t.width) / 2
	}
	put := func(item ink.Item) {
		s.Add(item)
		around.add(item)
	}
	for _, item := range t.lines {
		put(moved(item, shift))
	}
	if ok {
		for _, text := range words.texts(r2.Add(place, shift)) {
			put(text)
		}
	}
	if !ok || len(words.lines) == 1 {
		for _, text := range full.texts(r2.Vec{X: s.Width / 2, Y: cutMargin + full.height/2}) {
			put(text)
		}
	}
	whole := r2.Box{Max: r2.Vec{X: s.Width, Y: s.Height}}
	for _, l := range t.letterings() {
		from, to := r2.Add(l.from, shift), r2.Add(l.to, shift)
		around.write(s, whole, t.besideLine(l, from, to))
	}
	for _, h := range t.blank.Holes {
		if h.Diameter > 0 {
			around.write(s, whole, t.besideHole(r2.Add(t.at(h.Center), shift), h.Diameter/2))
		}
	}
	return s
}

// standing returns the fullest words that stand on the piece, and where on the
// tracing; not ok where even its name does not.
func (t *tracing) standing() (w writing, at r2.Vec, ok bool) {
	var around room
	for _, item := range t.lines {
		around.add(item)
	}
	box := r2.Box{Max: r2.Vec{X: t.width, Y: t.height}}
	middle := r2.Vec{X: t.width / 2, Y: t.height / 2}
	for _, w := range t.pieceWords() {
		if at, ok := t.spot(&around, &w, box, r2.Vec{}, middle); ok {
			return w, at, true
		}
	}
	return writing{}, r2.Vec{}, false
}
