package cli

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/param"
)

// Every word of the language has its help, which says what it is of and shows how
// it is written; and none of them is hidden by a command's but those of one name.
func TestHelpKnowsEveryWord(t *testing.T) {
	words := param.Words()
	if len(words) < 100 {
		t.Fatalf("%d words, want the language", len(words))
	}
	for _, word := range words {
		var stdout, stderr bytes.Buffer
		require.Equal(t, statusWell, Run([]string{"help", word}, nil, &stdout, &stderr, noEnv), "help %s: %s", word, stderr.String())
		text := stdout.String()
		if !strings.Contains(text, word) || !strings.Contains(text, languagePage) {
			t.Errorf("help %s says:\n%s", word, text)
		}
		for line := range strings.Lines(text) {
			if len([]rune(line)) > 132 {
				t.Errorf("help %s has a line of %d letters", word, len([]rune(line)))
			}
		}
	}
}

// The other spelling of a word gives the same help.
func TestHelpTakesBothSpellings(t *testing.T) {
	for a, b := range map[string]string{"center": "centre", "labor": "labour", "galvanise": "galvanize", "aluminum-3003": "aluminium-3003"} {
		x, okA := param.About(a)
		y, okB := param.About(b)
		if !okA || !okB || x != y {
			t.Errorf("help %s = %q, want that of %s: %q", a, x, b, y)
		}
	}
}
