package wind_test

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame/trial"
	"stabile/fab/wind"
	"stabile/param/design"
)

// TestRoundCoefficients holds the force coefficients of round posts against Fig.
// 29.4-1 of ASCE 7-16, round, at h/D = 25: 1.2 where D sqrt(q) is at most 5.3, in m
// and N/m2, and 0.9 above it for a rough surface. At 30 m/s in exposure C, with
// K_z of 0.85 low down and K_d of 0.85, q is about 0.613 x 0.85 x 0.85 x 900 = 399,
// its root 20, and 5.3 is reached at 265 mm.
func TestRoundCoefficients(t *testing.T) {
	for _, c := range []struct{ diameter, want float64 }{{60, 1.2}, {240, 1.2}, {300, 0.9}, {500, 0.9}} {
		b := trial.New(3)
		p := b.Stand("post", b.Plate(900, 900, 10), r3.Vec{Z: 10}, r3.Vec{Z: 2010}, c.diameter, c.diameter)
		w := site(b, design.Site{Wind: 30, Method: design.ASCE7, Exposure: "C"})
		for i := range w.Items {
			if it := &w.Items[i]; it.Part == p && it.Coefficient != c.want {
				t.Errorf("a post of %v mm has the coefficient %v at D sqrt(q) = %v, want %v", c.diameter, it.Coefficient, it.Regime, c.want)
			}
		}
	}
}

// TestRoughness holds the roughness of surfaces against EN 1991-1-4 Table 7.13:
// bright steel 0.05 mm, spray paint 0.02, galvanized steel 0.2, rust 2.
func TestRoughness(t *testing.T) {
	steel := &design.Part{Metal: &design.Metal{Alloy: "low-carbon-steel"}}
	for _, c := range []struct {
		part   *design.Part
		finish *design.Finish
		want   float64
	}{
		{steel, nil, 2},
		{&design.Part{Metal: &design.Metal{Alloy: "weathering-steel"}}, nil, 2},
		{&design.Part{Metal: &design.Metal{Alloy: "stainless-304"}}, nil, 0.05},
		{&design.Part{}, nil, 2},
		{steel, &design.Finish{Kind: design.Paint}, 0.02},
		{steel, &design.Finish{Kind: design.Galvanize}, 0.2},
		{steel, &design.Finish{Kind: design.Weather}, 2},
		{steel, &design.Finish{Kind: design.Brushed}, 0.05},
	} {
		if got, as := wind.Roughness(c.part, c.finish); got != c.want {
			t.Errorf("Roughness of %v, %v = %v mm, %s; want %v", c.part.Metal, c.finish, got, as, c.want)
		}
	}
}
