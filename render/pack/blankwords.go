package pack

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// A legend is how the blanks on a page are laid out: what is alike for all of a kind,
// said once at the foot of the page.
type legend []string

// legend returns what holds for panels, kind by kind.
func (k *pack) legend(list []*blankPanel) legend {
	var l legend
	add := func(is func(b *blankPanel) bool, text string) {
		if slices.ContainsFunc(list, is) {
			l = append(l, text)
		}
	}
	add(func(b *blankPanel) bool { return b.Bought != nil && b.table != nil },
		"Pipe and tube: the drawing is a template, as long round as the outside. Print it at full size or lay it out on paper, wrap it round with the head up, its ends meeting at the bearing of its left edge, and trim to it: sawn ends flat through the whole wall, others square through the wall.")
	add(func(b *blankPanel) bool { return b.Shape == flat.Tube && b.table != nil && b.Bought == nil },
		"Tubes: outside and head up. Stations run "+words.Station(flat.FromBottom)+". Ordinates: foot "+ordinateFrom(flat.FromBottom)+
			", head "+ordinateFrom(flat.FromTop)+". Cut square along a batten; where the wall touches first it fits.")
	ofBowl := func(b *blankPanel) bool { return len(b.Ordinates) > 0 && b.Ordinates[0].From == flat.FromRim }
	add(func(b *blankPanel) bool { return b.Shape == flat.Gore && b.table != nil && ofBowl(b) },
		"Gores of bowls: half widths "+words.Ordinate(flat.FromRim)+", stations "+words.Station(flat.FromRim)+". Roll one way only.")
	ofBall := func(b *blankPanel) bool { return b.Shape == flat.Gore && b.table != nil && !ofBowl(b) }
	rolled := ""
	if slices.ContainsFunc(list, func(b *blankPanel) bool { return ofBall(b) && b.Forming.How == "roll" }) {
		rolled = " Roll one way only."
	}
	add(ofBall, "Gores: half widths "+words.Ordinate(flat.FromCentre)+", stations along it from the middle."+rolled)
	add(func(b *blankPanel) bool { return b.Fan != nil },
		"Cones: the rolls lie along the bend lines, which point to the apex; the wide edge of a ball's ring lies toward its equator.")
	marked := func(b *blankPanel) bool { t, _ := b.marksOfPieces(); return t != nil }
	const across = "how far they reach left and right of the centre line (right +), low and high of the "
	add(func(b *blankPanel) bool { return marked(b) && !ofBowl(b) }, "Marks of pieces: "+across+"middle (up +).")
	add(func(b *blankPanel) bool { return marked(b) && ofBowl(b) }, "Marks of pieces of bowls: "+across+"rim (up +).")
	return l
}

// ordinateFrom says from which edge of the rectangle about a flat ordinates are measured.
func ordinateFrom(l flat.Line) string {
	return strings.TrimSuffix(words.Ordinate(l), " of the rectangle")
}

func (l legend) words(f *sheet.Flow) {
	for _, text := range l {
		f.Paragraph(text)
	}
}

// words writes what must be known beside the drawing: what to write on the pieces,
// how they are formed and laid out, and what the bench must know besides.
func (b *blankPanel) words(f *sheet.Flow) {
	c := b.cut
	say := func(text string) { f.Item("–", ink.Regular, text) }
	weight := b.units.Weight(b.Mass)
	if c.Quantity > 1 {
		weight += " each, " + b.units.Weight(b.Mass*float64(c.Quantity)) + " in all"
	}
	say("Write on: " + b.names() + ". " + weight + ".")
	say(b.formingOf())
	if isSided(b.Blank) {
		say("The dashed rectangle is construction; cut along the sides from corner to corner.")
		if len(b.Holes) > 0 {
			say(b.holesFrom())
		}
	}
	if b.Fan != nil {
		say(b.layingOut(b.Fan))
		if isTrimmed(b.Blank) {
			say(fmt.Sprintf("The arcs and straight edges are construction, partly off the metal; what is cut measures %s × %s.", b.both(b.Width), b.both(b.Length)))
		}
	}
	if ends := b.ends(); ends != "" {
		say(ends)
	}
	if turned := b.turned(); turned != "" {
		say(turned)
	}
	b.holePlaces(say)
	b.notes(false, say)
	if b.Fan != nil {
		f.Gap(1)
		f.Table(b.arcTable(b.Fan))
	}
	if marks, _ := b.marksOfPieces(); marks != nil {
		f.Gap(1)
		f.Table(marks)
	}
}

// names returns what is written on the pieces: of each part as its own blank has it.
func (b *blankPanel) names() string {
	var names []string
	for _, n := range b.cut.Names {
		names = append(names, b.written(n))
	}
	return strings.Join(names, "; ")
}

// turned says which of the pieces of a ring are set turned end for end.
func (b *blankPanel) turned() string {
	if len(b.cut.Turned) == 0 {
		return ""
	}
	return words.Names(b.cut.Turned) + " turned end for end: foot is then head, 90° 270°; so seams come by turns to either side."
}

// written returns what is written on the pieces of a blank.
func (k *pack) written(name string) string {
	for i := range k.job.Parts {
		for j := range k.job.Parts[i].Blanks {
			if b := &k.job.Parts[i].Blanks[j]; b.Name == name {
				return b.Written()
			}
		}
	}
	return name
}

// formingOf says how the blank is formed, but for what the legend says.
func (b *blankPanel) formingOf() string {
	form := b.Forming
	switch form.How {
	case "saw":
		return "Not rolled: saw it from " + b.Metal.Name + " and wrap this template round its outside."
	case "roll":
		return "Roll to mean radius " + b.both(form.MeanRadius) + ", outside face out."
	case "cone":
		wide, narrow := max(form.Radii[0], form.Radii[1]), min(form.Radii[0], form.Radii[1])
		return fmt.Sprintf("Roll to a cone: mean radius %s at the wide edge, %s at the narrow one, outside face out.", b.both(wide), b.both(narrow))
	}
	return b.forming(b.Blank)
}

// ends says what the ends of a tube fit, in one sentence.
func (b *blankPanel) ends() string {
	var says []string
	for _, n := range b.Notes {
		switch n := n.(type) {
		case flat.SquareEnd:
			says = append(says, n.End+" square")
		case flat.FiledEnd:
			says = append(says, n.End+" square: file to fit "+words.Target(n.On)+" within "+b.units.Exact(n.Off))
		case flat.CourseEnd:
			text := n.End + " square, welded round to the course above"
			if n.End == "foot" {
				text = n.End + " square, welded round to the course below"
			}
			if n.Gap > 0 {
				text += " with a root gap of " + b.units.Exact(n.Gap)
			}
			says = append(says, text)
		case flat.CurvedEnd:
			text := n.End + " fits " + words.Target(n.On)
			for _, m := range b.Notes {
				if s, ok := m.(flat.Scallops); ok && s.End == n.End {
					text += " and its lobes, to " + b.units.Exact(s.Depth)
				}
			}
			says = append(says, text)
		case flat.SawnEnd:
			says = append(says, fmt.Sprintf("%s sawn %s off square, longest at %s, fits %s", n.End, degrees(n.Angle), bearing(n.Long), words.Target(n.On)))
		case flat.CopedEnd:
			text := n.End + " coped to fit " + words.Target(n.On)
			for _, m := range b.Notes {
				if s, ok := m.(flat.Scallops); ok && s.End == n.End {
					text += " and its lobes, to " + b.units.Exact(s.Depth)
				}
			}
			says = append(says, text)
		case flat.FootBelow:
			says = append(says, "foot reaches "+b.units.Exact(n.By)+" under its axis point")
		}
	}
	if len(says) == 0 {
		return ""
	}
	return words.Capital(strings.Join(says, "; ")) + "."
}

// inLegend reports whether a note says what the legend, the ends or the forming say.
func (b *blankPanel) inLegend(n any) bool {
	switch n := n.(type) {
	case flat.SeamEdge, flat.SquareEnd, flat.FiledEnd, flat.CourseEnd, flat.CurvedEnd, flat.FootBelow, flat.WrapTemplate, flat.SawnEnd, flat.CopedEnd:
		return true
	case flat.Scallops:
		return true
	case flat.Care:
		return n == flat.OneWay
	case flat.ConeRing, flat.Arcs:
		return b.Fan != nil
	}
	return false
}

// notes says what the bench must know besides. Openings that are in a table are not said
// again.
func (b *blankPanel) notes(tabled bool, say func(string)) {
	if len(b.Ordinates) > 0 && b.Fan != nil {
		var edges []string
		for _, o := range b.Ordinates {
			edges = append(edges, string(o.Edge)+" "+words.Ordinate(o.From))
		}
		say("Ordinates: " + strings.Join(edges, ", ") + "; stations " + words.Station(b.Ordinates[0].From) + ".")
	}
	if len(b.Feet) > 0 {
		tick := "where the seam of the tube stands"
		if slices.ContainsFunc(b.job.Parts, func(p fab.Part) bool {
			return slices.ContainsFunc(p.Blanks, func(b flat.Blank) bool { return b.Templated() })
		}) {
			tick += ", or of pipe the line where its template met"
		}
		say("Scribe the centre lines and every foot, and write its name beside it; the tick across an outline is " + tick + ".")
	}
	if b.Diameter > 0 && len(b.Holes) > 0 && len(b.Feet) > 0 {
		var holes []string
		for _, h := range b.Holes {
			holes = append(holes, fmt.Sprintf("%s at %s", bearing(math.Atan2(h.Center.Y, h.Center.X)), b.fine(r2.Norm(h.Center))))
		}
		say("Holes from the middle, by bearing: " + strings.Join(holes, ", ") + ".")
	}
	if _, many := b.marksOfPieces(); many {
		say("The marks of single pieces are many: take them from the files of the pieces for the cutting table, which have each piece's own.")
	}
	openings, opened := b.openings()
	if openings != "" && !tabled {
		say(openings)
	}
	for _, n := range b.Notes {
		if _, tips := n.(flat.BluntTips); b.inLegend(n) || opened == 2 && tips {
			continue // said elsewhere, or cut away
		}
		say(b.sentence(n))
		if _, open := n.(flat.OpenedFor); openings == "" && open {
			say("Trace the opening from the full-size pattern.")
		}
	}
}
