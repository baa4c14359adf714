package list_test

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	"stabile/fab/sheets"
	"stabile/param/quantity"
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
		if err := list.CSV(&b, list.Cuts(plan, c.units)); err != nil {
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
