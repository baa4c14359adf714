package layout

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"
)

// A cuttingInstance is a problem of a set of them as they are passed around:
// one size of sheet, and items of width, height and count, in whole units.
type cuttingInstance struct {
	Name        string
	Group       string
	Sheet       [2]int
	Items       [][3]int
	BoundTurned int `json:"bound_turned"`
	BoundFixed  int `json:"bound_fixed"`
}

func (in *cuttingInstance) problem(turn bool) *Problem {
	p := &Problem{Sheets: []Sheet{{Width: float64(in.Sheet[0]), Height: float64(in.Sheet[1])}}}
	for _, c := range in.Items {
		p.Pieces = append(p.Pieces, Piece{float64(c[0]), float64(c[1]), c[2], turn})
	}
	return p
}

// A tally sums up the instances of one group.
type tally struct {
	name                     string
	instances, sheets, bound int
	given                    int // the bound that came with the set
	cuts, stops              int // of all sheets
}

// stops returns how often the stop is set for a plan, and how many cuts there are.
func stops(plan *Plan) (settings, cuts int) {
	for i := range plan.Layouts {
		l := &plan.Layouts[i]
		cuts += l.Copies * len(l.Cuts)
		settings += Settings(l.Cuts)
	}
	return settings, cuts
}

// TestCuttingSet lays out a set of instances without a search for offcuts and
// logs their sheets beside the bounds. In the environment:
//
//	STABILE_CUTTING_SET    the set, a JSON file {"instances": [...]}; without
//	                       it some are made by the published rules
//	STABILE_CUTTING_OUT    write the layouts to that file
//	STABILE_CUTTING_STEPS  the steps for each instance
//	STABILE_CUTTING_EVERY  lay out only every nth instance
//	STABILE_CUTTING_FIXED  not empty: pieces are not turned
func TestCuttingSet(t *testing.T) {
	set := cuttingSet(t)
	steps := envNumber(t, "STABILE_CUTTING_STEPS", 400_000)
	every := int(envNumber(t, "STABILE_CUTTING_EVERY", 1))
	turn := os.Getenv("STABILE_CUTTING_FIXED") == ""
	var groups []tally
	all := tally{name: "all"}
	out := map[string][][][4]int{}
	start, used := time.Now(), int64(0)
	for i := 0; i < len(set); i += every {
		in := &set[i]
		p := in.problem(turn)
		plan, err := Solve(p, Options{Steps: steps, AnyOffcut: true})
		if err != nil {
			t.Errorf("%s: %v", in.Name, err)
			continue
		}
		if f := fault(p, plan); f != "" {
			t.Errorf("%s: %s", in.Name, f)
		}
		used += plan.Steps
		given := in.BoundTurned
		if !turn {
			given = in.BoundFixed
		}
		if plan.Sheets < given {
			t.Errorf("%s: Solve = %d sheets, below the bound of %d", in.Name, plan.Sheets, given)
		}
		if len(groups) == 0 || groups[len(groups)-1].name != in.Group {
			groups = append(groups, tally{name: in.Group})
		}
		for _, g := range []*tally{&groups[len(groups)-1], &all} {
			g.instances++
			g.sheets += plan.Sheets
			g.bound += plan.SheetBound
			g.given += given
			n, cuts := stops(plan)
			g.stops, g.cuts = g.stops+n, g.cuts+cuts
		}
		out[in.Name] = wholeLayouts(plan)
	}
	for _, g := range append(groups, all) {
		t.Logf("%-24s %3d instances, %4d sheets, proven bound %4d, given bound %4d, %5d cuts at %5d settings", g.name, g.instances, g.sheets, g.bound, g.given, g.cuts, g.stops)
	}
	if os.Getenv("STABILE_CUTTING_SET") == "" && turn && all.sheets > all.bound+2 {
		t.Errorf("%d sheets for the made instances, want at most 2 above the bound of %d", all.sheets, all.bound)
	}
	took := time.Since(start)
	t.Logf("%.1f million steps in %v, %.1f million a second", float64(used)/1e6, took.Round(time.Millisecond), float64(used)/1e6/took.Seconds())
	if name := os.Getenv("STABILE_CUTTING_OUT"); name != "" {
		data, err := json.Marshal(out)
		if err == nil {
			err = os.WriteFile(fromRoot(name), data, 0o666)
		}
		if err != nil {
			t.Error(err)
		}
	}
}

// cuttingSet returns the set named in the environment, or else two instances of
// each class made by the published rules.
func cuttingSet(t *testing.T) []cuttingInstance {
	name := os.Getenv("STABILE_CUTTING_SET")
	if name == "" {
		var set []cuttingInstance
		for class := 1; class <= 10; class++ {
			for seed := range uint64(2) {
				in := published(class, 20+20*int(seed), seed)
				in.Group = fmt.Sprintf("made by the rules of class %d", class)
				set = append(set, in)
			}
		}
		return set
	}
	data, err := os.ReadFile(fromRoot(name))
	if err != nil {
		t.Fatal(err)
	}
	var set struct{ Instances []cuttingInstance }
	if err := json.Unmarshal(data, &set); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return set.Instances
}

// fromRoot returns a file's name for a test, which runs in its package's folder,
// where it was given beside the module's own.
func fromRoot(name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join("..", "..", name)
}

func envNumber(t *testing.T, name string, otherwise int64) int64 {
	s := os.Getenv(name)
	if s == "" {
		return otherwise
	}
	n, err := strconv.ParseInt(s, 10, 64)
	if err != nil || n < 1 {
		t.Fatalf("%s=%q is not a number above 0", name, s)
	}
	return n
}

// wholeLayouts returns each sheet's pieces as x, y, width and height.
func wholeLayouts(plan *Plan) [][][4]int {
	var sheets [][][4]int
	for _, l := range plan.Layouts {
		for range l.Copies {
			var pieces [][4]int
			for _, c := range l.Pieces {
				pieces = append(pieces, [4]int{int(c.X), int(c.Y), int(c.Width), int(c.Height)})
			}
			sheets = append(sheets, pieces)
		}
	}
	return sheets
}
