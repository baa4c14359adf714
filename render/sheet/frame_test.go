package sheet

import (
	"testing"

	"stabile/render/internal/inspect"
)

// TestLengthened: a sheet may be of any length; past the letters of the fields it
// has a frame alone.
func TestLengthened(t *testing.T) {
	for height := 150.0; height < 4000; height += 13 {
		p := NewPage(Paper{"A3", 420, height}, "long", block())
		inspect.Check(t, "lengthened", Finish([]*Page{p})...)
	}
}
