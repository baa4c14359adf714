package terminal

import (
	"strings"
	"testing"
)

// TestWrapLongWord breaks one word of 4 MiB in time that grows with its length.
func TestWrapLongWord(t *testing.T) {
	word := strings.Repeat("löten", 4<<20/6)
	lines := wrap(word, columns)
	if got := strings.Join(lines, ""); got != word {
		t.Errorf("%d bytes in lines, want the %d of the word", len(got), len(word))
	}
	for _, line := range lines[:len(lines)-1] {
		if width(line) != columns {
			t.Fatalf("a line of %d columns, want %d", width(line), columns)
		}
	}
}
