package flat

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A jointKind makes a random joint of one kind, by hand: at attitudes that the language
// does not have, such as posts that hang from a plate or run downward from a head.
type jointKind struct {
	name string
	make func(rng *rand.Rand, outer float64) (end design.Contact, inside r3.Vec, way r3.Vec)
}

// square2 returns a random unit vector square to another.
func square2(rng *rand.Rand, u r3.Vec) r3.Vec { return r3.Unit(r3.Cross(u, anyDirection(rng))) }

// sideOf returns a line that comes out of the side of a post all round.
func sideOf(rng *rand.Rand, host *design.Part, outer float64) (inside, way r3.Vec) {
	q := host.Post
	middle := r3.Add(q.Ends[design.Foot].At, r3.Scale(q.Length*(0.3+0.4*rng.Float64()), q.Direction))
	n := square2(rng, q.Direction)
	b := r3.Cross(q.Direction, n)
	sin, cos := math.Sincos((15 + 150*rng.Float64()) * math.Pi / 180)
	if rng.IntN(4) == 0 {
		sin, cos = 1, 0
	}
	way = r3.Add(r3.Scale(cos, q.Direction), r3.Scale(sin, b))
	room := min(q.Ends[design.Foot].Diameter, q.Ends[design.Head].Diameter)/2 - outer
	if q.IsTaper() {
		// A taper is narrower further along.
		room = 0.8*room - 0.15*q.Ends[design.Foot].Diameter/2
	}
	e := max(0, room) * rng.Float64()
	if rng.IntN(4) == 0 {
		e = 0
	}
	return r3.Add(middle, r3.Scale(e, n)), way
}

func newHost(rng *rand.Rand, d0, d1 float64) *design.Part {
	host := newPost(d0, 1.5, 2000, r3.Vec{X: 100, Y: -40, Z: 20}, anyDirection(rng))
	host.Name = "host"
	host.Post.Ends[design.Head].Diameter = d1
	return host
}

func jointKinds() []jointKind {
	ballOf := func(rng *rand.Rand, ball *design.Part, outer float64) (design.Contact, r3.Vec, r3.Vec) {
		way := anyDirection(rng)
		solid := ball.Ball.Radius
		if ball.Ball.Build == design.RolledGores && ball.Ball.Caps == 0 {
			// Blunt tips leave it flat at the poles.
			mean := solid - ball.Metal.Thickness/2
			solid *= math.Sin(math.Acos(leastTip / 2 / (mean * math.Tan(math.Pi/float64(ball.Ball.Gores)))))
		}
		e := (0.97*solid - outer) * rng.Float64()
		if rng.IntN(4) == 0 {
			e = 0
		}
		return onBall(ball), r3.Add(ball.Ball.Center, r3.Scale(max(0, e), square2(rng, way))), way
	}
	return []jointKind{
		{"plate", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
			way := design.Leaning(rng.Float64()*75*math.Pi/180, 7*rng.Float64())
			return design.Contact{Meets: design.OnPlate, With: &design.Part{Name: "pad", Base: &design.Base{Top: 9.5}}}, r3.Vec{X: 5, Z: 9}, way
		}},
		{"side", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
			r := outer * (1 + 2*rng.Float64())
			host := newHost(rng, 2*r, 2*r)
			inside, way := sideOf(rng, host, outer)
			return design.Contact{Meets: design.OnSide, With: host}, inside, way
		}},
		{"side of equal diameter", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
			host := newHost(rng, 2*outer, 2*outer)
			inside, way := sideOf(rng, host, outer)
			return design.Contact{Meets: design.OnSide, With: host}, inside, way
		}},
		{"taper's side", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
			r := outer * (1.6 + 2*rng.Float64())
			host := newHost(rng, 2*r, 2*r*(0.8+0.4*rng.Float64()))
			inside, way := sideOf(rng, host, outer)
			return design.Contact{Meets: design.OnSide, With: host}, inside, way
		}},
		{"mitre", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
			host := newHost(rng, 2*outer, 2*outer)
			turn := (3 + 117*rng.Float64()) * math.Pi / 180
			u := host.Post.Direction
			way := r3.Add(r3.Scale(math.Cos(turn), u), r3.Scale(math.Sin(turn), square2(rng, u)))
			return design.Contact{Meets: design.OnHead, With: host}, host.Post.Ends[design.Head].At, way
		}},
		{"square head", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
			r := outer * (1.3 + rng.Float64())
			host := newHost(rng, 2*r, 2*r)
			turn := (70 * rng.Float64()) * math.Pi / 180
			u := host.Post.Direction
			way := r3.Add(r3.Scale(math.Cos(turn), u), r3.Scale(math.Sin(turn), square2(rng, u)))
			return design.Contact{Meets: design.OnHead, With: host}, host.Post.Ends[design.Head].At, way
		}},
		{"sphere", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
			build := []design.Construction{design.Halves, design.Bought, design.DomedGores}[rng.IntN(3)]
			return ballOf(rng, turned(rng, newBall(roomy(rng, outer), 1, build, 12, r3.Vec{X: 10, Y: 20, Z: 700})), outer)
		}},
		{"lobed ball", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
			diameter := roomy(rng, outer)
			// A gore is so much wider than its tip that the flats at the poles are
			// no wider than a third of the ball.
			most := min(48, int(math.Pi/math.Atan(3*leastTip/(diameter-2))))
			return ballOf(rng, turned(rng, newBall(diameter, 1, design.RolledGores, 4+rng.IntN(most-3), r3.Vec{X: 10, Y: 20, Z: 700})), outer)
		}},
		{"ball with caps", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
			build := []design.Construction{design.RolledGores, design.DomedGores}[rng.IntN(2)]
			ball := turned(rng, newBall(roomy(rng, outer), 1, build, 4+rng.IntN(15), r3.Vec{X: 10, Y: 20, Z: 700}))
			ball.Ball.Caps = (0.05 + 0.85*rng.Float64()) * ball.Ball.Radius
			return ballOf(rng, ball, outer)
		}},
		{"ball of zones", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
			ball := turned(rng, newBall(roomy(rng, outer), 1, design.Zones, 0, r3.Vec{X: 10, Y: 20, Z: 700}))
			ball.Ball.Zones = 2 + rng.IntN(30)
			return ballOf(rng, ball, outer)
		}},
		{"egg", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
			build := []design.Construction{design.Halves, design.Bought, design.DomedGores, design.RolledGores}[rng.IntN(4)]
			egg := stretched(rng, newBall(roomy(rng, outer), 1, build, 5+rng.IntN(6), r3.Vec{X: 10, Y: 20, Z: 700}))
			return eggOf(rng, egg, outer)
		}},
		{"egg of zones", func(rng *rand.Rand, outer float64) (design.Contact, r3.Vec, r3.Vec) {
			egg := stretched(rng, newBall(roomy(rng, outer), 1, design.Zones, 0, r3.Vec{X: 10, Y: 20, Z: 700}))
			egg.Ball.Zones = 2 + rng.IntN(30)
			return eggOf(rng, egg, outer)
		}},
	}
}

// stretched makes an egg of a ball, of the same width or as tall, and gives it any pole.
func stretched(rng *rand.Rand, ball *design.Part) *design.Part {
	b := ball.Ball
	b.Tall = 2 * b.Radius * (1 + rng.Float64())
	if rng.IntN(2) == 0 {
		b.Tall = 2 * b.Radius
		b.Radius *= 1 + rng.Float64()
	}
	return turned(rng, ball)
}

// eggOf returns a line out of an egg, all about which a tube meets it.
func eggOf(rng *rand.Rand, egg *design.Part, outer float64) (design.Contact, r3.Vec, r3.Vec) {
	way := anyDirection(rng)
	least := 0.9 * min(egg.Ball.Radius, egg.Ball.Tall/2) // less than the flats at the poles leave of it
	if egg.Ball.Build != design.RolledGores {
		least /= 0.9 / 0.97
	}
	e := max(0, least-outer) * rng.Float64()
	if rng.IntN(4) == 0 {
		e = 0
	}
	return onBall(egg), r3.Add(egg.Ball.Center, r3.Scale(e, square2(rng, way))), way
}

// roomy returns a diameter of a ball that a tube can stand on.
func roomy(rng *rand.Rand, outer float64) float64 { return 2 * outer * (1.1 + 3*rng.Float64()) }

// turned gives a ball any pole.
func turned(rng *rand.Rand, ball *design.Part) *design.Part {
	ball.Ball.Pole = anyDirection(rng)
	if rng.IntN(4) == 0 {
		ball.Ball.Pole = r3.Vec{Z: 1}
	}
	ball.Ball.Prime = square2(rng, ball.Ball.Pole)
	return ball
}

// randomJoint returns a post, a tube or a taper, of which one end meets
// something and the other is free, and which end.
func randomJoint(rng *rand.Rand, kind jointKind) (*design.Part, int) {
	outer := math.Exp(math.Log(8) + rng.Float64()*math.Log(15))
	i := rng.IntN(2)
	taper := rng.IntN(3) == 0
	room := outer
	if taper && kind.name != "mitre" {
		room *= 1.15 // below its end it may be wider
	}
	end, inside, way := kind.make(rng, room)
	p := newPost(2*outer, (0.02+0.1*rng.Float64())*outer, 30*outer+rng.Float64()*1000, r3.Vec{}, way)
	post := p.Post
	if taper {
		post.Ends[1-i].Diameter *= 0.4 + 0.8*rng.Float64() // narrower at the far end, or a little wider
	}
	if i == 1 {
		post.Direction = r3.Scale(-1, way)
	}
	post.Seam = rng.Float64() * 2 * math.Pi
	if rng.IntN(2) == 0 {
		post.Gap = rng.Float64() * 2
	}
	if i == 0 {
		post.Ends[design.Foot].Contact = end
	} else {
		post.Ends[design.Head].Contact = end
	}
	at := inside
	if end.Meets != design.OnHead {
		// Out along the line to where it leaves, by halving.
		set := func(t float64) float64 { return gapTo(p, i, r3.Add(inside, r3.Scale(t, way))) }
		lo, hi := 0.0, 1.0
		for set(hi) < 0 {
			hi *= 2
		}
		for range 60 {
			if mid := (lo + hi) / 2; set(mid) < 0 {
				lo = mid
			} else {
				hi = mid
			}
		}
		at = r3.Add(inside, r3.Scale(hi, way))
	}
	post.Ends[design.Foot].At, post.Ends[design.Head].At = at, r3.Add(at, r3.Scale(post.Length, way))
	if i == 1 {
		post.Ends[design.Foot].At, post.Ends[design.Head].At = post.Ends[design.Head].At, post.Ends[design.Foot].At
	}
	return p, i
}
