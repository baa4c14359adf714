package offer

import (
	"fmt"
	"slices"
	"strings"

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
		ground = "Firm ground that slopes by " + whole(words.OnPaper(w.Design.Units).Degrees(s.Slope)) + " at most"
	}
	switch {
	case b == nil && w.Design.Planted():
		said = append(said, w.planted()...)
	case b == nil:
		said = append(said, ground+" under every foot")
	case b.Base.OnWall():
		said = append(said, w.wall(b.Base))
	case b.Base.Anchors > 0:
		text := fmt.Sprintf("A footing by others, and %d anchors in it", b.Base.Anchors)
		in := words.OnPaper(u)
		switch k, f := b.Base.Block, b.Base.Footing; {
		case k.Given():
			text = fmt.Sprintf("%s under a %s, about %s, by others; %d anchors in it", ground, in.Block(k), whole(u.Weight(k.Mass())), b.Base.Anchors)
		case f.Given():
			text = fmt.Sprintf("A footing by others, %s deep%s, and %d anchors in it", whole(in.BlockSize(f)), w.concrete(), b.Base.Anchors)
		}
		said = append(said, text+w.holes(b.Base))
	default:
		said = append(said, ground+" under its plate, which lies free")
	}
	if m := w.Mass.Ballast; m > 0 {
		said = append(said, whole(u.Weight(m))+" of ballast on its base")
	}
	return strings.Join(said, "; ") + "."
}

// holes says what holes the anchors of a plate go through, and how deep they hold.
func (w *offer) holes(b *design.Base) (text string) {
	u := w.Design.Units
	if d := b.AnchorDiameter; d > 0 {
		text += " through holes of " + whole(u.Length(d, quantity.Coarse))
	}
	if h := b.AnchorDepth; h > 0 {
		text += ", " + whole(u.Length(h, quantity.Coarse)) + " deep"
	}
	return text
}

// wall says what the wall must carry, and where its anchors go.
func (w *offer) wall(b *design.Base) string {
	u := w.Design.Units
	in := words.OnPaper(u)
	text := "A wall" + w.concrete() + " that carries it, by others, behind a plate of " + whole(in.Size(w.Design.Base())) +
		" with its middle " + whole(u.Length(b.Wall, quantity.Coarse)) + " over the floor"
	var pulls string
	if s := w.Strength; s != nil && s.Anchors != nil {
		if a := s.Anchors; a.ForTarget > 0 || a.ShearForTarget > 0 {
			pulls = fmt.Sprintf(", each for %s of pull and %s of shear", whole(u.Force(a.ForTarget)), whole(u.Force(a.ShearForTarget)))
		}
	}
	return text + fmt.Sprintf("; %d anchors in it", b.Anchors) + w.holes(b) + pulls
}

// planted says what holds a piece that has no base: concrete about its posts, anchors in
// what its pads stand on.
func (w *offer) planted() []string {
	in := words.OnPaper(w.Design.Units)
	var said []string
	add := func(text string) {
		if !slices.Contains(said, text) {
			said = append(said, text)
		}
	}
	for _, p := range w.Design.Parts {
		switch {
		case p.Post != nil && p.Post.Sunk > 0:
			add("Footings by others, each post set " + in.SetIn(p.Post))
		case p.Base != nil && p.Base.Pad:
			add(fmt.Sprintf("Concrete by others under each pad of %s, with %d anchors", whole(in.Size(p)), p.Base.Anchors))
		}
	}
	return said
}

// concrete says how strong the concrete under the base must be.
func (w *offer) concrete() string {
	c := w.Design.Base().Base.Concrete
	if c == 0 {
		return ""
	}
	return " of concrete of " + whole(w.Design.Units.Stress(c)) + " or more"
}

// A line is what is said of how far the piece was checked.
type line struct {
	text string
	bad  bool // it fails, or was not decided
}

// checked says in a client's words what the piece was checked for and what came of
// it: what fails and what was not decided as plainly as the rest.
func (w *offer) checked() []line {
	var list []line
	in := words.OnPaper(w.Design.Units)
	s := in.Client(w.Job)
	if len(s.Fails) > 0 {
		list = append(list, line{"Does not hold yet: " + strings.Join(s.Fails, "; ") + ".", true})
	}
	if len(s.Unmet) > 0 {
		list = append(list, line{"Required and not met yet: " + strings.Join(s.Unmet, "; ") + ".", true})
	}
	if len(s.Open) > 0 {
		list = append(list, line{"Not decided yet: " + strings.Join(s.Open, "; ") + ". This is settled before it is built.", true})
	}
	if len(s.Holds) > 0 {
		list = append(list, line{"Checked, and holds: " + strings.Join(s.Holds, "; ") + ".", false})
	}
	if len(s.Absent) > 0 {
		list = append(list, line{"Not checked, since its place is taken to have none: " + strings.Join(s.Absent, "; ") + ".", false})
	}
	if with := w.loads(); len(with) > 0 {
		list = append(list, line{"Checked for " + strings.Join(with, "; ") + ".", false})
	}
	if tilt := in.Tilt(w.Job); tilt != "" {
		list = append(list, line{tilt, false})
	}
	if blown := in.TipsInWind(w.Job); blown != "" {
		list = append(list, line{"It " + blown + ".", false})
	}
	return list
}

// loads returns what the standing was checked for.
func (w *offer) loads() []string {
	u := w.Design.Units
	var with []string
	s := w.Design.Site
	if s == nil {
		return nil
	}
	if w.Wind != nil {
		with = append(with, "wind of "+whole(u.Speed(s.Wind)))
	}
	if s.Push > 0 && s.PushHeight > 0 {
		with = append(with, fmt.Sprintf("a push of %s at a height of %s", whole(u.Force(s.Push)), whole(u.Length(s.PushHeight, quantity.Coarse))))
	}
	if s.Slope > 0 {
		with = append(with, "ground that slopes by "+whole(words.OnPaper(w.Design.Units).Degrees(s.Slope)))
	}
	return with
}
