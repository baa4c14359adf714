package assembly_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"stabile/fab/assembly"
)

const metals = `
units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
metal slab { alloy low-carbon-steel, thickness 10 }
`

// placings lists the steps on the base as "what > onto".
func placings(p *assembly.Plan) []string {
	var list []string
	for _, s := range p.Steps {
		if s.Work == assembly.Place {
			list = append(list, strings.Join(s.Parts, "+")+" > "+strings.Join(s.To, "+"))
		}
	}
	return list
}

func TestPlacings(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		want       []string
	}{
		{"a stack, in two light units", `
base pad { plate 600 by 600, metal slab }
post mast on pad { diameter 60, length 500, metal skin }
ball moon on mast { diameter 200, halves, metal skin }
post spur on moon { diameter 30, length 300, metal skin }
ball star on spur { diameter 100, halves, metal skin }`,
			[]string{"pad > ", "mast+moon > pad", "spur+star > moon"}},
		{"a ball too heavy for the bench goes up by itself", `
base pad { plate 600 by 600, metal slab }
post mast on pad { diameter 60, length 500, metal skin }
ball moon on mast { diameter 700, halves, metal slab }`,
			[]string{"pad > ", "mast > pad", "moon > mast"}},
		{"a loop is closed by the ball, not by the post between two fixed balls", `
base pad { plate 900 by 600, metal slab }
post left on pad { at (-250, 0), diameter 60, length 500, metal skin }
ball one on left { diameter 200, halves, metal skin }
post right on pad { at (250, 0), diameter 60, length 500, metal skin }
ball two on right { diameter 200, halves, metal skin }
post tie from one to two { diameter 40, metal skin }`,
			[]string{"pad > ", "left > pad", "right > pad", "one > left", "tie > one", "two > right+tie"}},
		{"a ball on three legs comes last", `
base pad { plate 900 by 900, metal slab }
ball moon at (0, 0, 700) { diameter 300, halves, metal skin }
post leg[1] from pad to moon { at polar(300, 0 deg), diameter 40, metal skin }
post leg[2] from pad to moon { at polar(300, 120 deg), diameter 40, metal skin }
post leg[3] from pad to moon { at polar(300, 240 deg), diameter 40, metal skin }`,
			[]string{"pad > ", "leg[1] > pad", "leg[2] > pad", "leg[3] > pad", "moon > leg[1]+leg[2]+leg[3]"}},
		{"on the ground nothing is laid first", `
base ground { feet }
post mast on ground { diameter 300, length 300, metal skin }
ball moon on mast { diameter 400, halves, metal skin }`,
			[]string{"mast+moon > "}},
	} {
		p := assembly.Make(input(build(t, metals+tt.text)))
		got := placings(p)
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

// findings returns the findings as data, with their parts.
func findings(p *assembly.Plan) string {
	var b strings.Builder
	for _, f := range p.Findings {
		fmt.Fprintf(&b, "%s %s: %s\n", f.Level, strings.Join(f.Parts, " "), data(f.Fact))
	}
	return b.String()
}

// TestHold checks when a half-built work must be held down.
func TestHold(t *testing.T) {
	// The first arm leans far out over a light plate; the second balances it.
	lopsided := metals + `
base pad { plate 200 by 200, metal skin }
post east on pad { at (60, 0), diameter 40, length 700, lean 40 deg toward 0 deg, metal skin }
post west on pad { at (-60, 0), diameter 40, length 700, lean 40 deg toward 180 deg, metal skin }
`
	p := assembly.Make(input(build(t, lopsided)))
	var first, last int
	for _, s := range p.Steps {
		if s.Work == assembly.Place && s.Parts[0] != "pad" {
			if first == 0 {
				first = s.Number
			}
			last = s.Number
		}
	}
	if p.HoldFrom != first || p.HoldUntil != last {
		t.Errorf("held from step %d until %d, want %d and %d", p.HoldFrom, p.HoldUntil, first, last)
	}
	if want := fmt.Sprintf("Topples{From:%d Until:%d Base:true}", first, last); !strings.Contains(findings(p), want) {
		t.Errorf("the findings do not say %q:\n%s", want, findings(p))
	}
	p = assembly.Make(input(build(t, metals+`
base pad { plate 200 by 200, metal skin }
post east on pad { at (60, 0), diameter 40, length 700, lean 40 deg toward 0 deg, metal skin }
`)))
	if p.HoldFrom == 0 || p.HoldUntil != 0 || !strings.Contains(findings(p), "Until:0") {
		t.Errorf("held from step %d until %d, want to the end:\n%s", p.HoldFrom, p.HoldUntil, findings(p))
	}
	// Three legs on the bare ground, each of which falls by itself although they
	// would stand if they were one, until the hub holds them.
	p = assembly.Make(input(build(t, metals+`
base ground { feet }
post leg[1] on ground { at (-200, 0), diameter 50, length 600, lean 10 deg toward 0 deg, metal skin }
ball hub on leg[1] { diameter 240, gores 8, metal skin }
post leg[2] from ground to hub { at (100, 300), diameter 40, metal skin }
post leg[3] from ground to hub { at (100, -300), diameter 40, metal skin }
`)))
	for _, s := range p.Steps {
		if g := s.Stage; g != nil && g.Stands != slices.Contains(s.Parts, "hub") {
			t.Errorf("step %d, %v: stands %v", s.Number, s.Parts, g.Stands)
		}
	}
	if s := p.Steps[len(p.Steps)-2]; p.HoldUntil != s.Number || !slices.Contains(s.Parts, "hub") {
		t.Errorf("held until step %d, want that of the hub: %v", p.HoldUntil, s)
	}
	p = assembly.Make(input(build(t, metals+`
base pad { plate 600 by 600, metal slab }
post mast on pad { diameter 40, length 700, metal skin }
`)))
	if p.HoldFrom != 0 || len(p.Findings) > 0 {
		t.Errorf("a plain post on its plate: held from %d:\n%s", p.HoldFrom, findings(p))
	}
}

// TestProp checks what is propped until it is welded: by hand, a tube of 60 mm
// that leans by 10 deg has its middle, half of 500 mm up, 43.4 mm out, which is
// past its rim at 30 / cos 10 deg = 30.5 mm; one of 200 mm stays on its rim.
func TestProp(t *testing.T) {
	for _, tt := range []struct {
		diameter, length float64
		prop             bool
		over             float64
	}{
		{60, 500, true, -12.9},
		{200, 500, false, 101.5 - 43.4},
	} {
		p := assembly.Make(input(build(t, metals+fmt.Sprintf(`
base pad { plate 600 by 600, metal slab }
post mast on pad { diameter %v, length %v, lean 10 deg toward 90 deg, head open, metal skin }
`, tt.diameter, tt.length))))
		for _, s := range p.Steps {
			if l := s.Lift; l != nil && s.Parts[0] == "mast" && s.Work == assembly.Place {
				// The centre of gravity of the wall that its foot is trimmed from lies
				// some mm off the axis.
				if l.Prop != tt.prop || l.Over < tt.over-8 || l.Over > tt.over+8 {
					t.Errorf("a tube of %v: %+v, want %v and about %v within", tt.diameter, *l, tt.prop, tt.over)
				}
				if l.Prop && (l.Toward < 1.5 || l.Toward > 1.6) {
					t.Errorf("it falls toward %v, want 90 deg", l.Toward)
				}
			}
		}
	}
}

// TestPadLiesFlat sets a post with its pad on the ground: by hand, the whole weighs
// 10 x 120 x 120 mm of pad and a tube in its middle, 60 mm from the nearest edge, so that it
// neither rolls nor stands on an edge; a ball that rests on a plate rolls.
func TestPadLiesFlat(t *testing.T) {
	holds := func(text string) []assembly.Hold {
		var list []assembly.Hold
		for _, s := range assembly.Make(input(build(t, metals+text))).Steps {
			for _, n := range s.Notes {
				if h, ok := n.(assembly.HoldIt); ok && s.Work == assembly.Place {
					list = append(list, h.Hold)
				}
			}
		}
		return list
	}
	if got := holds(`
base ground { feet }
post mast on ground { diameter 60, length 200, metal skin, pad 120 by 120 { metal slab } }
`); len(got) > 0 {
		t.Errorf("a post on a pad is held: %v", got)
	}
	if got := holds(`
base pad { plate 600 by 600, metal slab }
ball moon on pad { diameter 300, halves, metal skin }
`); !slices.Equal(got, []assembly.Hold{assembly.Chock}) {
		t.Errorf("a ball on a plate is held: %v", got)
	}
}

// TestSpaces checks which hollows are closed, and which open into each other.
func TestSpaces(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		want       string
	}{
		{"a post with a disc", "post mast on pad { diameter 60, length 500, metal skin }", "[[mast]]"},
		{"a post open at its head", "post mast on pad { diameter 60, length 500, head open, metal skin }", "[]"},
		{"a ball on a post is another space", `
post mast on pad { diameter 60, length 500, metal skin }
ball moon on mast { diameter 200, halves, metal skin }`, "[[mast] [moon]]"},
		{"two tubes of one diameter head to head are one", `
post mast on pad { diameter 60, length 300, metal skin }
post more on mast { diameter 60, length 300, metal skin }`, "[[mast more]]"},
		{"a smaller one on the disc is not", `
post mast on pad { diameter 60, length 300, metal skin }
post more on mast { diameter 40, length 300, metal skin }`, "[[mast] [more]]"},
		{"tubes head to head with an open end are none", `
post mast on pad { diameter 60, length 300, metal skin }
post more on mast { diameter 60, length 300, head open, metal skin }`, "[]"},
		{"an open head within a ball opens into it", `
post mast on pad { diameter 60, length 500, head open, metal skin }
ball cap around mast { height 450, diameter 200, halves, metal skin }`, "[[mast cap]]"},
		{"a closed head within a ball does not", `
post mast on pad { diameter 60, length 500, metal skin }
ball cap around mast { height 450, diameter 200, halves, metal skin }`, "[[mast] [cap]]"},
	} {
		p := assembly.Make(input(build(t, metals+"base pad { plate 600 by 600, metal slab }\n"+tt.text)))
		var got [][]string
		for _, s := range p.Spaces {
			got = append(got, s.Parts)
		}
		if text := fmt.Sprint(got); text != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, text, tt.want)
		}
	}
	p := assembly.Make(input(build(t, metals+"base ground { feet }\npost mast on ground { diameter 200, length 300, metal skin }")))
	if len(p.Spaces) != 0 {
		t.Errorf("a post that stands on the ground is open there, but it is in %v", p.Spaces)
	}
}

// TestFindings checks what is said of metals and finishes.
func TestFindings(t *testing.T) {
	const parts = `
base pad { plate 600 by 600, metal slab }
post mast on pad { diameter 80, length 500, metal skin }
ball moon on mast { diameter 200, halves, vent 6, metal other }
`
	for _, tt := range []struct {
		name, text string
		want, not  []string
	}{
		{"one metal, no finish", "metal other { alloy weathering-steel, thickness 1.5 }", nil, []string{"moon"}},
		{"aluminium on steel", "metal other { alloy aluminium-5052, thickness 1.5 }", []string{"moon: UnlikeMetals{Alloy:aluminium-5052 Host:{Kind:post Name:mast} HostAlloy:low-carbon-steel Joint:2 Apart:aluminium Zinc:false Contact:2}"}, nil},
		{"stainless on steel", "metal other { alloy stainless-304, thickness 1.5 }", []string{"HostAlloy:low-carbon-steel Joint:0 "}, nil},
		{"brass on steel", "metal other { alloy brass, thickness 1.5 }", []string{"HostAlloy:low-carbon-steel Joint:1 "}, nil},
		{"galvanized on steel", "metal other { alloy galvanized-steel, thickness 1.5 }", []string{"fault moon: UnlikeMetals{Alloy:galvanized-steel ", "Zinc:true"}, nil},
		// The vents of a tube of 80 mm and of a ball of 200 mm are a quarter of that across.
		{"hot dip", "metal other { alloy weathering-steel, thickness 1.5 }\nfinish bath { galvanize }",
			[]string{"mast: NoVents{Holes:0 Vent:0 Dip:20 ", "moon: NoVents{Holes:1 Vent:6 Dip:50 ", "Pressure:148.6", "ThinDip"}, nil},
		{"baked paint", "metal other { alloy weathering-steel, thickness 1.5 }\nfinish coat { paint }", []string{"Baked{Celsius:200 Pressure:62"}, []string{"NoVents"}},
	} {
		p := assembly.Make(input(build(t, metals+tt.text+parts)))
		said := findings(p)
		for _, want := range tt.want {
			if !strings.Contains(said, want) {
				t.Errorf("%s: the findings do not say %q:\n%s", tt.name, want, said)
			}
		}
		for _, not := range tt.not {
			if strings.Contains(said, not) {
				t.Errorf("%s: the findings say %q:\n%s", tt.name, not, said)
			}
		}
	}
}

// TestTapers checks over which end a ball is threaded on a taper: the slim one.
func TestTapers(t *testing.T) {
	for _, tt := range []struct{ diameter, want string }{
		{"80 to 60", "head"}, {"60 to 80", "foot"}, {"70", "head"},
	} {
		p := assembly.Make(input(build(t, metals+`
base pad { plate 600 by 600, metal slab }
post mast on pad { diameter `+tt.diameter+`, length 600, metal skin }
ball low around mast { height 150, diameter 120, halves, metal skin }
ball high around mast { height 400, diameter 120, halves, metal skin }
`)))
		var order []string
		for _, s := range p.Steps {
			if s.Work == assembly.Bench {
				order = append(order, s.Parts[0])
				if got := s.Do.(assembly.ThreadBall).End; got != tt.want {
					t.Errorf("diameter %s: over its %s, want its %s", tt.diameter, got, tt.want)
				}
			}
		}
		want := []string{"low", "high"}
		if tt.want == "foot" {
			want = []string{"high", "low"}
		}
		if !slices.Equal(order, want) {
			t.Errorf("diameter %s: threaded in the order %v, want %v", tt.diameter, order, want)
		}
	}
}
