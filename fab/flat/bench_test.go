package flat

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// trimmedPost stands with its foot on one ball and its head under another, both
// off centre and at a lean.
func trimmedPost(build design.Construction) *design.Part {
	u := design.Leaning(0.15, 1)
	below := newBall(300, 1.5, build, 10, r3.Vec{})
	foot := r3.Vec{X: 40, Z: math.Sqrt(150*150 - 40*40)}
	p := newPost(90, 1.5, 700, foot, u)
	above := newBall(240, 1.5, build, 8, r3.Vec{})
	axis := r3.Add(foot, r3.Scale(700+math.Sqrt(120*120-(43.5+30)*(43.5+30)), u))
	above.Ball.Center = r3.Add(axis, r3.Scale(30, design.Toward(u, 2)))
	p.Post.Seam = math.Pi / 2
	p.Post.Ends[design.Foot].Contact, p.Post.Ends[design.Head].Contact = onBall(below), onBall(above)
	return p
}

func benchmark(b *testing.B, parts ...*design.Part) {
	b.ReportAllocs()
	for b.Loop() {
		for _, p := range parts {
			if _, wrong := Develop(p); len(wrong) > 0 {
				b.Fatal(wrong.Err())
			}
		}
	}
}

func BenchmarkPostLobed(b *testing.B)  { benchmark(b, trimmedPost(design.RolledGores)) }
func BenchmarkPostSphere(b *testing.B) { benchmark(b, trimmedPost(design.Halves)) }
func BenchmarkBall(b *testing.B) {
	p := newBall(300, 1.5, design.RolledGores, 12, r3.Vec{})
	p.Ball.Caps = 60
	benchmark(b, p)
}

// BenchmarkHundred develops 50 posts, each trimmed to a lobed ball at both
// ends, and 50 balls.
func BenchmarkHundred(b *testing.B) {
	var parts []*design.Part
	for range 50 {
		parts = append(parts, trimmedPost(design.RolledGores), newBall(300, 1.5, design.RolledGores, 12, r3.Vec{}))
	}
	benchmark(b, parts...)
}

// BenchmarkJoints develops a thousand joints of every kind, tubes and tapers, at
// the chord of Chord, in one round.
func BenchmarkJoints(b *testing.B) {
	var parts []*design.Part
	kinds := jointKinds()
	for n := 0; len(parts) < 1000; n++ {
		p, _ := randomJoint(rand.New(rand.NewPCG(31, uint64(n))), kinds[n%len(kinds)])
		if _, wrong := Develop(p); len(wrong) == 0 {
			parts = append(parts, p)
		}
	}
	benchmark(b, parts...)
}
