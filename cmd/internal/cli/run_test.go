package cli

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

func noEnv(string) string { return "" }

// examples returns the paths of the designs that come with the program.
func examples(t testing.TB) []string {
	t.Helper()
	paths, err := filepath.Glob("../../../examples/*.stabile")
	require.NoError(t, err)
	paths = slices.DeleteFunc(paths, func(path string) bool {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		return !strings.Contains(string(text), "\nsculpture ") // what other files use
	})
	require.NotEmpty(t, paths)
	return paths
}

// Every example is well, reads in a terminal of 100 columns without escape
// codes, and says nothing on standard error.
func TestExamplesRead(t *testing.T) {
	for _, path := range examples(t) {
		var stdout, stderr bytes.Buffer
		if got := Run([]string{"report", path}, nil, &stdout, &stderr, noEnv); got != statusWell {
			t.Errorf("report %s: exit status %d, want %d\n%s", path, got, statusWell, stderr.String())
		}
		if stderr.Len() > 0 {
			t.Errorf("report %s says on standard error: %s", path, stderr.String())
		}
		if strings.Contains(stdout.String(), "\x1b") {
			t.Errorf("report %s holds an escape code", path)
		}
		for line := range strings.Lines(stdout.String()) {
			if n := len([]rune(line)) - 1; n > 100 {
				t.Errorf("report %s: a line of %d columns: %s", path, n, line)
			}
		}
	}
}

// The design in the help's overview is well, so that a first try is.
func TestHelpDesign(t *testing.T) {
	var help, stdout, stderr bytes.Buffer
	require.Equal(t, statusWell, Run([]string{"help"}, nil, &help, &stderr, noEnv))
	_, rest, _ := strings.Cut(help.String(), "first.stabile,\n\n")
	text, _, ok := strings.Cut(rest, "\n\n")
	require.True(t, ok, "the help has no design:\n%s", help.String())
	if got := Run([]string{"report", "-"}, strings.NewReader(text), &stdout, &stderr, noEnv); got != statusWell {
		t.Errorf("report of the help's design: exit status %d, want %d\n%s%s", got, statusWell, stderr.String(), stdout.String())
	}
}

// The JSON report is one document that names the design and its version.
func TestExamplesJSON(t *testing.T) {
	for _, path := range examples(t) {
		var stdout, stderr bytes.Buffer
		if got := Run([]string{"report", "--json", path}, nil, &stdout, &stderr, noEnv); got != statusWell {
			t.Fatalf("report --json %s: exit status %d, want %d\n%s", path, got, statusWell, stderr.String())
		}
		var doc struct {
			Report         int
			Design, Source string
			Parts          []struct{ Name string }
		}
		require.NoError(t, json.Unmarshal(stdout.Bytes(), &doc))
		if doc.Report != 2 || doc.Source != filepath.Base(path) || doc.Design == "" || len(doc.Parts) < 6 {
			t.Errorf("report --json %s = report %d, design %q, source %q, %d parts; want report 2, a title, %q and 6 parts or more",
				path, doc.Report, doc.Design, doc.Source, len(doc.Parts), filepath.Base(path))
		}
		if !bytes.HasSuffix(stdout.Bytes(), []byte("}\n")) {
			t.Errorf("report --json %s does not end its last line", path)
		}
	}
}

// The same design gives the same bytes, wherever it is drawn to.
func TestDrawTwiceTheSame(t *testing.T) {
	draw := func() map[string]string {
		dir := filepath.Join(t.TempDir(), "pack")
		var stderr bytes.Buffer
		status := Run([]string{"draw", examples(t)[0], "-o", dir}, nil, io.Discard, &stderr, noEnv)
		require.Equal(t, statusWell, status, stderr.String())
		return contents(t, dir)
	}
	first, second := draw(), draw()
	require.Len(t, second, len(first))
	for name, text := range first {
		if second[name] != text {
			t.Errorf("%s is not the same when drawn again", name)
		}
	}
}

type brokenWriter struct{ err error }

func (w brokenWriter) Write([]byte) (int, error) { return 0, w.err }

// A reader who has gone away, as in `stabile report … | head`, gets no message;
// a full disk is reported.
func TestBrokenOutput(t *testing.T) {
	gone := &os.PathError{Op: "write", Path: "|1", Err: syscall.EPIPE}
	for _, tt := range []struct {
		err   error
		quiet bool
	}{{gone, true}, {errors.New("no space left"), false}} {
		for _, args := range [][]string{{"report", examples(t)[0]}, {"report", examples(t)[0], "--json"}, {"help"}, {"help", "draw"}, {"version"}} {
			var stderr bytes.Buffer
			if got := Run(args, nil, brokenWriter{tt.err}, &stderr, noEnv); got != statusWrong {
				t.Errorf("stabile %v with output that fails by %q: exit status %d, want %d", args, tt.err, got, statusWrong)
			}
			if quiet := stderr.Len() == 0; quiet != tt.quiet {
				t.Errorf("stabile %v with output that fails by %q says %q", args, tt.err, stderr.String())
			}
		}
	}
}

// Bold and dim are for a terminal alone, and not where the user wants none.
func TestPlainUnlessTerminal(t *testing.T) {
	xterm := map[string]string{"TERM": "xterm"}
	plain := map[string]string{"TERM": "xterm", "NO_COLOR": "1"}
	null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0) // a character device, as a terminal is
	require.NoError(t, err)
	defer null.Close()
	file, err := os.Create(filepath.Join(t.TempDir(), "out"))
	require.NoError(t, err)
	defer file.Close()
	for _, tt := range []struct {
		name string
		out  io.Writer
		env  map[string]string
		want bool
	}{
		{"terminal", null, xterm, true},
		{"NO_COLOR", null, plain, false},
		{"no TERM", null, nil, false},
		{"dumb terminal", null, map[string]string{"TERM": "dumb"}, false},
		{"file", file, xterm, false},
		{"pipe", new(bytes.Buffer), xterm, false},
	} {
		c := &call{stdout: tt.out, getenv: func(name string) string { return tt.env[name] }}
		if got := c.marksUp(); got != tt.want {
			t.Errorf("%s: marksUp() = %v, want %v", tt.name, got, tt.want)
		}
	}
}

func TestVersion(t *testing.T) {
	for _, tt := range []struct {
		info *debug.BuildInfo
		want string
	}{
		{nil, "stabile, version not known\n"},
		{&debug.BuildInfo{GoVersion: "go1.26.8"}, "stabile, built from source, go1.26.8\n"},
		{
			&debug.BuildInfo{GoVersion: "go1.26.8", Path: "/home/me/stabile", Main: debug.Module{Version: "v0.3.0"}, Settings: []debug.BuildSetting{
				{Key: "-ldflags", Value: "-L/home/me/lib"},
				{Key: "vcs.revision", Value: "0123456789abcdef0123"}, {Key: "vcs.modified", Value: "true"},
			}},
			"stabile v0.3.0, revision 0123456789ab with changes, go1.26.8\n",
		},
	} {
		var got strings.Builder
		require.NoError(t, printVersion(&got, tt.info))
		if got.String() != tt.want {
			t.Errorf("printVersion(%+v) = %q, want %q", tt.info, got.String(), tt.want)
		}
	}
}
