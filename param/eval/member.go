package eval

import (
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/syntax"
)

// Members returns the names of the numbers that can be read of a part of the
// given kind, as in moon.centre.
func Members(h Host) []string {
	switch h {
	case OnBase:
		return []string{"centre", "top", "width", "depth", "diameter", "radius"}
	case OnPost:
		return []string{"centre", "diameter", "radius", "length", "foot", "head", "top"}
	case OnBowl:
		return []string{"centre", "depth", "diameter", "radius", "top"}
	}
	return []string{"centre", "diameter", "radius", "tall", "top"}
}

// member reads a number of a part, or a coordinate of a point.
func (e *evaluator) member(x *syntax.Member, s *scope) value {
	if r := e.ringOf(x.Of, s); r != nil {
		return e.ofRing(x, r)
	}
	v := e.eval(x.Of, s)
	name := syntax.British(x.Name.Text)
	switch {
	case v.kind == failed:
		return v
	case v.kind == point:
		return e.coordinate(x, v)
	case v.kind != thing:
		e.report(x.Name.At, "", "only a part has a '%s', and this is %s", name, v)
		return value{}
	case name == "weight" && v.part.feet:
		return value{kind: number, q: quantity.Quantity{Dim: quantity.Mass}}
	case name == "weight" && e.judging != nil:
		return e.result(v.part.name+".weight", quantity.Mass)
	case name == "weight":
		e.report(x.Name.At, "write what depends on it into a 'require'", "the weight of a part is known only when everything is worked out")
		return value{}
	}
	var m value
	if !v.part.feet || name == "centre" || name == "top" {
		m = memberOf(v.part.part, name)
	}
	if m.kind == failed {
		names := Members(v.part.kind())
		if name == "diameter" || name == "radius" {
			names = names[:len(names)-2] // a plate has neither
		}
		e.report(x.Name.At, e.suggest(name, append(names, "weight"), "it has "+strings.Join(names, ", ")),
			"a %s has no '%s'", v.part.kind(), name)
	}
	return m
}

func (e *evaluator) coordinate(x *syntax.Member, v value) value {
	i := strings.Index("xyz", x.Name.Text)
	if i < 0 || len(x.Name.Text) != 1 || i >= v.point.n {
		e.report(x.Name.At, "it has "+list([]string{"x", "y", "z"}[:v.point.n], "and"), "%s has no '%s'", v, x.Name.Text)
		return value{}
	}
	return v.coordinate(i)
}

// memberOf returns a number of a part; a failed value where the part has none
// of the name.
func memberOf(p *design.Part, name string) value {
	switch {
	case name == "centre":
		return space(middle(p))
	case name == "top":
		return millimetres(p.Top())
	case p.Base != nil:
		return ofBase(p.Base, name)
	case p.Post != nil:
		return ofPost(p.Post, name)
	}
	switch b := p.Ball; {
	case b.Bowl && name == "diameter":
		return millimetres(2 * b.RimRadius())
	case b.Bowl && name == "radius":
		return millimetres(b.RimRadius())
	case b.Bowl && name == "depth":
		return millimetres(b.Depth())
	case !b.Bowl && name == "tall":
		return millimetres(2 * b.Polar())
	}
	switch b := p.Ball; name {
	case "diameter":
		return millimetres(2 * b.Radius)
	case "radius":
		return millimetres(b.Radius)
	}
	return value{}
}

func ofBase(b *design.Base, name string) value {
	switch name {
	case "width":
		return millimetres(b.Width)
	case "depth":
		return millimetres(b.Depth)
	}
	switch {
	case name == "diameter" && b.Shape == design.Disc:
		return millimetres(b.Width)
	case name == "radius" && b.Shape == design.Disc:
		return millimetres(b.Width / 2)
	}
	return value{}
}

// ofPost reads a post. The diameter of a taper is that of its foot.
func ofPost(p *design.Post, name string) value {
	switch name {
	case "diameter":
		return millimetres(p.Ends[design.Foot].Diameter)
	case "radius":
		return millimetres(p.Ends[design.Foot].Diameter / 2)
	case "length":
		return millimetres(p.Length)
	case "foot":
		return space(p.Ends[design.Foot].At)
	case "head":
		return space(p.Ends[design.Head].At)
	}
	return value{}
}

// middle returns the point of a part that others point to: a ball's centre, the
// middle of a post's axis, the middle of a base's upper face.
func middle(p *design.Part) r3.Vec {
	switch {
	case p.Base != nil:
		c := p.Base.Middle()
		return p.Base.Face(c.X, c.Y)
	case p.Post != nil:
		return r3.Scale(0.5, r3.Add(p.Post.Ends[design.Foot].At, p.Post.Ends[design.Head].At))
	}
	return p.Ball.Center
}
