package assembly_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/assembly"
)

// near reports whether two numbers are alike but for rounding.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(1, math.Abs(a), math.Abs(b)) }

// checkMass compares a plan with the job that it was made from: the weld metal,
// and the weight and the centre of gravity of the whole.
func checkMass(t *testing.T, j *fab.Job, p *assembly.Plan) {
	t.Helper()
	if !near(p.Totals.Filler, j.Mass.Weld) {
		t.Errorf("weld metal of %v kg, the job has %v", p.Totals.Filler, j.Mass.Weld)
	}
	last := p.Steps[len(p.Steps)-1].Lift
	if last == nil || !near(last.Mass, j.Mass.Total) || !near(last.Low, j.Mass.Low) || !near(last.High, j.Mass.High) {
		t.Errorf("the whole weighs %+v, the job has %+v", last, j.Mass)
	}
	if r3.Norm(r3.Sub(last.CG, j.CG)) > 1e-6 {
		t.Errorf("centre of gravity %v, the job has %v", last.CG, j.CG)
	}
	seams := map[string]float64{}
	for _, w := range p.Welds {
		if w.Joint < 0 && w.With == "" {
			seams[w.Part] += w.Total()
		}
		if w.With != "" && w.Joint < 0 {
			t.Errorf("weld %d of '%s' to '%s' is of no joint", w.Number, w.Part, w.With)
		}
	}
	for i := range j.Parts {
		part := &j.Parts[i]
		if !near(seams[part.Name], part.Seam) {
			t.Errorf("the seams of '%s' add up to %v, the job has %v", part.Name, seams[part.Name], part.Seam)
		}
	}
	// The stage after the last placing has everything in it.
	for i := len(p.Steps) - 1; i >= 0; i-- {
		if g := p.Steps[i].Stage; g != nil {
			if !near(g.Mass, j.Mass.Total) || r3.Norm(r3.Sub(g.CG, j.CG)) > 1e-6 {
				t.Errorf("the last stage is %+v, the job has %v at %v", *g, j.Mass.Total, j.CG)
			}
			break
		}
	}
}

// TestMass compares the plans of the examples and of the design with every joint
// with their jobs.
func TestMass(t *testing.T) {
	for name, j := range examples(t) {
		t.Run(name, func(t *testing.T) { checkMass(t, j, assembly.Make(input(j))) })
	}
	t.Run("every", func(t *testing.T) {
		j := build(t, every)
		checkMass(t, j, assembly.Make(input(j)))
	})
	t.Run("cut in pieces", func(t *testing.T) {
		// Sheets so small that rings and the taper are cut in pieces.
		j := build(t, `
units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
metal slab { alloy low-carbon-steel, thickness 10 }
shop { sheet skin { size 300 by 500 } }
base pad { plate 400 by 400, metal slab }
post mast on pad { at (0, 0), diameter 140 to 90, length 400, gap 1, metal skin }
ball moon on mast { diameter 240, zones 6, metal skin }
ball star on moon { diameter 120, zones 7, metal skin }
`)
		p := assembly.Make(input(j))
		checkMass(t, j, p)
		rings, tubes := 0, 0
		for _, w := range p.Welds {
			switch w.Kind {
			case assembly.RingSeam:
				rings += w.Count
			case assembly.TubeSeam:
				tubes += w.Count
			}
		}
		if rings <= 13 || tubes < 2 {
			t.Errorf("%d ring seams and %d seams of the taper, want more than 13 and at least 2", rings, tubes)
		}
	})
}
