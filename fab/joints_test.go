package fab

import (
	"slices"
	"strings"
	"testing"

	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
)

// company has every kind of joint: a taper on a plate, a butt and a mitre, a branch
// from a side, a ball of zones, a ball on a ball, a ball threaded on a post.
const company = `units mm
metal skin { alloy low-carbon-steel, thickness 1.2 }
base pad { plate 600 by 600, metal skin }
post mast on pad { diameter 120 to 80, length 500, head open, metal skin }
post mid on mast { diameter 80, length 200, head open, metal skin }
post bent on mid { diameter 80, length 300, lean 34 deg toward right, head open, metal skin }
post twig on mast { at 250 toward front, diameter 30, length 200, lean 57 deg toward front, head open, metal skin }
ball moon on bent { diameter 240, zones 6, metal skin }
ball star on moon { diameter 120, gores 8, bend domed, seat 30, metal skin }
ball ring around mid { height 90, diameter 140, gores 8, vent 8, metal skin }
ball cup on pad { at (200, 0), diameter 160, halves, vent 8, metal skin }
ball egg on pad { at (-200, 0), diameter 160, gores 10, bend domed, caps 50, vent 8, metal skin }
ball pod on pad { at (0, 200), diameter 160, gores 9, metal skin }
`

// TestCompany builds every kind of joint on the whole way to the report.
func TestCompany(t *testing.T) {
	j := buildWith(t, company, Everything)
	welds := map[string][]string{
		"mast": {"pad at foot"}, "mid": {"mast at foot"}, "bent": {"mid at foot", "moon at head"},
		"twig": {"mast at foot"}, "star": {"moon at seat"}, "ring": {"mid at thread"},
		"cup": {"pad at rest"}, "egg": {"pad at rest"}, "pod": {"pad at rest"},
	}
	for _, p := range j.Parts {
		var got []string
		for _, w := range p.Welds {
			got = append(got, w.With+" at "+w.At)
			if !(w.Length > 0) {
				t.Errorf("%s: a weld to %s of %v mm", p.Name, w.With, w.Length)
			}
		}
		if strings.Join(got, ", ") != strings.Join(welds[p.Name], ", ") {
			t.Errorf("%s is welded to %v, want %v", p.Name, got, welds[p.Name])
		}
		if p.Mass <= 0 || len(p.Blanks) == 0 {
			t.Errorf("%s: %v kg in %d blanks", p.Name, p.Mass, len(p.Blanks))
		}
		if (p.Round != nil) != (p.Ball != nil) {
			t.Errorf("%s: roundness %v", p.Name, p.Round)
		}
	}
	standing := map[string]string{"mast": "twig", "moon": "star", "mid": "ring"}
	for name, other := range standing {
		found := false
		for _, p := range j.Parts {
			for _, b := range p.Blanks {
				for _, m := range b.Marks {
					found = found || p.Name == name && m.Kind == flat.Standing && m.Part == other
				}
			}
		}
		if !found {
			t.Errorf("where '%s' stands is not marked on '%s'", other, name)
		}
	}
	for i := range j.Parts {
		switch p := &j.Parts[i]; p.Name {
		case "mast":
			if f := p.Blanks[0].Fan; p.Blanks[0].Shape != flat.Sector || f == nil || f.Large <= f.Small || f.Angle <= 0 {
				t.Errorf("mast: %+v", p.Blanks[0])
			}
		case "moon":
			if p.Round == nil || p.Round.Greatest <= p.Round.Mean {
				t.Errorf("moon: roundness %+v", p.Round)
			}
		}
	}
	for _, f := range j.Findings {
		if _, ok := f.Fact.(flat.NotDeveloped); ok {
			t.Errorf("%v: %+v", f.Parts, f.Fact)
		}
	}
}

// TestLater keeps what it cannot develop from being silently wrong.
func TestLater(t *testing.T) {
	d := evaluate(t, company)
	// No text gives a meeting that is not known.
	d.Parts[1].Post.Ends[design.Head].Contact = design.Contact{Meets: design.Meeting(99), With: d.Parts[2]}
	d.Parts[1].Post.Ends[design.Head].Disc = false
	j, wrong := Build(d, 0)
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	said := false
	for _, f := range j.Findings {
		said = said || slices.Equal(f.Parts, []string{"mast"}) && f.Level == finding.Caution && f.Fact == flat.NotDeveloped{End: "head"}
	}
	if !said || j.Parts[1].Mass <= 0 {
		t.Errorf("a meeting that is not known: mass %v, findings %v", j.Parts[1].Mass, j.Findings)
	}
}
