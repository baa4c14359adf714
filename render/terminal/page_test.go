package terminal

import (
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/stand"
)

func TestWrap(t *testing.T) {
	for _, tt := range []struct {
		text  string
		limit int
		want  []string
	}{
		{"", 10, []string{""}},
		{"one two three", 8, []string{"one two", "three"}},
		{"a mast 36 in long", 10, []string{"a mast", "36 in long"}}, // number and unit stay together
		{"a mast 36 in long", 9, []string{"a mast", "36 in", "long"}},
		{"abcdefghij", 4, []string{"abcd", "efgh", "ij"}},
		{"tab\tand\nline", 20, []string{"tab and line"}},
		{"月球月球", 5, []string{"月球", "月球"}}, // two columns each
	} {
		if got := wrap(tt.text, tt.limit); !slices.Equal(got, tt.want) {
			t.Errorf("wrap(%q, %d) = %q, want %q", tt.text, tt.limit, got, tt.want)
		}
	}
}

func TestSide(t *testing.T) {
	for _, tt := range []struct {
		from, to r2.Vec
		want     string
	}{
		{r2.Vec{X: -1, Y: -1}, r2.Vec{X: 1, Y: -1}, "the front"},
		{r2.Vec{X: 1, Y: -1}, r2.Vec{X: 1, Y: 1}, "the right"},
		{r2.Vec{X: 1, Y: 1}, r2.Vec{X: -1, Y: 1}, "the back"},
		{r2.Vec{X: -1, Y: 1}, r2.Vec{X: -1, Y: -1}, "the left"},
		{r2.Vec{X: 1, Y: 0}, r2.Vec{X: 0, Y: 1}, "45 deg"},
		{r2.Vec{X: 0, Y: -1}, r2.Vec{X: 1, Y: 0}, "315 deg"},
	} {
		if got := side(stand.Edge{From: tt.from, To: tt.to}); got != tt.want {
			t.Errorf("side(%v to %v) = %q, want %q", tt.from, tt.to, got, tt.want)
		}
	}
}
