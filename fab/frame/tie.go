package frame

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// tie makes one body of what is stiff together, and renumbers bodies.
func (f *Frame) tie() {
	same := design.NewSets(len(f.Bodies))
	for i := range f.Posts {
		post := &f.Posts[i]
		p := post.Part.Post
		ends := [2]int{post.Stations[0].Body, post.Stations[len(post.Stations)-1].Body}
		for k, end := range p.Ends {
			if b, ok := f.meets(end); ok {
				same.Join(ends[k], b)
			}
		}
		if p.Lies { // along its side: where the middle of that is
			same.Join(nearest(post.Stations, p.Length/2), 0)
		}
		for _, s := range post.Stations {
			for _, j := range s.Joins {
				if j.Ball != nil {
					same.Join(s.Body, f.body[j])
				}
			}
		}
	}
	for _, it := range f.Items {
		b := it.Part.Ball
		if b == nil {
			continue
		}
		self := f.body[it.Part]
		if b.On == nil {
			if it.Part.Lowest().Z <= design.Touch {
				same.Join(0, self)
			}
			continue
		}
		if i, ok := f.post[b.On]; ok {
			s := f.Posts[i].Stations
			same.Join(s[len(s)-1].Body, self)
		} else if host, ok := f.body[b.On]; ok && it.Seat == nil { // a seat has a beam
			same.Join(host, self)
		}
	}
	f.renumber(same)
}

// meets returns the body that the end of a post is welded to.
func (f *Frame) meets(end design.End) (body int, ok bool) {
	switch end.Meets {
	case design.Free:
		return 0, false
	case design.OnPlate:
		return 0, true // the base or the ground
	}
	if body, ok = f.body[end.With]; ok {
		return body, true
	}
	i, ok := f.post[end.With]
	if !ok {
		return 0, false
	}
	stations := f.Posts[i].Stations
	if end.Meets == design.OnHead {
		stations = []Station{stations[0], stations[len(stations)-1]}
	}
	host := end.With.Post
	return nearest(stations, r3.Dot(r3.Sub(end.At, host.Ends[design.Foot].At), host.Direction)), true
}

// nearest returns the body of the station that is nearest to a length in mm along a post.
func nearest(stations []Station, along float64) (body int) {
	best := math.Inf(1)
	for _, s := range stations {
		if d := math.Abs(s.Along - along); d < best {
			body, best = s.Body, d
		}
	}
	return body
}

// renumber keeps one body of each set. The body of a ball gives its place to
// the set, so that most arms are short; the ground is in the first.
func (f *Frame) renumber(same design.Sets) {
	to := make([]int, len(f.Bodies))
	kept, index := make([]Body, 0, len(f.Bodies)), make([]int, len(f.Bodies)) // where a root is kept; 0 is the ground or not yet
	for i, b := range f.Bodies {
		root := same.Root(i)
		k := index[root]
		if i == root {
			k = len(kept)
			index[root] = k
			kept = append(kept, b)
		} else if k > 0 && b.Part.Ball != nil && kept[k].Part.Ball == nil {
			kept[k] = b
		}
		to[i] = k
	}
	f.Bodies = kept
	for p, b := range f.body {
		f.body[p] = to[b]
	}
	for i := range f.Posts {
		for k := range f.Posts[i].Stations {
			s := &f.Posts[i].Stations[k]
			s.Body = to[s.Body]
		}
	}
	for i := range f.Beams {
		b := &f.Beams[i]
		b.A, b.B = to[b.A], to[b.B]
		b.armA, b.armB = r3.Sub(b.From, kept[b.A].At), r3.Sub(b.To, kept[b.B].At)
	}
}

// number gives bodies their unknowns: depth first from the ground, the last one
// reached first. In a tree each body then comes after all that it carries, so that
// elimination fills nothing in.
func (f *Frame) number() error {
	next := f.neighbours()
	for i := range f.Bodies {
		f.Bodies[i].First = -1
	}
	seen := make([]bool, len(f.Bodies))
	type visit struct{ body, tried int }
	stack := []visit{{}}
	seen[0] = true
	for len(stack) > 0 {
		v := &stack[len(stack)-1]
		if v.tried < len(next[v.body]) {
			b := next[v.body][v.tried]
			v.tried++
			if !seen[b] {
				seen[b] = true
				stack = append(stack, visit{body: b})
			}
			continue
		}
		if v.body != 0 {
			f.Bodies[v.body].First = f.Unknowns
			f.Unknowns += 6
		}
		stack = stack[:len(stack)-1]
	}
	for i, ok := range seen {
		if !ok {
			p := f.Bodies[i].Part
			return &MechanismError{Part: p, Why: "nothing ties it to the ground"}
		}
	}
	f.reorder(next)
	return nil
}

// neighbours returns the bodies that each body is tied to by a beam, in the order
// of the beams.
func (f *Frame) neighbours() [][]int {
	count := make([]int, len(f.Bodies))
	for i := range f.Beams {
		if b := &f.Beams[i]; b.A != b.B {
			count[b.A]++
			count[b.B]++
		}
	}
	all, list := make([]int, 2*len(f.Beams)), make([][]int, len(f.Bodies))
	for i, n := range count {
		list[i], all = all[:0:n], all[n:]
	}
	for i := range f.Beams {
		if b := &f.Beams[i]; b.A != b.B {
			list[b.A] = append(list[b.A], b.B)
			list[b.B] = append(list[b.B], b.A)
		}
	}
	return list
}

// settle finds the masses of balls.
func (f *Frame) settle() {
	for i, it := range f.Items {
		b := it.Part.Ball
		if b == nil {
			continue
		}
		body := f.body[it.Part]
		r := max(b.Radius, b.Polar())
		if m := it.Part.Metal; m != nil {
			r -= m.Thickness / 2
		}
		f.parts = append(f.parts, place{
			item: i, body: body, arm: r3.Sub(it.CG, f.Bodies[body].At),
			inertia: 2.0 / 3 * it.Mass * r * r, // of a thin shell; of an egg as of the ball about it
		})
	}
}

// A MechanismError says that a part is free to move.
type MechanismError struct {
	Part *design.Part
	Why  string
}

func (e *MechanismError) Error() string {
	return fmt.Sprintf("%s '%s' is free to move: %s", e.Part.Kind(), e.Part.Name, e.Why)
}
