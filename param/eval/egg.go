package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// eggSound checks that an egg is neither so flat nor so long that sheet cannot be raised to
// it, and that it bends to more than its sheet is thick.
func (b *body) eggSound(p *design.Part) bool {
	ball := p.Ball
	if !ball.IsEgg() {
		return true
	}
	across := 2 * ball.Radius
	if least, most := design.FlattestEgg*across, design.LongestEgg*across; ball.Tall < least || ball.Tall > most {
		b.report(b.spanOf("tall"), "make it from "+b.up(least)+" to "+b.down(most),
			"%s is %s tall and %s across: an egg is from half to twice as tall as it is wide", b.what, b.mm(ball.Tall), b.mm(across))
		return false
	}
	if g := b.find("caps"); g != nil && ball.Build == design.RolledGores && !ball.Straight {
		b.report(g.args[2].at, "leave 'round' out, or make it of domed gores: bend domed", "round caps leave ledges between gores that are bent one way, and on an egg nothing is trimmed to those")
		return false
	}
	if bend := ball.Profile().Tightest(); p.Metal != nil && ball.Build != design.Bought && bend <= 2*p.Metal.Thickness {
		b.report(b.spanOf("tall"), "make it larger, or take a thinner metal", "%s bends to a radius of %s, which metal '%s' of %s does not take: no more than twice its thickness",
			b.what, b.mm(bend), p.Metal.Name, b.design.Units.Exact(p.Metal.Thickness))
		return false
	}
	return true
}

// eggRounds is how often the pole of an egg on a post is turned again toward a thing, as seen
// from where its centre then comes to lie.
const eggRounds = 12

// restEgg sets an egg on the end of a tube, its pole as it leans.
func (b *body) restEgg(p *placed, ball *design.Ball, host *placed, off, bearing float64) bool {
	post := host.part.Post
	head := post.Ends[design.Head]
	level := r3.Add(head.At, r3.Scale(off, design.Toward(post.Direction, bearing)))
	ball.Center, ball.Offset, ball.OffsetBear = level, off, bearing
	for range eggRounds {
		if !b.setPole(ball) {
			return false
		}
		at := ball.Center
		ball.Center = level
		rise, ok := eggOver(host.part, ball)
		if !ok {
			hint := "make the egg larger, or the post smaller"
			if off > 0 {
				hint = "make 'offset' less, or the egg larger"
			}
			b.report(b.spanOf("diameter"), hint, "%s does not cover the end of %s, which is %s across", b.what, host.what, b.mm(head.Diameter))
			return false
		}
		ball.Center = r3.Add(level, r3.Scale(rise, post.Direction))
		if r3.Norm(r3.Sub(ball.Center, at)) < coincidence {
			break
		}
	}
	ball.On = host.part
	p.ties = []tie{{with: host, kind: design.EndJoint, end: design.Head, meets: design.OnBall, at: head.At}}
	return true
}

// eggOver returns how high over the end of a post the centre of an egg is that rests on it,
// its middle being given level with that end: so high that the tube's longest side is as long
// as it is. It reports false where the egg does not cover the end.
//
// All round, the wall of a tube is cut where any of it touches first: where the egg's
// underside is lowest across the wall. The longest side is where that is highest.
func eggOver(p *design.Part, ball *design.Ball) (rise float64, covered bool) {
	post, t := p.Post, p.Metal.Thickness
	head := post.Ends[design.Head]
	outside, inside, lower := head.Diameter/2, head.Diameter/2-t, 0.0
	if post.IsTaper() {
		// Cut square through its sheet: the inside edge is lower, or higher.
		narrowing := (post.Ends[design.Foot].Diameter - head.Diameter) / 2
		slant := math.Hypot(narrowing, post.Length)
		inside, lower = outside-t*post.Length/slant, t*narrowing/slant
	}
	down := r3.Scale(-1, post.Direction)
	zero, right := design.Tilt(post.Direction)
	covered = true
	over := func(angle, share float64) float64 { // share: 0 at the inside of the wall, 1 at the outside
		sin, cos := math.Sincos(angle)
		r := inside + (outside-inside)*share
		t, ok := ball.Leave(r3.Add(head.At, r3.Add(r3.Scale(r*cos, zero), r3.Scale(r*sin, right))), down)
		covered = covered && ok
		return t - lower*(1-share)
	}
	first := func(angle float64) float64 {
		const near = 1.0 / 64
		low, high := over(angle, 0), over(angle, 1)
		if over(angle, near) <= low || over(angle, 1-near) <= high {
			return max(low, high)
		}
		return highest(0, 1, func(share float64) float64 { return over(angle, share) })
	}
	if r3.Norm(r3.Cross(ball.Pole, post.Direction)) < sameWay && ball.Offset == 0 {
		return first(0), covered // alike all round
	}
	const steps = 48
	best, least := 0.0, math.Inf(1)
	for k := range steps {
		angle := 2 * math.Pi * float64(k) / steps
		if high := first(angle); high < least {
			best, least = angle, high
		}
	}
	const step = 2 * math.Pi / steps
	return min(least, -highest(best-step, best+step, func(angle float64) float64 { return -first(angle) })), covered
}

// highest returns the greatest value of a function that rises and then falls, by the golden
// section.
func highest(from, to float64, f func(float64) float64) float64 {
	const golden = 0.6180339887498949
	a, b := to-golden*(to-from), from+golden*(to-from)
	fa, fb := f(a), f(b)
	for range 60 {
		if fa > fb {
			to, b, fb = b, a, fa
			a = to - golden*(to-from)
			fa = f(a)
		} else {
			from, a, fa = a, b, fb
			b = from + golden*(to-from)
			fb = f(b)
		}
	}
	return max(fa, fb)
}

// seatsEgg checks that an egg is seated on a ball, or a ball on an egg, in a circle: by its
// pole, straight above.
func (b *body) seatsEgg(ball *design.Ball, host *placed, off float64) bool {
	under := host.part.Ball
	if !ball.IsEgg() && !under.IsEgg() {
		return true
	}
	egg, which := ball, b.what
	if !ball.IsEgg() || math.Abs(ball.Pole.Z) > 1-sameWay && under.IsEgg() {
		egg, which = under, host.what
	}
	switch {
	case math.Abs(egg.Pole.Z) <= 1-sameWay:
		b.report(b.at, "leave its 'pole' out, or put a post between the two", "%s is an egg whose pole leans: it meets no ball in a circle", which)
		return false
	case off > 0:
		b.report(b.spanOf("offset"), "leave 'offset' out, or put a post between the two", "%s is an egg, which meets a ball in a circle at its pole alone", which)
		return false
	}
	return true
}

// coversEgg is coversBall on an egg, along which the axis of the post leaves it.
func (b *body) coversEgg(post *design.Post, host *placed, along float64) bool {
	ball := host.part.Ball
	if along <= 0 {
		b.report(b.spanOf("lean"), "lean it the other way, or less", "%s runs into %s instead of away from it", b.what, host.what)
		return false
	}
	foot := post.Ends[design.Foot]
	zero, right := design.Tilt(post.Direction)
	const lines = 180
	for k := range lines {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / lines)
		at := r3.Add(foot.At, r3.Scale(foot.Diameter/2, r3.Add(r3.Scale(cos, zero), r3.Scale(sin, right))))
		if _, ok := ball.Leave(at, post.Direction); ok {
			continue
		}
		word, hint := "lean", "lean it more directly away from the egg's centre, or make the egg larger"
		switch {
		case b.has("offset") && post.Offset > 0:
			word, hint = "offset", "make 'offset' less, or the egg larger"
		case post.Lean == 0:
			return b.tooThick(foot.Diameter/2, ball.Beside(post.Direction), host)
		}
		b.report(b.spanOf(word), hint, "%s runs past the side of %s: not all of its end comes down on it", b.what, host.what)
		return false
	}
	return true
}
