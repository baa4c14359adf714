package terminal

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/param"
	"stabile/param/golden"
)

// example works out a design that comes with the program.
func example(t *testing.T, name string) *fab.Job {
	t.Helper()
	d, err := param.Load(os.DirFS("../../examples"), name+".stabile", param.Options{})
	require.NoError(t, err)
	j, wrong := fab.Build(d, fab.Everything)
	require.NoError(t, wrong.Err())
	return j
}

// section returns a section of a report, its heading left out.
func section(text, heading string) string {
	_, rest, ok := strings.Cut(text, "\n"+heading+"\n")
	if !ok {
		return ""
	}
	body, _, _ := strings.Cut(rest, "\n\n")
	return body + "\n"
}

// TestShop compares the shop's section of two examples, one with a shop of its own
// and one without, with what was last read and found good. Where offcuts at hand have room for
// all, no sheet is needed at least.
func TestShop(t *testing.T) {
	for _, name := range []string{"lamp-thorn", "winter-orchard"} {
		j := example(t, name)
		got := section(all(t, j, Style{}), "Shop")
		golden.Text(t, "testdata/"+name+"-shop.txt", got)
		for i := range j.Plan.Sheets.Stacks {
			if st := &j.Plan.Sheets.Stacks[i]; st.Bound > 0 && !strings.Contains(got, strings.TrimPrefix(fewest(st), ", ")) {
				t.Errorf("%s: the bound of '%s', %d, is not given", name, st.Metal.Name, st.Bound)
			}
		}
		if n := strings.Count(got, "\n"); n > 24 {
			t.Errorf("%s: the section has %d lines, want some 20", name, n)
		}
	}
}

// TestKinds: blanks are counted by piece, and by kind where these are fewer.
func TestKinds(t *testing.T) {
	type blank struct {
		name   string
		pieces int
	}
	for _, tt := range []struct {
		blanks          []blank
		counted, listed string
	}{
		{[]blank{{"pad", 1}}, "1 piece", "pad"},
		{[]blank{{"pad", 1}, {"mast", 1}}, "2 pieces", "pad, mast"},
		{[]blank{{"cap", 2}}, "2 pieces", "cap (2)"},
		{
			[]blank{{"head gore", 11}, {"head gore 4", 1}, {"leg[1]", 1}, {"leg[2]", 1}, {"leg[3]", 1}, {"neck", 1}},
			"16 pieces of 6 kinds", "head gore (11), head gore 4, leg[1] to leg[3], neck",
		},
		{[]blank{{"a[1] cap", 2}, {"a[2] cap", 2}, {"a[3] cap", 2}}, "6 pieces of 3 kinds", "a[1] to a[3] cap (2 each)"},
	} {
		var k kinds
		for _, b := range tt.blanks {
			k.add(b.name, b.pieces)
		}
		if k.counted() != tt.counted || k.listed() != tt.listed {
			t.Errorf("%v: %q, %q, want %q, %q", tt.blanks, k.counted(), k.listed(), tt.counted, tt.listed)
		}
	}
}
