package cli

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const (
	untidyText = "units   mm\r\n\r\n\r\nlet a=3*b # why\r\nlet long = 4"
	tidyText   = "units mm\n\nlet a    = 3 * b  # why\nlet long = 4\n"
	wrongText  = "units mm\nlet a = 3 mn\n"
)

// inFolder makes files in a new folder and goes there.
func inFolder(t *testing.T, files map[string]string) {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		put(t, filepath.Join(dir, name), text)
	}
	t.Chdir(dir)
}

func run(t *testing.T, stdin string, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	var out, told bytes.Buffer
	status = Run(args, strings.NewReader(stdin), &out, &told, noEnv)
	return status, out.String(), told.String()
}

func read(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	return string(text)
}

// Every file is done or reported, whatever is wrong with others.
func TestTidyFiles(t *testing.T) {
	inFolder(t, map[string]string{
		"a.stabile": untidyText, "b.stabile": wrongText, "c.stabile": tidyText, "d/d.stabile": untidyText, "e.stabile": wrongText,
	})
	untouched, err := os.Stat("c.stabile")
	require.NoError(t, err)
	status, stdout, stderr := run(t, "", "tidy", "a.stabile", "b.stabile", "none.stabile", "c.stabile", "d/d.stabile", "d", "e.stabile")
	if status != statusWrong {
		t.Errorf("exit status %d, want %d", status, statusWrong)
	}
	if want := "tidied a.stabile\ntidied d/d.stabile\n"; stdout != want {
		t.Errorf("standard output %q, want %q", stdout, want)
	}
	for _, want := range []string{"b.stabile:2:11: unknown unit 'mn'", "there is no file 'none.stabile'", "'d' is a folder, not a design", "e.stabile:2:11: unknown unit 'mn'"} {
		if strings.Count(stderr, want) != 1 {
			t.Errorf("standard error does not say %q once:\n%s", want, stderr)
		}
	}
	for name, want := range map[string]string{
		"a.stabile": tidyText, "b.stabile": wrongText, "c.stabile": tidyText, "d/d.stabile": tidyText, "e.stabile": wrongText,
	} {
		if got := read(t, name); got != want {
			t.Errorf("%s is then %q, want %q", name, got, want)
		}
	}
	after, err := os.Stat("c.stabile")
	require.NoError(t, err)
	if !os.SameFile(untouched, after) || after.ModTime() != untouched.ModTime() {
		t.Error("a tidy file was written")
	}
}

func TestTidyInput(t *testing.T) {
	inFolder(t, nil)
	for _, args := range [][]string{{"tidy"}, {"tidy", "-"}} {
		status, stdout, stderr := run(t, untidyText, args...)
		if status != statusWell || stdout != tidyText || stderr != "" {
			t.Errorf("%v: exit status %d, %q, %q", args, status, stdout, stderr)
		}
		status, stdout, stderr = run(t, wrongText, args...)
		if status != statusWrong || stdout != "" || !strings.Contains(stderr, "standard-input:2:11: unknown unit 'mn'") {
			t.Errorf("%v with a mistake: exit status %d, %q, %q", args, status, stdout, stderr)
		}
	}
	long := strings.Repeat("# long\n", 1<<20)
	status, stdout, stderr := run(t, long, "tidy")
	if status != statusWrong || stdout != "" || !strings.Contains(stderr, "longer than 4 MiB") {
		t.Errorf("a text too long: exit status %d, %d bytes, %q", status, len(stdout), stderr)
	}
}

// Neither --check nor --diff writes a file.
func TestTidyWritesNothing(t *testing.T) {
	diff := unified("a.stabile", untidyText, tidyText)
	for _, tt := range []struct {
		args   []string
		status int
		stdout string
	}{
		{[]string{"--check", "a.stabile"}, statusFails, "a.stabile\n"},
		{[]string{"--check", "c.stabile"}, statusWell, ""},
		{[]string{"--check", "c.stabile", "a.stabile"}, statusFails, "a.stabile\n"},
		{[]string{"--check", "a.stabile", "b.stabile"}, statusWrong, "a.stabile\n"},
		{[]string{"--diff", "a.stabile", "c.stabile"}, statusWell, diff},
		{[]string{"--diff", "--check", "a.stabile"}, statusFails, diff},
		{[]string{"--check", "-"}, statusFails, "standard-input\n"},
		{[]string{"--check"}, statusFails, "standard-input\n"},
	} {
		inFolder(t, map[string]string{"a.stabile": untidyText, "b.stabile": wrongText, "c.stabile": tidyText})
		status, stdout, _ := run(t, untidyText, append([]string{"tidy"}, tt.args...)...)
		if status != tt.status || stdout != tt.stdout {
			t.Errorf("tidy %v: exit status %d and %q, want %d and %q", tt.args, status, stdout, tt.status, tt.stdout)
		}
		if got := read(t, "a.stabile"); got != untidyText {
			t.Errorf("tidy %v wrote the file", tt.args)
		}
	}
}

// A file keeps its permissions, and a link leads to it as before.
func TestTidyKeepsFile(t *testing.T) {
	inFolder(t, nil)
	for _, mode := range []fs.FileMode{0o600, 0o644, 0o666, 0o755} {
		put(t, "a.stabile", untidyText)
		require.NoError(t, os.Chmod("a.stabile", mode))
		status, _, stderr := run(t, "", "tidy", "a.stabile")
		require.Equal(t, statusWell, status, stderr)
		info, err := os.Stat("a.stabile")
		require.NoError(t, err)
		if got := info.Mode().Perm(); got != mode {
			t.Errorf("the permissions %v became %v", mode, got)
		}
	}
	put(t, "a.stabile", untidyText)
	require.NoError(t, os.Symlink("a.stabile", "link.stabile"))
	status, _, stderr := run(t, "", "tidy", "link.stabile")
	require.Equal(t, statusWell, status, stderr)
	if to, err := os.Readlink("link.stabile"); err != nil || to != "a.stabile" || read(t, "a.stabile") != tidyText {
		t.Errorf("a link leads to %q (%v), and the file is %q", to, err, read(t, "a.stabile"))
	}
	put(t, "a.stabile", untidyText)
	require.NoError(t, os.Chmod("a.stabile", 0o444))
	status, stdout, stderr := run(t, "", "tidy", "a.stabile")
	if status != statusWrong || stdout != "" || stderr != "stabile: a.stabile: the file is write-protected\n" || read(t, "a.stabile") != untidyText {
		t.Errorf("a write-protected file: exit status %d, %q, %q", status, stdout, stderr)
	}
	left, err := os.ReadDir(".")
	require.NoError(t, err)
	require.Len(t, left, 2, "files left behind")
}

type brokenReader struct{}

func (brokenReader) Read([]byte) (int, error) { return 0, errors.New("line down") }

func TestTidyBrokenInput(t *testing.T) {
	var stdout, stderr bytes.Buffer
	status := Run([]string{"tidy"}, brokenReader{}, &stdout, &stderr, noEnv)
	if status != statusWrong || stdout.Len() > 0 || stderr.String() != "stabile: reading standard input: line down\n" {
		t.Errorf("input that fails: exit status %d, %q, %q", status, stdout.String(), stderr.String())
	}
}

// TestExamplesAreTidy holds the examples to the house style that they teach.
func TestExamplesAreTidy(t *testing.T) {
	examples, err := filepath.Glob(filepath.Join("..", "..", "..", "examples", "*.stabile"))
	if err != nil || len(examples) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	status, out, told := run(t, "", append([]string{"tidy", "--check"}, examples...)...)
	if status != 0 || out != "" || told != "" {
		t.Errorf("tidy --check of the examples = %d, want 0: %s%s", status, out, told)
	}
}
