package sheet

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/golden"
	"stabile/render/ink"
)

// parts is a list of parts n rows long.
func parts(n int) *Table {
	t := &Table{
		Title: "Parts list",
		Columns: []Column{
			{Header: "No.", Align: ink.End}, {Header: "Part"}, {Header: "Length\nin", Align: ink.End}, {Header: "Made", Wrap: true},
		},
		Foot: [][]string{{"", "Total", "371-1/4"}},
	}
	for i := range n {
		t.Rows = append(t.Rows, []string{
			fmt.Sprint(i + 1), []string{"pad", "mast", "moon", "spur"}[i%4], fmt.Sprintf("%d-1/%d", 3*i, 2<<(i%4)),
			strings.Repeat("rolled, trimmed to the ball at its head ", 1+i%3),
		})
	}
	return t
}

// ordinates is a narrow table n rows long.
func ordinates(n int) *Table {
	t := &Table{Columns: []Column{{Header: "Bearing", Align: ink.End}, {Header: "Up", Align: ink.End}}}
	for i := range n {
		t.Rows = append(t.Rows, []string{fmt.Sprintf("%d deg", 10*i), fmt.Sprintf("%d-3/16", i)})
	}
	return t
}

func TestTableGolden(t *testing.T) {
	s := &ink.Sheet{Name: "table", Width: 150, Height: 100}
	used, rest := parts(4).Draw(s, Box(10, 10, 140, 90))
	if rest != nil {
		t.Errorf("%d rows are left", len(rest.Rows))
	}
	golden.Text(t, "testdata/table.golden", fmt.Sprintf("%sused %.2f\n", s, used))
}

// drawAll draws a table on as many boxes as it needs and returns the text of
// all cells in the order drawn.
func drawAll(t *testing.T, table *Table, width, height float64) (texts []string, sheets []*ink.Sheet) {
	t.Helper()
	box := Box(10, 10, 10+width, 10+height)
	for n := 0; table != nil; n++ {
		s := &ink.Sheet{Name: fmt.Sprintf("table %v x %v, %d", width, height, n), Width: width + 20, Height: height + 20}
		used, rest := table.Draw(s, box)
		if rest == table {
			if len(s.Items) > 0 {
				t.Errorf("%s: something drawn where nothing fits", s.Name)
			}
			return nil, nil
		}
		if n > 10000 {
			t.Fatal("no end of boxes")
		}
		if !within(used, box) {
			t.Errorf("%s: took %v of %v", s.Name, used, box)
		}
		for _, item := range s.Items {
			if text, ok := item.(*ink.Text); ok {
				texts = append(texts, text.Text)
			}
		}
		sheets = append(sheets, s)
		table = rest
	}
	return texts, sheets
}

func TestTableSplits(t *testing.T) {
	for _, n := range []int{0, 1, 2, 17, 100} {
		for _, size := range []r2.Vec{{X: 180, Y: 200}, {X: 120, Y: 60}, {X: 400, Y: 100}} {
			texts, sheets := drawAll(t, parts(n), size.X, size.Y)
			for _, s := range sheets {
				checkWriting(t, s, raised(Box(10, 10, 10+size.X, 10+size.Y)))
			}
			// Each number stands there once, in order, and the sum at the end.
			next := 1
			for _, text := range texts {
				if text == fmt.Sprint(next) {
					next++
				}
			}
			if next != n+1 {
				t.Errorf("%d rows in %v: found rows up to %d", n, size, next-1)
			}
			if texts[len(texts)-1] != "371-1/4" {
				t.Errorf("%d rows in %v: the last text is %q, want the sum", n, size, texts[len(texts)-1])
			}
		}
	}
}

// A long narrow table stands in parts side by side, as even as can be.
func TestTableSideBySide(t *testing.T) {
	s := &ink.Sheet{Width: 200, Height: 100}
	used, rest := ordinates(36).Draw(s, Box(0, 0, 200, 90))
	if rest != nil {
		t.Fatalf("%d rows are left", len(rest.Rows))
	}
	heads := 0
	for _, item := range s.Items {
		if text, ok := item.(*ink.Text); ok && text.Text == "Bearing" {
			heads++
		}
	}
	rowHeight := Small * (1 + 2*rowPadding)
	if heads != 3 || math.Abs(used.Max.Y-used.Min.Y-13*rowHeight) > 1e-9 {
		t.Errorf("36 rows stand in %d parts %.2f high, want 3 of a header and 12 rows, %.2f", heads, used.Max.Y-used.Min.Y, 13*rowHeight)
	}
}

// A sum does not stand alone on the next sheet.
func TestTableSumStays(t *testing.T) {
	for height := 30.0; height < 60; height++ {
		s := &ink.Sheet{Width: 200, Height: height}
		_, rest := parts(5).Draw(s, Box(0, 0, 180, height))
		if rest != nil && len(rest.Rows) == 0 {
			t.Errorf("in a height of %v the sum is left alone", height)
		}
	}
}

func TestTableWidths(t *testing.T) {
	table := parts(3)
	for _, width := range []float64{1000, 150, 90, 40, 10} {
		g := table.grid(width)
		if len(g.widths) != 4 {
			t.Fatalf("%d columns", len(g.widths))
		}
		for i, w := range g.widths {
			if w < Small {
				t.Errorf("in %v mm column %d is %v wide", width, i, w)
			}
		}
		if least := 4 * Small * (1 + 2*sidePadding); g.width > max(width, least)+1e-6 {
			t.Errorf("in %v mm the table is %v wide", width, g.width)
		}
	}
	// The columns that do not wrap keep their width while the one that does can
	// give.
	wide, narrow := table.grid(1000), table.grid(wide90)
	for i := range 3 {
		if wide.widths[i] != narrow.widths[i] {
			t.Errorf("column %d is %v wide, want %v", i, narrow.widths[i], wide.widths[i])
		}
	}
}

const wide90 = 90

// A row that is higher than a whole box is cut short, visibly.
func TestTableLimit(t *testing.T) {
	table := &Table{Columns: []Column{{Header: "Note", Wrap: true}}, Rows: [][]string{{strings.Repeat("many words ", 200)}, {"last"}}}
	texts, sheets := drawAll(t, table, 60, 40)
	for _, s := range sheets {
		checkWriting(t, s, raised(Box(10, 10, 70, 50)))
	}
	all := strings.Join(texts, "|")
	if !strings.Contains(all, "…") || !strings.HasSuffix(all, "|last") {
		t.Errorf("got %q", all)
	}
}

func FuzzTable(f *testing.F) {
	f.Add("a,b;1,2;3,4", 100.0, 50.0)
	f.Add("Name;"+strings.Repeat("word ", 99), 30.0, 30.0)
	f.Add(";;;", 10.0, 10.0)
	f.Fuzz(func(t *testing.T, text string, width, height float64) {
		if math.IsNaN(width) || math.IsNaN(height) || width > 1e4 || height > 1e4 || len(text) > 2000 {
			return
		}
		lines := strings.Split(text, ";")
		table := &Table{Title: lines[0]}
		for header := range strings.SplitSeq(lines[0], ",") {
			table.Columns = append(table.Columns, Column{Header: header, Wrap: len(header)%2 == 0})
		}
		for _, line := range lines[1:] {
			table.Rows = append(table.Rows, strings.Split(line, ","))
		}
		box := Box(0, 0, width, height)
		rows := len(table.Rows)
		for rest := table; rest != nil; {
			s := &ink.Sheet{Width: width, Height: height}
			_, after := rest.Draw(s, box)
			if after == rest {
				return
			}
			if after != nil {
				if len(after.Rows) >= rows {
					t.Fatalf("%d rows left of %d", len(after.Rows), rows)
				}
				rows = len(after.Rows)
			}
			for _, item := range s.Items {
				if text, ok := item.(*ink.Text); ok {
					if box := bounds(text.Box()); box.Min.Y < -Small || box.Max.Y > height+Small {
						t.Errorf("%v out of %v", text, height)
					}
				}
			}
			rest = after
		}
	})
}

func BenchmarkTable(b *testing.B) {
	table := parts(200)
	for b.Loop() {
		for rest := table; rest != nil; {
			s := &ink.Sheet{Width: 210, Height: 297}
			_, rest = rest.Draw(s, Box(20, 20, 200, 280))
		}
	}
}
