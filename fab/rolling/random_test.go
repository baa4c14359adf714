package rolling

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
)

// numbers fails a test that finds a NaN or an infinity anywhere in a value.
func numbers(t *testing.T, v reflect.Value, path string) {
	t.Helper()
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("%s is %v", path, x)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			numbers(t, v.Field(i), path+"."+v.Type().Field(i).Name)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			numbers(t, v.Index(i), path+"[]")
		}
	case reflect.Pointer:
		if !v.IsNil() {
			numbers(t, v.Elem(), path)
		}
	}
}

// sound fails a test whose plan does not hold together.
func sound(t *testing.T, p *Plan) {
	t.Helper()
	for i := range p.Batches {
		b := &p.Batches[i]
		numbers(t, reflect.ValueOf(*b), "batch")
		if len(b.Passes) == 0 {
			t.Errorf("a batch of %v without passes", b.Radius)
			continue
		}
		for j := range b.Passes {
			for e := range 2 {
				edge := b.Passes[j].Edges[e]
				if b.Set && b.Cone == nil && j > 0 && edge.Lift <= b.Passes[j-1].Edges[e].Lift {
					t.Errorf("lift %v after %v", edge.Lift, b.Passes[j-1].Edges[e].Lift)
				}
				if edge.Released < edge.Loaded {
					t.Errorf("%v springs back to %v", edge.Loaded, edge.Released)
				}
			}
		}
		for e, edge := range b.Passes[len(b.Passes)-1].Edges {
			if !near(edge.Released, b.Edges[e], 1e-9) {
				t.Errorf("left at %v, want %v", edge.Released, b.Edges[e])
			}
		}
	}
	for _, f := range p.Findings {
		if f.Fact == nil {
			t.Error("an empty finding")
		}
		numbers(t, reflect.ValueOf(f.Fact), "finding")
	}
	numbers(t, reflect.ValueOf(p.Hand), "hand")
	refused := 0
	for _, f := range p.Findings {
		if isA[Refused](f.Fact) {
			refused++
		}
	}
	if p.Rolls != nil && refused != len(p.Refused) {
		t.Errorf("%d refused, %d reported", len(p.Refused), refused)
	}
}

func FuzzPlan(f *testing.F) {
	f.Add(1219.2, 1.5189, 50.8, 50.8, 63.5, 3.175, 0.0, 0.0, 1.5189, 140.0, 200e3, 50.0, 50.0, 1000.0, 314.0)
	f.Add(1219.2, 1.5189, 50.8, 40.0, 63.5, 3.175, 0.5, 80.0, 0.9, 140.0, 200e3, 70.0, 110.0, 700.0, 500.0)
	f.Add(1e3, 3.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1e-3, 1e-3, 1e9, 1e6, 1e-6, 1e3, 1e3)
	f.Add(1e3, math.Inf(1), 50.0, 50.0, 60.0, 2.0, 1.5, math.NaN(), 1.0, 200.0, 70e3, 100.0, 200.0, 1e-3, math.MaxFloat64)
	f.Fuzz(func(t *testing.T, width, rated, pinch, back, distance, pitch, slant, least, thickness, yield, modulus, r0, r1, length, around float64) {
		m := &design.Metal{Name: "skin", Alloy: "low-carbon-steel", Gauge: 16, Thickness: thickness, Yield: yield, Modulus: modulus}
		rolls := &design.Rolls{
			Capacity:      design.Capacity{Width: width, Alloy: "low-carbon-steel", Thickness: rated, Yield: 140},
			PinchDiameter: pinch, BackDiameter: back, BackDistance: distance, ScrewPitch: pitch, Slant: slant, Least: least,
		}
		brake := &design.Brake{Capacity: rolls.Capacity}
		straight := flat.Blank{Name: "a", Part: "a", Metal: m, Quantity: 2, Width: around, Length: length, Forming: flat.Forming{How: "roll", Axis: "y", MeanRadius: r0}}
		gore := flat.Blank{Name: "b", Part: "b", Metal: m, Quantity: 2, Shape: flat.Gore, Width: length, Length: around, Forming: flat.Forming{How: "roll", Axis: "x", MeanRadius: r1}}
		sin := (r1 - r0) / length
		cone := flat.Blank{
			Name: "c", Part: "c", Metal: m, Quantity: 1, Shape: flat.Sector,
			Forming: flat.Forming{How: "cone", Axis: "y", MeanRadius: (r0 + r1) / 2, Radii: [2]float64{r0, r1}},
			Fan:     &flat.Fan{Apex: r2.Vec{Y: -r0 / sin}, Small: math.Abs(r0 / sin), Large: math.Abs(r1 / sin), Angle: around / math.Abs((r0+r1)/2/sin)},
		}
		dish := flat.Blank{Name: "d", Part: "d", Metal: m, Quantity: 1, Diameter: length, Allowance: 10, Forming: flat.Forming{How: "dish", MeanRadius: r0}}
		sound(t, NewPlan([]flat.Blank{straight, gore, cone, dish}, rolls, Options{Units: quantity.Inch, Brake: brake}))
	})
}

// Machines and pieces as shops have them, at random.
func TestRandomPlans(t *testing.T) {
	rnd := rand.New(rand.NewPCG(6, 3))
	between := func(low, high float64) float64 { return low * math.Pow(high/low, rnd.Float64()) }
	alloys := []string{"low-carbon-steel", "stainless-304", "aluminium-5052", "copper", "brass"}
	rolled := 0
	for range 400 {
		pinch := between(30, 120)
		r := &design.Rolls{
			Capacity:      design.Capacity{Width: between(300, 2500), Alloy: "low-carbon-steel", Thickness: between(0.6, 5), Yield: 140},
			PinchDiameter: pinch, BackDiameter: pinch * between(0.7, 1.4), ScrewPitch: between(1, 6), Slant: rnd.Float64() * 0.7,
		}
		r.BackDistance = (r.PinchDiameter + r.BackDiameter) / 2 * between(1, 1.6)
		var blanks []flat.Blank
		for range 6 {
			m := metal(alloys[rnd.IntN(len(alloys))], 0, between(0.5, 4))
			blanks = append(blanks, tube("t", m, pinch*between(1, 12), between(50, 2500)), taper("c", m, pinch*between(1, 6), pinch*between(1, 6), between(80, 2000)), gore("g", m, between(60, 600), 6+rnd.IntN(12)))
		}
		p := NewPlan(blanks, r, Options{Units: quantity.System(rnd.IntN(3))})
		sound(t, p)
		for i := range p.Batches {
			rolled += len(p.Batches[i].Pieces)
			if b := &p.Batches[i]; !b.Set || b.Of == 0 {
				t.Errorf("no settings for a batch of %v on %+v", b.Radius, *r)
			}
		}
	}
	if rolled < 1000 {
		t.Errorf("only %d pieces were rolled", rolled)
	}
}
