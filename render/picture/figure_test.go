package picture

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
)

// The shape reaches from the ground to its height, and no farther to the sides
// than room is kept for it.
func TestWalker(t *testing.T) {
	low, high, left, right := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	const step = 0.002
	for y := -0.1; y < 1.1; y += step {
		for x := -0.4; x < 0.4; x += step {
			if walker(x, y) < 0 {
				low, high, left, right = min(low, y), max(high, y), min(left, x), max(right, x)
			}
		}
	}
	if math.Abs(low) > 0.008 || math.Abs(high-1) > 0.008 {
		t.Errorf("the shape reaches from %.3f to %.3f of its height", low, high)
	}
	if left < -figureWidth || right > figureWidth {
		t.Errorf("the shape reaches from %.3f to %.3f to the sides, want within %v", left, right, figureWidth)
	}
	if off := (left + right) / 2; math.Abs(off) > 0.05 {
		t.Errorf("the shape is %.3f off its middle", off)
	}
}

// Between two places the distance from the shape changes by no more than they are
// apart, or the edge of the figure and of its shadow would tear; but for the taper
// of limbs and the fillets between them.
func TestWalkerDistance(t *testing.T) {
	const step = 0.004
	for y := -0.1; y < 1.1; y += step {
		for x := -0.4; x < 0.4; x += step {
			d := walker(x, y)
			for _, e := range [2]float64{walker(x+step, y), walker(x, y+step)} {
				if math.Abs(e-d) > 1.35*step {
					t.Fatalf("the distance changes by %.4f over %.4f at %.3f, %.3f", e-d, step, x, y)
				}
			}
		}
	}
}

// In the picture the figure stands from the ground to its stated height.
func TestFigureHeight(t *testing.T) {
	j := job(t, "../../examples", "slow-tide")
	for _, height := range []float64{900, 1600, 1752.6, 2100} {
		s := scene(t, j, Options{Beside: Person, Person: height})
		win := s.view.window(600, 450)
		m := s.figure.mask(&win, image.Rect(0, 0, 600, 450))
		require.NotNil(t, m)
		_, head, _ := win.place(r3.Add(s.figure.foot, r3.Vec{Z: height}))
		_, sole, _ := win.place(s.figure.foot)
		// The share of each row, as far as one pixel is covered in it.
		tall := 0.0
		for y := range 450 {
			most := 0.0
			for x := range 600 {
				most = max(most, m.at(x, y))
			}
			tall += most
		}
		if math.Abs(tall-(sole-head)) > 2 {
			t.Errorf("a figure of %v mm is %.2f pixels tall, want %.2f", height, tall, sole-head)
		}
	}
}

// What shows the size fits the piece, and is written over it.
func TestMeasure(t *testing.T) {
	j := job(t, "../../examples", "slow-tide") // 1.94 m tall
	for _, tt := range []struct {
		scale float64
		want  Measure
		text  string
		table bool
	}{
		{1, Person, "5 ft 9 in", false}, {0.62, Person, "5 ft 9 in", false}, {0.5, Chair, "33 in", false},
		{0.22, Chair, "33 in", false}, {0.15, Cup, "3-3/4 in", true}, {0.05, Cup, "3-3/4 in", true},
	} {
		s := scene(t, resized(j, tt.scale), Options{Beside: Fitting})
		if s.beside != tt.want || s.caption != tt.text || s.stage.table > 0 != tt.table {
			t.Errorf("beside a piece of %.0f mm: measure %d, written %q, on a table %v; want %d, %q, %v",
				s.size, s.beside, s.caption, s.stage.table > 0, tt.want, tt.text, tt.table)
		}
		checkLight(t, tt.text, s, 60, 45)
	}
}

// The figure is never the heaviest shape: it differs less from what is about it
// than the piece does.
func TestFigureIsLight(t *testing.T) {
	for name, j := range examples(t) {
		for _, place := range Places() {
			bare := scene(t, j, Options{Place: place})
			s := scene(t, j, Options{Place: place, Beside: Person, Person: 1750})
			bare.view = s.view
			const w, h = 200, 150
			win := s.view.window(w, h)
			m := s.figure.mask(&win, image.Rect(0, 0, w, h))
			with, without := s.Render(w, h), bare.Render(w, h)
			what := ids(s, w, h)
			figure, n := 0.0, 0
			for i, id := range what {
				if id < 0 && m.at(i%w, i/w) == 1 {
					figure += math.Abs(lab(with, i%w, i/w, 1)[0] - lab(without, i%w, i/w, 1)[0])
					n++
				}
			}
			if n == 0 {
				t.Errorf("%s, %s: no figure is seen", name, place)
				continue
			}
			if figure /= float64(n); figure < 4 || figure > 32 {
				t.Errorf("%s, %s: the figure differs by %.1f in lightness from what is behind it, want 4 to 32", name, place, figure)
			}
		}
	}
}
