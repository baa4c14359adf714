package plate_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/internal/worked"
	"stabile/fab/plate"
)

// rectangle returns a plate with a post in its middle and anchors in its corners.
func rectangle(x, y, thick, inset, radius float64) plate.Plate {
	box := func(x, y float64) []r2.Vec {
		return []r2.Vec{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}}
	}
	return plate.Plate{
		Outline: box(x/2, y/2), Anchors: box(x/2-inset, y/2-inset), Posts: []plate.Post{{Radius: radius}}, Thickness: thick, Modulus: 200e3,
	}
}

// TestAnchoredRound holds the elements against the closed form of a round plate whose edge is
// supported: forty anchors stand for the edge. The rim has steps where elements end.
func TestAnchoredRound(t *testing.T) {
	const radius, thick, steps = 200., 10., 0.025
	for _, ratio := range []float64{0.1, 0.2, 0.3, 0.5} {
		p := plate.Plate{Posts: []plate.Post{{Radius: ratio * radius}}, Thickness: thick, Modulus: 200e3}
		for i := range 40 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 40)
			p.Outline = append(p.Outline, r2.Vec{X: 1.01 * radius * cos, Y: 1.01 * radius * sin})
			p.Anchors = append(p.Anchors, r2.Vec{X: radius * cos, Y: radius * sin})
		}
		s, err := p.Springs()
		require.NoError(t, err)
		alpha, _, err := plate.Annulus(ratio, false)
		require.NoError(t, err)
		if k := s[0].Rotational[0] / (200e3 * thick * thick * thick) / plate.Softer; !near(k, 1/alpha, steps) {
			t.Errorf("b/a %v: %v, in closed form %v", ratio, k, 1/alpha)
		}
	}
}

// TestAnchored holds the elements against worked cases K14 and K15, of a grid that has the post as
// those of its nodes that are within. K15 was done again with a finer grid, from which these are
// within 6 %. The post of K14 has few nodes and comes out too soft: by a tenth, and by a fifth
// where it comes near to the anchors. Solid bricks (TestCalculix) confirm the stiffer figures,
// the last of them too.
func TestAnchored(t *testing.T) {
	var in struct {
		Inset  []float64 `json:"inset_over_B"`
		Radius []float64 `json:"r0_over_B"`
	}
	var out struct {
		K [][]float64 `json:"k_rows"`
	}
	worked.Read(t, "K14", &in, &out)
	for i, inset := range in.Inset {
		for j, r := range in.Radius {
			s, err := rectangle(400, 400, 10, 400*inset, 400*r).Springs()
			require.NoError(t, err)
			over := s[0].Rotational[0] / (200e3 * 1000) / plate.Softer / out.K[i][j]
			if over < 1 || over > 1.20 || !near(s[0].Rotational[0], s[0].Rotational[1], 1e-6) {
				t.Errorf("inset %v, radius %v: %v times the table", inset, r, over)
			}
		}
	}
	var size struct{ Lx, Ly, T, R0 float64 }
	var check struct {
		Finer []float64 `json:"finer_mesh_54x36"`
	}
	worked.ReadCheck(t, "K15", &size, nil, &check)
	s, err := rectangle(size.Lx, size.Ly, size.T, 0, size.R0).Springs()
	require.NoError(t, err)
	for way := range 2 {
		if k := s[0].Rotational[way] / (200e3 * 1000) / plate.Softer; !near(k, check.Finer[way], 0.06) {
			t.Errorf("600 x 400, way %d: %v, want %v", way, k, check.Finer[way])
		}
	}
}

// TestSeveral: two posts off the middle, mirrored, have the same springs; one alone in a corner of
// its plate is the stiffer the nearer its anchors are; a thicker plate is so by the third power.
func TestSeveral(t *testing.T) {
	p := rectangle(600, 400, 10, 40, 20)
	p.Posts = []plate.Post{{At: r2.Vec{X: -150, Y: 30}, Radius: 20}, {At: r2.Vec{X: 150, Y: 30}, Radius: 20}}
	s, err := p.Springs()
	require.NoError(t, err)
	for way := range 2 {
		if !near(s[0].Rotational[way], s[1].Rotational[way], 1e-6) {
			t.Errorf("way %d: %v and %v", way, s[0].Rotational[way], s[1].Rotational[way])
		}
	}
	if !near(s[0].Axial, s[1].Axial, 1e-6) {
		t.Errorf("%v and %v", s[0].Axial, s[1].Axial)
	}
	thick := p
	thick.Thickness = 20
	double, err := thick.Springs()
	require.NoError(t, err)
	if !near(double[0].Axial, 8*s[0].Axial, 1e-9) || !near(double[1].Rotational[1], 8*s[1].Rotational[1], 1e-9) {
		t.Errorf("%+v, twice as thick %+v", s, double)
	}
	more := rectangle(600, 400, 10, 40, 20)
	few, err := more.Springs()
	require.NoError(t, err)
	more.Anchors = append(more.Anchors, r2.Vec{X: 260}, r2.Vec{X: -260})
	many, err := more.Springs()
	require.NoError(t, err)
	if many[0].Rotational[0] <= few[0].Rotational[0] || many[0].Axial <= few[0].Axial {
		t.Errorf("with more anchors %+v, with four %+v", many, few)
	}
}

// TestAnchoredErrors: what does not hold is an error.
func TestAnchoredErrors(t *testing.T) {
	for name, change := range map[string]func(*plate.Plate){
		"two anchors": func(p *plate.Plate) { p.Anchors = p.Anchors[:2] },
		"in a line":   func(p *plate.Plate) { p.Anchors = []r2.Vec{{X: -100, Y: 100}, {Y: 100}, {X: 100, Y: 100}} },
		"off it":      func(p *plate.Plate) { p.Anchors[0].X = -301 },
		"under it":    func(p *plate.Plate) { p.Anchors[0] = r2.Vec{} },
		"no post":     func(p *plate.Plate) { p.Posts = nil },
		"post off it": func(p *plate.Plate) { p.Posts[0].At.X = 290 },
		"posts touch": func(p *plate.Plate) { p.Posts = append(p.Posts, plate.Post{At: r2.Vec{X: 10}, Radius: 20}) },
		"no outline":  func(p *plate.Plate) { p.Outline = nil },
		"turned over": func(p *plate.Plate) { slices.Reverse(p.Outline) },
		"nan":         func(p *plate.Plate) { p.Posts[0].At.X = math.NaN() },
		"no metal":    func(p *plate.Plate) { p.Modulus = 0 },
	} {
		p := rectangle(600, 400, 10, 40, 20)
		change(&p)
		if s, err := p.Springs(); err == nil {
			t.Errorf("%s: %+v", name, s)
		}
	}
}

// FuzzAnchored: no plate gives a number that is not one, or panics.
func FuzzAnchored(f *testing.F) {
	f.Add(600., 400., 10., 40., 20., 0., 0., 100., 50.)
	f.Add(1., 1e6, 1e-3, 1e-3, 1e-3, 0.2, 0.3, -0.1, 0.)
	f.Fuzz(func(t *testing.T, x, y, thick, inset, radius, atX, atY, anchorX, anchorY float64) {
		p := rectangle(x, y, thick, inset, radius)
		p.Posts[0].At = r2.Vec{X: atX, Y: atY}
		p.Anchors = append(p.Anchors, r2.Vec{X: anchorX, Y: anchorY})
		if s, err := p.Springs(); err == nil {
			worked.Finite(t, s)
		}
	})
}

func BenchmarkSprings(b *testing.B) {
	p := rectangle(600, 400, 10, 40, 20)
	for b.Loop() {
		if _, err := p.Springs(); err != nil {
			b.Fatal(err)
		}
	}
}
