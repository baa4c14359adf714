package terminal

import (
	"fmt"

	"stabile/fab"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/words"
)

// inOneLine says what stands there: how many of what, how large, how heavy.
func inOneLine(j *fab.Job) string {
	u := j.Design.Units
	var posts, balls, bowls, sunk int
	on := ""
	for _, p := range j.Parts {
		switch {
		case p.Post != nil && p.Post.Ring != nil: // counted with its ring
		case p.Post != nil:
			posts++
			if p.Post.Sunk > 0 {
				sunk++
			}
		case p.Ball != nil && p.Ball.Bowl:
			bowls++
		case p.Ball != nil:
			balls++
		default:
			on = map[design.BaseShape]string{
				design.Plate:   " on a plate",
				design.Disc:    " on a round plate",
				design.Polygon: " on a plate",
			}[p.Base.Shape]
			switch {
			case p.Base.Pad:
				on = " on pads"
			case p.Base.OnWall():
				on = " on a wall"
			}
			if k := p.Base.Block; k.Given() {
				on += " on a block of " + string(k.Of)
			}
		}
	}
	switch {
	case on != "":
	case sunk > 0:
		on = " set in the ground"
	case posts+balls+bowls+len(j.Design.Rings) == 1:
		on = " on its own feet"
	default:
		on = " on their own feet"
	}
	var what []string
	if posts > 0 {
		what = append(what, words.Count(posts, "post"))
	}
	if rings := len(j.Design.Rings); rings > 0 {
		what = append(what, words.Count(rings, "ring"))
	}
	if balls > 0 {
		what = append(what, words.Count(balls, "ball"))
	}
	if bowls > 0 {
		what = append(what, words.Count(bowls, "bowl"))
	}
	if len(what) == 0 {
		what = append(what, "Nothing yet")
	}
	return fmt.Sprintf("%s%s: %s wide, %s deep and %s high, about %s.",
		words.And(what), on,
		u.Length(j.Size.Width, quantity.Coarse),
		u.Length(j.Size.Depth, quantity.Coarse),
		u.Length(j.Size.Height, quantity.Coarse),
		u.Weight(j.Mass.Total))
}

// what says what a part is and what it stands on.
func what(u quantity.System, p *design.Part, host string) string {
	switch {
	case p.Base != nil:
		return base(u, p.Base)
	case p.Post != nil:
		s := "post"
		switch end := p.Post.Ends[design.Head].With; {
		case host != "" && p.Post.Between && end != nil:
			s += " from " + host + " to " + end.Name
		case host != "":
			s += " on " + host
		}
		if bought := words.Bought(p.Post); bought != "" {
			s += ", " + bought
		}
		switch {
		case p.StraightOut():
			s += ", straight out"
		case p.Post.Lean != 0:
			s += ", leans " + quantity.Degrees(p.Post.Lean) + " toward " + quantity.Bearing(p.Post.LeanBearing)
		}
		switch {
		case p.Post.Courses > 0:
			s += fmt.Sprintf(", in %d courses", p.Post.Courses)
		case p.Post.InCourses():
			s += ", in courses"
		}
		if p.Post.Sunk > 0 {
			s += ", " + words.In(u).SetIn(p.Post)
		}
		if p.Post.Ends[design.Head].Disc && p.Post.Ends[design.Head].Meets == design.Free {
			s += ", head closed by a disc"
		}
		return s
	}
	s := words.Shape(p)
	if host != "" {
		s += " on " + host
	}
	switch p.Ball.Build {
	case design.RolledGores:
		if p.Ball.IsEgg() {
			s += fmt.Sprintf(", %d gores bent one way", p.Ball.Gores)
			break
		}
		s += fmt.Sprintf(", %d rolled gores", p.Ball.Gores)
	case design.DomedGores:
		s += fmt.Sprintf(", %d domed gores", p.Ball.Gores)
	case design.Halves:
		if p.Ball.Bowl {
			s += ", dished"
			break
		}
		s += ", two halves"
	case design.Zones:
		s += fmt.Sprintf(", %d zones", p.Ball.Zones)
	case design.Bought:
		s += ", bought"
	}
	return s
}

func base(u quantity.System, b *design.Base) string {
	text := "base plate" + anchors(b)
	switch {
	case b.Pad:
		text = "pad" + anchors(b)
	case b.OnWall():
		text = "plate on a wall, its middle " + u.Length(b.Wall, quantity.Coarse) + " up" + anchors(b)
	}
	if b.Shape == design.Disc {
		text = "round " + text
	}
	switch {
	case b.Block.Given():
		text += ", on a " + words.In(u).Block(b.Block)
	case b.Footing.Given():
		text += ", on a footing of " + words.In(u).BlockSize(b.Footing)
	}
	return text
}

func anchors(b *design.Base) string {
	if b.Anchors == 0 {
		return ""
	}
	return ", " + words.Count(b.Anchors, "anchor hole")
}

// size says how large a part is, in the units of the shop: a plate's sides, a
// post's diameter and length, a ball's diameter.
func size(u quantity.System, p *design.Part) string { return words.In(u).Size(p) }

// sheet names a metal with its gauge or thickness: "skin, 18 ga".
func sheet(u quantity.System, m *design.Metal) string {
	switch {
	case m == nil:
		return ""
	case m.Gauge != 0:
		return fmt.Sprintf("%s, %d ga", m.Name, m.Gauge)
	case m.Ounces != 0:
		return fmt.Sprintf("%s, %d oz", m.Name, m.Ounces)
	}
	return m.Name + ", " + words.In(u).Thickness(m.Thickness)
}
