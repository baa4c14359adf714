package wind_test

import (
	"testing"

	"stabile/fab/wind"
	"stabile/param/design"
)

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
