package list_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/fab/sheets"
	"stabile/param/quantity"
	"stabile/param/written"
	"stabile/render/internal/sample"
	"stabile/render/list"
)

// TestCuts reads the cut list back: a line for each of the plan's, with its
// figures in the units that the head names, and as many pieces as the blanks
// have.
func TestCuts(t *testing.T) {
	for _, c := range []struct {
		units quantity.System
		scale float64 // mm
	}{{quantity.Millimetre, 1}, {quantity.Inch, 25.4}} {
		plan := sample.Job(sample.Random(4, 30, c.units)).Plan.Sheets
		var b bytes.Buffer
		if err := list.CSV(&b, list.Cuts(plan, nil, c.units)); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(b.String(), "\ufeff"))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		lines := plan.CutList()
		if len(rows)-1 != len(lines) {
			t.Fatalf("%v: %d lines, want %d", c.units, len(rows)-1, len(lines))
		}
		number := func(row []string, column int) float64 {
			if row[column] == "" {
				return 0
			}
			x, err := strconv.ParseFloat(row[column], 64)
			if err != nil {
				t.Fatalf("%q, column %d: %v", row, column, err)
			}
			return x
		}
		pieces := 0.0
		for i, l := range lines {
			row := rows[i+1]
			for column, want := range map[int]float64{2: l.Width / c.scale, 3: l.Length / c.scale, 6: l.Stop / c.scale, 7: l.Reach / c.scale, 11: l.SizeY / c.scale, 12: l.SizeX / c.scale, 5: float64(l.Cut), 13: float64(l.Quantity)} {
				// Half of the last decimal, and a hair for the halving.
				if got := number(row, column); math.Abs(got-want) > 0.0051 {
					t.Errorf("%v: line %d, %s = %v, want %v", c.units, i+1, rows[0][column], got, want)
				}
			}
			if row[0] != l.Sheet || row[9] != l.Name || row[8] != string(l.What) {
				t.Errorf("%v: line %d is %q, want sheet %q, piece %q, %q", c.units, i+1, row, l.Sheet, l.Name, l.What)
			}
			if l.What == sheets.APiece || l.What == sheets.Ordered {
				pieces += number(row, 13)
			}
		}
		want := 0.0
		for _, b := range plan.Blanks {
			want += float64(b.Quantity)
		}
		for i := range plan.Stacks {
			for _, l := range plan.Stacks[i].Left {
				want -= float64(l.Count)
			}
		}
		if pieces != want {
			t.Errorf("%v: %v pieces in the list, want %v", c.units, pieces, want)
		}
	}
}

// TestCutsSawn reads the lines of what is sawn back: each piece once, none longer than what it
// is cut from.
func TestCutsSawn(t *testing.T) {
	d := written.Design(t, `units mm
metal skin { alloy low-carbon-steel, thickness 2 }
base pad { plate 900 by 600, metal skin }
repeat i from 1 to 5 { post p[i] on pad { at (150 * i - 450, 0), bought pipe 1 schedule 40, length 500 + 250 * i, stock 3 m, metal skin } }
shop { saw { kerf 1.5 mm } }
`)
	j, wrong := fab.Build(d, fab.Everything)
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	if got := j.Plan.Saw.Kerf; got != 1.5 {
		t.Errorf("the kerf is %v, want that of the shop, 1.5", got)
	}
	rows := list.Cuts(j.Plan.Sheets, j.Plan.Saw, quantity.Millimetre)
	var b bytes.Buffer
	if err := list.CSV(&b, rows); err != nil {
		t.Fatal(err)
	}
	sawn, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(b.String(), "\ufeff"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	sawn = slices.DeleteFunc(sawn, func(row []string) bool { return row[14] != "saw" })
	if len(sawn) != 5 {
		t.Errorf("%d pieces are sawn, want 5", len(sawn))
	}
	for _, row := range sawn {
		from, _ := strconv.ParseFloat(row[3], 64)
		if long, _ := strconv.ParseFloat(row[12], 64); long <= 0 || long > from {
			t.Errorf("%s is %v long, cut from %v", row[9], row[12], row[3])
		}
	}
	text := b.String()
	for i := 1; i <= 5; i++ {
		name := fmt.Sprintf("p[%d]", i)
		if n := strings.Count(text, name+","); n != 2 { // as the piece and as its part
			t.Errorf("%s is in the list %d times, want 2\n%s", name, n, text)
		}
		if !strings.Contains(text, fmt.Sprintf("%d.00", 500+250*i)) {
			t.Errorf("the length of %s is not in the list\n%s", name, text)
		}
	}
}
