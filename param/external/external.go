// Package external is for tests: it finds the programs from outside that they measure
// against. Where one is missing the test skips; with STABILE_REFERENCE=required it fails.
package external

import (
	"os"
	"os/exec"
	"testing"
)

// Required reports whether nothing that tests measure against may be missing.
func Required() bool { return os.Getenv("STABILE_REFERENCE") == "required" }

// Tool returns the path of a program, by the first of its names that is installed.
func Tool(t testing.TB, names ...string) string {
	t.Helper()
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	Missing(t, "%s is not installed", names[0])
	return ""
}

// Missing ends a test that cannot be made, and says what for.
func Missing(t testing.TB, format string, args ...any) {
	t.Helper()
	if Required() {
		t.Fatalf(format, args...)
	}
	t.Skipf(format, args...)
}
