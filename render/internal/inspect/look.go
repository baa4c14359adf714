package inspect

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
)

// The margins of ISO 5457, in mm: the left one is for filing.
const filing, margin = 20.0, 10.0

// Printer is the edge, in mm, that office printers leave free.
const Printer = 6.35

// Smallest is the least height of a capital, in mm, of the series of ISO 3098
// from 2.5 mm on.
const Smallest = 2.5

// Tolerances, in mm.
const (
	touching    = 0.05 // by which writing may reach over other writing's shape, or a mark
	heightError = 0.03 // of a height measured from outlines that are rounded to 0.01 mm
	rounded     = 0.01 // of a place that is rounded to a micrometre, and then some
)

// look finds all faults of a page.
func (p *page) look(sheet string, written bool) Report {
	r := Report{Texts: len(p.texts)}
	say := func(kind Kind, format string, args ...any) {
		r.Faults = append(r.Faults, Fault{kind, sheet, written, fmt.Sprintf(format, args...)})
	}
	p.lookAtFrame(say)
	g := newGrid(p.width, p.height)
	for i := range p.texts {
		t := &p.texts[i]
		if t.height < Smallest-heightError || !written && t.height < Smallest {
			say(Small, "%q is %.2f mm high", t.label, t.height)
		}
		if len(t.lacks) > 0 {
			say(Missing, "%q lacks %q", t.label, t.lacks)
		}
		g.near(t.box, func(k int) {
			if o := &p.texts[k]; p.meet(t, o.box, o.about, touching) {
				say(Overlap, "%q overlaps %q at %.1f, %.1f", t.label, o.label, t.box.Min.X, t.box.Min.Y)
			}
		})
		g.add(t.box)
	}
	on := func(kind Kind, what string, b r2.Box, shape []r2.Vec) {
		g.near(b, func(k int) {
			if t := &p.texts[k]; p.meet(t, b, func() []r2.Vec { return shape }, touching) {
				say(kind, "%q at %.1f, %.1f lies on %s", t.label, t.box.Min.X, t.box.Min.Y, what)
			}
		})
	}
	for _, m := range p.marks {
		on(OnMark, "an arrowhead or mark", design.Bounds(m), m)
	}
	for _, b := range p.pictures {
		on(OnPicture, "a picture", b, corners(b))
	}
	p.lookAtLines(g, say)
	p.lookAtLeaders(say)
	p.lookAtWords(say, written)
	return r
}

// meet reports whether a text reaches into another shape by more than a depth.
func (p *page) meet(t *text, b r2.Box, shape func() []r2.Vec, depth float64) bool {
	return !far(t.box, b) && gap(t.about(), shape()) < -depth
}

// lookAtLines finds writing on lines: each text once for each line.
func (p *page) lookAtLines(g *grid, say func(Kind, string, ...any)) {
	last := make([]int, len(p.texts)) // by text: one more than the last line that it was found on
	for i := range p.lines {
		l := &p.lines[i]
		for k := 1; k < len(l.path); k++ {
			from, to := l.path[k-1], l.path[k]
			// In pieces no longer than a cell: the box about a long slanting line
			// is full of what is far from it.
			d := r2.Sub(to, from)
			pieces := math.Ceil(max(math.Abs(d.X), math.Abs(d.Y), 1e-9) / cell)
			for n := range int(pieces) {
				piece := design.Bounds([]r2.Vec{r2.Add(from, r2.Scale(float64(n)/pieces, d)), r2.Add(from, r2.Scale(float64(n+1)/pieces, d))})
				g.near(grown(piece, l.width/2), func(j int) {
					t := &p.texts[j]
					if last[j] == i+1 || far(t.box, grown(piece, l.width/2)) || gap(t.about(), l.path[k-1:k+1]) > l.width/2-p.depth {
						return
					}
					last[j] = i + 1
					kind := OnNarrow
					if l.object() {
						kind = OnWide
					}
					say(kind, "%q at %.1f, %.1f lies on a line %.2f wide", t.label, t.box.Min.X, t.box.Min.Y, l.width)
				})
			}
		}
	}
}

// lookAtFrame finds what is not where it may be: within the frame, or in the
// border about it the fields' letters and lines; on a bare page all writing where
// printers print.
func (p *page) lookAtFrame(say func(Kind, string, ...any)) {
	paper := r2.Box{Max: r2.Vec{X: p.width, Y: p.height}}
	writing, drawing := r2.Box{Min: r2.Vec{X: Printer, Y: Printer}, Max: r2.Vec{X: p.width - Printer, Y: p.height - Printer}}, paper
	if p.frame != nil {
		writing, drawing = *p.frame, *p.frame
		want := r2.Box{Min: r2.Vec{X: filing, Y: margin}, Max: r2.Vec{X: p.width - margin, Y: p.height - margin}}
		if !within(*p.frame, want, rounded) || !within(want, *p.frame, rounded) {
			say(Outside, "the frame is from %v to %v", p.frame.Min, p.frame.Max)
		}
	}
	inBorder := func(b r2.Box) bool {
		f := p.frame
		return f != nil && within(b, paper, 0) &&
			(b.Max.X <= f.Min.X+rounded || b.Min.X >= f.Max.X-rounded || b.Max.Y <= f.Min.Y+rounded || b.Min.Y >= f.Max.Y-rounded)
	}
	for i := range p.texts {
		if t := &p.texts[i]; !within(t.box, writing, 0) && !inBorder(t.box) {
			say(Outside, "%q leaves the frame", t.label)
		}
	}
	for i := range p.lines {
		l := &p.lines[i]
		about := p.frame != nil && within(*p.frame, l.box, 0) && len(l.path) == 5 // the border's own edge
		ofBorder := !l.object() && (inBorder(l.box) || about) || l.width == frameWidth
		if !within(l.box, drawing, rounded) && !(ofBorder && within(l.box, paper, 0)) {
			say(Outside, "a line %.2f wide from %.1f, %.1f to %.1f, %.1f leaves the frame", l.width, l.box.Min.X, l.box.Min.Y, l.box.Max.X, l.box.Max.Y)
		}
	}
	for _, m := range p.marks {
		if b := design.Bounds(m); !within(b, drawing, rounded) {
			say(Outside, "a mark from %.1f, %.1f to %.1f, %.1f leaves the frame", b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)
		}
	}
	for _, b := range p.pictures {
		if !within(b, drawing, rounded) {
			say(Outside, "a picture from %.1f, %.1f to %.1f, %.1f leaves the frame", b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)
		}
	}
}
