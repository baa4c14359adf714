package wind_test

import (
	"fmt"
	"testing"

	"stabile/fab/wind"
	"stabile/param/design"
)

// TestRoughness holds the roughness of surfaces in mm against EN 1991-1-4 Table 7.13:
// bright steel 0.05 mm, spray paint 0.02, galvanized steel 0.2, rust 2.
func TestRoughness(t *testing.T) {
	for _, c := range []struct {
		alloy, finish string
		want          float64
	}{
		{"low-carbon-steel", "", 2},
		{"weathering-steel", "", 2},
		{"stainless-304", "", 0.05},
		{"low-carbon-steel", "paint", 0.02},
		{"low-carbon-steel", "galvanize", 0.2},
		{"low-carbon-steel", "weather", 2},
		{"stainless-304", "brushed", 0.05},
		{"low-carbon-steel", "brushed", 0.05},
	} {
		text := fmt.Sprintf(`
metal skirt { alloy %s, thickness 1.5 }
base pad { plate 900 by 900, metal slab }
post mast on pad { diameter 100, length 3000, metal skirt }
site { wind 26 m/s, method en1991, terrain II }
`, c.alloy)
		if c.finish != "" {
			text += "finish coat { " + c.finish + " }\n"
		}
		if got := blown(t, text)["mast"].Roughness; got != c.want {
			t.Errorf("roughness of %s, finish '%s': %v mm, want %v", c.alloy, c.finish, got, c.want)
		}
	}
	// A part without metal cannot be written; it is taken to rust.
	if got, as := wind.Roughness(&design.Part{}, nil); got != 2 || as != wind.RustAssumed {
		t.Errorf("roughness of a part without metal: %v mm, %s", got, as)
	}
}
