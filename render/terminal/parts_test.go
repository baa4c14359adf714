package terminal

import (
	"strings"
	"testing"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
)

func TestRoundness(t *testing.T) {
	for _, tt := range []struct {
		units quantity.System
		build design.Construction
		round *flat.Roundness
		want  string
	}{
		{quantity.Millimetre, design.RolledGores, &flat.Roundness{Greatest: 12.354, Mean: 4.1}, "Off the true sphere by at most 12.35 mm, on average up to 4.1 mm: moon."},
		{quantity.Inch, design.Zones, &flat.Roundness{Greatest: 2.54, Mean: 1.27}, "Off the true sphere by at most 0.1 in, on average up to 0.05 in: moon."},
		{quantity.Inch, design.DomedGores, &flat.Roundness{}, "A true sphere, where it is domed to that: moon."},
		{quantity.Inch, design.Bought, &flat.Roundness{}, ""},
		{quantity.Inch, design.RolledGores, nil, ""},
	} {
		ball := func(name string) fab.Part {
			return fab.Part{Part: &design.Part{Name: name, Ball: &design.Ball{Build: tt.build}}, Round: tt.round}
		}
		if got := strings.Join(roundnesses(tt.units, []fab.Part{ball("moon")}), " "); got != tt.want {
			t.Errorf("roundnesses(%v, %v) = %q, want %q", tt.build, tt.round, got, tt.want)
		}
		two := roundnesses(tt.units, []fab.Part{ball("moon"), ball("star")})
		if tt.want == "" {
			if len(two) > 0 {
				t.Errorf("two balls: %q, want nothing", two)
			}
			continue
		}
		if len(two) != 1 || !strings.HasSuffix(two[0], ": moon, star.") {
			t.Errorf("two balls alike: %q", two)
		}
	}
}
