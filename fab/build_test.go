package fab

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/stand"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
)

// evaluate evaluates a text.
func evaluate(t testing.TB, text string) *design.Design {
	t.Helper()
	d, wrong := param.Evaluate(source.NewFile("test.stabile", text), param.Options{})
	if len(wrong) > 0 {
		t.Fatalf("%v\n%s", wrong.Err(), text)
	}
	return d
}

// build evaluates a text and builds it with all but the shop's plan.
func build(t testing.TB, text string) *Job {
	t.Helper()
	return buildWith(t, text, Everything&^WithPlan)
}

// buildWith evaluates a text and builds it with what is wanted.
func buildWith(t testing.TB, text string, want Want) *Job {
	t.Helper()
	j, wrong := Build(evaluate(t, text), want)
	if len(wrong) > 0 {
		t.Fatalf("%v\n%s", wrong.Err(), text)
	}
	return j
}

// ifSound evaluates a random text and builds it without more; it returns nil for one that
// is refused.
func ifSound(text string) *Job {
	d, wrong := param.Evaluate(source.NewFile("any.stabile", text), param.Options{})
	if len(wrong) > 0 {
		return nil
	}
	j, wrong := Build(d, 0)
	if len(wrong) > 0 {
		return nil
	}
	return j
}

// shop is the head of the texts below.
const shop = `units mm
metal skin { alloy low-carbon-steel, thickness 1.5, density 7850 kg/m3 }
metal thin { alloy low-carbon-steel, thickness 1.2, density 7850 kg/m3 }
metal slab { alloy low-carbon-steel, thickness 10, density 7850 kg/m3 }
base pad { plate 600 by 400, metal slab }
`

// worked is the assembly of worked case D3, whose posts run from ball to ball. Its
// balls are of two halves: true spheres.
const worked = shop + `
ball B1 at (0, 0, 600) { diameter 240, halves, metal skin }
ball B2 at (220, 80, 1150) { diameter 180, halves, metal thin }
ball B3 at (-180, 120, 1300) { diameter 150, halves, metal thin }
ball B4 on pad { at (180, -120), diameter 160, halves, metal thin }
post P1 from pad to B1 { diameter 60, metal skin }
post P2 from B1 to B2 { diameter 48, metal skin }
post P3 from B1 to B3 { diameter 42, metal thin }
`

// TestAssembly checks worked cases D3 (masses and centre of gravity by
// quadrature over the walls), J2 (weld lengths) and E1 (levers) on the whole
// way from a design. D3 takes the posts' ends as fitting the balls through the
// wall; cut square they weigh up to 0.1 % more, as the cases' author found.
func TestAssembly(t *testing.T) {
	j := buildWith(t, worked, WithStrength)
	want := map[string]float64{
		"B1": 2.10423, "B2": 0.946112, "B3": 0.655264, "B4": 0.746294,
		"P1": 1.02494, "P2": 0.676153, "P3": 0.654721, "pad": 18.84,
	}
	seams := map[string]float64{"P1": 473.433, "P2": 392.732, "P3": 541.972}
	rings := map[string]float64{"P1": 188.496, "P2": 150.796, "P3": 131.947}
	var moment r3.Vec
	total := 0.0
	for _, p := range j.Parts {
		if m := want[p.Name]; math.Abs(p.Mass-m) > 1e-3*m {
			t.Errorf("%s weighs %v kg, want %v", p.Name, p.Mass, m)
		}
		if p.Post != nil {
			if s := seams[p.Name]; math.Abs(p.Seam-s) > 1e-3 {
				t.Errorf("%s has a seam of %v mm, want %v", p.Name, p.Seam, s)
			}
			for _, w := range p.Welds {
				if r := rings[p.Name]; math.Abs(w.Length-r) > 1e-3*r {
					t.Errorf("%s is welded to %s over %v mm, want %v", p.Name, w.With, w.Length, r)
				}
			}
		}
		total += p.Mass
		moment = r3.Add(moment, r3.Scale(p.Mass, p.CG))
	}
	if math.Abs(total-25.6477) > 1e-3*25.6477 {
		t.Errorf("the parts weigh %v kg, want 25.6477", total)
	}
	cg := r3.Scale(1/total, moment)
	if off := r3.Norm(r3.Sub(cg, r3.Vec{X: 9.36169, Y: 5.262, Z: 189.27})); off > 0.1 {
		t.Errorf("centre of gravity %v is %v mm from that of the case", cg, off)
	}
	if l := j.Tipping.Edges[0].Lever; math.Abs(l-205.262) > 0.5 {
		t.Errorf("lever %v, want about 205.262: weld metal moves it a little", l)
	}
	// B1 at (0, 0, 600) to B3's top at 1375; nothing beyond the plate but B2.
	if j.Size.Height != 1375 || j.Size.Width != 300+310 || j.Size.Depth != 400 {
		t.Errorf("size %+v, want 610 x 400 x 1375", j.Size)
	}
}

// TestTurned turns a whole design about z: nothing but directions changes.
func TestTurned(t *testing.T) {
	text := func(turn float64) string {
		at := func(x, y float64) string {
			sin, cos := math.Sincos(turn * math.Pi / 180)
			return fmt.Sprintf("(%.12f, %.12f)", x*cos-y*sin, x*sin+y*cos)
		}
		dir := func(deg float64) string { return fmt.Sprintf("%.12f deg", deg+turn) }
		return strings.Replace(shop, "plate 600 by 400", "feet", 1) + `
post a on pad { at ` + at(-150, 20) + `, diameter 60, length 300, lean 9 deg toward ` + dir(40) + `, seam ` + dir(90) + `, metal skin }
post b on pad { at ` + at(150, -120) + `, diameter 80, length 400, lean 3 deg toward ` + dir(250) + `, seam ` + dir(90) + `, metal skin }
post e on pad { at ` + at(40, 190) + `, diameter 50, length 200, seam ` + dir(90) + `, metal skin }
ball c on a { diameter 200, halves, metal skin }
site { push 30 N at 300, slope 3 deg }`
	}
	// The three feet are tied to each other by nothing, but stand each.
	text0 := strings.Replace(text(0), ", metal slab }", " }", 1)
	first := build(t, text0)
	for _, turn := range []float64{17, 90, 133.3, 251} {
		j := build(t, strings.Replace(text(turn), ", metal slab }", " }", 1))
		// The points of the trimmed edges fall a little otherwise; what they
		// bear on moves by less than they are drawn to.
		if d := math.Abs(j.Tipping.Factor - first.Tipping.Factor); d > 1e-3*first.Tipping.Factor {
			t.Errorf("turned by %v deg the factor goes from %v to %v", turn, first.Tipping.Factor, j.Tipping.Factor)
		}
		if math.Abs(j.Mass.Total-first.Mass.Total) > 1e-6 || math.Abs(j.CG.Z-first.CG.Z) > 1e-4 ||
			math.Abs(math.Hypot(j.CG.X, j.CG.Y)-math.Hypot(first.CG.X, first.CG.Y)) > 1e-4 || math.Abs(j.Size.Height-first.Size.Height) > 1e-4 {
			t.Errorf("turned by %v deg: mass %v to %v, centre %v to %v", turn, first.Mass, j.Mass, first.CG, j.CG)
		}
	}
}

func TestJob(t *testing.T) {
	mast := "post mast on pad { at (0, 0), diameter 60, length 500, metal skin }\nball moon on mast { diameter 200, halves, metal skin }\n"
	for _, tt := range []struct {
		name, text string
		ok         bool
		want       []string // level and kind of findings
	}{
		{"without loads", mast, true, []string{"caution stand.NoLoads", "caution wind.NoWind", "caution fab.StrengthNotChecked", "danger fab.Closed mast moon"}},
		{"steady", mast + "site { push 20 N at 500 }", true, nil},
		{"tips", mast + "site { push 200 N at 500 }", false, []string{"danger stand.TipsEasily"}},
		{"requirement holds", mast + "require weight <= 30 kg", true, nil},
		{"requirement fails", mast + "require moon.weight <= 1 kg \"for the crane\"", false, []string{"fault fab.RequirementFails"}},
		{"requirement not decided", mast + "require tipping >= 1.5", true, []string{"caution fab.RequirementUndecided"}},
		{"open head", "post mast on pad { at (0, 0), diameter 60, length 500, head open, metal skin }", true, nil},
		{"a heavy part", strings.Replace(mast, "diameter 60, length 500, metal skin", "diameter 60, length 3 m, metal slab", 1), true, []string{"caution fab.Heavy mast", "caution fab.WholeHeavy"}},
		{"falls over", "post mast on pad { at (240, 0), diameter 60, length 900, lean 40 deg toward 0 deg, metal slab }\nball moon on mast { diameter 600, halves, metal slab }", false, []string{"danger stand.FallsOver"}},
	} {
		j := buildWith(t, shop+tt.text, 0)
		if j.OK() != tt.ok {
			t.Errorf("%s: OK = %v, want %v: %v", tt.name, j.OK(), tt.ok, j.Findings)
		}
		for _, w := range tt.want {
			if !slices.ContainsFunc(j.Findings, func(f finding.Finding) bool {
				return w == strings.TrimSpace(fmt.Sprintf("%s %T %s", f.Level, f.Fact, strings.Join(f.Parts, " ")))
			}) {
				t.Errorf("%s: no finding %q in %v", tt.name, w, j.Findings)
			}
		}
		for i := 1; i < len(j.Findings); i++ {
			if before, after := j.Findings[i-1], j.Findings[i]; before.Concern == after.Concern && slices.Index(finding.Levels[:], after.Level) < slices.Index(finding.Levels[:], before.Level) {
				t.Errorf("%s: findings out of order: %v", tt.name, j.Findings)
			}
		}
	}
}

func TestFeet(t *testing.T) {
	head := strings.Replace(shop, "base pad { plate 600 by 400, metal slab }", "base ground { feet }", 1)
	j := build(t, head+"post p on ground { at (0, 0), diameter 100, length 200, metal skin }\nsite { slope 2 deg }")
	// The ring of the foot itself: a lever of its radius, short by the chords.
	if l := j.Tipping.Edges[0].Lever; l > 50 || l < 49.85 {
		t.Errorf("a lone post stands on a lever of %v mm, want just under 50", l)
	}
	if n := len(j.Parts[0].Welds); n != 0 {
		t.Errorf("a post on the ground has %d welds", n)
	}
	j = build(t, head+"ball b on ground { at (0, 0), diameter 200, halves, metal skin }\nsite { push 20 N at 100 }\nrequire tipping >= 1")
	if len(j.Tipping.Edges) != 0 || j.OK() || j.Findings[0].Fact != (stand.NoFootprint{}) {
		t.Errorf("a lone ball on the ground: %+v %v", j.Tipping, j.Findings)
	}
}

func TestWrong(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"post a on pad { at (0, 0), diameter 60, length 500, metal skin }\npost b on pad { at (50, 0), diameter 60, length 500, metal skin }", "test.stabile:7:6: post 'b' runs into post 'a': they overlap by 10 mm"},
	} {
		d, wrong := param.Evaluate(source.NewFile("test.stabile", shop+tt.text), param.Options{})
		if len(wrong) > 0 {
			t.Fatal(wrong.Err())
		}
		j, wrong := Build(d, 0)
		if j != nil || len(wrong) != 1 || !strings.HasPrefix(wrong[0].Error(), tt.want) {
			t.Errorf("Build = %v, %v, want %q", j, wrong.Err(), tt.want)
		}
	}
	if j, wrong := Build(&design.Design{}, 0); j != nil || len(wrong) != 1 {
		t.Errorf("a design without parts: %v, %v", j, wrong.Err())
	}
}

func TestCuts(t *testing.T) {
	j := build(t, shop+`repeat i from 1 to 4 {
  post reed[i] on pad { at (120 * i - 300, 0), diameter 40, length 200 + pick(i > 3, 5, 0), metal skin }
  ball seed[i] on reed[i] { diameter 80, gores 6, metal thin }
}`)
	type row struct {
		name     string
		quantity int
		parts    int
	}
	var got []row
	pieces := 0
	for _, c := range j.Cuts {
		got = append(got, row{c.Names[0], c.Quantity, len(c.Parts)})
		pieces += c.Quantity
	}
	want := []row{{"pad", 1, 1}, {"reed[1]", 3, 3}, {"seed[1] gore", 24, 4}, {"seed[1] pole", 8, 4}, {"reed[4]", 1, 1}} // a disc at each pole
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("cuts %v, want %v", got, want)
	}
	all := 0
	for _, p := range j.Parts {
		for _, b := range p.Blanks {
			all += b.Quantity
		}
	}
	if pieces != all {
		t.Errorf("the cuts are %d pieces, the parts need %d", pieces, all)
	}
}
