package flat

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
)

// alikeEnough is how far apart, in mm, the corners of two pieces may be that
// are cut alike but for rounding.
const alikeEnough = 1e-5

// sliver is the area, in mm2, under which what is left of a piece is waste.
const sliver = 4.0

// thin is the width, in mm, under which what is left is filled with weld. Common practice,
// no source.
const thin = 1.0

// isWaste reports whether what is left of a piece is too small or too thin to be one: a
// long strip is twice its area by its girth wide.
func isWaste(outline []r2.Vec) bool {
	area, around := enclosed(outline), girth(outline)
	return !(area > sliver) || 2*area < thin*around
}

// A kind is a blank cut otherwise than the one that it was counted with, and the
// numbers of the pieces that are cut so.
type kind struct {
	Blank
	base    int
	numbers []string
}

// partCuts parts the pieces that are cut otherwise from the blanks that they
// were counted with. Pieces cut alike stay together.
func (d *developer) partCuts(list []piece, cuts []cutOut) {
	var kinds []kind
	var gone r3.Vec // moment of the area taken out, about the centre
	was := make([]int, len(d.Blanks))
	for i := range d.Blanks {
		was[i] = d.Blanks[i].Quantity
	}
	for i := range list {
		p, c := &list[i], &cuts[i]
		if !c.changed {
			continue
		}
		base := &d.Blanks[p.blank]
		base.Quantity--
		number := strconv.Itoa(p.number)
		base.Numbers = slices.DeleteFunc(slices.Clone(base.Numbers), func(n string) bool { return n == number })
		c.outlines = slices.DeleteFunc(c.outlines, func(o []r2.Vec) bool {
			edge := p.onFlat(o)
			if !isWaste(edge) {
				return false
			}
			d.fill(base, number, edge)
			return true
		})
		whole := p.measure(p.finished())
		gone = r3.Add(gone, whole.first)
		for k := range c.outlines {
			b := d.cutPiece(p, c, k)
			left := d.leftOf(p, c, k)
			// Polygons tell what is taken out of the true area.
			b.Area = base.Area - (whole.area - left.area)
			if len(c.outlines) > 1 {
				b.Area = base.Area * left.area / whole.area
			}
			gone = r3.Sub(gone, left.first)
			of := number
			if len(c.outlines) > 1 {
				of += string(rune('a' + k))
			}
			kinds = gather(kinds, kind{Blank: b, base: p.blank, numbers: []string{of}})
		}
	}
	if !slices.ContainsFunc(cuts, func(c cutOut) bool { return c.changed }) {
		return
	}
	d.regroup(kinds, was)
	if d.Mass > 0 {
		d.CG = r3.Add(d.part.Ball.Center, r3.Scale(d.weigh(1)/d.Mass, r3.Sub(d.whole, gone)))
	}
}

// fill enters a sliver of a piece that is left out of a blank.
func (d *developer) fill(base *Blank, number string, edge []r2.Vec) {
	b := *base
	b.Quantity, b.Numbers, b.Outline = 1, []string{number}, edge
	b.Holes, b.Marks, b.Ordinates, b.Notes = nil, nil, nil, nil
	b.Area = enclosed(edge)
	b.Mass = d.weigh(b.Area)
	d.Fills = append(d.Fills, b)
}

// reportFills says how much is to be filled with weld.
func (d *developer) reportFills() {
	f := FillsUp{Thin: thin}
	for i := range d.Fills {
		if around := girth(d.Fills[i].Outline); around > 2*thin {
			f.Count++
			f.Longest = max(f.Longest, around/2)
		}
	}
	if f.Count > 0 {
		d.note(finding.Note, f)
	}
}

// girth returns the length of an outline.
func girth(outline []r2.Vec) (length float64) {
	for i, q := range outline {
		length += r2.Norm(r2.Sub(outline[(i+1)%len(outline)], q))
	}
	return length
}

// cutPiece makes the blank of part k of what is left of a piece.
func (d *developer) cutPiece(p *piece, c *cutOut, k int) Blank {
	b := d.Blanks[p.blank]
	b.Quantity = 1
	b.Outline = p.onFlat(c.outlines[k])
	b.Holes = nil
	var notes []finding.Fact
	for _, h := range c.holes {
		if within(h[0], c.outlines[k]) {
			edge := p.onFlat(h)
			low, high := bounds(edge)
			hole := Hole{Center: r2.Scale(0.5, r2.Add(low, high)), Outline: edge}
			if k := slices.IndexFunc(c.drilled, func(o drilledHole) bool { return &o.edge[0] == &h[0] }); k >= 0 {
				hole.named(c.drilled[k].hole)
			}
			b.Holes = append(b.Holes, hole)
		}
	}
	notes = append(notes, c.why...)
	notes = append(notes, c.pierced(p, k)...)
	for _, v := range c.bores {
		if within(v.Center, b.Outline) {
			b.Holes = append(b.Holes, v.Hole)
			notes = append(notes, DrillVent{v.Diameter, v.drain})
		}
	}
	low, high := bounds(b.Outline)
	b.Width, b.Length = high.X-low.X, high.Y-low.Y
	if &c.outlines[k][0] != &p.outline[0] {
		b.Diameter = 0 // it is not round any more
	}
	b.Marks = marksWithin(b.Marks, b.Outline, p.number)
	if b.Shape == Gore {
		b.Ordinates = []Ordinates{d.tableTo(max(-low.Y, high.Y))}
	}
	b.Notes = append(slices.Clone(b.Notes), notes...)
	return b
}

// tableTo returns the table of a gore's half widths up to where its longer half
// ends.
func (d *developer) tableTo(end float64) Ordinates {
	s, _ := d.segment()
	t := s.table(d.units)
	if end >= max(s.End[0], s.End[1])-onEdge || s.open() {
		return t
	}
	count := slices.IndexFunc(t.Stations, func(s Station) bool { return s.At >= end })
	t.Stations = append(t.Stations[:count], Station{At: end, Ordinate: s.width(end)})
	return t
}

// marksWithin returns the marks of one piece, straight ones cut off at its
// outline.
func marksWithin(marks []Mark, outline []r2.Vec, number int) []Mark {
	var kept []Mark
	for _, m := range marks {
		if m.Kind == Standing {
			if m.Piece == 0 || m.Piece == number {
				kept = append(kept, m)
			}
			continue
		}
		longest := 0.0
		// An end on the outline counts as within it.
		reach := r2.Scale(1e-3, r2.Sub(m.To, m.From))
		for _, part := range clip([]r2.Vec{r2.Sub(m.From, reach), r2.Add(m.To, reach)}, outline) {
			from, to := part[0], part[len(part)-1]
			if l := r2.Norm(r2.Sub(to, from)); l > longest {
				longest, m.From, m.To = l, from, to
			}
		}
		if longest > 0 {
			kept = append(kept, m)
		}
	}
	return kept
}

// gather adds a kind, or counts it with one that is cut alike.
func gather(kinds []kind, k kind) []kind {
	for i := range kinds {
		if other := &kinds[i]; other.base == k.base && cutAlike(&other.Blank, &k.Blank) {
			other.Quantity++
			other.numbers = append(other.numbers, k.numbers...)
			for _, m := range k.Marks {
				if m.Kind == Standing {
					other.Marks = append(other.Marks, m)
				}
			}
			return kinds
		}
	}
	return append(kinds, k)
}

// cutAlike reports whether two blanks have the same outline and holes.
func cutAlike(a, b *Blank) bool {
	same := func(p, q []r2.Vec) bool {
		return slices.EqualFunc(p, q, func(u, v r2.Vec) bool {
			return math.Abs(u.X-v.X) <= alikeEnough && math.Abs(u.Y-v.Y) <= alikeEnough
		})
	}
	return same(a.Outline, b.Outline) && slices.EqualFunc(a.Holes, b.Holes, func(g, h Hole) bool {
		return g.Diameter == h.Diameter && same(g.Outline, h.Outline)
	})
}

// regroup puts the kinds in after the blanks that they were counted with, and
// weighs the part again.
func (d *developer) regroup(kinds []kind, was []int) {
	all := d.Blanks
	d.Blanks, d.Mass = nil, 0
	count := make([]int, len(all)) // of the kinds of each
	for _, k := range kinds {
		count[k.base]++
	}
	for i := range all {
		b := all[i]
		if b.Quantity > 0 {
			moved := make(map[int]bool)
			for _, k := range kinds {
				for _, m := range k.Marks {
					moved[m.Piece] = moved[m.Piece] || k.base == i && m.Kind == Standing
				}
			}
			if b.Label != "" && b.Quantity < was[i] {
				b.Name = b.Written()
			}
			b.Marks = slices.DeleteFunc(b.Marks, func(m Mark) bool { return m.Kind == Standing && m.Piece > 0 && moved[m.Piece] })
			d.add(b)
		}
		for _, k := range kinds {
			if k.base != i {
				continue
			}
			// Two parts of one ring are as many pieces as there were, but not all.
			k.Numbers = k.numbers
			if k.Quantity < was[i] || b.Quantity > 0 || count[i] > 1 {
				k.Label = k.label()
				k.Name = k.Written()
			}
			d.add(k.Blank)
		}
	}
}

// listed writes the numbers of pieces, runs of three or more as "4 to 8".
func listed(numbers []string) string {
	var parts []string
	for i := 0; i < len(numbers); {
		j := i
		for j+1 < len(numbers) && follows(numbers[j], numbers[j+1]) {
			j++
		}
		if j-i >= 2 {
			parts = append(parts, numbers[i]+" to "+numbers[j])
			i = j + 1
			continue
		}
		parts = append(parts, numbers[i])
		i++
	}
	return strings.Join(parts, ", ")
}

func follows(a, b string) bool {
	m, err := strconv.Atoi(a)
	n, other := strconv.Atoi(b)
	return err == nil && other == nil && n == m+1
}
