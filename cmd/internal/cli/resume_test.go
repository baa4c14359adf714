package cli

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A list is gone on with to the same bytes as one that was made at once; one of another
// design, of other values or in another order is refused and left as it is.
func TestResume(t *testing.T) {
	dir := t.TempDir()
	file, out, once := filepath.Join(dir, "piece.stabile"), filepath.Join(dir, "study.csv"), filepath.Join(dir, "once.csv")
	require.NoError(t, os.WriteFile(file, []byte(adjustable), 0o600))
	vary := func(args ...string) (int, string) {
		status, stdout, stderr := run(t, "", append([]string{"vary", file}, args...)...)
		return status, stdout + stderr
	}
	bytes := func(path string) string {
		b, err := os.ReadFile(path)
		require.NoError(t, err)
		return string(b)
	}
	status, _ := vary("--random", "12", "-o", once)
	require.Equal(t, statusWell, status)
	for _, n := range []string{"1", "5", "12", "12"} {
		status, said := vary("--random", n, "-o", out, "--resume")
		require.Equal(t, statusWell, status, said)
	}
	require.Equal(t, bytes(once), bytes(out))
	for _, tt := range []struct {
		args []string
		says string
	}{
		{[]string{"--random", "12", "--seed", "2", "-o", out}, "line 2 differs"},
		{[]string{"--random", "3", "-o", out}, "more variations than are asked for"},
		{[]string{"--each", "rise values 12", "-o", out}, "line 2 differs"},
		{[]string{"--random", "12", "--least", "weight", "-o", out}, "--resume goes with no"},
		{[]string{"--random", "12", "-o", filepath.Join(dir, "study.pdf")}, "needs a list to go on with"},
		{[]string{"--random", "12"}, "needs a list to go on with"},
		{[]string{"--random", "12", "-o", filepath.Join(dir, "notes.csv")}, "is no list of variations"},
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, "notes.csv"), []byte("a \"b\n"), 0o600))
		status, said := vary(append(tt.args, "--resume")...)
		require.Equal(t, statusWrong, status, tt.args)
		require.Contains(t, said, tt.says)
	}
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(adjustable, "gauge 18", "gauge 16", 1)), 0o600))
	status, said := vary("--random", "20", "-o", out, "--resume")
	require.Equal(t, statusWrong, status)
	require.Contains(t, said, "of another design")
	require.Equal(t, bytes(once), bytes(out))
}
