package strength

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/fab/frame/trial"
	"stabile/fab/shell"
	"stabile/fab/solid"
	"stabile/fab/wind"
	"stabile/param/design"
)

// TestFind holds that a search that passes over groups of cases finds what one
// through all of them finds, on random sculptures, and that no case goes above its
// group's bound.
func TestFind(t *testing.T) {
	passed, all := 0, 0
	for seed := range uint64(40) {
		rnd := rand.New(rand.NewPCG(seed, 77))
		b := trial.Random(rnd, 3+rnd.IntN(25))
		b.Design.Site = &design.Site{
			Push: 300 * rnd.Float64(), PushHeight: 200 + 800*rnd.Float64(), Slope: 0.2 * rnd.Float64() * float64(seed%2),
			Wind: 50 * rnd.Float64(), Method: design.ASCE7, Exposure: "C",
		}
		if seed%3 == 0 {
			b.Design.Site.Method, b.Design.Site.Terrain = design.EN1991, "II"
		}
		w, err := wind.On(&b.Design, solid.Bodies(&b.Design), wind.Options{})
		require.NoError(t, err)
		in := Input{Design: &b.Design, Items: b.Items(), Wind: w}
		pushed := pushes(in)
		f, err := frame.New(stationed(in.Items, pushed))
		require.NoError(t, err)
		c := newCases(f, in, pushed)
		for i := range f.Beams {
			beam := &f.Beams[i]
			if beam.A == beam.B {
				continue
			}
			a := allow(beam.Section, 250, beam.Modulus, 100*rnd.Float64(), 1000)
			columns := c.solved.SectionForces(i, rnd.IntN(2), nil)
			look := newSearch(a, 1+rnd.Float64(), 0)
			look.weld, look.diameter, look.foot = true, beam.Diameter, true
			look.shell, look.sign = true, 1
			look.capacity = shell.Capacity{Outward: 5e3, Inward: 3e3, Moment: 1e5, Shear: 4e3, Torque: 2e5}
			look.out[0], look.out[1], look.out[2] = beam.Local(r3.Unit(r3.Add(beam.Axis, r3.Scale(rnd.Float64(), beam.Across[0]))))
			through := look
			c.find(&look, columns)
			for g := range c.groups {
				group, all0 := &c.groups[g], all
				c.try(&through, group, columns)
				most := c.bound(group, columns)
				for n := group.first; n < group.first+group.count; n++ {
					all++
					r := c.list[n].sum(columns)
					pull, shear, bending, twist := r.Resultants()
					size := 1e-9 * (math.Abs(pull) + shear + bending + twist)
					if pull > most.tension+size || -pull > most.compression+size || shear > most.shear+size || bending > most.bending+size || twist > most.twist+size {
						t.Fatalf("seed %d, %+v: %v, %v, %v, %v go above %+v", seed, c.load(n), pull, shear, bending, twist, most)
					}
				}
				if through.passes(&most, a.ratioBound(&most, through.grow)) {
					passed += all - all0
				}
			}
			if !reflect.DeepEqual(look, through) {
				t.Errorf("seed %d, beam %d: found %+v, through all %+v", seed, i, look, through)
			}
		}
		// The least pulls, against every case.
		for i, got := range c.greatestCompressions() {
			if f.Beams[i].A == f.Beams[i].B {
				continue
			}
			want := 0.0
			for end := range 2 {
				columns := c.solved.SectionForces(i, end, nil)
				for n := range c.list {
					r := c.list[n].sum(columns)
					want = min(want, r.Axial)
				}
			}
			if math.Abs(got-want) > 1e-9*math.Abs(want)+1e-6 {
				t.Errorf("seed %d, beam %d: greatest push %v, want %v", seed, i, got, want)
			}
		}
	}
	if passed < all/4 {
		t.Errorf("of %d cases only %d are passed over", all, passed)
	}
}
