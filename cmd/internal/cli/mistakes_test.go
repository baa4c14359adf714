package cli

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/require"

	"stabile/param/golden"
	"stabile/param/source"
)

// leastMistakes is how many mistakes the catalogue is to have at least, so that
// it cannot be empty unseen.
const leastMistakes = 60

// Each text of the catalogue has one mistake as a sculptor makes them, reported by
// one diagnostic: that of the file of the same name. A first line such as
// "# --set rise=3" gives the call's flags.
func TestCatalogue(t *testing.T) {
	dir, err := filepath.Abs("../../../testdata/mistakes")
	require.NoError(t, err)
	t.Chdir(dir)
	names, err := filepath.Glob("*.stabile")
	require.NoError(t, err)
	if len(names) < leastMistakes {
		t.Fatalf("%d mistakes, want %d or more", len(names), leastMistakes)
	}
	said := make(map[string]string)
	for _, name := range names {
		t.Run(strings.TrimSuffix(name, extension), func(t *testing.T) {
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			got := catalogued(t, name, flagsOf(string(text)))
			if other, twice := said[got]; twice {
				t.Errorf("it is told in the same words as %s", other)
			}
			said[got] = name

			golden.Text(t, strings.TrimSuffix(name, extension)+".txt", got)
		})
	}
}

// flagsOf returns the flags in the first line of a text.
func flagsOf(text string) []string {
	first, _, _ := strings.Cut(text, "\n")
	if flags, ok := strings.CutPrefix(first, "# --"); ok {
		return arguments("--" + flags)
	}
	return nil
}

// catalogued returns what is reported of a design with one mistake, and sees that it
// is one diagnostic at a place, which says what to do.
func catalogued(t *testing.T, name string, flags []string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if status := Run(append([]string{"report", name}, flags...), nil, &stdout, &stderr, noEnv); status != statusWrong || stdout.Len() > 0 {
		t.Fatalf("exit status %d, want %d\n%s", status, statusWrong, stdout.String())
	}
	_, err := (&call{}).build(name, choiceOf(t, flags), 0)
	var wrong *source.Error
	if !errors.As(err, &wrong) {
		t.Fatalf("%v, want a diagnostic", err)
	}
	if len(wrong.List) != 1 {
		t.Errorf("%d diagnostics, want 1:\n%s", len(wrong.List), stderr.String())
	}
	if wrong.List[0].Hint == "" {
		t.Errorf("it does not say what to write instead: %v", wrong.List[0])
	}
	return stderr.String()
}

func choiceOf(t *testing.T, flags []string) choice {
	t.Helper()
	var ch choice
	f := pflag.NewFlagSet("report", pflag.ContinueOnError)
	ch.flags(f)
	require.NoError(t, f.Parse(flags))
	return ch
}
