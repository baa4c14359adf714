package shell_test

import (
	"flag"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/shell"
)

var forms = flag.Int("forms", 1, "how many joints of a tube and a ball of flats to hold against finite elements; all take half an hour")

// TestForms holds joints on balls of rolled gores and of zones against CalculiX, as TestCalculix
// does on spheres: at the pole of gores the limit is that of the sphere, elsewhere that of a
// cylinder; the springs are no more than 30 % too stiff.
func TestForms(t *testing.T) {
	x, y, z := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	const half = math.Pi / 8 // of a gore of eight
	small := shell.Joint{Radius: 127, Wall: 1.5, Diameter: 60, Tube: 1.5, Strength: yield}
	wide := shell.Joint{Radius: 178, Wall: 1.5, Diameter: 125, Tube: 1.5, Strength: yield}
	thick := shell.Joint{Radius: 100, Wall: 2, Diameter: 40, Tube: 2, Strength: yield}
	one := shell.Springs{Rotational: 1, Axial: 1}
	for i, c := range []struct {
		name   string
		joint  shell.Joint
		form   form
		turns  int
		single bool
		soft   shell.Springs
	}{
		{"pole of 8, thick", thick, gored(8, z, x), 8, false, shell.OfPole},
		{"pole of 8", small, gored(8, z, x), 8, false, shell.OfPole},
		{"pole of 12, wide", wide, gored(12, z, x), 12, false, shell.OfPole},
		{"middle of a gore", small, gored(8, x, z), 16, true, shell.OfMiddle},
		{"seam, turned across it", small, gored(8, x, r3.Vec{Y: math.Sin(half), Z: math.Cos(half)}), 16, true, shell.OfSeam},
		{"seam, turned along it", small, gored(8, y, r3.Vec{X: math.Sin(half), Z: math.Cos(half)}), 16, true, shell.OfSeam},
		{"middle of a ring", thick, ringed(7, x), 16, true, one},
		{"seam of rings", thick, ringed(6, x), 16, true, one},
	} {
		if i >= *forms {
			break
		}
		t.Run(c.name, func(t *testing.T) {
			m := solid(c.joint, c.form, c.turns)
			j := c.joint
			round, err := j.Capacity()
			require.NoError(t, err)
			j.Single = c.single
			limit, err := j.Capacity()
			require.NoError(t, err)
			s, err := j.Springs(modulus)
			require.NoError(t, err)
			s = s.Times(c.soft)
			by := m.work(t, j, round)
			t.Logf("lambda %.2f, R/t %.0f, q %.2f: springs over ccx %.3f turning, %.3f pushing; ccx over limit %.2f moment, %.2f force; over a sphere's %.2f and %.2f",
				round.Lambda, j.Radius/j.Wall, j.Diameter/2/j.Radius, s.Rotational/by.turn, s.Axial/by.push, by.moment/limit.Moment, by.inward/limit.Inward, by.moment/round.Moment, by.inward/round.Inward)
			if s.Rotational > 1.3*by.turn || s.Axial > 1.3*by.push {
				t.Errorf("springs %+v, by ccx %+v", s, by)
			}
			if by.inward < limit.Inward || by.moment < limit.Moment {
				t.Errorf("limits %+v, by ccx %+v", limit, by)
			}
		})
	}
}
