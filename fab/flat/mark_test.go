package flat

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
)

// TestThreadMarks draws the rims of a threaded ball on its post, wherever the
// seam lies among the points of the rim.
func TestThreadMarks(t *testing.T) {
	u := design.Leaning(0.2, 1)
	for _, seam := range []float64{0, 0.3, math.Pi / 2, 3} {
		post, ball := threadedBall(design.Halves, 0, 60, u, u)
		post.Post.Seam = seam
		b := all(t, post, ball)[0].Blanks[0]
		var at []float64
		for _, m := range b.Marks {
			if m.Kind == Standing && m.Part == "moon" {
				at = append(at, m.From.Y)
				if math.Abs(math.Abs(m.To.X-m.From.X)-b.Width) > 1e-4 {
					t.Errorf("a rim from %v to %v on a flat %v wide", m.From, m.To, b.Width)
				}
			}
		}
		half := math.Sqrt(150*150 - 30*30)
		if len(at) != 2 || math.Abs(max(at[0], at[1])-300-half) > 1e-6 || math.Abs(min(at[0], at[1])-300+half) > 1e-6 {
			t.Errorf("rims at %v, want at %v and %v", at, 300-half, 300+half)
		}
	}
}

// TestMarksOnBall finds the foot of a post again on the pieces that it crosses:
// all of its length, each stretch on the outside of the post.
func TestMarksOnBall(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 6))
	for n := range 60 {
		build := []design.Construction{design.RolledGores, design.DomedGores, design.Zones, design.Halves}[n%4]
		_, ball := threadedBall(build, 6+rng.IntN(10), 60, design.Upright, design.Leaning(1.5*rng.Float64(), 7*rng.Float64()))
		ball.Ball.Around = nil
		if rng.IntN(2) == 0 && (build == design.RolledGores || build == design.DomedGores) {
			ball.Ball.Caps = 30 + 120*rng.Float64()
		}
		e := 80 * rng.Float64()
		u := design.Leaning(0.3*rng.Float64(), 7*rng.Float64())
		post := newPost(60, 1.5, 400, r3.Add(ball.Ball.Center, r3.Vec{X: e, Z: math.Sqrt(150*150 - e*e)}), u)
		post.Post.Ends[design.Foot].Contact = onBall(ball)
		made := all(t, post, ball)
		length := 0.0
		d := developer{part: ball, setting: newSetting(quantity.Millimetre, nil)}
		d.ball()
		list := d.pieces()
		for i := range list {
			p := &list[i]
			for _, m := range made[1].Blanks[p.blank].Marks {
				if m.Kind != Standing || m.Piece != p.number {
					continue
				}
				if m.Part != "mast" || m.From != m.Path[0] || m.To != m.Path[len(m.Path)-1] {
					t.Fatalf("mark %+v", m)
				}
				for k := 1; k < len(m.Path); k++ {
					length += r2.Norm(r2.Sub(m.Path[k], m.Path[k-1]))
				}
				if p.lay != nil {
					continue
				}
				for _, q := range m.Path {
					x := r3.Sub(inShell(p, ball.Ball.Center, q, 0.75), post.Post.Ends[design.Foot].At)
					if off := r3.Norm(r3.Sub(x, r3.Scale(r3.Dot(x, u), u))) - 30; math.Abs(off) > 0.2 {
						t.Fatalf("%d: %v: the mark at %v is %v from the post's outside", n, build, q, off)
					}
				}
			}
		}
		// The flat lies in the middle of the sheet and the toe on its outside;
		// sheet that is dished or domed stretches besides.
		room := 0.02
		if build == design.DomedGores || ball.Ball.Caps > 0 {
			room = 0.25
		}
		if build == design.Halves {
			continue // both halves carry what crosses the equator, on what is trimmed off too
		}
		if ratio := length / girdle(made[0].Toes[0]); math.Abs(ratio-1) > room {
			t.Errorf("%d: %v %+v: marks of %v, the toe is %v", n, build, *ball.Ball, length, girdle(made[0].Toes[0]))
		}
	}
}

// TestSeatMarks marks on the larger of two balls the circle where they are welded; the
// smaller is cut there.
func TestSeatMarks(t *testing.T) {
	lower := newBall(300, 1.5, design.Halves, 0, r3.Vec{Z: 150})
	upper := newBall(200, 1.5, design.Halves, 0, r3.Vec{})
	upper.Name = "star"
	const seat = 50.0
	upper.Ball.Center.Z = 150 + math.Sqrt(150*150-25*25) + math.Sqrt(100*100-25*25)
	upper.Ball.Seat, upper.Ball.On = seat, lower
	whole := &design.Design{
		Parts:  []*design.Part{lower, upper},
		Joints: []design.Joint{{Kind: design.SeatJoint, A: lower, B: upper}},
	}
	made, wrong := All(whole)
	if wrong.Err() != nil {
		t.Fatal(wrong.Err())
	}
	MarkStanding(whole, made)
	if _, radius, _ := SeatCircle(lower.Ball, upper.Ball); !near(2*radius, seat) {
		t.Errorf("seat of %v, want %v", 2*radius, seat)
	}
	for i, d := range made {
		var marks []Mark
		for _, m := range d.Blanks[0].Marks {
			if m.Kind == Standing {
				marks = append(marks, m)
			}
		}
		if want := 1 - i; len(marks) != want || want > 0 && marks[0].Piece != 1 {
			t.Errorf("part %d: marks %+v, want %d on the half that faces the other", i, marks, want)
			continue
		}
		if len(marks) == 0 {
			continue
		}
		low, high := bounds(marks[0].Path)
		if w := high.X - low.X; math.Abs(w-seat) > 0.5 {
			t.Errorf("part %d: a circle of %v, want about %v", i, w, seat)
		}
	}
}

// TestMarksAcrossRidges bends the gores of balls back and measures how far the
// marks of posts that stand across their ridges lie from the posts' outsides.
func TestMarksAcrossRidges(t *testing.T) {
	rnd := rand.New(rand.NewPCG(15, 7))
	worst := 0.0
	for n := range 60 {
		ball := newBall(300, 1.5+2*rnd.Float64(), design.RolledGores, 4+rnd.IntN(8), r3.Vec{Z: 500})
		ball.Ball.Caps = 20
		ball.Ball.Pole = design.Leaning(1.5*rnd.Float64(), 7*rnd.Float64())
		ball.Ball.Prime = design.Toward(ball.Ball.Pole, 7*rnd.Float64())
		u := design.Leaning(0.6*rnd.Float64(), 7*rnd.Float64())
		out := r3.Unit(r3.Add(u, r3.Scale(0.3*rnd.Float64(), design.Toward(u, 7*rnd.Float64()))))
		post := newPost(40+120*rnd.Float64(), 1.5, 400, r3.Add(ball.Ball.Center, r3.Scale(150, out)), u)
		post.Post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnBall, With: ball}
		made := all(t, ball, post)[0]
		d := developer{part: ball, setting: newSetting(quantity.Millimetre, nil), Developed: made}
		list := d.pieces()
		for i := range made.Blanks {
			for _, m := range made.Blanks[i].Marks {
				if m.Kind != Standing || made.Blanks[i].Shape != Gore {
					continue
				}
				p := list[slices.IndexFunc(list, func(p piece) bool { return p.blank == i && p.number == m.Piece })]
				for k := 1; k < len(m.Path); k++ {
					for _, share := range [...]float64{0, 0.5} {
						q := r2.Add(m.Path[k-1], r2.Scale(share, r2.Sub(m.Path[k], m.Path[k-1])))
						x := r3.Sub(placed(ball, &p, &made.Blanks[i], q, ball.Metal.Thickness/2), post.Post.Ends[design.Foot].At)
						off := math.Abs(r3.Norm(r3.Sub(x, r3.Scale(r3.Dot(x, u), u))) - post.Post.Ends[design.Foot].Diameter/2)
						worst = max(worst, off)
						if off > 0.1 {
							t.Fatalf("%d: a mark on gore %d of %d lies %.3f mm off the post at %v", n, m.Piece, ball.Ball.Gores, off, q)
						}
					}
				}
			}
		}
	}
	t.Logf("marks lie at most %.3f mm off", worst)
}
