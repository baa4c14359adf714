package cli

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// A shared buffer is written by one goroutine and read by another.
type shared struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *shared) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *shared) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}

const watchedText = `bring "garage.stabile"
units inch
base pad { plate 30 in by 30 in, metal slab }
post mast on pad { diameter 3 in, length 30 in, metal skin }
ball moon on mast { diameter 10 in, gores 8, metal skin }
`

const watchedGarage = `metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 3/8 in }
`

// TestWatch saves a design, and a file that it uses, while it is watched: soundly,
// with a mistake, and soundly again by putting another file in its place. The
// drawing from before the mistake stays.
func TestWatch(t *testing.T) {
	dir := t.TempDir()
	path := func(name string) string { return filepath.Join(dir, name) }
	save := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(path(name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	save("piece.stabile", watchedText)
	save("garage.stabile", watchedGarage)
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	var out, errs shared
	c := &call{stdin: strings.NewReader(""), stdout: &out, stderr: &errs, getenv: func(string) string { return "" }, stop: ctx}
	ended := make(chan int)
	go func() {
		status, _ := c.command("draw", []string{"--watch", path("piece.stabile"), "-o", path("piece.pdf")})
		ended <- status
	}()
	// wait waits until the work has been done a number of times.
	wait := func(times int) {
		t.Helper()
		for range 600 {
			if strings.Count(errs.String(), "watching ") >= times {
				return
			}
			time.Sleep(50 * time.Millisecond)
		}
		t.Fatalf("the work was not done %d times:\n%s\n%s", times, out.String(), errs.String())
	}
	drawn := func() []byte {
		t.Helper()
		data, err := os.ReadFile(path("piece.pdf"))
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	wait(1)
	first := drawn()
	if !strings.Contains(errs.String(), "garage.stabile") {
		t.Errorf("a used file is not watched: %s", errs.String())
	}
	save("piece.stabile", strings.Replace(watchedText, "length 30 in", "lenght 30 in", 1))
	wait(2)
	if !strings.Contains(errs.String(), "piece.stabile:4:35:") {
		t.Errorf("the mistake is not told at its place:\n%s", errs.String())
	}
	if !bytes.Equal(drawn(), first) {
		t.Error("the drawing from before the mistake is gone")
	}
	save("other", strings.Replace(watchedText, "length 30 in", "length 40 in", 1))
	if err := os.Rename(path("other"), path("piece.stabile")); err != nil {
		t.Fatal(err)
	}
	wait(3)
	second := drawn()
	if bytes.Equal(second, first) {
		t.Error("the drawing was not made anew")
	}
	save("garage.stabile", strings.Replace(watchedGarage, "gauge 18", "gauge 16", 1))
	wait(4)
	if bytes.Equal(drawn(), second) {
		t.Error("the drawing was not made anew after a change of a used file")
	}
	stop()
	if status := <-ended; status != statusWell {
		t.Errorf("it ended with status %d, want %d", status, statusWell)
	}
}

// TestWatchPicture: a picture is made again when the design is saved.
func TestWatchPicture(t *testing.T) {
	dir := t.TempDir()
	design, picture := filepath.Join(dir, "piece.stabile"), filepath.Join(dir, "piece.png")
	text := watchedGarage + strings.Replace(watchedText, "bring \"garage.stabile\"\n", "", 1)
	save := func(text string) {
		t.Helper()
		if err := os.WriteFile(design, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	save(text)
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	var out, errs shared
	c := &call{stdin: strings.NewReader(""), stdout: &out, stderr: &errs, getenv: func(string) string { return "" }, stop: ctx}
	ended := make(chan int)
	go func() {
		status, _ := c.command("picture", []string{"--watch", design, "-o", picture, "--size", "60x45"})
		ended <- status
	}()
	var made [2][]byte
	for i := range made {
		for range 600 {
			if strings.Count(errs.String(), "watching ") > i {
				break
			}
			time.Sleep(50 * time.Millisecond)
		}
		made[i], _ = os.ReadFile(picture)
		save(strings.Replace(text, "diameter 10 in", "diameter 16 in", 1))
	}
	stop()
	if <-ended; len(made[0]) == 0 || len(made[1]) == 0 || bytes.Equal(made[0], made[1]) {
		t.Errorf("pictures of %d and %d bytes, alike: %v\n%s", len(made[0]), len(made[1]), bytes.Equal(made[0], made[1]), errs.String())
	}
}

// A watching is a report that is made again when its design is saved.
type watching struct {
	t         *testing.T
	out, errs shared
	stop      context.CancelFunc
	ended     chan int
}

func watchReport(t *testing.T, design string) *watching {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	w := &watching{t: t, stop: stop, ended: make(chan int, 1)}
	c := &call{stdin: strings.NewReader(""), stdout: &w.out, stderr: &w.errs, getenv: func(string) string { return "" }, stop: ctx}
	go func() {
		status, _ := c.command("report", []string{"--watch", design})
		w.ended <- status
	}()
	t.Cleanup(stop)
	return w
}

// wait waits until the work has been done a number of times, and text has been written.
func (w *watching) wait(times int, text string) {
	w.t.Helper()
	for range 400 {
		if strings.Count(w.errs.String(), "watching ") >= times && strings.Contains(w.out.String(), text) {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	w.t.Fatalf("the work was not done %d times, or %q was not written:\n%s\n%s", times, text, w.out.String(), w.errs.String())
}

// TestWatchFolder: the folder of a design is taken away and made again.
func TestWatchFolder(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "yard")
	design := filepath.Join(folder, "piece.stabile")
	text := watchedGarage + strings.Replace(watchedText, "bring \"garage.stabile\"\n", "", 1)
	save := func(title string) {
		t.Helper()
		if err := os.MkdirAll(folder, 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(design, []byte("sculpture \""+title+"\"\n"+text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	save("First")
	w := watchReport(t, design)
	w.wait(1, "First")
	if err := os.RemoveAll(folder); err != nil {
		t.Fatal(err)
	}
	w.wait(2, "First")
	if !strings.Contains(w.errs.String(), "there is no file") {
		t.Errorf("nothing is said of a file that is gone:\n%s", w.errs.String())
	}
	save("Second")
	w.wait(3, "Second")
	save("Third")
	w.wait(4, "Third")
}

// TestWatchLink: what a link leads to is edited.
func TestWatchLink(t *testing.T) {
	folder, other := t.TempDir(), filepath.Join(t.TempDir(), "kept.stabile")
	text := watchedGarage + strings.Replace(watchedText, "bring \"garage.stabile\"\n", "", 1)
	save := func(title string) {
		t.Helper()
		if err := os.WriteFile(other, []byte("sculpture \""+title+"\"\n"+text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	save("First")
	design := filepath.Join(folder, "piece.stabile")
	if err := os.Symlink(other, design); err != nil {
		t.Skip(err)
	}
	w := watchReport(t, design)
	w.wait(1, "First")
	save("Second")
	w.wait(2, "Second")
}

// TestWatchBusy: a file that is saved all the time is read all the same.
func TestWatchBusy(t *testing.T) {
	design := filepath.Join(t.TempDir(), "piece.stabile")
	text := watchedGarage + strings.Replace(watchedText, "bring \"garage.stabile\"\n", "", 1)
	save := func(title string) {
		if err := os.WriteFile(design, []byte("sculpture \""+title+"\"\n"+text), 0o666); err != nil {
			t.Error(err)
		}
	}
	save("First")
	w := watchReport(t, design)
	w.wait(1, "First")
	busy, rest := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() {
		defer close(done)
		for i := 0; busy.Err() == nil; i++ {
			save("Second" + strings.Repeat("!", i%100))
			time.Sleep(20 * time.Millisecond)
		}
	}()
	w.wait(2, "Second")
	rest()
	<-done
}

// TestWatchStopped: Ctrl-C while the work is done ends the watching.
func TestWatchStopped(t *testing.T) {
	design := filepath.Join(t.TempDir(), "piece.stabile")
	if err := os.WriteFile(design, []byte(watchedGarage+strings.Replace(watchedText, "bring \"garage.stabile\"\n", "", 1)), 0o666); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	var out, errs shared
	c := &call{stdout: &out, stderr: &errs, stop: ctx}
	times := 0
	status, err := c.watch(design, func() (int, error) {
		times++
		stop()
		return statusFails, nil
	})
	if status != statusFails || err != nil || times != 1 || strings.Contains(errs.String(), "watching") {
		t.Errorf("status %d, %v after %d times: %s", status, err, times, errs.String())
	}
}

func TestWatchInput(t *testing.T) {
	var errs bytes.Buffer
	status := Run([]string{"report", "--watch", "-"}, strings.NewReader(watchedText), &errs, &errs, func(string) string { return "" })
	if status != statusWrong || !strings.Contains(errs.String(), "standard input") {
		t.Errorf("status %d, %s", status, errs.String())
	}
}
