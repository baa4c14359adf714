package fab

import (
	"fmt"
	"testing"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/people"
)

// rails are two posts on a base with a third between their heads: the posts stand so far
// apart in mm, clear, and are so high.
func rails(clear, high float64) string {
	return fmt.Sprintf(shop+`
post left on pad { at (%[1]v, 0), diameter 40, length %[2]v, metal skin }
post right on pad { at (%[3]v, 0), diameter 40, length %[2]v, metal skin }
ball one on left { diameter 60, halves, metal skin }
ball two on right { diameter 60, halves, metal skin }
post rung from one to two { diameter 20, metal skin }
`, -(clear+40)/2, high, (clear+40)/2)
}

// TestEntrapment: the probes of the reference between two rails and a rung. The ground
// closes the lowest gap, which then traps no head; a finger it does.
func TestEntrapment(t *testing.T) {
	for _, tt := range []struct {
		name   string
		text   string
		people string
		want   check.Verdict
		trap   people.Trap
	}{
		{"ground at one side", rails(150, 400), "people leaning", check.Holds, people.NoTrap},
		{"unknown people", branch(40), "", check.Undecided, people.NeckTrap},
		{"nobody", branch(40), "people none", check.Holds, people.NoTrap},
		{"a narrow fork", branch(40), "people leaning", check.Fails, people.NeckTrap},
		{"a wide fork", branch(60), "people leaning", check.Holds, people.NoTrap},
		{"rung under a rung", ladder(150), "people 1 climbing", check.Fails, people.HeadTrap},
		{"rungs close by", ladder(60), "people 1 climbing", check.Holds, people.NoTrap},
		{"rungs for a finger", ladder(20), "people 1 climbing", check.Fails, people.FingerTrap},
		{"rungs far apart", ladder(260), "people 1 climbing", check.Holds, people.NoTrap},
	} {
		text := tt.text
		if tt.people != "" {
			text += "site { " + tt.people + " }\n"
		}
		j := buildWith(t, text, AllowClashes)
		list := checksOf(j, check.Entrapment)
		if got := check.Worst(list); got != tt.want {
			t.Errorf("%s: %s, want %s: %+v", tt.name, got, tt.want, list)
			continue
		}
		if tt.want != check.Fails {
			continue
		}
		found := false
		for _, f := range j.Findings {
			if x, ok := f.Fact.(Trapped); ok && f.Level == finding.Danger && x.Trap == tt.trap {
				found = true
			}
		}
		if !found {
			t.Errorf("%s: no finding of a %s trap: %v", tt.name, tt.trap, j.Findings)
		}
	}
}

// branch is a post with a branch that leaves it upward at an angle in degrees.
func branch(angle float64) string {
	return shop + fmt.Sprintf(`
post mast on pad { at (0, 0), diameter 40, length 1500, metal skin }
post twig on mast { at 600 toward 0 deg, lean %v deg toward 0 deg, diameter 30, length 500, metal skin }
`, angle)
}

// ladder is two posts with two rungs, a clear height in mm apart.
func ladder(clear float64) string {
	return shop + fmt.Sprintf(`
post left on pad { at (-160, 0), diameter 40, length 700, metal skin }
post right on pad { at (160, 0), diameter 40, length 700, metal skin }
ball a around left { height 300, diameter 50, halves, metal skin }
ball b around right { height 300, diameter 50, halves, metal skin }
ball c around left { height %[1]v, diameter 50, halves, metal skin }
ball d around right { height %[1]v, diameter 50, halves, metal skin }
post low from a to b { diameter 20, metal skin }
post high from c to d { diameter 20, metal skin }
`, 320+clear)
}
