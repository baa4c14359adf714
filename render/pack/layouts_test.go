package pack

import (
	"io/fs"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/sheets"
	"stabile/param"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/internal/sample"
	"stabile/render/sheet"
)

// trees are jobs whose shop's sheets are looked at, worked out once for all tests.
var trees = sync.OnceValue(func() map[string]*fab.Job {
	return map[string]*fab.Job{
		"stack":  sample.Job(sample.Stack(quantity.Inch)),
		"tree12": sample.Job(sample.Random(3, 12, quantity.Millimetre)),
		"tree30": sample.Job(sample.Random(4, 30, quantity.Inch)),
	}
})

// drawings returns the drawing of every layout of a job with its layout.
func drawings(j *fab.Job) []*cutDrawing {
	k := newPack(j, Options{})
	k.pages = append(k.pages, k.newPage(k.bench(), "before", sheet.Block{})) // layouts never come first
	plan := j.Plan.Sheets
	var list []*cutDrawing
	for i := range plan.Stacks {
		for n := range plan.Stacks[i].Sheets {
			l := newLayout(k, plan, &plan.Stacks[i], &plan.Stacks[i].Sheets[n])
			list = append(list, l.choose())
		}
	}
	return list
}

// TestCutsWhole: no stop, edge or number of a cut is broken over two lines, where it would
// be read wrong.
func TestCutsWhole(t *testing.T) {
	jobs := maps.Clone(trees())
	folder := os.DirFS("../../examples")
	names, err := fs.Glob(folder, "*.stabile")
	if err != nil || len(names) == 0 {
		t.Fatal("no examples", err)
	}
	for _, name := range names {
		d, err := param.Load(folder, name, param.Options{})
		if err != nil {
			t.Fatal(err)
		}
		j, wrong := fab.Build(d, fab.Everything)
		if wrong.Err() != nil {
			t.Fatal(wrong.Err())
		}
		jobs[name] = j
	}
	for name, j := range jobs {
		for _, d := range drawings(j) {
			if !d.whole(d.set) {
				t.Errorf("%s: the cuts of %s have broken words", name, d.Name)
			}
		}
	}
}

// TestEveryPieceIsLaid: over all layouts and their copies each blank is drawn as
// often as it is needed, with its own area, but for what the plan names as
// ordered or left.
func TestEveryPieceIsLaid(t *testing.T) {
	for name, j := range trees() {
		plan := j.Plan.Sheets
		want := map[string]int{}
		for _, b := range plan.Blanks {
			want[b.Name] += b.Quantity
		}
		for _, o := range plan.Orders {
			want[o.Name] -= o.Quantity
		}
		for i := range plan.Stacks {
			for _, l := range plan.Stacks[i].Left {
				want[plan.Blanks[l.Blank].Name] -= l.Count
			}
		}
		got := map[string]int{}
		for _, d := range drawings(j) {
			n := 0
			for i := range d.Blocks {
				for _, p := range d.Blocks[i].Pieces {
					got[p.Name] += d.Copies
					// Area by the shoelace formula, on paper; a blank's own has its
					// holes taken out.
					b := plan.Blanks[p.Blank]
					f := d.scale.Factor
					holes := 0.0
					for _, h := range b.Holes {
						holes += math.Pi / 4 * h.Diameter * h.Diameter
					}
					if area, own := enclosed(d.pieces[n].path)/(f*f), b.Area+holes; b.Allowance == 0 && len(b.Holes) == 0 && math.Abs(area-own) > 0.02*own {
						t.Errorf("%s: '%s' is drawn with an area of %.0f mm2, want %.0f", name, p.Name, area, own)
					}
					n++
				}
			}
			if white := slices.IndexFunc(d.fills, func(it ink.Item) bool { return it.(*ink.Fill).Shade == 1 }); white >= 0 && len(d.fills)-white != n {
				t.Errorf("%s: %s: %d areas drawn for %d pieces", name, d.Name, len(d.fills)-white, n)
			}
		}
		for blank, n := range want {
			if got[blank] != n {
				t.Errorf("%s: '%s' is laid %d times, want %d", name, blank, got[blank], n)
			}
		}
	}
}

func enclosed(path []r2.Vec) float64 {
	sum := 0.0
	for i, p := range path {
		q := path[(i+1)%len(path)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return math.Abs(sum) / 2
}

// TestCutTable: the table has each cut of the plan once, in order, with the
// plan's stop; and who follows it, by its words alone, has in hand before each
// cut what the plan says.
func TestCutTable(t *testing.T) {
	for name, j := range trees() {
		for _, d := range drawings(j) {
			next := 1
			for _, r := range d.cutRows() {
				for n := r.first; n <= r.last; n++ {
					c := &d.Cuts[n-1]
					if n != next || c.Number != n {
						t.Fatalf("%s: %s: cut %d stands where %d should", name, d.Name, n, next)
					}
					next++
					if got := d.stop(c.Stop); got != r.stop {
						t.Errorf("%s: %s: cut %d has stop %s, want %s", name, d.Name, n, r.stop, got)
					}
					if got := edgeOf(c); got != r.edge {
						t.Errorf("%s: %s: cut %d has the edge %s, want %s", name, d.Name, n, r.edge, got)
					}
				}
				follow(t, name, d, &r)
			}
			if next != len(d.Cuts)+1 {
				t.Errorf("%s: %s: %d cuts in the table, want %d", name, d.Name, next-1, len(d.Cuts))
			}
		}
	}
}

// follow checks that the words of a row lead to what its first cut has in hand.
func follow(t *testing.T, name string, d *cutDrawing, r *cutRow) {
	t.Helper()
	c := &d.Cuts[r.first-1]
	hand := d.Cuts[max(r.first-2, 0)].Keep
	if of, ok := strings.CutPrefix(r.take, "strip of "); ok {
		n, _ := strconv.Atoi(of)
		hand = d.Cuts[n-1].Drop
	} else if of, ok := strings.CutPrefix(r.take, "rest of "); ok {
		n, _ := strconv.Atoi(of)
		hand = d.Cuts[n-1].Keep
	} else if r.take == "the sheet" {
		hand.X, hand.Y, hand.Width, hand.Height = 0, 0, d.Length, d.Sheet.Width
	}
	if !sameRect(hand, c.Hand) {
		t.Errorf("%s: %s: before cut %d %q leads to %v, want %v", name, d.Name, r.first, r.take, hand, c.Hand)
	}
	if to, ok := strings.CutPrefix(r.drops, "strip → "); ok {
		if n, _ := strconv.Atoi(to); !sameRect(d.Cuts[n-1].Hand, c.Drop) {
			t.Errorf("%s: %s: what cut %d drops is not what cut %d takes", name, d.Name, r.first, n)
		}
	}
}

// TestNumbersStandAtTheirCuts: each number lies in its cut's line, broken for it,
// or a tick leads to it.
func TestNumbersStandAtTheirCuts(t *testing.T) {
	missed, all := 0, 0
	for name, j := range trees() {
		for _, d := range drawings(j) {
			texts := map[string]*ink.Text{}
			for _, item := range d.marks {
				if tx, ok := item.(*ink.Text); ok && tx.Face == ink.Bold {
					if _, err := strconv.Atoi(tx.Text); err == nil {
						texts[tx.Text] = tx
					}
				}
			}
			for i := range d.Cuts {
				all++
				tx := texts[strconv.Itoa(i+1)]
				if tx == nil {
					missed++
					continue
				}
				a, b := d.ends(&d.Cuts[i])
				const near = 6.0 // mm: the tick, the air and half of three figures
				if q := nearest([]r2.Vec{a, b}, tx.At); r2.Norm(r2.Sub(q, tx.At)) > near+leaderMost {
					t.Errorf("%s: %s: the number %s stands %.1f mm from its cut", name, d.Name, tx.Text, r2.Norm(r2.Sub(q, tx.At)))
				}
			}
		}
	}
	t.Logf("%d of %d cuts have no number on the drawing", missed, all)
	if missed*20 > all {
		t.Errorf("%d of %d cuts have no number on the drawing, want 1 in 20 at most", missed, all)
	}
}

func TestLetters(t *testing.T) {
	for i, want := range map[int]string{0: "A", 8: "J", 13: "P", 23: "Z", 24: "AA", 47: "AZ", 48: "BA"} {
		if got := letters(i); got != want {
			t.Errorf("letters(%d) = %q, want %q", i, got, want)
		}
	}
}

func TestBroken(t *testing.T) {
	box := r2.Box{Min: r2.Vec{X: 2, Y: -1}, Max: r2.Vec{X: 3, Y: 1}}
	got := broken([]r2.Vec{{}, {X: 5}, {X: 5, Y: 4}}, []r2.Box{box})
	if len(got) != 2 || got[0][1].X != 2 || got[1][0].X != 3 || got[1][2].Y != 4 {
		t.Errorf("broken = %v, want it to end at 2 and to go on at 3", got)
	}
}

// TestWays: a layout by the cutter says so.
func TestWays(t *testing.T) {
	for _, d := range drawings(sample.Job(sample.Stack(quantity.Inch))) {
		if got := strings.Contains(d.facts(), "by the cutter"); got != (d.stack.Way == sheets.ByCutter) {
			t.Errorf("%s: said to be cut by the cutter: %v", d.Name, got)
		}
	}
}
