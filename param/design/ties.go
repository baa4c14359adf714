package design

import "gonum.org/v1/gonum/spatial/r3"

// Ties are who stands on, runs through and ends at whom: the joints of a design as
// its parts have them. Parts are numbered in the design's order, and the ground
// has the number after theirs.
type Ties struct {
	List   []Tie   // in the order of the design's joints
	Of     [][]int // of each part, and then of the ground, its places in List
	Ground int     // the number of the ground
	base   int     // that of the base; the ground's where there is none
	under  []int   // of each part, the one that it stands on; -1 for none
}

// A Tie is a joint of two parts, or of a part with the ground.
type Tie struct {
	Kind  JointKind
	Joint int    // its place in the design's joints
	A, B  int    // the two parts, in source order; A may be the ground
	Post  int    // the one whose end is joined, or that goes through a ball; -1 for none
	End   int    // of an end joint: which end of the post
	At    r3.Vec // mm, as the joint has it
}

// Other returns what is at the other side of the tie.
func (t *Tie) Other(i int) int { return t.A + t.B - i }

// Ties returns the ties of the design. A joint of what is no part of it is left out.
func (d *Design) Ties() *Ties {
	n := len(d.Parts)
	index := make(map[*Part]int, n)
	t := &Ties{List: make([]Tie, 0, len(d.Joints)), Of: make([][]int, n+1), Ground: n, base: n}
	for i, p := range d.Parts {
		index[p] = i
		if p.Base != nil && !p.Base.Pad {
			t.base = i
		}
	}
	index[nil] = n // of a joint that has one part only
	for k, j := range d.Joints {
		a, okA := index[j.A]
		b, okB := index[j.B]
		if !okA || !okB || a == b {
			continue
		}
		tie := Tie{Kind: j.Kind, Joint: k, A: a, B: b, Post: -1, End: j.End, At: j.At}
		if i, ok := index[j.Post]; ok && j.Post != nil && (i == a || i == b) {
			tie.Post = i
		}
		t.Of[a] = append(t.Of[a], len(t.List))
		t.Of[b] = append(t.Of[b], len(t.List))
		t.List = append(t.List, tie)
	}
	t.under = make([]int, n)
	for i, p := range d.Parts {
		if on, ok := index[p.Host()]; ok && on < n {
			t.under[i] = on
		} else {
			t.under[i] = t.held(p, i)
		}
	}
	return t
}

// held returns the last of the posts whose heads end in a ball, or in a tube of a ring,
// that rests on nothing; -1 for other parts.
func (t *Ties) held(p *Part, i int) int {
	post := -1
	if p.Ball == nil && (p.Post == nil || p.Post.Ring == nil) || p.Host() != nil || t.OnGround(i) {
		return post
	}
	for _, k := range t.Of[i] {
		if tie := &t.List[k]; tie.Kind == EndJoint && tie.End == Head && tie.Post >= 0 {
			post = max(post, tie.Post)
		}
	}
	return post
}

// Carried marks, of the parts, one and all that stands on it, and on that. A ball that
// rests on nothing stands on the post whose head ends in it, if one does.
func (t *Ties) Carried(part int) []bool {
	marked := make([]bool, len(t.under))
	marked[part] = true
	for grown := true; grown; {
		grown = false
		for i, on := range t.under {
			if !marked[i] && on >= 0 && marked[on] {
				marked[i], grown = true, true
			}
		}
	}
	return marked
}

// Grounds reports whether a number is that of the base or of the ground.
func (t *Ties) Grounds(i int) bool { return i == t.base || i == t.Ground }

// OnGround reports whether a part stands on the ground itself.
func (t *Ties) OnGround(i int) bool {
	for _, k := range t.Of[i] {
		if t.List[k].A == t.Ground {
			return true
		}
	}
	return false
}

// Groups returns the sets of parts that hang together. One of them is the ground
// with the base and all that stands on either.
func (t *Ties) Groups() Sets {
	s := NewSets(len(t.Of))
	s.Join(t.base, t.Ground)
	for i := range t.List {
		s.Join(t.List[i].A, t.List[i].B)
	}
	return s
}
