package pack

import (
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/param"
	"stabile/param/golden"
	"stabile/param/written"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// example works out a design that comes with the program.
func example(t *testing.T, name string) *fab.Job {
	t.Helper()
	d, err := param.Load(os.DirFS("../../examples"), name+".stabile", param.Options{})
	if err != nil {
		t.Fatal(err)
	}
	j, wrong := fab.Build(d, fab.Everything)
	if j == nil {
		t.Fatal(wrong)
	}
	return j
}

// shopSheets returns the sheets of the shop's plan alone.
func shopSheets(j *fab.Job) []*ink.Sheet {
	k := newPack(j, Options{Date: "2026-01-31"})
	k.layouts()
	f := &actFlow{pack: k}
	k.rollingCards(f)
	k.welding(f)
	list := sheet.Finish(k.pages)
	office := newPack(j, Options{Date: "2026-01-31"})
	office.officeBook()
	return append(list, sheet.Finish(office.pages)...)
}

// sheetWords returns all that is written on sheets, a blank between any two lines.
func sheetWords(sheets []*ink.Sheet) string {
	var b strings.Builder
	for _, s := range sheets {
		for _, item := range s.Items {
			if t, ok := item.(*ink.Text); ok {
				b.WriteString(t.Text)
				b.WriteByte(' ')
			}
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// TestShopGolden compares the shop's sheets of an example with what was last
// looked at and found good.
func TestShopGolden(t *testing.T) {
	var all strings.Builder
	for _, s := range shopSheets(example(t, "slow-tide")) {
		all.WriteString(s.String())
	}
	golden.Text(t, filepath.Join("testdata", "slow-tide-shop.txt"), all.String())
}

// TestCardsSayThePlan: every pass of every batch stands on a card with the plan's
// turns, lift and check, and what the rolls refuse is named.
func TestCardsSayThePlan(t *testing.T) {
	for name, j := range trees() {
		r := newRollingSheet(newPack(j, Options{}), j.Plan.Rolling)
		for i := range r.plan.Batches {
			b := &r.plan.Batches[i]
			rows := r.passTable([]int{i}).Rows
			if len(rows) != len(b.Passes) {
				t.Fatalf("%s: card %d has %d passes, want %d", name, i+1, len(rows), len(b.Passes))
			}
			for k, p := range b.Passes {
				for _, want := range []string{turned(p.Screws[0].Turns), r.fine(p.Edges[0].Lift), r.fine(p.Edges[1].Check.Rise)} {
					if p.Edges[1].Check.Chord > 0 && b.Of > 0 && !slices.Contains(rows[k], want) {
						t.Errorf("%s: card %d, pass %d: %q lacks %q", name, i+1, k+1, rows[k], want)
					}
				}
			}
		}
		all := sheetWords(shopSheets(j))
		for _, p := range r.plan.Refused {
			if !strings.Contains(all, p.Name) {
				t.Errorf("%s: '%s', which the rolls refuse, is not named", name, p.Name)
			}
		}
	}
}

// TestFiguredNotes: notes give way to the figures of a card where it has them.
func TestFiguredNotes(t *testing.T) {
	given, kept := map[reflect.Type]bool{}, 0
	for _, j := range append(slices.Collect(maps.Values(trees())), example(t, "lamp-thorn")) {
		for _, b := range j.Plan.Rolling.Batches {
			for _, n := range b.Notes {
				if inFigures(n) {
					given[reflect.TypeOf(n)] = true
				} else {
					kept++
				}
			}
		}
	}
	if len(given) < 7 || kept == 0 {
		t.Errorf("notes of %d types give way, and %d stay", len(given), kept)
	}
}

// TestWeldsAndSteps: each weld and each step of the plan has its line, the heavy
// lifts are marked, and every hollow stands in the list with the hole it needs.
func TestWeldsAndSteps(t *testing.T) {
	for _, name := range []string{"lamp-thorn", "slow-tide", "winter-orchard"} {
		j := example(t, name)
		k := newPack(j, Options{})
		plan := j.Plan.Assembly
		if got := len(k.weldTable(plan).Rows); got != len(plan.Welds) {
			t.Errorf("%s: %d welds in the table, want %d", name, got, len(plan.Welds))
		}
		rows := k.stepTable(plan).Rows
		for i, s := range plan.Steps {
			heavy := s.Lift != nil && s.Lift.Heavy
			if got := strings.Contains(rows[i][3], "HEAVY"); got != heavy {
				t.Errorf("%s: step %d is marked heavy: %v, want %v", name, s.Number, got, heavy)
			}
			if got := strings.Contains(rows[i][3], "VENT"); got != (len(s.Closes) > 0) {
				t.Errorf("%s: step %d is marked for a vent: %v, want %v", name, s.Number, got, len(s.Closes) > 0)
			}
		}
		if t1 := k.spaceTable(plan); len(plan.Spaces) > 0 && len(t1.Rows) != len(plan.Spaces) {
			t.Errorf("%s: %d hollows listed, want %d", name, len(t1.Rows), len(plan.Spaces))
		}
	}
}

// TestRunRound: only a disc is held in its hole and run round; a point is built up.
func TestRunRound(t *testing.T) {
	for part, want := range map[string]string{
		"post spike on pad { diameter 120 to 0, length 900, metal skin }": "built up",
		"ball moon on pad { diameter 300, gores 8, metal skin }":          "run round",
	} {
		j, wrong := fab.Build(written.Design(t, written.Metric+"base pad { plate 900 by 900, metal slab }\n"+part+"\n"), fab.Everything)
		if j == nil {
			t.Fatal(wrong)
		}
		got := sheetWords(shopSheets(j))
		if !strings.Contains(got, want) || strings.Contains(got, "hold the disc in its hole") != (want == "run round") {
			t.Errorf("%s: the weld list does not say rightly that it is %s", part, want)
		}
	}
}

// TestEstimateIsCalledOne: hours and money are never written without the word, and
// what has no price is named.
func TestEstimateIsCalledOne(t *testing.T) {
	for _, name := range []string{"lamp-thorn", "winter-orchard"} {
		j := example(t, name)
		k := newPack(j, Options{})
		k.officeBook()
		got := sheetWords(sheet.Finish(k.pages))
		if !strings.Contains(got, "an estimate") {
			t.Errorf("%s: the sheet does not say that it is an estimate", name)
		}
		if m := j.Plan.Estimate.Money; m != nil {
			for _, s := range words.In(j.Design.Units).Facts(m.Unpriced) {
				if !strings.Contains(got, strings.Split(s, ", cut to size")[0]) {
					t.Errorf("%s: the sheet does not name %q, which has no price", name, s)
				}
			}
		} else if !strings.Contains(got, "no money is worked out") {
			t.Errorf("%s: the sheet does not say that there are no prices", name)
		}
	}
}

// TestDangersFit: cautions are of the metals in hand.
func TestDangersFit(t *testing.T) {
	for name, want := range map[string]bool{"winter-orchard": true, "slow-tide": false} {
		k := newPack(example(t, name), Options{})
		got := strings.Contains(strings.Join(k.fumes(), " "), "chromium")
		if got != want {
			t.Errorf("%s: chromium is warned of: %v, want %v", name, got, want)
		}
	}
}
