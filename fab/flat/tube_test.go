package flat

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
)

// TestSquareHeadUnderBall has a ball rest in the middle of a tube's end: with a
// sphere that is a plain square cut at exactly the post's length, and with lobes
// the tube is cut back where they stand out.
func TestSquareHeadUnderBall(t *testing.T) {
	for _, build := range []design.Construction{design.DomedGores, design.Halves, design.Bought, design.RolledGores} {
		u := design.Leaning(0.3, 1.1)
		p := newPost(80, 1.5, 640, r3.Vec{X: 1, Y: 2, Z: 10}, u)
		ball := newBall(250, 1.5, build, 10, r3.Add(p.Post.Ends[design.Foot].At, r3.Scale(640+math.Sqrt(125*125-38.5*38.5), u)))
		ball.Ball.Pole, ball.Ball.Prime = u, design.Toward(u, 0)
		p.Post.Ends[design.Head].Contact = onBall(ball)
		b := develop(t, p).Blanks[0]
		if build != design.RolledGores {
			if b.Length != 640 || len(b.Outline) != 4 || len(b.Ordinates) != 0 {
				t.Errorf("%v: blank %v long of %d points with %d tables, want a square one of 640", build, b.Length, len(b.Outline), len(b.Ordinates))
			}
			if !slices.Contains(b.Notes, finding.Fact(SquareEnd{End: "head"})) {
				t.Errorf("%v: notes %v do not say that the head is square", build, b.Notes)
			}
			continue
		}
		// At the middle of a gore the lobe is the sphere and the tube is full
		// length, touching by its inside; a tenth of the way round is the next.
		if !near(b.Length, 640) {
			t.Errorf("rolled gores: blank %v long, want 640", b.Length)
		}
		// On a ridge, at 38.5 mm from the pole, the lobes' own height is
		// sqrt(125^2 - (38.5 cos 18 deg)^2).
		ridge := math.Sqrt(125*125-math.Pow(38.5*math.Cos(math.Pi/10), 2)) - math.Sqrt(125*125-38.5*38.5)
		_, head := curves(b)
		lowest := 640.0
		for _, q := range head {
			lowest = min(lowest, q.Y)
		}
		if off := 640 - lowest - ridge; off < -kinked || off > edgeRoom {
			t.Errorf("rolled gores: cut back %v on the ridges, want %v", 640-lowest, ridge)
		}
	}
}

// TestLongestSideUnderBall has the ball off the middle: the longest side is the
// post's length all the same, away from the offset.
func TestLongestSideUnderBall(t *testing.T) {
	p := newPost(80, 1.5, 640, r3.Vec{}, design.Upright)
	const e = 30
	up := 640 + math.Sqrt(125*125-(38.5+e)*(38.5+e))
	p.Post.Ends[design.Head].Contact = onBall(newBall(250, 1.5, design.Halves, 0, r3.Vec{X: e * math.Cos(0.2), Y: e * math.Sin(0.2), Z: up}))
	b := develop(t, p).Blanks[0]
	if math.Abs(b.Length-640) > 1e-9 {
		t.Errorf("blank %v long, want 640", b.Length)
	}
}

func TestHeadDisc(t *testing.T) {
	p := newPost(100, 2, 500, r3.Vec{}, design.Upright)
	open := develop(t, p)
	p.Post.Ends[design.Head].Disc = true
	d := develop(t, p)
	b := d.Blanks[1]
	if b.Name != "mast head disc" || b.Diameter != 96 || d.Blanks[0].Length != 500 {
		t.Errorf("disc %q of %v on a tube of %v, want one of 96 on 500", b.Name, b.Diameter, d.Blanks[0].Length)
	}
	disc := math.Pi * 48 * 48 * 2 * 7850e-9
	if !near(d.Mass-open.Mass, disc) {
		t.Errorf("disc weighs %v, want %v", d.Mass-open.Mass, disc)
	}
	if want := (open.Mass*250 + disc*499) / d.Mass; !near(d.CG.Z, want) {
		t.Errorf("centre of gravity at %v, want %v", d.CG.Z, want)
	}
	if want := 500 + math.Pi*96; !near(d.Seam, want) {
		t.Errorf("seams %v, want %v", d.Seam, want)
	}
}

// TestWitness finds each witness mark again on the rolled-up tube, at its
// bearing and between the two cuts.
func TestWitness(t *testing.T) {
	p := trimmedPost(design.RolledGores)
	for _, seam := range []float64{0, math.Pi / 2, 1, -2, 7.5} {
		for _, gap := range []float64{0, 2} {
			p.Post.Seam, p.Post.Gap = seam, gap
			b := develop(t, p).Blanks[0]
			onQuarter := math.Abs(math.Remainder(seam, math.Pi/2)) < 1e-9
			if want := map[bool]int{true: 3, false: 4}[onQuarter]; len(b.Marks) != want {
				t.Errorf("seam at %v: %d marks, want %d", seam, len(b.Marks), want)
			}
			for _, m := range b.Marks {
				at := rolled(p, m.From, 45)
				axis := r3.Add(p.Post.Ends[design.Foot].At, r3.Scale(m.From.Y, p.Post.Direction))
				want := r3.Add(axis, r3.Scale(45, design.Toward(p.Post.Direction, m.Bearing)))
				if r3.Norm(r3.Sub(at, want)) > 1e-9 || m.From.X != m.To.X || m.From.Y >= m.To.Y {
					t.Errorf("seam at %v: mark at %v from %v to %v", seam, m.Bearing, m.From, m.To)
				}
			}
		}
	}
}

// TestOrdinates lays the curves out from their tables again.
func TestOrdinates(t *testing.T) {
	p := trimmedPost(design.RolledGores)
	p.Post.Gap = 1
	b := develop(t, p).Blanks[0]
	bottom := math.Inf(1)
	for _, q := range b.Outline {
		bottom = min(bottom, q.Y)
	}
	if len(b.Ordinates) != 2 {
		t.Fatalf("%d tables, want 2", len(b.Ordinates))
	}
	for i, o := range b.Ordinates {
		if n := len(o.Stations) - 1; n != 8 && n != 12 && n != 24 || !near(o.Pitch*float64(n), b.Width) {
			t.Errorf("%s: %d stations %v apart", o.Edge, len(o.Stations), o.Pitch)
		}
		for k, s := range o.Stations {
			y := bottom + s.Ordinate
			if i == 1 {
				y = bottom + b.Length - s.Ordinate
			}
			if want := bruteCut(p, i == 1, p.Post.Seam+s.At/44.25); math.Abs(y-want) > 2e-3 {
				t.Errorf("%s: station %d at %v, cut at %v", o.Edge, k, y, want)
			}
			if !near(s.At, float64(k)*o.Pitch) {
				t.Errorf("%s: station %d at %v, want %v", o.Edge, k, s.At, float64(k)*o.Pitch)
			}
		}
	}
}

// TestWelds measures the line in which the outside of the tube meets what it
// stands on by many chords.
func TestWelds(t *testing.T) {
	for _, build := range []design.Construction{design.RolledGores, design.Halves} {
		p := trimmedPost(build)
		foot := footTrim(p)
		const chords = 20000
		want, last := 0.0, 0.0
		for i := range chords + 1 {
			touch, _ := foot.contour.Touch(math.Sincos(float64(i) / chords * 2 * math.Pi))
			if i > 0 {
				want += math.Hypot(45*2*math.Pi/chords, touch.Toe-last)
			}
			last = touch.Toe
		}
		if got := develop(t, p).Welds[0]; math.Abs(got/want-1) > 1e-4 {
			t.Errorf("weld = %v, by chords %v", got, want)
		}
	}
}

// TestRims sees that the rims lie on the outside of the tube, at the height of
// its cuts.
func TestRims(t *testing.T) {
	p := trimmedPost(design.RolledGores)
	d := develop(t, p)
	for i, rim := range d.Rims {
		for k, x := range rim {
			rel := r3.Sub(x, p.Post.Ends[design.Foot].At)
			y := r3.Dot(rel, p.Post.Direction)
			if r := r3.Norm(r3.Sub(rel, r3.Scale(y, p.Post.Direction))); math.Abs(r-45) > 1e-9 {
				t.Fatalf("%s rim point %d is %v from the axis, want 45", endName(i), k, r)
			}
			bearing := p.Post.Seam + 2*math.Pi*float64(k)/float64(len(rim))
			if want := bruteCut(p, i == 1, bearing); math.Abs(y-want) > 2e-3 {
				t.Fatalf("%s rim point %d at %v, want %v", endName(i), k, y, want)
			}
		}
	}
}
