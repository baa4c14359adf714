package shop

import (
	"math"
	"testing"

	"stabile/param/design"
	"stabile/param/stock"
)

// TestSecondRating: a metal goes by the rating of its own alloy, or of its kind of
// alloys; all others go by the first.
func TestSecondRating(t *testing.T) {
	rated := func(name string, gauge int) design.Capacity {
		a, _ := stock.LookupAlloy(name)
		thickness, err := a.Family.Thickness(gauge)
		if err != nil {
			t.Fatal(err)
		}
		return design.Capacity{Width: 1200, Alloy: a.Name, Gauge: gauge, Thickness: thickness, Yield: a.Yield}
	}
	first, second := rated("low-carbon-steel", 16), rated("stainless-304", 20)
	s := &design.Shear{Capacity: first}
	s.Second = &second
	for name, want := range map[string]design.Capacity{
		"low-carbon-steel": first, "weathering-steel": first, "copper": first,
		"stainless-304": second, "stainless-316": second,
	} {
		a, ok := stock.LookupAlloy(name)
		if !ok {
			t.Fatalf("no alloy %s", name)
		}
		m := &design.Metal{Alloy: a.Name, Yield: a.Yield, Thickness: want.Thickness}
		if got := s.For(m); got.Alloy != want.Alloy || got.Gauge != want.Gauge {
			t.Errorf("%s goes by %s, want %s", name, got.Alloy, want.Alloy)
		}
		if name == want.Alloy {
			if load := ShearLoad(s, m); math.Abs(load-1) > 1e-12 || !Shears(s, m) {
				t.Errorf("%s at its own rating uses %g of it", name, load)
			}
			m.Thickness *= 1.01
			if Shears(s, m) {
				t.Errorf("%s over its own rating is cut", name)
			}
		}
	}
}
