// Package golden is for tests: it holds a text to the one that is kept in a file, and
// with the flag -update writes the file again, to be looked at before it is committed.
package golden

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files again")

// Updating reports whether the golden files are written, not read.
func Updating() bool { return *update }

// Text holds a text to the file of the given name, and reports the first line that is
// another.
func Text(t testing.TB, name, got string) {
	t.Helper()
	if *update {
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if n, a, b := differ(got, string(want)); n > 0 {
		t.Errorf("%s, line %d: got\n%s\nwant\n%s\n(with -update it is written again)", name, n, a, b)
	}
}

// differ returns the number of the first line, from 1, that differs in two texts, and
// that line of each; 0 where they are the same.
func differ(a, b string) (n int, inA, inB string) {
	if a == b {
		return 0, "", ""
	}
	one, two := strings.SplitAfter(a, "\n"), strings.SplitAfter(b, "\n")
	for i := range min(len(one), len(two)) {
		if one[i] != two[i] {
			return i + 1, one[i], two[i]
		}
	}
	n = min(len(one), len(two))
	one, two = append(one, ""), append(two, "")
	return n + 1, one[n], two[n]
}
