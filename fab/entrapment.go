package fab

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/people"
	"stabile/param/design"
)

// Trapped: a gap between parts, or a hole in one, holds a head, a neck or a finger.
type Trapped struct {
	Trap   people.Trap
	With   string  // the other part; "" of a hole
	Hole   string  // the hole, or all of a row, without an index; "" of a gap
	Width  float64 // mm, at the widest
	Height float64 // mm, of its lower edge above the ground
}

// TrapsUnknown: the gaps are there, and whether people come to them is not given.
type TrapsUnknown struct{ Trapped }

// Fact marks the facts.
func (Trapped) Fact()      {}
func (TrapsUnknown) Fact() {}

const trapSource = "US public playground safety handbook; probes of EN 1176-1, from memory"

// mostPairs is the number of pairs of parts that are gone through for gaps: those of 1,000.
const mostPairs = 500e3

// entrapment adds the checks of gaps that trap: one for each that does, or one that
// holds.
func (b *builder) entrapment() {
	j := b.Job
	site := j.site()
	ok := check.Check{ID: check.Entrapment, Verdict: check.Holds, Source: trapSource, Concern: finding.Life}
	if site.People == design.NoPeople {
		ok.Why = NoneHere{}
		j.Checks = append(j.Checks, ok)
		return
	}
	if n := len(j.Design.Parts); n*n/2 > mostPairs {
		ok.Verdict, ok.Why = check.Undecided, NotWorkedOut{Result: "entrapment"}
		j.Checks = append(j.Checks, ok)
		return
	}
	found := false
	for _, g := range gaps(j.Design, j.Ties) {
		trap := g.Traps()
		if trap == people.NoTrap {
			continue
		}
		found = true
		fact := Trapped{Trap: trap, With: g.b.Name, Width: g.Width, Height: g.Height}
		c := check.Check{ID: check.Entrapment, Part: g.a.Name, With: g.b.Name, Verdict: check.Fails, Source: trapSource, Concern: finding.Life}
		if site.People == design.UnknownPeople {
			c.Verdict, c.Why = check.Undecided, TrapsUnknown{fact}
		} else {
			b.trapped = append(b.trapped, finding.Finding{
				Level: finding.Danger, Concern: finding.Life, Parts: []string{g.a.Name}, Check: string(check.Entrapment), Fact: fact,
			})
		}
		j.Checks = append(j.Checks, c)
	}
	for i := range j.Parts {
		found = b.holesTrap(&j.Parts[i]) || found
	}
	found = b.wallGaps() || found
	if !found {
		j.Checks = append(j.Checks, ok)
	}
}

// holesTrap adds a check for the holes of each name in a part that trap: a hole is a gap that
// is bounded all round. It reports whether there are any. Those in a base lie on the ground.
func (b *builder) holesTrap(p *Part) (found bool) {
	if p.Base != nil {
		return false
	}
	site := b.site()
	said := map[string]bool{}
	for i := range p.Openings {
		o := &p.Openings[i]
		name, _, _ := strings.Cut(o.Hole.Name, "[")
		if o.Hole.Joint != nil || said[name] {
			continue
		}
		g := people.Gap{
			Width: min(o.Hole.Width, o.Hole.Height), Length: max(o.Hole.Width, o.Hole.Height),
			Height: math.Inf(1), Bounded: true,
		}
		for _, x := range o.Edge {
			g.Height = min(g.Height, x.Z)
		}
		trap := g.Traps()
		if trap == people.NoTrap {
			continue
		}
		said[name], found = true, true
		fact := Trapped{Trap: trap, Hole: name, Width: g.Width, Height: g.Height}
		c := check.Check{ID: check.Entrapment, Part: p.Name, Verdict: check.Fails, Source: trapSource, Concern: finding.Life}
		if site.People == design.UnknownPeople {
			c.Verdict, c.Why = check.Undecided, TrapsUnknown{fact}
		} else {
			b.trapped = append(b.trapped, finding.Finding{
				Level: finding.Danger, Concern: finding.Life, Parts: []string{p.Name}, Check: string(check.Entrapment), Fact: fact,
			})
		}
		b.Checks = append(b.Checks, c)
	}
	return found
}

// A space is a gap between two parts.
type space struct {
	people.Gap
	a, b *design.Part
}

// gaps returns the spaces between posts and balls below people's reach: those that a
// ring of parts closes, and those that open upward from a joint.
func gaps(d *design.Design, ties *design.Ties) (list []space) {
	met := meetings(ties)
	rings := rings{blocks(ties, true), blocks(ties, false)}
	for i, a := range d.Parts {
		if a.Base != nil {
			continue
		}
		for k, b := range d.Parts[:i] {
			if b.Base != nil {
				continue
			}
			if sameRing(a, b) {
				continue
			}
			if met[meeting{k, i}] {
				if g, ok := vee(a, b); ok {
					list = append(list, space{g, b, a})
				}
				continue
			}
			closed, ground := rings.round(i, k)
			if !closed {
				continue
			}
			if g, ok := between(a, b); ok {
				g.Bounded, g.Ground = true, ground
				list = append(list, space{g, b, a})
			}
		}
	}
	for _, r := range d.Rings {
		list = append(list, opening(r))
	}
	slices.SortStableFunc(list, func(x, y space) int { return int(x.Height - y.Height) })
	return list
}

// sameRing reports whether two parts are tubes of one ring, whose opening is one gap.
func sameRing(a, b *design.Part) bool {
	return a.Post != nil && b.Post != nil && a.Post.Ring != nil && a.Post.Ring == b.Post.Ring
}

// opening returns the space within a ring, from its first tube to the one over against it.
// One that lies on the base or the ground has that under it.
func opening(r *design.Ring) space {
	clear := r.Across - 2*r.Tubes[0].Post.Ends[design.Foot].Diameter
	g := people.Gap{Width: clear, Length: clear, Height: r.Center.Z, Bounded: true, Ground: r.Flat && r.Tubes[0].Post.Lies}
	if !r.Flat {
		g.Height -= clear / 2
	}
	return space{g, r.Tubes[0], r.Tubes[len(r.Tubes)/2]}
}

// A meeting is two parts that are fastened to each other, by their numbers, the lower
// first.
type meeting [2]int

// meetings returns which parts are fastened to each other.
func meetings(ties *design.Ties) map[meeting]bool {
	m := make(map[meeting]bool, len(ties.List))
	for i := range ties.List {
		t := &ties.List[i]
		m[meeting{min(t.A, t.B), max(t.A, t.B)}] = true
	}
	return m
}

// axis returns the line through the middle of a part and the radius about it.
func axis(p *design.Part) (from, to r3.Vec, radius float64) {
	if b := p.Ball; b != nil {
		return b.Center, b.Center, b.Radius
	}
	e := p.Post.Ends
	return e[design.Foot].At, e[design.Head].At, max(e[design.Foot].Diameter, e[design.Head].Diameter) / 2
}

// between returns the space between two parts where they face each other: how wide it is
// at the widest, and how long.
func between(a, b *design.Part) (g people.Gap, ok bool) {
	const stations = 60
	of := [2]*design.Part{a, b}
	af, at, ar := axis(a)
	bf, bt, br := axis(b)
	if r3.Norm(r3.Sub(at, af)) < r3.Norm(r3.Sub(bt, bf)) {
		af, at, ar, bf, bt, br = bf, bt, br, af, at, ar
		of[0], of[1] = b, a
	}
	way := r3.Sub(bt, bf)
	square := r3.Norm2(way)
	g.Height = math.Inf(1)
	faces := 0
	for k := range stations + 1 {
		p := r3.Add(af, r3.Scale(float64(k)/stations, r3.Sub(at, af)))
		share := 0.0
		if square > 0 {
			share = r3.Dot(r3.Sub(p, bf), way) / square
			if share < 0 || share > 1 {
				continue // they do not face each other there
			}
		}
		q := r3.Add(bf, r3.Scale(share, way))
		clear := r3.Norm(r3.Sub(p, q)) - wide(of[0], p, q, ar) - wide(of[1], q, p, br)
		if clear <= 0 {
			continue
		}
		faces++
		if square == 0 && faces > 1 {
			g.Width = min(g.Width, clear) // a ball is nearest in one place
		} else {
			g.Width = max(g.Width, clear)
		}
		g.Height = min(g.Height, min(p.Z, q.Z))
	}
	if square > 0 {
		g.Length = float64(faces) / stations * r3.Norm(r3.Sub(at, af))
	}
	return g, faces > 0 && g.Height < people.Reach
}

// wide returns how far a part reaches from a point of its axis toward another point: its radius,
// or of an egg what that is on this line.
func wide(p *design.Part, from, to r3.Vec, radius float64) float64 {
	if p.Ball == nil || !p.Ball.IsEgg() || from == to {
		return radius
	}
	return p.Ball.From(r3.Unit(r3.Sub(to, from)))
}

// vee returns the space that opens upward between two posts that meet.
func vee(a, b *design.Part) (g people.Gap, ok bool) {
	if a.Post == nil || b.Post == nil {
		return g, false
	}
	// Where the one meets the other, and which way each goes on upward from there.
	var at r3.Vec
	switch {
	case a.Post.Ends[design.Foot].With == b:
		at = a.Post.Ends[design.Foot].At
	case b.Post.Ends[design.Foot].With == a:
		a, b = b, a
		at = a.Post.Ends[design.Foot].At
	default:
		return g, false
	}
	u, v := a.Post.Direction, b.Post.Direction
	if v.Z < 0 {
		v = r3.Scale(-1, v)
	}
	top := b.Post.Ends[design.Head].At
	if b.Post.Ends[design.Foot].At.Z > top.Z {
		top = b.Post.Ends[design.Foot].At
	}
	above := r3.Dot(r3.Sub(top, at), v) // what of the host goes on above the joint
	if !(u.Z > 0) || above <= b.Post.Ends[design.Foot].Diameter {
		return g, false
	}
	angle := math.Acos(max(-1, min(r3.Dot(u, v), 1)))
	long := min(above, a.Post.Length)
	g = people.Gap{Vee: true, Angle: angle, Height: at.Z}
	g.Width = 2*long*math.Sin(angle/2) - (a.Post.Ends[design.Head].Diameter+b.Post.Ends[design.Head].Diameter)/2
	return g, g.Width > 0 && g.Height < people.Reach
}

// rings are, of each part, the rings that it closes with others: with the base and the
// ground as parts of them, and without.
type rings struct{ with, without [][]int }

// round reports whether a ring of parts goes through both, and whether only by way of the
// ground.
func (r rings) round(a, b int) (closed, ground bool) {
	share := func(of [][]int) bool {
		return slices.ContainsFunc(of[a], func(x int) bool { return slices.Contains(of[b], x) })
	}
	if share(r.without) {
		return true, false
	}
	return share(r.with), true
}

// blocks returns, for each part, the numbers of the blocks of the graph of ties that it is
// in: two parts of a block of three or more have two ways to each other (Tarjan's
// biconnected components).
func blocks(ties *design.Ties, ground bool) [][]int {
	n := len(ties.Of)
	next := make([][]int, n)
	for i := range ties.List {
		a, b := ties.List[i].A, ties.List[i].B
		if ground || !ties.Grounds(a) && !ties.Grounds(b) {
			next[a], next[b] = append(next[a], b), append(next[b], a)
		}
	}
	out := make([][]int, n)
	seen, low := make([]int, n), make([]int, n)
	var stack [][2]int
	number, time := 0, 0
	var visit func(p, from int)
	visit = func(p, from int) {
		time++
		seen[p], low[p] = time, time
		for _, q := range next[p] {
			switch {
			case q == from:
			case seen[q] == 0:
				stack = append(stack, [2]int{p, q})
				visit(q, p)
				low[p] = min(low[p], low[q])
				if low[q] < seen[p] {
					continue
				}
				number++
				var edges [][2]int
				for {
					e := stack[len(stack)-1]
					stack = stack[:len(stack)-1]
					edges = append(edges, e)
					if e == [2]int{p, q} {
						break
					}
				}
				if len(edges) < 3 {
					continue
				}
				for _, e := range edges {
					for _, x := range e {
						if !slices.Contains(out[x], number) {
							out[x] = append(out[x], number)
						}
					}
				}
			case seen[q] < seen[p]:
				stack = append(stack, [2]int{p, q})
				low[p] = min(low[p], seen[q])
			}
		}
	}
	for p := range n {
		if seen[p] == 0 {
			visit(p, -1)
		}
	}
	return out
}
