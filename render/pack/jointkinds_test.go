package pack

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// TestEveryWeldHasADetail: each weld of a job is in one kind of joint, a fillet with the leg
// of the throat that the check of strength takes.
func TestEveryWeldHasADetail(t *testing.T) {
	for _, name := range []string{"slow-tide", "winter-orchard", "reed-bed", "lamp-thorn"} {
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
					if !slices.ContainsFunc(j.legs, func(leg float64) bool { return math.Abs(leg/math.Sqrt2-s.Throat) < 1e-9 }) {
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
				rings++
			case *ink.Text:
				sized = sized || it.Text == tt.size
			}
		}
		if dashed != tt.dashed || !sized {
			t.Errorf("%s: dashed line %v, want %v; size %s is written: %v", tt.name, dashed, tt.dashed, tt.size, sized)
		}
		fillets := 0
		for _, j := range k.jointKinds() {
			if j.shape.isFillet() {
				fillets++
			}
		}
		if rings != fillets || fillets == 0 {
			t.Errorf("%s: %d rings at the elbows of %d fillets", tt.name, rings, fillets)
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
