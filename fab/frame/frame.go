// Package frame analyses a sculpture as a frame in space. Its posts are beams of
// tube, with shear, of any taper; its balls and joints are stiff; its base is
// clamped to the ground.
//
// Whatever is stiff together is one body with six degrees of freedom: a ball
// with the ends of the posts that are welded to it, the end of a post with the
// foot of a branch. A beam meets a body at the end of a stiff arm, so that each
// joint stands at its true place. Posts may run in loops.
//
// Lengths are in mm, forces in N, moments in N mm, masses in kg, stresses in
// MPa, angles in rad, frequencies in Hz.
package frame

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// An Item is a part with its mass.
type Item struct {
	Part *design.Part
	Mass float64 // kg
	CG   r3.Vec  // mm, centre of gravity

	// Cuts are further places on a post, in mm from its foot, at which it gets a
	// station: where a force is to act.
	Cuts []float64

	// Rounds are where the courses of a post are welded round, in mm from its foot: it
	// gets a station there too.
	Rounds []float64

	// Weak are the stretches of a post that holes weaken: it gets a station in the middle of
	// each, and is softer there.
	Weak []Weak

	// Give is how far what a post's foot and head are welded to gives; zero where it is
	// stiff. Seat is how a ball is welded to the ball that it rests on, nil for stiff.
	Give [2]Spring
	Seat *Seat
}

// A Weak is a stretch of a post, in mm from its foot, where its section has only a share of
// its second moment.
type Weak struct{ From, To, Share float64 }

// soften returns the share of its stiffness that a beam has between two places on a post with
// weak stretches: where several lie over each other, the weakest counts.
func soften(list []Weak, from, to float64) float64 {
	if len(list) == 0 || !(to > from) {
		return 1
	}
	stops := []float64{from, to}
	for _, w := range list {
		stops = append(stops, clamp(w.From, from, to), clamp(w.To, from, to))
	}
	slices.Sort(stops)
	give := 0.0
	for i, b := range stops[1:] {
		a := stops[i]
		share := 1.0
		for _, w := range list {
			if middle := (a + b) / 2; middle > w.From && middle < w.To {
				share = min(share, w.Share)
			}
		}
		give += (b - a) / max(share, leastShare)
	}
	return (to - from) / give
}

// leastShare is the least share of its second moment that a section counts with, so that a
// frame can be worked out whatever is cut from it.
const leastShare = 1e-3

// Equal reports whether two items are the same part with the same mass, cuts and give.
func (it Item) Equal(o Item) bool {
	return it.Part == o.Part && it.Mass == o.Mass && it.CG == o.CG && slices.Equal(it.Cuts, o.Cuts) && slices.Equal(it.Weak, o.Weak) && it.Give == o.Give &&
		(it.Seat == o.Seat || it.Seat != nil && o.Seat != nil && *it.Seat == *o.Seat)
}

// A Frame is a sculpture made ready for analysis: cut into beams, numbered and
// factored. It is not for several goroutines at once.
type Frame struct {
	Bodies   []Body // the first is the ground
	Beams    []Beam // those of a post follow each other from foot to head
	Posts    []Post // in source order
	Items    []Item
	Unknowns int

	body  map[*design.Part]int // of balls and the base
	post  map[*design.Part]int
	seat  map[*design.Part]int // of a ball on a ball, its beam
	parts []place              // where the mass of balls is

	// slender leaves out what shear and the inertia of turning sections do, as
	// the closed forms of long beams do.
	slender bool

	stiff   *skyline // the stiffness
	factors *sparse  // of the stiffness, L and D of L D L'
	mass    *skyline
	groups  []group // of what hangs together; nil until needed

	// room is for the blocks of vectors of an iteration, kept for the next.
	room [3][]panel
}

// A Body is what moves as one.
type Body struct {
	At    r3.Vec // its point of reference
	First int    // the first of its six unknowns, displacement and then turn; -1 for the ground
	Part  *design.Part
}

// A Beam is a piece of a post between two bodies.
type Beam struct {
	Post   int    // index in Frame.Posts; -1 of a seat
	A, B   int    // bodies; a beam with both ends in one body carries nothing
	From   r3.Vec // its end towards the post's foot
	To     r3.Vec
	Axis   r3.Vec    // unit vector from From to To
	Across [2]r3.Vec // unit vectors square to it and to each other, right-handed
	Length float64
	Section
	Modulus float64 // MPa
	Mass    float64 // kg

	armA, armB r3.Vec // from the point of reference to From and To
	k          tubeMatrix
	held       hold
}

// A Post is a post with its stations, at which beams end.
type Post struct {
	Part     *design.Part
	Stations []Station
	First    int // its first beam; it has one fewer than stations

	item int // index in Frame.Items
}

// Beams returns how many beams the post has.
func (p *Post) Beams() int { return len(p.Stations) - 1 }

// A Station is a point on the axis of a post.
type Station struct {
	Along float64        // mm from the foot
	At    r3.Vec         // on the axis
	Joins []*design.Part // what is fastened there; empty where the post is cut up only to analyse it
	Body  int
}

// A place is a mass in a body.
type place struct {
	item    int
	body    int
	arm     r3.Vec  // from the body's point of reference to the centre of gravity
	inertia float64 // kg mm2, about any axis through the centre of gravity
}

// New makes a frame of a design's parts. A part that is not tied to the ground
// is an error that names it.
func New(items []Item) (*Frame, error) { return build(items, false) }

func build(items []Item, slender bool) (*Frame, error) {
	f := &Frame{Items: items, body: map[*design.Part]int{}, post: map[*design.Part]int{}, seat: map[*design.Part]int{}, slender: slender}
	f.mesh()
	if err := f.number(); err != nil {
		return nil, err
	}
	f.settle()
	if err := f.assemble(); err != nil {
		return nil, err
	}
	return f, nil
}

// Body returns the body that a ball is part of, or nil.
func (f *Frame) Body(p *design.Part) *Body {
	i, ok := f.body[p]
	if !ok {
		return nil
	}
	return &f.Bodies[i]
}

// Reach returns the greatest movement of a part in a mode.
func (f *Frame) Reach(p *design.Part, m Mode) float64 {
	most := 0.0
	if i, ok := f.post[p]; ok {
		for _, s := range f.Posts[i].Stations {
			most = max(most, r3.Norm2(m.Shape[s.Body][0]))
		}
	} else if b, ok := f.body[p]; ok {
		most = r3.Norm2(m.Shape[b][0])
	}
	return math.Sqrt(most)
}

// Shape returns how far a post moves in a mode, at points evenly spaced from its foot to
// its head, as a share of the greatest movement; nil for other parts.
func (f *Frame) Shape(p *design.Part, m Mode) []float64 {
	i, ok := f.post[p]
	if !ok {
		return nil
	}
	stations := f.Posts[i].Stations
	const points = 33
	list := make([]float64, points)
	k := 0
	for n := range list {
		along := p.Post.Length * float64(n) / (points - 1)
		for k+2 < len(stations) && stations[k+1].Along < along {
			k++
		}
		a, b := &stations[k], &stations[k+1]
		share := 0.0
		if l := b.Along - a.Along; l > 0 {
			share = clamp((along-a.Along)/l, 0, 1)
		}
		list[n] = r3.Norm(r3.Add(r3.Scale(1-share, m.Shape[a.Body][0]), r3.Scale(share, m.Shape[b.Body][0])))
	}
	return list
}

// BodiesOf returns the indices of the bodies that a part is fastened to or cut
// into: of a post from foot to head, of a ball one.
func (f *Frame) BodiesOf(p *design.Part) []int {
	if i, ok := f.post[p]; ok {
		list := make([]int, len(f.Posts[i].Stations))
		for k, s := range f.Posts[i].Stations {
			list[k] = s.Body
		}
		return list
	}
	if b, ok := f.body[p]; ok {
		return []int{b}
	}
	return nil
}
