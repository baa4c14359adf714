package cli

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestBroken panics in the midst of a command: in one line the program says so
// and asks to report it, with a status of its own.
func TestBroken(t *testing.T) {
	getenv := func(string) string { panic("index out\nof range") }
	var stdout, stderr bytes.Buffer
	status := Run([]string{"report", "-"}, strings.NewReader(whole), &stdout, &stderr, getenv)
	if status != 70 {
		t.Errorf("status %d, want 70", status)
	}
	got := stderr.String()
	if strings.Count(got, "\n") != 1 || !strings.HasPrefix(got, "stabile: ") {
		t.Errorf("not one plain line: %q", got)
	}
	for _, want := range []string{"index out of range", "cmd/internal/cli/broken_test.go:", "please report it with the design"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q lacks %q", got, want)
		}
	}
	if stdout.Len() > 0 {
		t.Errorf("it wrote %q", stdout.String())
	}
}

// TestWatchSurvivesPanic: the design is worked on again at the next save.
func TestWatchSurvivesPanic(t *testing.T) {
	path := filepath.Join(t.TempDir(), "piece.stabile")
	save := func() {
		t.Helper()
		if err := os.WriteFile(path, []byte(whole), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	save()
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	calls := 0
	getenv := func(string) string {
		if calls++; calls == 1 {
			panic("broken")
		}
		return ""
	}
	var out, errs shared
	c := &call{stdin: strings.NewReader(""), stdout: &out, stderr: &errs, getenv: getenv, stop: ctx}
	ended := make(chan int)
	go func() {
		status, _ := c.command("report", []string{"--watch", path})
		ended <- status
	}()
	for i := range 2 {
		for range 600 {
			if strings.Count(errs.String(), "watching ") > i {
				break
			}
			time.Sleep(20 * time.Millisecond)
		}
		save()
	}
	stop()
	if status := <-ended; status != statusWell || !strings.Contains(errs.String(), "please report it") || !strings.Contains(out.String(), "mast") {
		t.Errorf("status %d\n%s\n%s", status, errs.String(), out.String())
	}
}

// whole is a design in one text.
const whole = `units inch
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 3/8 in }
base pad { plate 30 in by 30 in, metal slab }
post mast on pad { diameter 3 in, length 30 in, metal skin }
ball moon on mast { diameter 10 in, gores 8, metal skin }
`
