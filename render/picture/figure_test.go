package picture

import (
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The outline is one closed curve that does not cross itself, of which the
// highest place is the height and the lowest the ground.
func TestPerson(t *testing.T) {
	edge := smoothed(person[:], 12)
	low, high, wide := math.Inf(1), math.Inf(-1), 0.0
	for _, p := range edge {
		low, high, wide = min(low, p.Y), max(high, p.Y), max(wide, math.Abs(p.X))
	}
	const sole = 0.001 // a heel or toe may round by 2 mm
	if math.Abs(high-1) > 1e-6 || math.Abs(low) > sole {
		t.Errorf("the figure reaches from %v to %v of its height", low, high)
	}
	if wide >= figureWidth {
		t.Errorf("the figure is %v wide to one side, want less than %v", wide, figureWidth)
	}
	n := len(edge)
	for i := range n {
		for k := i + 2; k < n; k++ {
			if i == 0 && k == n-1 {
				continue
			}
			if cross(edge[i], edge[(i+1)%n], edge[k], edge[(k+1)%n]) {
				t.Fatalf("the outline crosses itself at %v and %v", edge[i], edge[k])
			}
		}
	}
}

// cross reports whether two stretches cross.
func cross(a, b, c, d r2.Vec) bool {
	side := func(a, b, p r2.Vec) bool { return r2.Cross(r2.Sub(b, a), r2.Sub(p, a)) > 0 }
	return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
}

// The spline goes through its points, and where they are on a circle it keeps
// within what it is at half way between two: (9 (b + c) - (a + d)) / 16 of four
// that follow each other.
func TestSmoothed(t *testing.T) {
	points := make([]r2.Vec, 12)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(points)))
		points[i] = r2.Vec{X: cos, Y: sin}
	}
	const sides = 8
	least := (9*math.Cos(math.Pi/12) - math.Cos(math.Pi/4)) / 8
	for i, p := range smoothed(points, sides) {
		if i%sides == 0 && p != points[i/sides] {
			t.Errorf("point %d of the spline = %v, want %v", i, p, points[i/sides])
		}
		r := r2.Norm(p)
		if i%sides == sides/2 && math.Abs(r-least) > 1e-12 {
			t.Errorf("half way between two points the spline is %v from the middle, want %v", r, least)
		}
		if r < least-1e-12 || r > 1+1e-12 {
			t.Errorf("the spline through a circle is %v from its middle at %v", r, p)
		}
	}
}

// The mesh tells how far the outline is, and on which side, to a thousandth of
// the height, but for the tips of hand and toe, and sees nothing beyond its
// reach.
func TestShape(t *testing.T) {
	s := newShape()
	edge := smoothed(person[:], 12)
	rng := rand.New(rand.NewPCG(5, 6))
	var sum, worst float64
	const n = 4000
	for range n {
		p := r2.Vec{X: 0.44 * (rng.Float64() - 0.5), Y: 1.1*rng.Float64() - 0.05}
		want, inside := shapeReach, false
		for i, b := range edge {
			a := edge[(i+len(edge)-1)%len(edge)]
			ab, ap := r2.Sub(b, a), r2.Sub(p, a)
			f := min(max(r2.Dot(ab, ap)/r2.Norm2(ab), 0), 1)
			want = min(want, r2.Norm(r2.Sub(ap, r2.Scale(f, ab))))
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
				inside = !inside
			}
		}
		if inside {
			want = -want
		}
		off := math.Abs(s.distance(p.X, p.Y) - want)
		sum, worst = sum+off, max(worst, off)
	}
	if worst > 0.004 || sum/n > 0.0003 {
		t.Errorf("the distance from the outline is off by %.5f at the most and %.6f in the mean", worst, sum/n)
	}
}

// In the picture the figure stands from the ground to its stated height.
func TestFigureHeight(t *testing.T) {
	j := job(t, "../../examples", "slow-tide")
	for _, height := range []float64{900, 1600, 1752.6, 2100} {
		s := scene(t, j, Options{Person: height})
		win := s.view.window(600, 450)
		m := s.figure.mask(&win, image.Rect(0, 0, 600, 450))
		require.NotNil(t, m)
		_, head, _ := win.place(r3.Add(s.figure.foot, r3.Vec{Z: height}))
		_, sole, _ := win.place(s.figure.foot)
		// The share of each row, as far as one pixel is covered in it.
		rows := make([]float64, 450)
		for y := range rows {
			for x := range 600 {
				rows[y] = max(rows[y], m.at(x, y))
			}
		}
		tall := 0.0
		for _, share := range rows {
			tall += share
		}
		if math.Abs(tall-(sole-head)) > 1 {
			t.Errorf("a figure of %v mm is %.2f pixels tall, want %.2f", height, tall, sole-head)
		}
	}
}
