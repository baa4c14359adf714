package list_test

import (
	"bytes"
	"encoding/csv"
	"math"
	"slices"
	"strings"
	"testing"

	"stabile/render/list"
)

func TestCSV(t *testing.T) {
	var b bytes.Buffer
	err := list.CSV(&b, [][]list.Cell{
		{list.Text("piece"), list.Text("stop, mm")},
		{list.Text("mast"), list.Number(-12.5)},
		{list.Text(`2" pipe`), list.Number(math.NaN())},
		{list.Text("=HYPERLINK(\"x\")"), list.Count(3)},
		{list.Text("two\r\nlines"), list.Decimals(-0.001, 2)},
		{list.Text("  +1"), list.Number(math.Copysign(0, -1))},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Join([]string{
		`piece,"stop, mm"`,
		`mast,-12.5`,
		`"2"" pipe",`,
		`"'=HYPERLINK(""x"")",3`,
		`two  lines,0.00`,
		`'  +1,0`,
		``,
	}, "\r\n")
	if b.String() != want {
		t.Errorf("CSV = %q, want %q", b.String(), want)
	}
}

func TestMark(t *testing.T) {
	for _, c := range []struct {
		text string
		want bool
	}{{"plain", false}, {"Ångström", true}} {
		var b bytes.Buffer
		if err := list.CSV(&b, [][]list.Cell{{list.Text(c.text)}}); err != nil {
			t.Fatal(err)
		}
		if got := strings.HasPrefix(b.String(), "\ufeff"); got != c.want {
			t.Errorf("%q: led by a byte-order mark: %v, want %v", c.text, got, c.want)
		}
	}
}

// FuzzCSV: whatever the texts, the table reads back as so many fields, and none
// starts as a formula does.
func FuzzCSV(f *testing.F) {
	for _, s := range []string{"", "=1+1", "\t=1", "a\n-b", "@x", "'", "\x00=", "＝1"} {
		f.Add(s, s)
	}
	f.Fuzz(func(t *testing.T, a, b string) {
		var out bytes.Buffer
		if err := list.CSV(&out, [][]list.Cell{{list.Text(a), list.Text(b), list.Count(1)}, {list.Text(b), list.Text(a), list.Count(2)}}); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(out.String(), "\ufeff"))).ReadAll()
		if err != nil || len(rows) != 2 || len(rows[0]) != 3 {
			t.Fatalf("%q and %q read back as %q, %v", a, b, rows, err)
		}
		for _, field := range slices.Concat(rows...) {
			if s := strings.TrimLeft(field, " \t\r\n"); s != "" && strings.ContainsAny(s[:1], "=+-@") {
				t.Errorf("%q is taken for a formula", field)
			}
		}
	})
}
