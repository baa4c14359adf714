package strength

import (
	"math"
	"testing"

	"stabile/fab/shell"
	"stabile/param/written"
)

// TestEggWall holds that the wall of an egg carries no more, by the rule, than that of a sphere
// of any radius to which the egg is bent at the joint, and that the rule's limits fall as the
// radius grows, which makes that a bound.
func TestEggWall(t *testing.T) {
	for _, tall := range []string{"130", "190", "250", "390"} {
		d := written.Design(t, `units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { plate 800 by 800, metal slab }
post mast on pad { diameter 40, length 500, metal skin }
ball egg on mast { diameter 200, tall `+tall+`, halves, metal skin }
post twig on egg { diameter 30, length 200, metal skin }
ball side at (250, 0, 500) { diameter 60, halves, metal skin }
post arm from egg to side { diameter 24, metal skin }
`)
		egg := d.Part("egg")
		for _, at := range []struct {
			post string
			end  int
		}{{"mast", 1}, {"twig", 0}, {"arm", 0}} {
			s := shellAt(d.Part(at.post), egg, at.end)
			if s.Joint.Wall == 0 || !(s.Capacity.Outward > 0) {
				t.Fatalf("%s of %s: %+v", at.post, tall, s)
			}
			profile := egg.Ball.Profile()
			lean := math.Asin(min(1, math.Abs(s.out.Z)))
			for _, off := range []float64{-0.02, 0, 0.02} {
				latitude := math.Atan2(math.Sin(lean+off)*200*200/4, math.Cos(lean+off)*egg.Ball.Tall*egg.Ball.Tall/4)
				along, across := profile.Bends(latitude)
				for _, r := range []float64{along, across} {
					j := s.Joint
					j.Radius = r - j.Wall/2
					c, err := j.Capacity()
					if err != nil || j.Diameter >= 2*j.Radius {
						continue
					}
					if s.Capacity.Outward > c.Outward*(1+1e-9) || s.Capacity.Inward > c.Inward*(1+1e-9) || s.Capacity.Moment > c.Moment*(1+1e-9) || s.Capacity.Shear > c.Shear*(1+1e-9) {
						t.Errorf("%s on %s: carries %+v, a sphere of %v %+v", at.post, tall, s.Capacity, r, c)
					}
				}
			}
		}
	}
	last := shell.Capacity{Outward: math.Inf(1), Inward: math.Inf(1), Moment: math.Inf(1), Shear: math.Inf(1), Torque: math.Inf(1)}
	for r := 60.0; r < 600; r *= 1.1 {
		c, err := (shell.Joint{Radius: r, Wall: 1.5, Diameter: 38, Strength: 150, Tube: 1.5, TubeStrength: 150}).Capacity()
		if err != nil {
			t.Fatal(err)
		}
		if c.Outward > last.Outward*(1+1e-9) || c.Inward > last.Inward*(1+1e-9) || c.Moment > last.Moment*(1+1e-9) || c.Shear > last.Shear*(1+1e-9) || c.Torque > last.Torque*(1+1e-9) {
			t.Errorf("a radius of %v carries %+v, a lesser one %+v", r, c, last)
		}
		last = c
	}
}
