package plate_test

import (
	"flag"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/internal/brick"
)

var plates = flag.Int("plates", 2, "how many plates, up to 8, to hold against finite elements")

// TestCalculix holds the spring of plates on four anchors within 15 % of CalculiX: a quarter of the
// plate in bricks, two through it, with a round stiff post, whose other quarters follow by
// symmetry.
func TestCalculix(t *testing.T) {
	sizes := [][5]float64{ // x, y, thickness, inset, radius of the post
		{400, 400, 10, 0, 25}, {600, 400, 10, 0, 33.4}, {400, 400, 10, 25, 25}, {400, 400, 8, 50, 50},
		{400, 400, 10, 50, 75}, {500, 300, 12, 40, 30}, {300, 600, 10, 40, 30}, {800, 800, 10, 50, 24},
	}
	for _, c := range sizes[:min(*plates, len(sizes))] {
		x, y, thick, inset, radius := c[0]/2, c[1]/2, c[2], c[3], c[4]
		var m brick.Mesh
		corner := r2.Vec{X: x, Y: y}
		// Round the post: from its side toward x, by the corner, to its side toward y.
		place := func(out, thick, way float64) r3.Vec {
			sin, cos := math.Sincos(way * math.Pi / 4)
			edge := r2.Vec{X: x, Y: way * y}
			if way > 1 {
				edge = r2.Vec{X: (2 - way) * x, Y: y}
			}
			in := r2.Vec{X: radius * cos, Y: radius * sin}
			p := r2.Add(in, r2.Scale(out, r2.Sub(edge, in)))
			return r3.Vec{X: p.X, Y: p.Y, Z: thick}
		}
		m.Block(brick.Steps(0, 1, 0.02, 1.3, 0.08), brick.Even(-thick/2, thick/2, 2), brick.Even(0, 2, 12), place)

		// The anchor is at the nearest node of the middle plane, through the plate.
		want := r2.Sub(corner, r2.Vec{X: inset, Y: inset})
		best := r3.Vec{X: math.Inf(1)}
		for _, p := range m.Nodes {
			if p.Z == 0 && math.Hypot(p.X-want.X, p.Y-want.Y) < math.Hypot(best.X-want.X, best.Y-want.Y) {
				best = p
			}
		}
		anchor := m.Where(func(p r3.Vec) bool { return math.Hypot(p.X-best.X, p.Y-best.Y) < 1e-3 })
		turn := func(way int) float64 {
			const angle = 1e-4
			var held []brick.Hold
			for i, p := range m.Nodes {
				along := [2]float64{p.X, p.Y}
				switch {
				case math.Abs(math.Hypot(p.X, p.Y)-radius) < 1e-6:
					by := [3]float64{}
					by[2], by[way] = angle*along[way], -angle*p.Z
					for k := range by {
						held = append(held, brick.Hold{Node: i + 1, Way: k + 1, By: by[k]})
					}
					continue
				case along[way] < 1e-6: // turned about: the far side goes down by as much
					held = append(held, brick.Hold{Node: i + 1, Way: 2 - way}, brick.Hold{Node: i + 1, Way: 3})
				case along[1-way] < 1e-6:
					held = append(held, brick.Hold{Node: i + 1, Way: 2 - way})
				}
			}
			for _, n := range anchor {
				held = append(held, brick.Hold{Node: n, Way: 3})
			}
			moment := 0.0
			for _, f := range m.Solve(t, brick.Steel{}, held, anchor)[0].Force {
				moment -= 4 * f.Z * [2]float64{best.X, best.Y}[way]
			}
			return moment / angle
		}
		p := rectangle(2*x, 2*y, thick, 0, radius)
		for i, a := range p.Anchors {
			p.Anchors[i] = r2.Vec{X: math.Copysign(best.X, a.X), Y: math.Copysign(best.Y, a.Y)}
		}
		s, err := p.Springs()
		require.NoError(t, err)
		ratios := [2]float64{}
		for way := range 2 {
			ratios[way] = s[0].Rotational[way] / turn(way)
			if math.Abs(ratios[way]-1) > 0.15 {
				t.Errorf("%v, toward %d: %.3g, %.3f of that by ccx", c, way, s[0].Rotational[way], ratios[way])
			}
		}
		unit := 200e3 * thick * thick * thick
		t.Logf("%v, anchors at %.1f, %.1f: k %.3f and %.3f, over ccx %.3f and %.3f; %d nodes", c, best.X, best.Y, s[0].Rotational[0]/unit, s[0].Rotational[1]/unit, ratios[0], ratios[1], len(m.Nodes))
	}
}
