package fab

import (
	"strings"
	"testing"

	"stabile/fab/check"
)

// spaces returns the closed spaces of a design, by the names of their parts.
func spaces(j *Job) string {
	var list []string
	for _, s := range j.Plan.Assembly.Spaces {
		list = append(list, strings.Join(s.Parts, "+"))
	}
	return strings.Join(list, " ")
}

// TestHolesOpenHollows: a hole for light opens its part to the air, a way for a cable one
// hollow into another or to the ground, and a hot-dipped hollow needs holes at both of its ends.
func TestHolesOpenHollows(t *testing.T) {
	const head = shop + `
post p on pad { diameter 80, length 300, metal skin }
post q on p { diameter 40, length 200, metal skin }
ball b on q { diameter 200, gores 8, metal thin }
`
	for _, c := range []struct{ holes, want string }{
		{"", "p q b"},
		{"hole x in b { toward 0 deg, diameter 8 }", "p q"},
		{"hole x in b { toward 0 deg, diameter 2 }", "p q b"},
		{"hole x in p { joint q, diameter 8 }", "p+q b"},
		{"hole x in p { joint q, diameter 8 }\nhole y in b { joint q, diameter 8 }", "p+q+b"},
		{"hole x in p { joint q, diameter 8 }\nhole y in b { joint q, diameter 8 }\nhole z in pad { joint p, diameter 8 }", ""},
		{"hole x in q { at 100 toward 0 deg, diameter 8 }", "p b"},
	} {
		j := buildWith(t, head+c.holes, Everything)
		if got := spaces(j); got != c.want {
			t.Errorf("%q leaves %q closed, want %q", c.holes, got, c.want)
		}
	}
	for _, c := range []struct {
		holes string
		want  check.Verdict
	}{
		{"", check.Undecided},
		{"hole x in b { toward 0 deg, diameter 60, through }", check.Undecided},
		{"hole x in b { toward 0 deg, up 75 deg, diameter 60 }", check.Undecided},
		{"hole x in b { toward 0 deg, up 70 deg, diameter 60 }\nhole y in b { toward 0 deg, up -60 deg, diameter 50 }", check.Holds},
	} {
		j := buildWith(t, head+c.holes+"\nfinish zinc { galvanize }", Everything)
		found := false
		for _, k := range j.Plan.Assembly.Checks {
			if k.ID != check.Hollow || k.Part != "b" {
				continue
			}
			if found = true; k.Verdict != c.want {
				t.Errorf("dipped with %q the hollow of b is %v, want %v", c.holes, k.Verdict, c.want)
			}
		}
		if !found {
			t.Errorf("dipped with %q the hollow of b is not checked", c.holes)
		}
	}
}

// TestHolesTrapFingers: holes of 8 to 25 mm trap a finger, narrower and wider ones do not.
func TestHolesTrapFingers(t *testing.T) {
	for _, c := range []struct {
		hole  string
		traps bool
	}{
		{"diameter 6", false}, {"diameter 12", true}, {"diameter 25", true}, {"diameter 30", false},
		{"slot 6 by 60", false}, {"slot 60 by 12", true}, {"slot 30 by 60", false},
	} {
		j := buildWith(t, shop+"post p on pad { diameter 100, length 500, metal skin }\nhole h in p { at 300 toward 0 deg, "+c.hole+" }\nsite { people leaning }", Everything)
		traps := false
		for _, k := range j.Checks {
			traps = traps || k.ID == check.Entrapment && k.Verdict == check.Fails
		}
		if traps != c.traps {
			t.Errorf("a hole of %s traps: %v, want %v", c.hole, traps, c.traps)
		}
	}
}
