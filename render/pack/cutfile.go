package pack

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/render/ink"
)

// cutMargin is left about a piece on a file for a cutting table, in mm.
const cutMargin = 10

// CutFiles returns every different blank of a job at full size as lines alone,
// for a cutting table: the lines to cut in the group "cut", those to mark in
// the group "mark", and words in the group "text". Each is seen with the face
// up that its words say. A sheet's name is that of its file.
func CutFiles(j *fab.Job) []*ink.Sheet {
	k := newPack(j, Options{})
	var sheets []*ink.Sheet
	for _, c := range j.Cuts() {
		if len(c.Blank.Outline) > 0 {
			s := k.trace(&c, false).cutFile()
			s.Name = fmt.Sprintf("%02d-%s", len(sheets)+1, s.Name)
			sheets = append(sheets, s)
		}
	}
	return sheets
}

func (t *tracing) cutFile() *ink.Sheet {
	s := &ink.Sheet{Name: t.slug, Title: title(t.cut), Width: t.width + 2*cutMargin, Height: t.height + 2*cutMargin}
	shift := r2.Vec{X: cutMargin, Y: cutMargin}
	var around room
	words, place, ok := t.standing(shift)
	if !ok {
		// No room on the piece: the words stand below it.
		words = newWriting(words.big, words.small, 0, words.lines)
		shift.Y += words.height + cutMargin
		s.Height += words.height + cutMargin
		s.Width = max(s.Width, words.width+2*cutMargin)
		place = r2.Vec{X: s.Width / 2, Y: cutMargin + words.height/2}
	}
	put := func(item ink.Item) {
		s.Add(item)
		around.add(item)
	}
	for _, item := range t.lines {
		put(moved(item, shift))
	}
	for _, text := range words.texts(place) {
		put(text)
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

// standing returns the fullest words that stand on the piece and where, or the
// least of them where none do.
func (t *tracing) standing(shift r2.Vec) (w writing, at r2.Vec, ok bool) {
	var around room
	for _, item := range t.lines {
		around.add(moved(item, shift))
	}
	box := r2.Box{Min: shift, Max: r2.Add(shift, r2.Vec{X: t.width, Y: t.height})}
	middle := r2.Vec{X: t.width / 2, Y: t.height / 2}
	all := t.pieceWords()
	for _, w := range all {
		if at, ok := t.spot(&around, &w, box, shift, middle); ok {
			return w, at, true
		}
	}
	return all[0], r2.Vec{}, false
}
