package assembly

import (
	"fmt"

	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
)

// makeText says how a part is made from its blanks; "" where there is nothing to
// make.
func (m *maker) makeText(i int) string {
	p := m.part(i)
	switch {
	case p.Post != nil:
		return m.tubeText(i)
	case p.Ball != nil:
		return m.ballText(i)
	}
	if p.Base.Shape == design.Feet {
		return ""
	}
	text := "Cut " + call(p)
	if n := p.Base.Anchors; n > 0 {
		text += fmt.Sprintf(", drill its %d anchor holes", n)
	}
	return text + " and mark on it where everything stands."
}

func (m *maker) tubeText(i int) string {
	p := m.part(i)
	pieces := 0
	for k := range m.in.Items[i].Blanks {
		if m.in.Items[i].Blanks[k].Shape != flat.Disc {
			pieces++
		}
	}
	text := "Roll " + call(p)
	if p.Post.IsTaper() {
		text += " to a taper"
	}
	gap := ""
	if p.Post.Gap > 0 {
		gap = " to " + m.fine(p.Post.Gap) + " apart"
	}
	if pieces > 1 {
		text += fmt.Sprintf(" from its %d pieces, close it edge to edge%s and weld its seams", pieces, gap)
	} else {
		text += ", bring its edges together" + gap + ", and tack and weld its seam"
	}
	text += m.seamRef(i, TubeSeam) + "."
	if ref := m.seamRef(i, DiscEdge); ref != "" {
		text += " Let the disc into its head, flush, and weld it round" + ref + "."
	}
	return text
}

func (m *maker) ballText(i int) string {
	p := m.part(i)
	b := p.Ball
	switch b.Build {
	case design.Halves:
		return "Dish the two halves of " + call(p) + ", trim them to the equator, and tack and weld half to half" + m.seamRef(i, Equator) + "."
	case design.Bought:
		return "Have " + call(p) + " at hand, which is bought: measure it and weigh it."
	case design.Zones:
		rings := "rings"
		if b.Around == nil { // else an opening may leave fewer
			rings = fmt.Sprintf("%d rings", b.Zones)
		}
		text := fmt.Sprintf("Roll the %s of %s and weld their seams%s.", rings, call(p), m.seamRef(i, RingSeam))
		if ref := m.seamRef(i, RingEdge); ref != "" {
			text += " Weld ring to ring from the equator out" + ref + "."
		}
		if ref := m.seamRef(i, PoleEdge); ref != "" {
			text += " Weld the discs at the poles in last" + ref + "."
		}
		return text
	}
	how := "Roll"
	if b.Build == design.DomedGores {
		how = "Raise"
	}
	first := (b.Gores + 1) / 2
	text := fmt.Sprintf("%s the %d gores of %s. Tack them side by side into two shells, of %d and %d, then shell to shell, and weld their seams%s, opposite ones in turn.",
		how, b.Gores, call(p), first, b.Gores-first, m.seamRef(i, GoreSeam))
	if ref := m.seamRef(i, CapEdge); ref != "" {
		text += " Weld the caps in last" + ref + "."
	}
	return text
}

// makeNotes says what to take care of in making a part.
func (m *maker) makeNotes(i int) []string {
	metal := m.part(i).Metal
	if metal == nil || len(m.seams[i]) == 0 {
		return nil
	}
	switch alloy := metal.Is(); {
	case alloy.Purge:
		return []string{"Keep argon on the back of the seams: without it they burn there and rust"}
	case alloy.Coat:
		return []string{"Take the zinc off " + m.mm(CleanBand) + " from every edge, both faces, before any heat"}
	}
	return nil
}

// closeNote warns of the space that a step closes.
func (m *maker) closeNote(s *Step, k int) string {
	space, first := &m.plan.Spaces[k], m.part(m.first[k])
	name := "it"
	if s.Work != MakePart || len(space.Parts) > 1 {
		var names []string
		for _, n := range space.Parts {
			names = append(names, "'"+n+"'")
		}
		name = and(names)
	}
	switch {
	case first.Ball != nil && first.Ball.Build == design.Bought && s.Work == MakePart:
		if space.Dip > 0 {
			return "It may be closed all round: before anything is welded to it drill a vent and a drain for the bath, each " + m.atLeast(space.Dip) + " or more, at what will be its highest and its lowest point as it hangs; they stay open"
		}
		return "It may be closed all round: before anything is welded to it drill a hole of " + m.atLeast(WeldVent) + " or more, which stays open till all is cold"
	case space.Dip > 0:
		return fmt.Sprintf("This closes %s: first drill a vent and a drain for the bath, each %s or more, at what will be its highest and its lowest point as it hangs; they stay open",
			name, m.atLeast(space.Dip))
	case space.Holes > 0:
		return fmt.Sprintf("This closes %s: its vent of %s is drilled before the last seam, and stays open till all is welded and cold", name, m.fine(space.Vent))
	}
	return fmt.Sprintf("This closes %s: first drill a hole of %s or more where it will not show; it stays open till all is welded and cold",
		name, m.atLeast(WeldVent))
}

// rules are the rules by which welds were planned.
func (m *maker) rules() []string {
	return []string{
		fmt.Sprintf("Tacks: as far apart as the shop says, but no further than %s thicknesses of the sheet; on a ring at least %d. Along a seam the ends first, of a gore the middle, then always half way between two; round a ring opposite points one after the other. Common practice, no source.",
			quantity.Decimal(thinTack, 0), ringTacks),
		"Before welding clean " + m.mm(CleanBand) + " from each edge, both faces, and where something stands on a face as far around. Common practice, no source.",
		"Filler: butts as a bead of 1.5 times the thickness squared, joints as a fillet with a leg of the thickness; stubs and spatter not counted. Common practice, no source.",
		fmt.Sprintf("Never weld on or heat a closed hollow. Air shut in at %.0f °C presses %s over the outside at %.0f °C and %s at %.0f °C: it blows the last of the weld out, and water or oil in it does far worse.",
			shopHeat, m.kiloPascals(SealedPressure(Oven)), Oven, m.kiloPascals(SealedPressure(ZincBath)), ZincBath),
		"Weld in short runs from the middle out, opposite sides in turn, and let it cool between.",
	}
}
