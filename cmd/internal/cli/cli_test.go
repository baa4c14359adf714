package cli

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/param/golden"
)

// The wanted results are files of the archive with these names; what the
// program is given are all others.
const (
	wantStdout = "want stdout"
	wantStderr = "want stderr"
	wantFiles  = "want files" // the names of files that are new, one a line
)

// Each archive in testdata is one call of the whole program: a comment that
// says what it shows, the call after a dollar sign with standard input
// after <, the exit status, the files that it is given, and what is wanted. The
// examples lie beside the given files.
func TestCalls(t *testing.T) {
	paths, err := filepath.Glob("testdata/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	examples, err := filepath.Abs("../../../examples")
	require.NoError(t, err)
	for _, path := range paths {
		path, err := filepath.Abs(path)
		require.NoError(t, err)
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txtar"), func(t *testing.T) {
			text, err := os.ReadFile(path)
			require.NoError(t, err)
			a := parseArchive(string(text))
			c := parseCall(t, a.comment)

			dir := t.TempDir()
			require.NoError(t, os.CopyFS(filepath.Join(dir, "examples"), os.DirFS(examples)))
			for _, f := range a.files {
				if !strings.HasPrefix(f.name, "want ") {
					put(t, filepath.Join(dir, f.name), f.text)
				}
			}
			t.Chdir(dir)
			before := contents(t, dir)
			var stdin bytes.Buffer
			if c.stdin != "" {
				text, err := os.ReadFile(c.stdin)
				require.NoError(t, err)
				stdin.Write(text)
			}
			var stdout, stderr bytes.Buffer
			status := Run(c.args, &stdin, &stdout, &stderr, func(string) string { return "" })
			files := changed(t, before, contents(t, dir))

			if golden.Updating() {
				a.comment = regexp.MustCompile(`(?m)^exit .*$`).ReplaceAllString(a.comment, fmt.Sprint("exit ", status))
				a.set(wantStdout, stdout.String())
				a.set(wantStderr, stderr.String())
				a.set(wantFiles, files)
				require.NoError(t, os.WriteFile(path, []byte(a.String()), 0o644))
				return
			}
			if status != c.status {
				t.Errorf("exit status = %d, want %d", status, c.status)
			}
			require.Equal(t, a.get(wantStdout), stdout.String(), "standard output")
			require.Equal(t, a.get(wantStderr), stderr.String(), "standard error")
			require.Equal(t, a.get(wantFiles), files, "files written")
			if status == statusWrong && files != "" {
				t.Errorf("a call that went wrong left files:\n%s", files)
			}
		})
	}
}

type wantedCall struct {
	args   []string
	stdin  string
	status int
}

// parseCall reads the call and the exit status from an archive's comment.
func parseCall(t *testing.T, comment string) wantedCall {
	t.Helper()
	var c wantedCall
	c.status = -1
	for line := range strings.Lines(comment) {
		line = strings.TrimSpace(line)
		if call, ok := strings.CutPrefix(line, "$ stabile"); ok {
			call, c.stdin, _ = strings.Cut(call, " < ")
			c.args = arguments(call)
		}
		if n, ok := strings.CutPrefix(line, "exit "); ok {
			status, err := strconv.Atoi(n)
			require.NoError(t, err)
			c.status = status
		}
	}
	if c.status < 0 {
		t.Fatal("the archive's comment has no line 'exit N'")
	}
	return c
}

// arguments splits a call at its blanks; a part in quotes is kept whole.
func arguments(call string) []string {
	var args []string
	for _, m := range regexp.MustCompile(`"([^"]*)"|(\S+)`).FindAllStringSubmatch(call, -1) {
		args = append(args, m[1]+m[2])
	}
	return args
}

func put(t *testing.T, path, text string) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o777))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
}

// contents returns what every file and empty folder under a folder holds.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := make(map[string]string)
	require.NoError(t, filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		if d.IsDir() {
			inside, err := os.ReadDir(path)
			if len(inside) == 0 {
				all[filepath.ToSlash(name)+"/"] = ""
			}
			return err
		}
		text, err := os.ReadFile(path)
		all[filepath.ToSlash(name)] = string(text)
		return err
	}))
	return all
}

// changed lists the files that are new or other than before, and sees that each
// is of the kind that its name says and whole.
func changed(t *testing.T, before, after map[string]string) string {
	t.Helper()
	var names []string
	for name, text := range after {
		if was, ok := before[name]; ok && was == text {
			continue
		}
		names = append(names, name+"\n")
		var first, last string
		switch filepath.Ext(name) {
		case ".pdf":
			first, last = "%PDF-", "%%EOF"
		case ".svg":
			first, last = "<", "</svg>"
		}
		if !strings.HasPrefix(text, first) || !strings.HasSuffix(strings.TrimSpace(text), last) {
			t.Errorf("%s does not start with %q and end with %q", name, first, last)
		}
	}
	for name := range before {
		if _, ok := after[name]; !ok && !strings.HasSuffix(name, "/") {
			t.Errorf("%s was taken away", name)
		}
	}
	slices.Sort(names)
	return strings.Join(names, "")
}

// TestManyMistakes: of many mistakes the first are told, and how many there are more.
func TestManyMistakes(t *testing.T) {
	for n, more := range map[int]string{9: "", 10: "", 11: "and 1 mistake more", 60: "and 50 mistakes more"} {
		var errs bytes.Buffer
		text := "units mm\n" + strings.Repeat("metal skin { alloy low-carbon-steel, thikness 1 mm }\n", 1)
		for i := range n - 1 {
			text += fmt.Sprintf("metal skin%d { alloy low-carbon-steel, thikness 1 mm }\n", i)
		}
		if status := Run([]string{"report", "-"}, strings.NewReader(text), io.Discard, &errs, noEnv); status != statusWrong {
			t.Fatalf("status %d", status)
		}
		_, after, _ := strings.Cut(errs.String(), "\nand ")
		if got := strings.Count(errs.String(), "standard-input:"); got > 20 || more == "" && after != "" || more != "" && "and "+strings.TrimSpace(after) != more {
			t.Errorf("%d mistakes: %d places, and %q after them, want %q", n, got, after, more)
		}
	}
}
