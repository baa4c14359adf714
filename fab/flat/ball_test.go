package flat

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
)

// folded bends a point of a rolled gore's flat to its place on the ball: along
// the meridian round the radius, straight across. Gore k is turned about the
// pole.
func folded(b *design.Ball, mean float64, q r2.Vec, k int) r3.Vec {
	sin, cos := math.Sincos(q.Y / mean)
	local := r3.Vec{X: mean * cos, Y: q.X, Z: mean * sin}
	sin, cos = math.Sincos(2 * math.Pi * float64(k) / float64(b.Gores))
	x := r3.Vec{X: local.X*cos - local.Y*sin, Y: local.X*sin + local.Y*cos, Z: local.Z}
	third := r3.Cross(b.Pole, b.Prime)
	v := r3.Add(r3.Scale(x.X, b.Prime), r3.Scale(x.Y, third))
	return r3.Add(b.Center, r3.Add(v, r3.Scale(x.Z, b.Pole)))
}

// halves splits a gore's outline into its right and left edge, both upward.
func halves(b Blank) (right, left []r2.Vec) {
	n := len(b.Outline) / 2
	right = b.Outline[:n]
	for i := len(b.Outline) - 1; i >= n; i-- {
		left = append(left, b.Outline[i])
	}
	return right, left
}

// TestGoresClose folds the gores back: each point of an outline lies on the
// lobed ball at the middle of the sheet, and the right edge of each gore lies
// on the left edge of the next all along.
func TestGoresClose(t *testing.T) {
	for _, n := range []int{4, 5, 7, 8, 12, 48} {
		for _, caps := range []float64{0, 60} {
			p := newBall(320, 1.5, design.RolledGores, n, r3.Vec{X: 10, Y: 20, Z: 400})
			p.Ball.Pole = r3.Unit(r3.Vec{X: 0.2, Y: -0.3, Z: 1})
			p.Ball.Prime = r3.Unit(r3.Cross(p.Ball.Pole, r3.Vec{Y: 1}))
			p.Ball.Caps = caps
			b := develop(t, p).Blanks[0]
			checkOutline(t, b)
			mean := p.Ball.Radius - p.Metal.Thickness/2
			if b.Quantity != n {
				t.Errorf("%d gores: quantity %d", n, b.Quantity)
			}
			middle := *p
			ball := *p.Ball
			ball.Radius, ball.Caps = mean, 0
			middle.Ball = &ball
			right, left := halves(b)
			for i := range right {
				if right[i].Y != left[i].Y || right[i].X != -left[i].X {
					t.Fatalf("%d gores: edges %v and %v are not alike", n, left[i], right[i])
				}
				for k := range n {
					x := folded(p.Ball, mean, right[i], k)
					next := folded(p.Ball, mean, left[i], (k+1)%n)
					if gap := r3.Norm(r3.Sub(x, next)); gap > 1e-9 {
						t.Fatalf("%d gores: edges of %d and %d are %v apart at %v", n, k, k+1, gap, right[i])
					}
					if off := lobes(&ball, x); math.Abs(off) > 1e-9 {
						t.Fatalf("%d gores: point %v lies %v off the lobed ball", n, right[i], off)
					}
				}
			}
		}
	}
}

// lobes returns how far a point lies outside the bare lobes of a ball.
func lobes(b *design.Ball, x r3.Vec) float64 {
	x = r3.Sub(x, b.Center)
	z, third := r3.Dot(x, b.Pole), r3.Cross(b.Pole, b.Prime)
	most := math.Inf(-1)
	for k := range b.Gores {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(b.Gores))
		most = max(most, r3.Dot(x, r3.Add(r3.Scale(cos, b.Prime), r3.Scale(sin, third))))
	}
	return math.Hypot(most, z) - b.Radius
}

// TestGoreAreas adds up the outlines: whole gores of a domed ball have the
// sphere's area, those of a rolled one N/pi tan(pi/N) times that, and what is
// cut off at the tips is the area of the holes.
func TestGoreAreas(t *testing.T) {
	for _, n := range []int{6, 9, 16} {
		for _, build := range []design.Construction{design.RolledGores, design.DomedGores} {
			p := newBall(400, 2, build, n, r3.Vec{})
			d := develop(t, p)
			b := d.Blanks[0]
			outline := 0.0
			for i, q := range b.Outline {
				outline += r2.Cross(q, b.Outline[(i+1)%len(b.Outline)]) / 2
			}
			if lost := 1 - outline/b.Area; lost < 0 || lost > 1e-3 {
				t.Errorf("%d gores: outline %v, area %v", n, outline, b.Area)
			}
			s, _ := segment(p)
			s.End = [2]float64{s.Mean * math.Pi / 2, s.Mean * math.Pi / 2}
			want := 4 * math.Pi * 199 * 199
			if build == design.RolledGores {
				want *= float64(n) / math.Pi * math.Tan(math.Pi/float64(n))
			}
			if got := float64(n) * s.area(); !near(got, want) {
				t.Errorf("%d gores: area %v, want %v", n, got, want)
			}
			if got, want := d.Mass, float64(n)*b.Area*2*7850e-9; !near(got, want) {
				t.Errorf("%d gores: mass %v, want %v", n, got, want)
			}
			if d.CG != p.Ball.Center {
				t.Errorf("%d gores: centre of gravity %v, want the centre", n, d.CG)
			}
		}
	}
}

// TestCappedBallArea brings gores and caps together: those of a domed ball have
// the sphere's area again.
func TestCappedBallArea(t *testing.T) {
	for _, caps := range []float64{80, 150, 270} {
		p := newBall(300, 1.5, design.DomedGores, 12, r3.Vec{})
		p.Ball.Caps = caps
		d := develop(t, p)
		got := 0.0
		for _, b := range d.Blanks {
			got += float64(b.Quantity) * b.Area
		}
		if want := 4 * math.Pi * 149.25 * 149.25; !near(got, want) {
			t.Errorf("caps %v: area %v, want %v", caps, got, want)
		}
		if want := 12*d.Blanks[0].Length + 2*math.Pi*caps; !near(d.Seam, want) {
			t.Errorf("caps %v: seam %v, want %v", caps, d.Seam, want)
		}
	}
}

// TestStretch takes the mean over a gore of the strains that its fibres must
// take, cell by cell, and sees that those of one latitude come to nothing in
// sum.
func TestStretch(t *testing.T) {
	s, _ := segment(newBall(300, 1.5, design.DomedGores, 8, r3.Vec{}))
	s.End[design.LowerPole] *= 0.7 // as with a wider cap
	const cells = 600
	var sum, area float64
	for i := range cells {
		along := (s.End[0]+s.End[1])*(float64(i)+0.5)/cells - s.End[0]
		w := s.width(along)
		net := 0.0
		for k := range cells {
			u := (float64(k) + 0.5) / cells
			strain := w * w / (2 * s.Mean * s.Mean) * (1.0/3 - u*u)
			net += strain / cells
			sum += math.Abs(strain) * w
			area += w
		}
		if math.Abs(net) > 1e-6 {
			t.Fatalf("at %v the strains come to %v", along, net)
		}
	}
	if got, want := s.stretch(), sum/area; math.Abs(got/want-1) > 1e-4 {
		t.Errorf("stretch = %v, by cells %v", got, want)
	}
}

func TestFlatCapAndSlivers(t *testing.T) {
	p := newBall(300, 3, design.RolledGores, 8, r3.Vec{})
	p.Ball.Caps = 50 // rises 2.11 mm, less than the thickness
	d := develop(t, p)
	c := d.Blanks[1]
	if c.Forming.How != "flat" || c.Diameter != 50 || c.Quantity != 2 {
		t.Errorf("cap = %q, %v across, %d of them, want a flat one of 50, 2 of them", c.Forming.How, c.Diameter, c.Quantity)
	}
	// 25 (1/cos 22.5 deg - 1) = 2.06
	if len(d.Findings) != 1 || !isSlivers(d.Findings[0].Fact, 8, 2.06) {
		t.Errorf("findings = %v, want one of slivers of 2.06 mm", d.Findings)
	}
	p.Ball.Caps = 80
	if c := develop(t, p).Blanks[1]; c.Forming.How != "dish" || c.Forming.MeanRadius != 148.5 {
		t.Errorf("cap of 80 = %+v, want dished to 148.5", c.Forming)
	}
}

func TestBluntTips(t *testing.T) {
	d := develop(t, newBall(300, 1.5, design.RolledGores, 12, r3.Vec{}))
	right, _ := halves(d.Blanks[0])
	if tip := 2 * right[len(right)-1].X; !near(tip, leastTip) {
		t.Errorf("tip = %v, want %v", tip, leastTip)
	}
	// Across flats 3 / tan 15 deg = 11.20.
	if len(d.Findings) != 1 || !isHole(d.Findings[0].Fact, 11.2) {
		t.Errorf("findings = %v, want one of a hole of 11.2 mm", d.Findings)
	}
}

func TestBought(t *testing.T) {
	p := newBall(200, 0, design.Bought, 0, r3.Vec{Z: 5})
	p.Metal = nil
	p.Ball.BoughtMass = 2.5
	d := develop(t, p)
	if d.Mass != 2.5 || len(d.Blanks) != 0 || d.Seam != 0 || d.CG != (r3.Vec{Z: 5}) {
		t.Errorf("bought ball = %+v", d)
	}
}

// isSlivers reports whether a fact is of slivers of a width, to a hundredth of a mm.
func isSlivers(f finding.Fact, corners int, width float64) bool {
	s, ok := f.(Slivers)
	return ok && s.Corners == corners && math.Abs(s.Width-width) < 0.005
}

// isHole reports whether a fact is of a hole at the poles, to a hundredth of a mm.
func isHole(f finding.Fact, across float64) bool {
	b, ok := f.(BluntTips)
	return ok && b.Welded && math.Abs(b.Hole-across) < 0.01
}
