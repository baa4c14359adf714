package layout

import (
	"strings"
	"testing"
)

// TestErrPlain: sizes in what is wrong are written in full, without the noise of
// floating point.
func TestErrPlain(t *testing.T) {
	p := Problem{
		Pieces: []Piece{{Width: 1e6, Height: 12.7, Count: 1}},
		Sheets: []Sheet{{Width: 1219.1999999999998, Height: 2438.3999999999996, Trim: Trim{Left: 800, Right: 800}}},
	}
	err := p.Err()
	if err == nil {
		t.Fatal("no error")
	}
	for _, want := range []string{"1000000 x 12.7 mm", "1219.2 x 2438.4 mm"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q lacks %q", err, want)
		}
	}
}
