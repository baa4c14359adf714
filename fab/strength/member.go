package strength

import (
	"math"
	"slices"

	"stabile/fab/frame"
	"stabile/param/design"
)

// A Member is a post at one station, in its worst case.
type Member struct {
	Part    *design.Part
	Where   string  // "foot", "head", "at NAME" or "inside"
	Along   float64 // mm from the foot
	Case    string
	Axial   float64 // N, positive for a pull
	Shear   float64 // N
	Bending float64 // N mm, without amplification
	Twist   float64 // N mm
	Stress  float64 // MPa, of axial force and amplified bending together, at the outside
	Limit   float64 // MPa, the allowable bending moment over the elastic modulus of the section
	Ratio   float64 // of what may be borne; 1 is the limit
	Section frame.Section
	Yield   float64 // MPa, by which it is checked
	Class   Class
	Elastic float64 // MPa, the elastic buckling stress; infinite where it is never pushed
	Allowed Allowable
}

// A Weld is the ring by which an end of a post is welded on, in its worst case.
type Weld struct {
	Part    *design.Part
	With    string // the other part's name
	Where   string // "foot" or "head"
	Case    string
	Line    float64 // N/mm along the weld
	Throat  float64 // mm
	Stress  float64 // MPa on the throat
	Allowed float64 // MPa
	Ratio   float64
}

// members checks every post at every station, and with the cuts that it has at
// hand the welds, shells and the base plate at the ends of posts.
func (s *Strength) members(f *frame.Frame, c *cases, pushes []float64) {
	count := 0
	for i := range f.Posts {
		count += len(f.Posts[i].Stations)
	}
	s.Members = make([]Member, 0, count)
	s.Welds = make([]Weld, 0, 2*len(f.Posts))
	columns := make([]frame.Inner, 0, c.width())
	for i := range f.Posts {
		post := &f.Posts[i]
		yield, _ := Yield(post.Part.Metal)
		first := len(s.Members)
		for k, st := range post.Stations {
			s.Members = append(s.Members, Member{Part: post.Part, Along: st.Along, Where: where(post, k), Yield: yield, Ratio: -1})
		}
		list := s.Members[first:]
		reached := false
		for k := range post.Beams() {
			b := &f.Beams[post.First+k]
			if b.A == b.B {
				continue
			}
			elastic := math.Inf(1)
			if p := pushes[post.First+k]; p < 0 {
				elastic = s.Buckling * -p / b.Area
			}
			for end := range 2 {
				st := k + end
				if end == 0 && k > 0 && list[k].Ratio >= 0 && len(post.Stations[k].Joins) == 0 {
					continue // the same cut as at the end of the beam before
				}
				columns = c.solved.Inner(post.First+k, end, columns)
				reached = reached || c.reaches(columns)
				switch {
				case st == 0:
					s.end(c, columns, b, &list[st], elastic, 0)
				case st == len(list)-1:
					s.end(c, columns, b, &list[st], elastic, 1)
				default:
					look, section := list[st].look(b, s.Amplification, elastic)
					c.find(&look, columns)
					list[st].note(s, c, &look, section, columns)
				}
			}
		}
		if !reached && len(c.pushes) > 0 {
			s.Unpushed = append(s.Unpushed, post.Part)
		}
	}
	s.Members = slices.DeleteFunc(s.Members, func(m Member) bool { return m.Ratio < 0 })
}

// look returns the search for what is worse at a station than what is known, and
// the section there, the post's own.
func (m *Member) look(b *frame.Beam, grow, elastic float64) (search, frame.Section) {
	p := m.Part.Post
	section := b.Section
	if p.IsTaper() {
		section = frame.Tube(p.DiameterAt(m.Along), m.Part.Metal.Thickness)
	}
	a := allow(section, m.Yield, b.Modulus, elastic, p.Length)
	look := newSearch(a, grow, m.Ratio)
	look.elastic = elastic
	return look, section
}

// note takes down what a search found, where it is worse than what is known.
func (m *Member) note(s *Strength, c *cases, look *search, section frame.Section, columns []frame.Inner) {
	if look.member.at < 0 {
		return
	}
	m.Ratio, m.Case = look.member.value, c.name(look.member.at)
	m.Section, m.Class, m.Elastic, m.Allowed = section, look.allow.Class, look.elastic, look.allow
	r := c.list[look.member.at].sum(columns)
	_, m.Shear, m.Bending, m.Twist = r.Resultants()
	m.Axial = r.Pull
	m.Stress = math.Abs(m.Axial)/section.Area + s.Amplification*m.Bending/section.Elastic
	m.Limit = m.Allowed.Bending / section.Elastic
}

// end checks an end of a post, its foot (0) or head (1), and what it is fastened
// by and to.
func (s *Strength) end(c *cases, columns []frame.Inner, b *frame.Beam, m *Member, elastic float64, end int) {
	p := m.Part
	meets := [2]design.End{p.Post.FootEnd, p.Post.HeadEnd}[end]
	look, section := m.look(b, s.Amplification, elastic)
	look.weld, look.diameter = welded(meets), p.Post.Diameter[end]
	ball := meets.With
	if look.shell = meets.Meets == design.OnBall && ball != nil && ball.Ball != nil; look.shell {
		look.out[0], look.out[1], look.out[2] = b.Local(outward(p, ball, end))
	}
	look.foot = end == 0 && meets.Meets == design.OnPlate
	c.find(&look, columns)
	m.note(s, c, &look, section, columns)
	if look.weld {
		s.weld(c, &look, p, end, meets)
	}
	if look.shell {
		s.shell(c, &look, p, ball, end)
	}
	if look.foot {
		s.foot(c, &look, p)
	}
}

// ends names the ends of a post.
var ends = [2]string{"foot", "head"}

// where names a station.
func where(post *frame.Post, k int) string {
	switch {
	case k == 0:
		return "foot"
	case k == len(post.Stations)-1:
		return "head"
	case len(post.Stations[k].Joins) > 0:
		return "at " + post.Stations[k].Joins[0].Name
	}
	return "inside"
}

const (
	// electrode is the tensile strength in MPa of the weld metal, E70 (ER70S):
	// 70 ksi.
	electrode = 482.0

	// fillet is the throat of a fillet weld over its leg, which is taken as the
	// thickness of the tube.
	fillet = math.Sqrt2 / 2
)

// LineForce returns the force in N/mm on a ring of weld of the given diameter
// that bears an axial force, a shear, a bending and a twisting moment, in N and N
// mm: the weld as a line (Blodgett, Design of Welded Structures, 7.4), with A =
// pi d, S = pi d2 / 4 and J = pi d3 / 4.
func LineForce(d, axial, shear, bending, twist float64) float64 {
	across := math.Abs(axial)/(math.Pi*d) + bending/(math.Pi*d*d/4)
	along := shear/(math.Pi*d) + twist/(math.Pi*d*d/2)
	return math.Sqrt(across*across + along*along)
}

// welded reports whether an end of a post is welded on by a ring.
func welded(e design.End) bool {
	return e.Meets != design.Free && e.With != nil && (e.With.Base == nil || e.With.Base.Shape != design.Feet)
}

// weld takes down the ring at an end of a post.
func (s *Strength) weld(c *cases, look *search, p *design.Part, end int, meets design.End) {
	t := p.Metal.Thickness
	yield, _ := Yield(p.Metal)
	if m := meets.With.Metal; m != nil {
		other, _ := Yield(m)
		yield, t = min(yield, other), min(t, m.Thickness)
	}
	w := Weld{
		Part: p, With: meets.With.Name, Where: ends[end], Case: c.name(look.line.at),
		Throat: fillet * t, Allowed: min(0.3*electrode, 0.6*yield), Line: look.line.value,
	}
	w.Stress = w.Line / w.Throat
	w.Ratio = w.Stress / w.Allowed
	s.Welds = append(s.Welds, w)
}
