package rolling

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
)

// Passes that are worked out again from their lifts alone: each is monotone, in
// reach, leaves what its check measures, and the last leaves what is wanted.
func TestSchedule(t *testing.T) {
	m := metal("low-carbon-steel", 16, 0)
	for _, tt := range []struct {
		name            string
		outside, length float64
		least, most     int // passes
	}{
		{"full rating, tight", 110, 1219.2, 6, 10},
		{"full rating, wide", 900, 1219.2, 6, 7},
		{"half", 150, 600, 4, 6},
		{"light", 150, 60, 2, 3},
	} {
		p := NewPlan([]flat.Blank{tube("mast", m, tt.outside, tt.length)}, &design2in, Options{})
		if len(p.Batches) != 1 || len(p.Refused) > 0 {
			t.Fatalf("%s: %d batches, findings %v", tt.name, len(p.Batches), p.Findings)
		}
		b := &p.Batches[0]
		if n := len(b.Passes); n < tt.least || n > tt.most {
			t.Errorf("%s: %d passes, want %d to %d", tt.name, n, tt.least, tt.most)
		}
		if p.Settings != len(b.Passes) || p.Runs != 2*len(b.Passes) {
			t.Errorf("%s: %d settings and %d runs of %d passes", tt.name, p.Settings, p.Runs, len(b.Passes))
		}
		lift, steps := 0.0, 1/(b.Radius*float64(len(b.Passes)))
		for i := range b.Passes {
			pass := &b.Passes[i]
			e, s := pass.Edges[0], pass.Screws[0]
			if e != pass.Edges[1] || s != pass.Screws[1] {
				t.Errorf("%s pass %d: the edges of a cylinder differ", tt.name, i+1)
			}
			if e.Lift <= lift || e.Loaded >= e.Released {
				t.Errorf("%s pass %d: lift %v after %v, loaded %v, released %v", tt.name, i+1, e.Lift, lift, e.Loaded, e.Released)
			}
			// What is measured is what is set: but for the last, at a notch.
			if i < len(b.Passes)-1 && math.Abs(s.Turns.Turns()*design2in.ScrewPitch-s.Travel) > 1e-6 {
				t.Errorf("%s pass %d: %v turns are not %v mm", tt.name, i+1, s.Turns, s.Travel)
			}
			if want := float64(i+1) * steps; math.Abs(1/e.Released-want) > 0.6*steps {
				t.Errorf("%s pass %d: curvature %v, want near %v", tt.name, i+1, 1/e.Released, want)
			}
			lift = e.Lift
		}
		last := b.Passes[len(b.Passes)-1].Edges[0]
		if want := (tt.outside - m.Thickness) / 2; !near(last.Released, want, 1e-12) || !near(last.Check.Outside, tt.outside/2, 1e-12) {
			t.Errorf("%s: left at %v, want %v", tt.name, last.Released, want)
		}
		if !(b.Spread[0] < b.Radius && b.Radius < b.Spread[1]) {
			t.Errorf("%s: spread %v about %v", tt.name, b.Spread, b.Radius)
		}
		if b.PerNotch/(2*float64(1)) > fine*tt.outside && b.Of < 16 {
			t.Errorf("%s: 1/%d of a turn changes %v by %v", tt.name, b.Of, tt.outside, b.PerNotch)
		}
	}
}

func TestBatches(t *testing.T) {
	thin, thick := metal("low-carbon-steel", 18, 0), metal("low-carbon-steel", 16, 0)
	blanks := []flat.Blank{
		tube("mast", thin, 150, 500),
		tube("spur", thin, 150.5, 300),
		tube("bough", thin, 200, 300),
		tube("stem", thick, 150, 300),
		gore("moon", thin, 140, 12),
		{Name: "pad", Metal: thick, Quantity: 1, Forming: flat.Forming{How: "flat"}},
	}
	blanks[1].Quantity = 3
	p := NewPlan(blanks, &design2in, Options{})
	var got []string
	settings, runs := 0, 0
	for i := range p.Batches {
		b := &p.Batches[i]
		var names []string
		for _, piece := range b.Pieces {
			names = append(names, piece.Name)
		}
		got = append(got, strings.Join(names, "+"))
		settings += len(b.Passes)
		runs += b.Count * 2 * len(b.Passes)
	}
	if want := "moon bough spur+mast stem"; strings.Join(got, " ") != want {
		t.Errorf("batches %q, want %q", strings.Join(got, " "), want)
	}
	if p.Batches[2].Count != 4 || p.Settings != settings || p.Runs != runs {
		t.Errorf("%d pieces, %d settings, %d runs; want 4, %d, %d", p.Batches[2].Count, p.Settings, p.Runs, settings, runs)
	}
	// The middle of what is alike is within half of what may differ.
	for _, piece := range p.Batches[2].Pieces {
		if !near(piece.Radius, p.Batches[2].Radius, alike/2*1.001) {
			t.Errorf("%s of radius %v in a batch of %v", piece.Name, piece.Radius, p.Batches[2].Radius)
		}
	}
}

// alikeFacts reports whether facts are of the same types, and their figures, where they
// are given, the same to half a percent.
func alikeFacts(got, want []finding.Fact) bool {
	return slices.EqualFunc(got, want, func(g, w finding.Fact) bool {
		a, b := reflect.ValueOf(g), reflect.ValueOf(w)
		if a.Type() != b.Type() {
			return false
		}
		for i := range b.NumField() {
			if x := b.Field(i); x.Kind() == reflect.Float64 && x.Float() != 0 && !near(a.Field(i).Float(), x.Float(), 0.005) ||
				x.Kind() != reflect.Float64 && !x.IsZero() && !a.Field(i).Equal(x) {
				return false
			}
		}
		return true
	})
}

// What the rolls do not take is reported with ways out; each way is tried here.
func TestRefused(t *testing.T) {
	m := metal("low-carbon-steel", 14, 0)
	thin := metal("low-carbon-steel", 16, 0)
	brake := &design.Brake{Capacity: design.Capacity{Width: 1500, Alloy: "low-carbon-steel", Thickness: 3, Yield: 140}}
	least := design2in
	least.Least = 90
	far := design2in
	far.BackDistance = 1676.4 // 66 in: a roll so far back bends nothing for good
	short := tube("mast", thin, 600, 300)
	short.Width = 50
	for _, tt := range []struct {
		name  string
		blank flat.Blank
		rolls *design.Rolls
		brake *design.Brake
		why   []finding.Fact
		ways  []finding.Fact
	}{
		{"too wide", tube("mast", thin, 150, 2000), &design2in, nil, []finding.Fact{TooLong{2000, 1219}, Overload{1.6404}}, []finding.Fact{Split{2, 1000, 0.8202, 0}, BuyRolled{}}},
		{"too heavy", tube("mast", m, 150, 1200), &design2in, nil, []finding.Fact{Overload{1.5358}}, []finding.Fact{Split{2, 600, 0.7679, 0}, Thinner{16, 1.519}, BuyRolled{}}},
		{"too thick", tube("mast", metal("low-carbon-steel", 0, 3), 150, 100), &design2in, brake, []finding.Fact{TooThick{3, 2.28}}, []finding.Fact{Thinner{0, 2.26}, Folds{}, BuyRolled{}}},
		{"under the least", tube("mast", thin, 80, 300), &least, nil, []finding.Fact{TooTight{80, false, 90}}, []finding.Fact{OverPipe{69.5}, BuyRolled{}}},
		{"tighter than the roll", tube("mast", thin, 52, 300), &design2in, nil, []finding.Fact{TooTight{52, false, 57.6}}, []finding.Fact{OverPipe{}, BuyRolled{}}},
		{"out of reach", tube("mast", thin, 74, 300), &design2in, nil, []finding.Fact{BeyondReach{36.24, 0, false}}, []finding.Fact{OverPipe{}, BuyPipe{}}},
		{"a back roll far away", tube("mast", thin, 74, 300), &far, nil, []finding.Fact{BeyondReach{36.24, 0, false}}, []finding.Fact{OverPipe{}, BuyPipe{}}},
		{"too short", short, &design2in, nil, []finding.Fact{TooShort{50, 57.5}}, []finding.Fact{OverPipe{339.5}, BuyRolled{}}},
		{"no pipe of that size", tube("mast", metal("brass", 18, 0), 150, 4000), &design2in, nil, []finding.Fact{TooLong{4000, 1219}}, []finding.Fact{Split{}, BuyRolled{1.0237, 4000, 150}}},
	} {
		p := NewPlan([]flat.Blank{tt.blank}, tt.rolls, Options{Brake: tt.brake})
		level := finding.Caution // it can be bent by hand
		if strings.HasPrefix(tt.name, "too wide") || strings.HasPrefix(tt.name, "too heavy") || strings.HasPrefix(tt.name, "too thick") || strings.HasPrefix(tt.name, "no pipe") {
			level = finding.Fault
		}
		if len(p.Batches) > 0 || len(p.Refused) != 1 || len(p.Findings) != 1 || p.Findings[0].Level != level {
			t.Errorf("%s: %d batches, %d refused, %v", tt.name, len(p.Batches), len(p.Refused), p.Findings)
			continue
		}
		got := p.Findings[0].Fact.(Refused)
		if f, ok := got.Why[0].(BeyondReach); ok && (f.Tightest == 0) != (tt.rolls == &far) {
			t.Errorf("%s: %+v", tt.name, f)
		}
		if !alikeFacts(got.Why, tt.why) || !alikeFacts(got.Ways, tt.ways) {
			t.Errorf("%s: %+v, want %+v and %+v", tt.name, got, tt.why, tt.ways)
		}
	}
}

// The ways out do pass, and one step short of them does not.
func TestWaysOut(t *testing.T) {
	c := design2in.Capacity
	for _, alloy := range []string{"low-carbon-steel", "stainless-304", "aluminium-6061", "brass"} {
		for gauge := 10; gauge <= 20; gauge++ {
			for _, across := range []float64{100, 700, 1219.2, 3000} {
				m := metal(alloy, gauge, 0)
				if n := courses(c, m, across); n > 0 && !takes(c, m, across/float64(n)) || n > 1 && takes(c, m, across/float64(n-1)) {
					t.Errorf("%s %d gauge, %v wide: %d courses", alloy, gauge, across, n)
				}
				if g, thickness := thinner(c, m, across); g > 0 {
					thin, thicker := metal(alloy, g, 0), metal(alloy, g-1, 0)
					if thin.Thickness != thickness || !takes(c, thin, across) || g-1 > gauge && takes(c, thicker, across) {
						t.Errorf("%s %d gauge, %v wide: take %d gauge", alloy, gauge, across, g)
					}
				}
			}
		}
	}
}

// Worked case I5: stainless of the same moment as the rated mild steel is
// thinner by the root of their yields.
func TestStainlessShare(t *testing.T) {
	thickness := loadCase(t, "I5").out(t, "t_max_304_same_Mp")
	c := design2in.Capacity
	c.Thickness = 1.5189
	if got := share(c, metal("stainless-304", 0, thickness), c.Width); !near(got, 1, 2*sixDigits) {
		t.Errorf("share of %v mm of stainless = %v, want 1", thickness, got)
	}
}

func TestNotKnown(t *testing.T) {
	m := metal("low-carbon-steel", 18, 0)
	blanks := []flat.Blank{tube("mast", m, 150, 500)}
	p := NewPlan(blanks, nil, Options{})
	if len(p.Refused) != 1 || len(p.Findings) != 1 || p.Findings[0].Fact != finding.Fact(NoRolls{1}) {
		t.Errorf("without rolls: %+v", p.Findings)
	}
	r := design2in
	r.BackDistance = 0
	p = NewPlan(blanks, &r, Options{})
	if b := p.Batches[0]; b.Set || b.Of != 0 || b.Passes[0].Edges[0].Lift != 0 || b.Passes[len(b.Passes)-1].Edges[0].Released != b.Radius || len(p.Findings) != 1 {
		t.Errorf("without a distance: %+v, %v", b, p.Findings)
	}
	r = design2in
	r.ScrewPitch = 0
	p = NewPlan(blanks, &r, Options{})
	if b := p.Batches[0]; !b.Set || b.Of != 0 || b.Passes[0].Screws[0].Turns.String() != "" || b.Passes[0].Edges[0].Lift <= 0 {
		t.Errorf("without a pitch: %+v, %v", b, p.Findings)
	}
	r = design2in
	r.BackDistance = 40
	p = NewPlan(blanks, &r, Options{})
	if b := p.Batches[0]; b.Set || p.Findings[0].Level != finding.Fault || !isA[RollsClash](p.Findings[0].Fact) {
		t.Errorf("with rolls in each other's way: %v", p.Findings)
	}
	r = design2in
	r.Capacity = design.Capacity{}
	p = NewPlan(blanks, &r, Options{})
	if b := p.Batches[0]; b.Share != 0 || p.Findings[0].Fact != finding.Fact(NoRating{}) {
		t.Errorf("without a rating: %v", p.Findings)
	}
}

func TestClosing(t *testing.T) {
	m := metal("low-carbon-steel", 18, 0)
	b := tube("mast", m, 150, 500)
	b.Width -= 1.5 // root gap
	p := NewPlan([]flat.Blank{b, gore("moon", m, 200, 12)}, &design2in, Options{})
	if c := p.Batches[1].Closing; c == nil || !near(c.Gap, 1.5, 1e-9) || !near(c.PerNotch, math.Pi*p.Batches[1].PerNotch, 1e-12) {
		t.Errorf("closing of a tube: %+v", c)
	}
	if c := p.Batches[0].Closing; c != nil {
		t.Errorf("closing of gores: %+v", c)
	}
}

func TestCone(t *testing.T) {
	m := metal("low-carbon-steel", 18, 0)
	p := NewPlan([]flat.Blank{taper("horn", m, 70, 110, 700)}, &design2in, Options{})
	if len(p.Batches) != 1 {
		t.Fatal(p.Findings)
	}
	b := &p.Batches[0]
	s := stripOf(&b.Pieces[0])
	machine, _ := MachineOf(&design2in)
	if b.Cone == nil || !near(b.Cone.Speed, 70./110, 1e-9) || b.Cone.Tilt <= 0 {
		t.Errorf("cone %+v", b.Cone)
	}
	// Held back by the difference of the arcs of the sector.
	if want := 2 * math.Pi * (110 - 70); !near(b.Cone.Back, want, 1e-9) || !near(b.Cone.Radial*float64(b.Cone.Bites), 2*math.Pi*110, 1e-9) || b.Cone.Back/float64(b.Cone.Bites) > slip {
		t.Errorf("cone %+v, want held back %v", b.Cone, want)
	}
	for i := range b.Passes {
		pass := &b.Passes[i]
		for e, r := range []float64{70, 110} {
			share := float64(i+1) / float64(len(b.Passes))
			set, err := machine.Set(s, share/r)
			if err != nil || !near(pass.Edges[e].Lift, set.Lift, 1e-9) || !near(pass.Edges[e].Released, r/share, 1e-9) {
				t.Errorf("pass %d edge %d: %+v, want lift %v", i+1, e, pass.Edges[e], set.Lift)
			}
		}
		// The roll is straight: the lift at the wide edge lies on the line
		// from screw to screw.
		a, z := pass.Screws[0].Travel, pass.Screws[1].Travel
		if got := a + (z-a)*700/design2in.Width; !near(got, pass.Edges[1].Lift, 1e-9) || a <= z {
			t.Errorf("pass %d: screws %v and %v put the wide edge at %v, want %v", i+1, a, z, got, pass.Edges[1].Lift)
		}
	}
	// A short steep ring is refused, with what the rolls can.
	p = NewPlan([]flat.Blank{taper("ring", m, 80, 140, 75)}, &design2in, Options{})
	if len(p.Refused) != 1 || !isA[TooSteep](p.Findings[0].Fact.(Refused).Why[0]) {
		t.Fatalf("a steep ring: %v", p.Findings)
	}
	piece := p.Refused[0]
	differ := machine.flattest(s, &piece, design2in.Width)
	for _, d := range []float64{differ * 0.99, differ * 1.01} {
		p := NewPlan([]flat.Blank{taper("ring", m, 110-d/2, 110+d/2, 75)}, &design2in, Options{})
		if refused := len(p.Refused) > 0; refused != (d > differ) {
			t.Errorf("radii that differ by %v, %v being the limit: refused %v", d, differ, refused)
		}
	}
}

func TestCheck(t *testing.T) {
	for _, units := range []quantity.System{quantity.Inch, quantity.Millimetre} {
		for _, radius := range []float64{30, 50, 77, 150, 800, 5000} {
			const thick = 1.5
			c := measured(radius, thick, 2*math.Pi*radius, units)
			if c.Chord == 0 {
				t.Errorf("no chord at %v", radius)
				continue
			}
			// The circle through the ends of the straight-edge and the sheet.
			if got := c.Rise/2 + c.Chord*c.Chord/8/c.Rise; !near(got, radius-thick/2, 1e-9) {
				t.Errorf("chord %v and rise %v make radius %v inside, want %v", c.Chord, c.Rise, got, radius-thick/2)
			}
			rise := c.Rise + 1e-4
			if got := (c.Inside - rise/2 - c.Chord*c.Chord/8/rise) / 1e-4 * misread; !near(got, c.Reads, 1e-2) {
				t.Errorf("radius %v: a misreading costs %v, said %v", radius, got, c.Reads)
			}
		}
		if c := measured(500, 1.5, 20, units); c.Chord != 0 {
			t.Errorf("a chord of %v on a piece of 20", c.Chord)
		}
	}
}

func TestTurns(t *testing.T) {
	for _, tt := range []struct {
		travel, pitch float64
		of            int
		want          string
	}{
		{10, 3.175, 8, "3-1/8"},
		{10, 2, 12, "5"},
		{0.6, 2, 12, "4/12"},
		{-3, 2, 8, "-1-1/2"},
		{-3, 2, 12, "-1-6/12"},
		{0.01, 2, 16, "0"},
		{5, 2, 0, ""},
		{math.Inf(1), 2, 8, ""},
		{math.NaN(), 2, 8, ""},
	} {
		if got := turns(tt.travel, tt.pitch, tt.of).String(); got != tt.want {
			t.Errorf("turns(%v, %v, %v) = %q, want %q", tt.travel, tt.pitch, tt.of, got, tt.want)
		}
	}
	for _, tt := range []struct {
		change float64
		want   int
	}{{0.05, 8}, {0.16, 8}, {0.2, 12}, {0.3, 16}, {2, 16}} {
		if got := notch(tt.change); got != tt.want {
			t.Errorf("notch(%v) = %v, want %v", tt.change, got, tt.want)
		}
	}
}

// The caution of a bow names courses that do bring it down.
func TestBarrel(t *testing.T) {
	m := metal("low-carbon-steel", 16, 0)
	p := NewPlan([]flat.Blank{tube("mast", m, 120, 1200)}, &design2in, Options{})
	i := 0
	for ; i < len(p.Findings) && !isA[Bows](p.Findings[i].Fact); i++ {
	}
	if i == len(p.Findings) {
		t.Fatalf("no caution of a bow in %v", p.Findings)
	}
	if f := p.Findings[i].Fact.(Bows); f.Courses != 2 || f.Each != 600 {
		t.Errorf("%+v", f)
	}
	for length, want := range map[float64]bool{1200: true, 600: false} {
		p := NewPlan([]flat.Blank{tube("mast", m, 120, length)}, &design2in, Options{})
		if got := p.Batches[0].Barrel > barrelled*120; got != want {
			t.Errorf("%v long: barrelled by %v", length, p.Batches[0].Barrel)
		}
	}
}

// isA reports whether a fact is of a type.
func isA[T finding.Fact](f finding.Fact) bool { _, ok := f.(T); return ok }
