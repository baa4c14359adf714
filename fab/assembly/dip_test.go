package assembly_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"stabile/fab/assembly"
	"stabile/fab/finding"
)

// TestDip holds the least vents of spaces that are hot dipped against rows worked
// by hand: of a tube the greater of a quarter of its diameter and of the table for hollow
// sections, of a ball a quarter of its diameter, and 50 mm at most (case K41).
func TestDip(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		want       float64 // mm
	}{
		{"a slim tube", "post a on pad { diameter 30, length 500, metal skin }", 12},
		{"a tube of 60", "post a on pad { diameter 60, length 500, metal skin }", 16},
		{"a taper of 120 to 60: 120 / 4", "post a on pad { diameter 120 to 60, length 500, metal skin }", 30},
		{"a small ball: 120 / 4", "ball a on pad { diameter 120, halves, metal skin }", 30},
		{"a ball of 300", "ball a on pad { diameter 300, halves, metal skin }", 50},
		{"a ball a metre across", "ball a on pad { diameter 1000, halves, metal skin }", 50},
	} {
		p := assembly.Make(input(build(t, metals+"base pad { plate 600 by 600, metal slab }\nfinish coat { galvanize }\n"+tt.text)))
		if len(p.Spaces) != 1 || math.Abs(p.Spaces[0].Dip-tt.want) > 1e-4 {
			t.Errorf("%s: spaces %+v, want one with vents of %v", tt.name, p.Spaces, tt.want)
		}
	}
}

// TestUndippable checks what is said of metals that a zinc bath spoils.
func TestUndippable(t *testing.T) {
	for _, tt := range []struct {
		alloy string
		level finding.Level // "" for nothing
	}{
		{"aluminium-3003", finding.Fault},
		{"aluminium-6061", finding.Fault},
		{"copper", finding.Fault},
		{"brass", finding.Fault},
		{"silicon-bronze", finding.Fault},
		{"stainless-304", finding.Caution},
		{"stainless-316", finding.Caution},
		{"low-carbon-steel", ""},
		{"weathering-steel", ""},
		{"galvanized-steel", ""},
	} {
		for _, finish := range []string{"galvanize", "paint"} {
			j := build(t, fmt.Sprintf(`
units mm
metal skin { alloy %s, thickness 1.5 }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { plate 600 by 600, metal slab }
post mast on pad { diameter 60, length 500, head open, metal slab }
ball moon on mast { diameter 200, halves, vent 20, metal skin }
finish coat { %s }`, tt.alloy, finish))
			level := finding.Level("")
			for _, f := range assembly.Make(input(j)).Findings {
				n, ok := f.Fact.(assembly.NoDip)
				if !ok {
					continue
				}
				level = f.Level
				if !slices.Equal(f.Parts, []string{"moon"}) || n.Alloy != tt.alloy {
					t.Errorf("%s: %v %+v", tt.alloy, f.Parts, n)
				}
			}
			want := tt.level
			if finish == "paint" {
				want = ""
			}
			if level != want {
				t.Errorf("%s with %s: level %q, want %q", tt.alloy, finish, level, want)
			}
		}
	}
}
