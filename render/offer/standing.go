package offer

import (
	"fmt"
	"regexp"
	"strings"

	"stabile/fab"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/words"
)

// whole keeps the words of a measure on one line.
func whole(s string) string { return strings.ReplaceAll(s, " ", noBreak) }

// needs says what holds the piece up.
func (w *offer) needs() string {
	var said []string
	u := w.Design.Units
	b := w.Design.Base()
	ground := "Firm, level ground"
	if s := w.Design.Site; s != nil && s.Slope > 0 {
		ground = "Firm ground that slopes by " + whole(quantity.Degrees(s.Slope)) + " at most"
	}
	switch {
	case b == nil || b.Base.Shape == design.Feet:
		said = append(said, ground+" under every foot")
	case b.Base.Anchors > 0:
		text := fmt.Sprintf("A footing by others, and %d anchors in it", b.Base.Anchors)
		if d := b.Base.AnchorDiameter; d > 0 {
			text += " through holes of " + whole(u.Length(d, quantity.Coarse))
		}
		said = append(said, text)
	default:
		said = append(said, ground+" under its plate, which lies free")
	}
	if m := w.Mass.Ballast; m > 0 {
		said = append(said, whole(u.Weight(m))+" of ballast laid on its base")
	}
	return strings.Join(said, "; ") + "."
}

// A check is what came of something that the piece was, or was not, tried with.
type check struct {
	text string
	bad  bool // it does not do, or was not checked
}

// checks says in a client's words what was reckoned with and what came of it: what
// fails and what was not checked as plainly as the rest.
func (w *offer) checks() []check {
	var list []check
	good := func(format string, args ...any) { list = append(list, check{text: fmt.Sprintf(format, args...)}) }
	bad := func(format string, args ...any) { list = append(list, check{fmt.Sprintf(format, args...), true}) }
	with, without := w.loads()
	if len(with) > 0 {
		good("Reckoned with: %s.", strings.Join(with, "; "))
	}
	if w.Strength == nil {
		without = append(without, "its strength")
	}
	if len(without) > 0 {
		bad("Not checked: %s.", strings.Join(without, "; "))
	}
	w.standing(good, bad)
	if s := w.Strength; s != nil && s.Worst > 1 {
		bad("It is not strong enough as drawn: its worst part bears %s times what it may.", words.Use(s.Worst))
	}
	failed := 0
	for _, r := range w.Requirements {
		switch {
		case r.Outcome.Unchecked:
			bad("Asked for, but not checked: %s.", asked(r, false))
		case !r.Outcome.Holds:
			failed++
			bad("Asked for, but not met as drawn: %s.", asked(r, true))
		}
	}
	faults := -failed // each of these is a fault too
	for _, f := range w.Findings {
		if f.Level.Fails() {
			faults++
		}
	}
	switch {
	case faults == 1:
		bad("The drawing has a fault, to be mended before it is made.")
	case faults > 1:
		bad("The drawing has %d faults, to be mended before it is made.", faults)
	}
	return list
}

// loads returns what the standing was reckoned with, and what of the usual it was
// not.
func (w *offer) loads() (with, without []string) {
	u := w.Design.Units
	s := w.Design.Site
	if s == nil {
		s = &design.Site{}
	}
	if w.Wind != nil {
		with = append(with, "wind of "+whole(u.Speed(s.Wind)))
	} else {
		without = append(without, "wind")
	}
	if pushed(s) && w.Tipping.Loaded {
		with = append(with, fmt.Sprintf("a push of %s at a height of %s", whole(u.Force(s.Push)), whole(u.Length(s.PushHeight, quantity.Coarse))))
	} else {
		without = append(without, "being pushed or leaned on")
	}
	if s.Slope > 0 && w.Tipping.Loaded {
		with = append(with, "ground that slopes by "+whole(quantity.Degrees(s.Slope)))
	}
	return with, without
}

func pushed(s *design.Site) bool { return s != nil && s.Push > 0 && s.PushHeight > 0 }

// standing says whether the piece stands under what it was reckoned with.
func (w *offer) standing(good, bad func(format string, args ...any)) {
	t := w.Tipping
	anchored := t.Anchors > 0
	switch {
	case len(t.Edges) == 0:
		bad("It does not stand by itself as drawn.")
		return
	case !t.Stable() && anchored:
		bad("Without its anchors it falls over by itself. Whether they hold in their ground was not checked.")
		return
	case !t.Stable():
		bad("As drawn it falls over by itself.")
		return
	case !t.Loaded:
		return
	case t.Reached() && w.Wind == nil && !pushed(w.Design.Site):
		good("Its own weight%s holds it upright on that slope, by itself.", w.ballasted())
	case t.Reached():
		good("Its own weight%s holds it upright against these.", w.ballasted())
	case anchored:
		bad("Its own weight%s holds only %s times what would tip it, and %s times is wanted: its anchors must hold it. Whether they do in their ground was not checked.",
			w.ballasted(), words.Factor(t.Factor), words.Factor(t.Target))
	default:
		bad("As drawn it does not stand safely by itself: its weight%s holds %s times what would tip it, and %s times is wanted.",
			w.ballasted(), words.Factor(t.Factor), words.Factor(t.Target))
	}
}

func (w *offer) ballasted() string {
	if w.Mass.Ballast > 0 {
		return " with the ballast"
	}
	return ""
}

// jargon are the names of figures that a client does not know.
var jargon = regexp.MustCompile(`\b(tipping|strength|wind|frequency)\b`)

// plainly returns what a name of jargon stands for.
func plainly(name string) string {
	switch name {
	case "tipping":
		return "a factor against tipping of"
	case "strength":
		return "a share used of its strength of"
	case "wind":
		return "a force of the wind of"
	}
	return "a swing of"
}

// asked writes what the design asks for in words, with what it came to where that
// is wanted. What a client is not told unasked, such as what it costs, is named
// without its figures.
func asked(r fab.Requirement, came bool) string {
	switch {
	case strings.Contains(r.Text, "cost"):
		return "the shop's own limit on what it costs"
	case strings.Contains(r.Text, "sheets"):
		return "the shop's own limit on the sheets that it takes"
	}
	text := jargon.ReplaceAllStringFunc(r.Text, plainly)
	text = strings.NewReplacer("<=", "at most", ">=", "at least", "==", "exactly", "!=", "other than", "<", "under", ">", "over").Replace(text)
	if r.Why != "" {
		text += " (" + r.Why + ")"
	}
	if came {
		text += "; it is " + r.Outcome.Value
	}
	return text
}
