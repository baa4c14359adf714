package pack

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/internal/sample"
)

// crowdedJobs are jobs with layouts that are as full as any, worked out once for all
// tests.
var crowdedJobs = sync.OnceValue(func() map[string]*fab.Job {
	jobs := map[string]*fab.Job{}
	for _, seed := range [...]uint64{7, 13, 17, 43} {
		units := [...]quantity.System{quantity.Millimetre, quantity.Inch}[seed%2]
		jobs[fmt.Sprintf("tree %d", seed)] = sample.Job(sample.Random(seed, 3+int(seed*seed%58), units))
	}
	return jobs
})

// TestNumbersStandClear: on every paper, even on one that is too small for the
// layout, no number stands on a line, arrowhead or dot, or on other writing. Lines
// are gone along in small steps, so that nothing of what found the places is used.
func TestNumbersStandClear(t *testing.T) {
	numbers := 0
	for name, j := range crowdedJobs() {
		k := newPack(j, Options{})
		plan := j.Plan.Sheets
		for i := range plan.Stacks {
			for n := range plan.Stacks[i].Sheets {
				l := newLayout(k, plan, &plan.Stacks[i], &plan.Stacks[i].Sheets[n])
				for _, paper := range [...]string{"A4", "A3", "A2"} {
					p := k.paper(paper, map[string]string{"A4": "ANSI A", "A3": "ANSI B", "A2": "ANSI C"}[paper])
					d := l.draw(l.newPage(p.Landscape(), "", l.block()), 1, 1)
					numbers += standClear(t, fmt.Sprintf("%s: %s on %s", name, l.Name, paper), d)
					d.detail()
					for _, o := range d.details {
						numbers += standClear(t, fmt.Sprintf("%s: %s: detail of cut %d", name, l.Name, o.first), o.cutDrawing)
					}
				}
			}
		}
	}
	t.Logf("%d numbers looked at", numbers)
	if numbers < 1000 {
		t.Errorf("%d numbers looked at, want some thousands", numbers)
	}
}

// standClear looks at the numbers of a drawing and returns how many there are.
func standClear(t *testing.T, name string, d *cutDrawing) (numbers int) {
	t.Helper()
	const step, slack = 0.05, 0.1 // mm
	items := d.items()
	cells := map[[2]int][]r2.Vec{} // points of lines and dark areas, by squares of paper
	point := func(p r2.Vec) {
		c := [2]int{int(math.Floor(p.X)), int(math.Floor(p.Y))}
		cells[c] = append(cells[c], p)
	}
	along := func(path []r2.Vec) {
		for i := 1; i < len(path); i++ {
			n := 1 + int(r2.Norm(r2.Sub(path[i], path[i-1]))/step)
			for s := range n + 1 {
				point(r2.Add(path[i-1], r2.Scale(float64(s)/float64(n), r2.Sub(path[i], path[i-1]))))
			}
		}
	}
	for _, item := range items {
		switch it := item.(type) {
		case *ink.Stroke:
			along(it.Path)
			if it.Closed {
				along([]r2.Vec{it.Path[len(it.Path)-1], it.Path[0]})
			}
		case *ink.Fill:
			if it.Shade == 0 {
				along(append(slices.Clone(it.Path), it.Path[0]))
			}
		}
	}
	for i, item := range items {
		tx, ok := item.(*ink.Text)
		if !ok {
			continue
		}
		if _, err := strconv.Atoi(tx.Text); err != nil || tx.Face != ink.Bold {
			continue
		}
		numbers++
		lo, hi := bounds(tx.Box())
		lo, hi = r2.Add(lo, r2.Vec{X: slack, Y: slack}), r2.Sub(hi, r2.Vec{X: slack, Y: slack})
		in := func(p r2.Vec) bool { return p.X > lo.X && p.X < hi.X && p.Y > lo.Y && p.Y < hi.Y }
		for x := int(math.Floor(lo.X)); x <= int(hi.X); x++ {
			for y := int(math.Floor(lo.Y)); y <= int(hi.Y); y++ {
				if n := slices.IndexFunc(cells[[2]int{x, y}], in); n >= 0 {
					t.Errorf("%s: the number %s stands on a line at %.1f, %.1f", name, tx.Text, lo.X, lo.Y)
					return numbers
				}
			}
		}
		for k, other := range items {
			o, ok := other.(*ink.Text)
			if !ok || k == i {
				continue
			}
			if l, h := bounds(o.Box()); l.X < hi.X && lo.X < h.X && l.Y < hi.Y && lo.Y < h.Y {
				t.Errorf("%s: the number %s stands on %q", name, tx.Text, o.Text)
			}
		}
	}
	return numbers
}

// TestNoCutIsLost: each cut that begins or ends a line of the table has its number
// on the drawing or on a detail, or the sheet says that it has none; and so for the
// marks of pieces.
func TestNoCutIsLost(t *testing.T) {
	details := 0
	for name, j := range crowdedJobs() {
		for _, d := range drawings(j) {
			d.detail()
			details += len(d.details)
			written := map[string]bool{}
			read := func(d *cutDrawing) {
				for _, item := range d.marks {
					if tx, ok := item.(*ink.Text); ok && tx.Face == ink.Bold {
						written[tx.Text] = true
					}
				}
			}
			read(d)
			for _, o := range d.details {
				read(o.cutDrawing)
			}
			notes := strings.Join(d.notes(), "\n")
			said := func(s string) bool {
				return slices.Contains(strings.FieldsFunc(notes, func(r rune) bool { return strings.ContainsRune(" ,:\n", r) }), s)
			}
			for _, r := range d.cutRows() {
				for _, n := range [...]int{r.first, r.last} {
					if s := strconv.Itoa(n); !written[s] && !said(s) {
						t.Errorf("%s: %s: cut %d is not on a drawing, and no note says so: %q", name, d.Name, n, notes)
					}
				}
			}
			for _, b := range d.bare {
				if !said(b.mark) && !d.shown(b) {
					t.Errorf("%s: %s: a piece %s has no mark, and no note says so: %q", name, d.Name, b.mark, notes)
				}
			}
			for _, o := range d.details {
				if o.scale.Factor < leastGain*d.scale.Factor {
					t.Errorf("%s: %s: the detail of cut %d has scale %s, the layout %s", name, d.Name, o.first, o.scale.Name, d.scale.Name)
				}
				if want := d.rect(o.rect); math.Abs((o.box.Max.Y-o.box.Min.Y)/o.scale.Factor-(want.Max.Y-want.Min.Y)/d.scale.Factor) > 1e-6 {
					t.Errorf("%s: %s: the detail of cut %d is not as high as what the cut takes up", name, d.Name, o.first)
				}
				// As far from the corner as on the whole sheet.
				for i := range o.Blocks {
					r := o.Blocks[i].Rect
					r.X, r.Y = r.X+o.rect.X, r.Y+o.rect.Y
					if !slices.ContainsFunc(blocksOf(d), func(b string) bool { return b == fmt.Sprintf("%.3f %.3f %.3f %.3f", r.X, r.Y, r.Width, r.Height) }) {
						t.Errorf("%s: %s: the detail of cut %d has a block at %v that the layout has not", name, d.Name, o.first, r)
					}
				}
			}
		}
	}
	if details == 0 {
		t.Error("no layout has a detail")
	}
}

func blocksOf(d *cutDrawing) (list []string) {
	for i := range d.Blocks {
		r := d.Blocks[i].Rect
		list = append(list, fmt.Sprintf("%.3f %.3f %.3f %.3f", r.X, r.Y, r.Width, r.Height))
	}
	return list
}
