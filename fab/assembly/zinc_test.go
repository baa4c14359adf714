package assembly_test

import (
	"fmt"
	"testing"

	"stabile/fab/assembly"
	"stabile/fab/check"
	"stabile/fab/corrosion"
	"stabile/fab/finding"
)

// TestZincWelded: a galvanized post welded on bare steel is a fault, and one of the same metal
// is not; what does not fuse says what two bolted metals need between them.
func TestZincWelded(t *testing.T) {
	for _, tt := range []struct {
		post, base string
		zinc       bool
		contact    corrosion.Contact
		fault      bool
	}{
		{"galvanized-steel", "low-carbon-steel", true, corrosion.Sound, true},
		{"low-carbon-steel", "galvanized-steel", true, corrosion.Sound, true},
		{"galvanized-steel", "galvanized-steel", false, corrosion.Sound, false},
		{"weathering-steel", "low-carbon-steel", false, corrosion.Sound, false},
		{"aluminium-5052", "low-carbon-steel", false, corrosion.Isolate, true},
		{"aluminium-5052", "copper", false, corrosion.Never, true},
	} {
		p := assembly.Make(input(build(t, fmt.Sprintf(`
units mm
metal skin { alloy %s, thickness 1.5 }
metal slab { alloy %s, thickness 10 }
base pad { plate 600 by 600, metal slab }
post mast on pad { diameter 60, length 500, metal skin }`, tt.post, tt.base))))
		fault := false
		for _, f := range p.Findings {
			if u, ok := f.Fact.(assembly.UnlikeMetals); ok {
				fault = f.Level == finding.Fault
				if u.Zinc != tt.zinc || u.Contact != tt.contact {
					t.Errorf("%s on %s: %+v", tt.post, tt.base, u)
				}
			}
		}
		fails := false
		for _, c := range p.Checks {
			fails = fails || c.ID == check.Metal && c.Verdict == check.Fails
		}
		if fault != tt.fault || fails != tt.fault {
			t.Errorf("%s on %s: a fault %v, a failed check %v, want %v", tt.post, tt.base, fault, fails, tt.fault)
		}
	}
}
