package pack

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/param"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// TestEveryWeldHasADetail: each weld of a job is in one kind of joint, a fillet with the leg
// of the throat that the check of strength takes.
func TestEveryWeldHasADetail(t *testing.T) {
	for _, name := range []string{"slow-tide", "winter-orchard", "reed-bed", "lamp-thorn", "hop-gate"} {
		k := newPack(example(t, name), Options{})
		count := map[int]int{}
		for _, j := range k.jointKinds() {
			for _, n := range j.welds {
				count[n]++
				w := &k.job.Plan.Assembly.Welds[n-1]
				for _, s := range k.job.Strength.Welds {
					if s.Part.Name != w.Part || s.With != w.With || w.With == "" {
						continue
					}
					whole := func(t float64) bool { return !j.shape.isFillet() && t > s.Throat }
					if !slices.ContainsFunc(j.legs, func(leg float64) bool { return math.Abs(leg/math.Sqrt2-s.Throat) < 1e-9 || whole(leg) }) {
						t.Errorf("%s: weld %d is checked with a throat of %v mm, drawn with legs %v", name, n, s.Throat, j.legs)
					}
				}
			}
		}
		for i := range k.job.Plan.Assembly.Welds {
			if n := i + 1; count[n] != 1 {
				t.Errorf("%s: weld %d has %d details, want 1", name, n, count[n])
			}
		}
	}
}

// TestWeldSymbols: by ISO 2553, system A, a dashed line runs beside the full one and the leg
// follows a z; by AWS A2.4 there is neither. A weld all round has a ring at its elbow.
func TestWeldSymbols(t *testing.T) {
	for _, tt := range []struct {
		name, size string
		units      quantity.System
		dashed     bool
	}{
		{"winter-orchard", "z1.5", quantity.Millimetre, true},
		{"slow-tide", "1/16", quantity.Inch, false},
	} {
		k := newPack(example(t, tt.name), Options{})
		s := &ink.Sheet{}
		k.jointDetails(sheet.NewFlow(func() (*ink.Sheet, r2.Box) { return s, sheet.Box(0, 0, 178, 260) }))
		dashed, rings, sized := false, 0, false
		for _, item := range s.Items {
			switch it := item.(type) {
			case *ink.Stroke:
				dashed = dashed || it.Line == ink.Hidden
			case *ink.Arc:
				if it.Line == ink.Thin { // that of the order of tacks is an outline
					rings++
				}
			case *ink.Text:
				sized = sized || it.Text == tt.size
			}
		}
		if dashed != tt.dashed || !sized {
			t.Errorf("%s: dashed line %v, want %v; size %s is written: %v", tt.name, dashed, tt.dashed, tt.size, sized)
		}
		round := 0
		for _, j := range k.jointKinds() {
			if j.shape.allRound() {
				round++
			}
		}
		if rings != round || round == 0 {
			t.Errorf("%s: %d rings at the elbows of %d welds all round", tt.name, rings, round)
		}
	}
}

// TestOpenedWalls: a wall that is cut away under a joint is told from one that stays whole.
func TestOpenedWalls(t *testing.T) {
	k := newPack(example(t, "lamp-thorn"), Options{})
	var says []string
	for _, j := range k.jointKinds() {
		says = append(says, j.title()+": "+j.under())
	}
	all := strings.Join(says, "\n")
	for _, want := range []string{"Tube to ball: The wall under it stays whole.", "Ball to ball: The wall under it is cut away as its blank shows."} {
		if !strings.Contains(all, want) {
			t.Errorf("no detail says %q:\n%s", want, all)
		}
	}
}

// TestTubesOnTubes: two tubes that meet in the half angle are shown so, and one on the disc
// that closes a larger one, and one on another's side.
func TestTubesOnTubes(t *testing.T) {
	const text = `sculpture "Bends"
units mm
metal skin { alloy low-carbon-steel, thickness 1.5 mm }
metal slab { alloy low-carbon-steel, thickness 10 mm }
base pad { disc 600 mm, metal slab }
post stem on pad { diameter 80 mm, length 500 mm, metal skin }
post bent on stem { diameter 80 mm, length 300 mm, lean 30 deg toward 90 deg, metal skin }
post thin on bent { diameter 40 mm, length 200 mm, metal skin }
post arm on stem { diameter 40 mm, length 300 mm, at 250 mm toward 270 deg, lean 60 deg toward 270 deg, metal skin }
`
	d, wrong := param.Evaluate(source.NewFile("bends.stabile", text), param.Options{})
	if d == nil {
		t.Fatal(wrong)
	}
	j, wrong := fab.Build(d, fab.WithPlan)
	if j == nil {
		t.Fatal(wrong)
	}
	k := newPack(j, Options{})
	var got []string
	for _, j := range k.jointKinds() {
		got = append(got, j.title())
	}
	want := []string{"Tube to tube", "Tube on a disc", "Tube to plate", "Tube end to tube end", "Disc in a head", "Seam of a tube"}
	if !slices.Equal(got, want) {
		t.Errorf("kinds of joint are %q, want %q", got, want)
	}
}
