package flat

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// wallAt returns where a point of a post's flat comes to lie on the finished
// post, at a distance out from the middle of the sheet. It rolls a sector back
// up about its apex, by the cone's own geometry.
func wallAt(p *design.Part, b *Blank, q r2.Vec, out float64) r3.Vec {
	post := p.Post
	if b.Fan == nil {
		return rolled(p, q, (post.Ends[design.Foot].Diameter-p.Metal.Thickness)/2+out)
	}
	k := (post.Ends[design.Head].Diameter - post.Ends[design.Foot].Diameter) / 2 / post.Length
	alpha := math.Atan(math.Abs(k))
	sin, cos := math.Sincos(alpha)
	rel := r2.Sub(q, b.Fan.Apex)
	// The sector's middle line is upright, half way round from the seam.
	angle := math.Atan2(rel.X, math.Copysign(1, k)*rel.Y)
	around := angle/sin + b.Fan.Angle/sin/2
	slant := r2.Norm(rel)
	apex := -(post.Ends[design.Foot].Diameter/2 - p.Metal.Thickness/2/cos) / k // along the axis
	radius := slant*sin + out*cos
	along := apex + math.Copysign(1, k)*(slant*cos-out*sin)
	s, c := math.Sincos(post.Seam + around)
	return r3.Add(post.Ends[design.Foot].At, tilted(post.Direction, r3.Vec{X: radius * c, Y: radius * s, Z: along}))
}

// gapTo returns how far a point lies outside of what an end of a post meets, by
// its own calculation.
func gapTo(p *design.Part, i int, x r3.Vec) float64 {
	end := p.Post.Ends[i]
	switch end.Meets {
	case design.OnBall:
		if b := end.With.Ball; b.Build == design.Zones {
			return outsideZones(b, x)
		}
		return outside(end.With, x)
	case design.OnSide:
		q := end.With.Post
		rel := r3.Sub(x, q.Ends[design.Foot].At)
		s := r3.Dot(rel, q.Direction)
		slope := (q.Ends[design.Head].Diameter - q.Ends[design.Foot].Diameter) / 2 / q.Length
		return (r3.Norm(r3.Sub(rel, r3.Scale(s, q.Direction))) - q.Ends[design.Foot].Diameter/2 - slope*s) / math.Hypot(1, slope)
	case design.OnHead:
		q := end.With.Post
		into := p.Post.Direction
		at := p.Post.Ends[design.Foot].At
		if i == 1 {
			into, at = r3.Scale(-1, into), p.Post.Ends[design.Head].At
		}
		// The other's axis, away from the joint.
		other := r3.Scale(-1, q.Direction)
		if r3.Norm(r3.Sub(q.Ends[design.Foot].At, at)) < 1e-6 {
			other = q.Direction
		}
		if p.Post.Ends[i].Diameter < q.Ends[design.Foot].Diameter-1e-6 {
			return -r3.Dot(r3.Sub(x, at), other)
		}
		// Nearer to the own axis than to the other's, seen from the joint.
		return r3.Dot(r3.Sub(x, at), r3.Unit(r3.Sub(into, other)))
	}
	if end.With != nil {
		return x.Z - end.With.Base.Top
	}
	return x.Z
}

// outsideZones tries every ring and disc of a ball.
func outsideZones(b *design.Ball, x r3.Vec) float64 {
	x = r3.Sub(x, b.Center)
	z := r3.Dot(x, b.Pole)
	q := r3.Norm(r3.Sub(x, r3.Scale(z, b.Pole)))
	most := math.Inf(-1)
	if b.IsEgg() {
		// Each touches the ellipse where it is drawn by an even part of the angle.
		for i := range b.Zones + 2 {
			sin, cos := math.Sincos(math.Pi * (float64(i)/float64(b.Zones+1) - 0.5))
			n := math.Hypot(cos/b.Radius, sin/(b.Tall/2))
			most = max(most, ((q-b.Radius*cos)*cos/b.Radius+(z-b.Tall/2*sin)*sin/(b.Tall/2))/n)
		}
		return most
	}
	step := turn(math.Pi / float64(b.Zones+1))
	for way, i := (r2.Vec{Y: -1}), 0; i < b.Zones+2; i, way = i+1, onward(way, step) {
		most = max(most, z*way.Y+q*way.X-b.Radius)
	}
	return most
}

// A reached reports how far a trimmed edge was found within what it meets and
// outside of it, in mm.
type reached struct{ in, out float64 }

func (r *reached) add(gap float64) {
	r.in, r.out = max(r.in, -gap), max(r.out, gap)
}

// The limits that a trimmed edge is held to, in mm.
const (
	nowhereInside = 0.001 // what an edge may seem to run inside: a micrometre
	atMostOff     = 0.02  // what it may stand off
)

// checkEnd rolls the curve of an end back up and looks at its corners and along
// its chords, across the wall: the nearest of the wall must touch what the end
// meets, and none may lie within it.
func checkEnd(t *testing.T, p *design.Part, b *Blank, i int, curve []r2.Vec) (all reached) {
	t.Helper()
	look := func(q r2.Vec, what string) {
		gap := nearest(p, b, i, q)
		all.add(gap)
		if gap < -nowhereInside || gap > atMostOff {
			t.Errorf("%s %s at %v is %v from the surface", endName(i), what, q, gap)
		}
	}
	for k, q := range curve {
		look(q, "corner")
		if k == 0 {
			continue
		}
		for _, u := range [...]float64{0.13, 0.3, 0.5, 0.7, 0.87} {
			look(r2.Add(q, r2.Scale(u, r2.Sub(curve[k-1], q))), "chord")
		}
	}
	return all
}

// nearest returns how far outside of what an end meets the nearest of the wall
// is, at a point of its blank: the least over the thickness, from nine places and
// then closer and closer about the least of them.
func nearest(p *design.Part, b *Blank, i int, q r2.Vec) float64 {
	half := p.Metal.Thickness / 2
	mid, inner, outer := wallAt(p, b, q, 0), wallAt(p, b, q, -half), wallAt(p, b, q, half)
	// The section through the wall is straight.
	at := func(w float64) float64 {
		if w < 0 {
			return gapTo(p, i, r3.Add(mid, r3.Scale(-w/half, r3.Sub(inner, mid))))
		}
		return gapTo(p, i, r3.Add(mid, r3.Scale(w/half, r3.Sub(outer, mid))))
	}
	least, best := math.Inf(1), 0.0
	from, to := -half, half
	for look := 0; ; look++ {
		radii := 9
		if look > 0 {
			radii = 5
		}
		step := (to - from) / float64(radii-1)
		for k := range radii {
			w := from + step*float64(k)
			if gap := at(w); gap < least {
				least, best = gap, w
			}
		}
		const finest = 1e-4
		if step < finest {
			return least
		}
		// One that grows from an edge of the wall has its least there: of all
		// that are met only a dished cap on lobes is not convex.
		if look == 0 && math.Abs(best) == half && at(best*(1-finest)) >= least && !hollow(p, i) {
			return least
		}
		from, to = max(-half, best-step), min(half, best+step)
	}
}

// hollow reports whether what an end meets has hollows.
func hollow(p *design.Part, i int) bool {
	with := p.Post.Ends[i].With
	return with != nil && with.Ball != nil && with.Ball.Caps > 0
}

// ends takes the outline of a post's blank apart into its two curves, both from
// left to right.
func ends(b *Blank) (foot, head []r2.Vec) {
	if b.Fan == nil {
		return curves(*b)
	}
	// The seam's right edge is the one side that points to the apex.
	n := len(b.Outline)
	for i := range n - 1 {
		a, c := r2.Sub(b.Outline[i], b.Fan.Apex), r2.Sub(b.Outline[i+1], b.Fan.Apex)
		if math.Abs(r2.Cross(a, c)) < 1e-9*r2.Norm(a)*r2.Norm(c) && i > 0 {
			for j := n - 1; j > i; j-- {
				head = append(head, b.Outline[j])
			}
			return b.Outline[:i+1], head
		}
	}
	return nil, nil
}

// TestEveryJointRolledUp rolls back up more than 10,000 random joints of every
// kind of end. Nothing that measures here is used by what it measures.
func TestEveryJointRolledUp(t *testing.T) {
	total := 0
	for n, kind := range jointKinds() {
		rng := rand.New(rand.NewPCG(11, uint64(n)))
		tapers, points := 0, 0
		var most reached
		const joints = 1050
		for range joints {
			p, i := randomJoint(rng, kind)
			d, wrong := Develop(p)
			if wrong.Err() != nil {
				t.Fatalf("%s: %v\n%+v\n%+v", kind.name, wrong.Err(), *p.Post, describe(p.Post.Ends[i]))
			}
			b := &d.Blanks[0]
			foot, head := ends(b)
			found := checkEnd(t, p, b, i, [][]r2.Vec{foot, head}[i])
			most.in, most.out = max(most.in, found.in), max(most.out, found.out)
			checkOutline(t, *b)
			points += len(b.Outline)
			if b.Fan != nil {
				tapers++
			}
			if t.Failed() {
				t.Fatalf("%s: post %+v on %s", kind.name, *p.Post, describe(p.Post.Ends[i]))
			}
		}
		total += joints
		t.Logf("%s: %d joints, %d of tapers, %d points in the mean; at most %.4f mm inside and %.4f mm off",
			kind.name, joints, tapers, points/joints, most.in, most.out)
	}
	t.Logf("%d joints", total)
}

func describe(e design.End) string {
	switch {
	case e.With == nil:
		return "the ground"
	case e.With.Post != nil:
		return fmt.Sprintf("%+v", *e.With.Post)
	case e.With.Ball != nil:
		return fmt.Sprintf("%+v", *e.With.Ball)
	}
	return strings.TrimSpace(e.With.Name)
}
