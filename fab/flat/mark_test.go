package flat

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/written"
)

// TestThreadMarks draws the rims of a threaded ball on its post, wherever the
// seam lies among the points of the rim.
func TestThreadMarks(t *testing.T) {
	for _, seam := range []float64{0, 0.3, math.Pi / 2, 3} {
		d := written.Design(t, threaded(fmt.Sprintf("diameter 60, lean 0.2 rad toward 1 rad, seam toward %v rad", seam), "halves, pole 0.2 rad toward 1 rad"))
		b := all(t, d)["mast"].Blanks[0]
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
		caps := 0.0
		if rng.IntN(2) == 0 {
			caps = 30 + 120*rng.Float64()
		}
		lean := anyTilt(rng, 0.3)
		whole := written.Design(t, written.Metric+fmt.Sprintf(`base pad { plate 900 by 900, metal slab }
ball moon on pad { diameter 300, %s, metal skin }
post mast on moon { diameter 60, length 400, offset %v toward right, lean %v, head open, metal skin }
`, capped(build, 6+rng.IntN(10), caps)+poled(build, anyTilt(rng, 1.5), 7*rng.Float64()), 80*rng.Float64(), lean))
		ball, post, u := whole.Part("moon"), whole.Part("mast"), lean.way()
		made := all(t, whole)
		length := 0.0
		d := developer{part: ball, setting: newSetting(quantity.Millimetre, nil)}
		d.ball()
		list := d.pieces()
		for i := range list {
			p := &list[i]
			for _, m := range made["moon"].Blanks[p.blank].Marks {
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
		if ratio := length / girdle(made["mast"].Toes[0]); math.Abs(ratio-1) > room {
			t.Errorf("%d: %v %+v: marks of %v, the toe is %v", n, build, *ball.Ball, length, girdle(made["mast"].Toes[0]))
		}
	}
}

// TestSeatMarks marks on the larger of two balls the circle where they are welded; the
// smaller is cut there.
func TestSeatMarks(t *testing.T) {
	const seat = 50.0
	whole := written.Design(t, written.Metric+`base pad { plate 900 by 900, metal slab }
ball moon on pad { diameter 300, halves, metal skin }
ball star on moon { diameter 200, halves, seat 50, metal skin }
`)
	made := all(t, whole)
	if _, radius, _ := SeatCircle(whole.Part("moon").Ball, whole.Part("star").Ball); !near(2*radius, seat) {
		t.Errorf("seat of %v, want %v", 2*radius, seat)
	}
	for i, name := range []string{"moon", "star"} {
		d := made[name]
		var marks []Mark
		for _, m := range d.Blanks[0].Marks {
			if m.Kind == Standing {
				marks = append(marks, m)
			}
		}
		if want := 1 - i; len(marks) != want || want > 0 && marks[0].Piece != 1 {
			t.Errorf("%s: marks %+v, want %d on the half that faces the other", name, marks, want)
			continue
		}
		if len(marks) == 0 {
			continue
		}
		low, high := bounds(marks[0].Path)
		if w := high.X - low.X; math.Abs(w-seat) > 0.5 {
			t.Errorf("%s: a circle of %v, want about %v", name, w, seat)
		}
	}
}

// TestMarksAcrossRidges bends the gores of balls back and measures how far the
// marks of posts that stand across their ridges lie from the posts' outsides.
func TestMarksAcrossRidges(t *testing.T) {
	rnd := rand.New(rand.NewPCG(15, 7))
	worst := 0.0
	for n := range 60 {
		lean := anyTilt(rnd, 0.6)
		u := lean.way()
		out := r3.Unit(r3.Add(u, r3.Scale(0.3*rnd.Float64(), design.Toward(u, 7*rnd.Float64()))))
		whole := written.Design(t, written.Metric+fmt.Sprintf(`metal plate { alloy low-carbon-steel, thickness %v }
base pad { plate 900 by 900, metal slab }
ball moon on pad { diameter 300, gores %d, caps 20, edge mid, pole %v, seam toward %v rad, metal plate }
post mast on moon { diameter %v, length 400, offset %v toward %v rad, lean %v, head open, metal skin }
`, 1.5+2*rnd.Float64(), 4+rnd.IntN(8), anyTilt(rnd, 1.5), 7*rnd.Float64(),
			40+120*rnd.Float64(), 150*math.Hypot(out.X, out.Y), math.Atan2(out.Y, out.X), lean))
		ball, post := whole.Part("moon"), whole.Part("mast")
		made := all(t, whole)["moon"]
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
