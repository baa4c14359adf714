package strength

import (
	"math"
	"slices"

	"stabile/fab/check"
	"stabile/fab/frame"
	"stabile/param/design"
)

// A Member is a post at one station, in its worst case.
type Member struct {
	Part    *design.Part
	Where   check.Where
	Joint   string  // the part that is fastened there, where it is a joint
	Along   float64 // mm from the foot
	Case    check.Case
	Axial   float64 // N, positive in tension
	Shear   float64 // N
	Bending float64 // N mm, without amplification
	Twist   float64 // N mm
	Stress  float64 // MPa, of axial force and amplified bending together, at the outside
	Limit   float64 // MPa, the allowable bending moment over the elastic modulus of the section
	Ratio   float64 // of what the section may carry; 1 is the limit
	Section frame.Section
	Yield   float64 // MPa, by which it is checked
	Class   Class
	Elastic float64 // MPa, the elastic buckling stress; infinite where it is never in compression
	Allowed Allowable
	Net     *Net // the section at holes; nil where there are none
}

// A Weld is the ring by which an end of a post is welded on, or the worst of those by
// which its courses are welded to each other, in its worst case.
type Weld struct {
	Part    *design.Part
	With    string      // the other part's name; "" of courses
	Where   check.Where // Foot or Head, Seat of a ball, or Round
	Along   float64     // mm from the foot, of a ring between courses
	Case    check.Case
	Line    float64 // N/mm along the weld
	Throat  float64 // mm
	Stress  float64 // MPa on the throat
	Allowed float64 // MPa
	Ratio   float64
}

// members checks every post at every station, and at the ends of posts, from the
// same cuts, the welds, the shells and the base plate.
func (s *Strength) members(f *frame.Frame, c *cases, in Input, axial []float64) {
	count := 0
	for i := range f.Posts {
		count += len(f.Posts[i].Stations)
	}
	s.Members = make([]Member, 0, count)
	s.Welds = make([]Weld, 0, 2*len(f.Posts))
	list := make([]checked, len(f.Posts))
	for i := range f.Posts {
		post := &f.Posts[i]
		yield, _ := Yield(post.Part.Metal)
		first := len(s.Members)
		for k := range post.Stations {
			s.Members = append(s.Members, member(post, k, yield))
		}
		list[i] = checked{post: post, members: s.Members[first:]}
		list[i].girdle(in.Items)
	}
	seats := s.seats(f, in.Items)
	columns := make([]frame.SectionForces, 0, c.width())
	for w := range c.windows {
		o := c.open(w)
		for i := range list {
			columns = s.post(&list[i], &o, columns, axial)
		}
		for i := range seats {
			if seat := &seats[i]; o.reaches(seat.beam) {
				columns = o.sectionForces(seat.beam, 0, columns)
				if seat.look.foot {
					o.store(cut{seat.beam, 0}, columns)
				}
				c.findIn(&seat.look, o.groups, columns)
			}
		}
	}
	for i := range list {
		p := &list[i]
		for end := range p.ends {
			if look := &p.ends[end]; look.looked {
				s.fastened(c, look, p.post.Part, end)
			}
		}
		s.courses(c, p)
		if !p.reached && c.force > 0 {
			s.Unpushed = append(s.Unpushed, p.post.Part)
		}
	}
	for i := range seats {
		s.sit(c, &seats[i])
	}
	s.threads(c, in)
	s.crowd()
	s.Members = slices.DeleteFunc(s.Members, func(m Member) bool { return m.Ratio < 0 })
}

// A span is from where to where a post's members and welds are in their lists.
type span struct{ members, welds [2]int }

// index takes note of where they are: those of a post follow each other.
func (s *Strength) index() {
	s.spans = make(map[*design.Part]span, len(s.Welds))
	for from, to := 0, 0; from < len(s.Members); from = to {
		p := s.Members[from].Part
		for to = from; to < len(s.Members) && s.Members[to].Part == p; to++ {
		}
		at := s.spans[p]
		at.members = [2]int{from, to}
		s.spans[p] = at
	}
	for from, to := 0, 0; from < len(s.Welds); from = to {
		p := s.Welds[from].Part
		for to = from; to < len(s.Welds) && s.Welds[to].Part == p; to++ {
		}
		at := s.spans[p]
		at.welds = [2]int{from, to}
		s.spans[p] = at
	}
}

// of returns the members and welds of a post.
func (s *Strength) of(p *design.Part) ([]Member, []Weld) {
	at := s.spans[p]
	return s.Members[at.members[0]:at.members[1]], s.Welds[at.welds[0]:at.welds[1]]
}

// checked is a post that is checked in one window of cases after the other.
type checked struct {
	post    *frame.Post
	members []Member  // of its stations
	ends    [2]search // at its foot and head
	rounds  []round   // the rings by which its courses are welded, in the order of stations
	reached bool      // by a push
}

// post checks a post in the cases of a window.
func (s *Strength) post(p *checked, o *opened, columns []frame.SectionForces, axial []float64) []frame.SectionForces {
	c, post, list := o.c, p.post, p.members
	for k := range post.Beams() {
		beam := post.First + k
		b := &c.frame.Beams[beam]
		if b.A == b.B || !o.reaches(beam) {
			continue
		}
		elastic := math.Inf(1)
		if p := axial[beam]; p < 0 {
			elastic = s.Buckling * -p / b.Area
		}
		for end := range 2 {
			st := k + end
			if end == 0 && k > 0 && c.frame.Beams[beam-1].A != c.frame.Beams[beam-1].B && len(post.Stations[k].Joins) == 0 {
				continue // the same cut as at the end of the beam before
			}
			columns = o.sectionForces(beam, end, columns)
			o.keep(post, k, end, columns)
			p.reached = p.reached || c.reaches(o.groups, columns)
			look, section := list[st].look(b, s.Amplification, elastic)
			var at *search // where the end of the post is looked at
			switch st {
			case 0:
				at = &p.ends[0]
				look.fasten(at, post.Part, b, 0)
			case len(list) - 1:
				at = &p.ends[1]
				look.fasten(at, post.Part, b, 1)
			default:
				if at = p.round(st); at != nil {
					look.butt(at, post.Part.Post.DiameterAt(post.Stations[st].Along)-post.Part.Metal.Thickness)
				}
			}
			c.findIn(&look, o.groups, columns)
			list[st].note(s, c, &look, section, columns)
			if at != nil {
				*at = look
			}
		}
	}
	return columns
}

// look returns the search for what is worse at a station than what is known, and
// the section there, the post's own.
func (m *Member) look(b *frame.Beam, grow, elastic float64) (search, frame.Section) {
	p := m.Part.Post
	section := b.Section
	if p.IsTaper() {
		section = frame.SectionAt(m.Part, m.Along)
	}
	a := allow(section, m.Yield, b.Modulus, elastic, p.Length)
	if m.Net != nil {
		section, a = m.Net.Section, m.Net.allow(m.Yield, b.Modulus, elastic, p.Length)
	}
	look := newSearch(a, grow, m.Ratio)
	look.elastic = elastic
	return look, section
}

// note takes down what a search found, where it is worse than what is known.
func (m *Member) note(s *Strength, c *cases, look *search, section frame.Section, columns []frame.SectionForces) {
	if look.member.at < 0 {
		return
	}
	m.Ratio, m.Case = look.member.value, c.load(look.member.at)
	m.Section, m.Class, m.Elastic, m.Allowed = section, look.allow.Class, look.elastic, look.allow
	r := c.list[look.member.at].sum(columns)
	_, m.Shear, m.Bending, m.Twist = r.Resultants()
	m.Axial = r.Axial
	m.Stress = math.Abs(m.Axial)/section.Area + s.Amplification*m.Bending/section.Elastic
	if m.Net != nil {
		m.Stress += math.Abs(m.Axial)*m.Net.Shift/section.Elastic + m.Shear*m.Net.PerShear + m.Twist*m.Net.PerTwist
	}
	m.Limit = m.Allowed.Bending / section.Elastic
}

// fasten makes a search at an end of a post look at what it is fastened by and to as
// well, for more than what was found in other windows.
func (s *search) fasten(before *search, p *design.Part, b *frame.Beam, end int) {
	if before.looked {
		s.line, s.wall, s.load, s.bending = before.line, before.wall, before.load, before.bending
	}
	at := p.Post.Ends[end]
	s.looked = true
	s.weld, s.diameter = welded(at), p.Post.Ends[end].Diameter
	ball := at.With
	if s.shell = at.Meets == design.OnBall && ball != nil && ball.Ball != nil; s.shell {
		s.out[0], s.out[1], s.out[2] = b.Local(squareTo(ball, outward(p, ball, end)))
		s.sign = [2]float64{1, -1}[end]
		s.capacity = capacityAt(p, ball, end)
	}
	if at.Meets == design.OnSide && at.With != nil && at.With.Post != nil {
		s.shell = true
		side := sideAt(p, at.With, end)
		s.out[0], s.out[1], s.out[2] = b.Local(side.out)
		s.sign = [2]float64{1, -1}[end]
		s.capacity = side.Capacity
	}
	s.foot = at.Meets == design.OnPlate
}

// fastened takes down what was found of what an end of a post is fastened by and to.
func (s *Strength) fastened(c *cases, look *search, p *design.Part, end int) {
	at := p.Post.Ends[end]
	if look.weld {
		s.weld(c, look, p, end, at)
	}
	switch {
	case !look.shell:
	case at.Meets == design.OnSide:
		sh := sideAt(p, at.With, end)
		sh.governed(c, look)
		s.Shells = append(s.Shells, sh)
	default:
		s.shell(c, look, p, at.With, end)
	}
	if look.foot {
		s.foot(look, p, end)
	}
}

// ends are the ends of a post.
var ends = [2]check.Where{check.Foot, check.Head}

// member returns a post at a station, of which nothing is known yet.
func member(post *frame.Post, k int, yield float64) Member {
	st := &post.Stations[k]
	m := Member{Part: post.Part, Along: st.Along, Where: check.Inside, Yield: yield, Ratio: -1}
	switch {
	case k == 0:
		m.Where = check.Foot
	case k == len(post.Stations)-1:
		m.Where = check.Head
	case len(st.Joins) > 0:
		m.Where, m.Joint = check.Joint, st.Joins[0].Name
	}
	if net, ok := NetAt(post.Part, st.Along); ok {
		m.Net = &net
		if m.Where == check.Inside {
			m.Where = check.Holed
		}
	}
	return m
}

const (
	// electrode is the tensile strength in MPa of the weld metal, E70 (ER70S):
	// 70 ksi.
	electrode = 482.0

	// fillet is the throat of a fillet weld over its leg, which is taken as the
	// thickness of the tube.
	fillet = math.Sqrt2 / 2

	// throatShear and baseShear are the shares of the weld metal's tensile strength and
	// of the base metal's yield that are allowed in shear: 0.60 / 2.00 on the throat,
	// AISC 360 J2.4 and Table J2.5, and 0.60 / 1.50 on the leg, J4.2.
	throatShear = 0.30
	baseShear   = 0.40
)

// LineForce returns the force in N/mm on a ring of weld of the given diameter
// that carries an axial force, a shear, a bending and a twisting moment, in N and N
// mm: the weld as a line (Blodgett, Design of Welded Structures, 7.4), with A =
// pi d, S = pi d2 / 4 and J = pi d3 / 4.
func LineForce(d, axial, shear, bending, twist float64) float64 {
	across := math.Abs(axial)/(math.Pi*d) + bending/(math.Pi*d*d/4)
	along := shear/(math.Pi*d) + twist/(math.Pi*d*d/2)
	return math.Sqrt(across*across + along*along)
}

// ThroatStress returns the stress in MPa that is allowed on the throat of a fillet
// weld between sheets of the given yield, the lower of the two: that of the weld
// metal, or that with which the base metal beside the leg, which is 1/0.707 times
// wider than the throat, carries what it may. The force is taken as shear, whichever way
// it acts.
func ThroatStress(yield float64) float64 { return min(throatShear*electrode, baseShear*yield/fillet) }

// welded reports whether an end of a post is welded on by a ring.
func welded(e design.End) bool {
	return e.Meets != design.Free && e.With != nil
}

// weld takes down the ring at an end of a post.
func (s *Strength) weld(c *cases, look *search, p *design.Part, end int, meets design.End) {
	s.ring(c, look, p, meets.With, ends[end])
}

// ring takes down the ring of weld by which a part is fastened to another.
func (s *Strength) ring(c *cases, look *search, p, with *design.Part, where check.Where) {
	t := p.Metal.Thickness
	yield, _ := Yield(p.Metal)
	if m := with.Metal; m != nil {
		other, _ := Yield(m)
		yield, t = min(yield, other), min(t, m.Thickness)
	}
	w := Weld{
		Part: p, With: with.Name, Where: where, Case: c.load(look.line.at),
		Throat: fillet * t, Allowed: min(ThroatStress(yield), fillerStress(p.Metal, with.Metal)), Line: look.line.value,
	}
	w.Stress = w.Line / w.Throat
	w.Ratio = w.Stress / w.Allowed
	s.Welds = append(s.Welds, w)
}
