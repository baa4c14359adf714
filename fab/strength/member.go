package strength

import (
	"math"

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
	cuts := make([]cut, 0, len(c.list))
	columns := [2][]frame.Cut{make([]frame.Cut, c.width()), make([]frame.Cut, c.width())}
	for i := range f.Posts {
		post := &f.Posts[i]
		yield, _ := Yield(post.Part.Metal)
		list := make([]Member, len(post.Stations))
		for k, st := range post.Stations {
			list[k] = Member{Part: post.Part, Along: st.Along, Where: where(post, k), Yield: yield, Ratio: -1}
		}
		for k := range post.Beams() {
			b := &f.Beams[post.First+k]
			if b.A == b.B {
				continue
			}
			c.columns(post.First+k, columns[0], columns[1])
			elastic := math.Inf(1)
			if p := pushes[post.First+k]; p < 0 {
				elastic = s.Buckling * -p / b.Area
			}
			for end := range 2 {
				st := k + end
				if end == 0 && k > 0 && list[k].Ratio >= 0 && len(post.Stations[k].Joins) == 0 {
					continue // the same cut as at the end of the beam before
				}
				cuts = c.cuts(cuts[:0], columns[end])
				list[st].check(s, cuts, b, elastic)
				switch {
				case st == 0:
					s.end(cuts, b, post.Part, 0)
				case st == len(list)-1:
					s.end(cuts, b, post.Part, 1)
				}
			}
		}
		for _, m := range list {
			if m.Ratio >= 0 {
				s.Members = append(s.Members, m)
			}
		}
	}
}

// check takes the worst of the cases where it is worse than what is known. The
// section is the post's own at the station.
func (m *Member) check(s *Strength, cuts []cut, b *frame.Beam, elastic float64) {
	p := m.Part.Post
	section := b.Section
	if p.IsTaper() {
		section = frame.Tube(p.DiameterAt(m.Along), m.Part.Metal.Thickness)
	}
	a := allow(section, m.Yield, b.Modulus, elastic, p.Length)
	at := -1
	worst := m.Ratio
	for n := range cuts {
		pull, shear, bending, twist := cuts[n].Resultants(b.Axis)
		if r := a.Ratio(pull, shear, s.Amplification*bending, twist); r > worst {
			worst, at = r, n
		}
	}
	if at < 0 {
		return
	}
	m.Ratio, m.Case = worst, cuts[at].in.name()
	m.Section, m.Class, m.Elastic, m.Allowed = section, a.Class, elastic, a
	m.Axial, m.Shear, m.Bending, m.Twist = cuts[at].Resultants(b.Axis)
	m.Stress = math.Abs(m.Axial)/section.Area + s.Amplification*m.Bending/section.Elastic
	m.Limit = a.Bending / section.Elastic
}

// end checks what an end of a post, its foot (0) or head (1), is fastened by and
// to.
func (s *Strength) end(cuts []cut, b *frame.Beam, p *design.Part, end int) {
	meets := [2]design.End{p.Post.FootEnd, p.Post.HeadEnd}[end]
	s.weld(cuts, b, p, end, meets)
	s.shell(cuts, p, end, meets)
	if end == 0 && meets.Meets == design.OnPlate {
		s.foot(cuts, b, p)
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

// weld checks the ring at an end of a post.
func (s *Strength) weld(cuts []cut, b *frame.Beam, p *design.Part, end int, meets design.End) {
	if meets.Meets == design.Free || meets.With == nil || (meets.With.Base != nil && meets.With.Base.Shape == design.Feet) {
		return
	}
	t := p.Metal.Thickness
	yield, _ := Yield(p.Metal)
	if m := meets.With.Metal; m != nil {
		other, _ := Yield(m)
		yield, t = min(yield, other), min(t, m.Thickness)
	}
	at := -1
	w := Weld{Part: p, With: meets.With.Name, Where: ends[end], Throat: fillet * t, Allowed: min(0.3*electrode, 0.6*yield), Line: -1}
	for n := range cuts {
		pull, shear, bending, twist := cuts[n].Resultants(b.Axis)
		if line := LineForce(p.Post.Diameter[end], pull, shear, s.Amplification*bending, twist); line > w.Line {
			w.Line, at = line, n
		}
	}
	w.Case = cuts[at].in.name()
	w.Stress = w.Line / w.Throat
	w.Ratio = w.Stress / w.Allowed
	s.Welds = append(s.Welds, w)
}
