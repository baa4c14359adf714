package file

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// set writes one file of a text.
func set(path, text string) Set { return Set{Files: []File{{path, []byte(text)}}} }

func write(t *testing.T, s Set) error {
	t.Helper()
	return Write(context.Background(), System{}, s)
}

func save(t *testing.T, path, text string, mode os.FileMode) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, mode); err != nil {
		t.Fatal(err)
	}
}

func read(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestRefused: what must not be written over stays, and nothing is left beside it.
func TestRefused(t *testing.T) {
	for _, tt := range []struct {
		name string
		make func(t *testing.T, dir, path string) Set
		want string
	}{
		{"a planted link", func(t *testing.T, dir, path string) Set {
			save(t, filepath.Join(dir, "diary"), "kept", 0o644)
			if err := os.Symlink(filepath.Join(dir, "diary"), path); err != nil {
				t.Skip(err)
			}
			return set(path, "new")
		}, "is a link"},
		{"a read-only file", func(t *testing.T, dir, path string) Set {
			save(t, path, "kept", 0o444)
			return set(path, "new")
		}, "write-protected"},
		{"a folder", func(t *testing.T, dir, path string) Set {
			if err := os.Mkdir(path, 0o777); err != nil {
				t.Fatal(err)
			}
			return set(path, "new")
		}, "is not a plain file"},
		{"the design", func(t *testing.T, dir, path string) Set {
			save(t, path, "kept", 0o644)
			s := set(path, "new")
			s.Guarded = []string{path}
			return s
		}, "is the design"},
		{"a link to the design", func(t *testing.T, dir, path string) Set {
			design := filepath.Join(dir, "gate.stabile")
			save(t, design, "kept", 0o644)
			if err := os.Symlink(design, path); err != nil {
				t.Skip(err)
			}
			s := set(path, "new")
			s.Guarded, s.Named = []string{design}, true
			return s
		}, "is the design"},
		{"another name of the design", func(t *testing.T, dir, path string) Set {
			design := filepath.Join(dir, "gate.stabile")
			save(t, design, "kept", 0o644)
			if err := os.Link(design, path); err != nil {
				t.Skip(err)
			}
			s := set(path, "new")
			s.Guarded = []string{design}
			return s
		}, "is the design"},
		{"hard links", func(t *testing.T, dir, path string) Set {
			save(t, path, "kept", 0o644)
			if err := os.Link(path, filepath.Join(dir, "other")); err != nil {
				t.Skip(err)
			}
			s := set(path, "new")
			s.Same = true
			return s
		}, "hard links"},
		{"a folder of the pack that is a link", func(t *testing.T, dir, path string) Set {
			elsewhere := t.TempDir()
			if err := os.Symlink(elsewhere, filepath.Join(dir, "patterns")); err != nil {
				t.Skip(err)
			}
			s := set(filepath.Join(dir, "patterns", "moon.svg"), "new")
			s.Folder = dir
			return s
		}, "is a link"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "out.pdf")
			s := tt.make(t, dir, path)
			before, _ := os.ReadDir(dir)
			err := write(t, s)
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("Write = %v, want an error with %q", err, tt.want)
			}
			after, _ := os.ReadDir(dir)
			if len(after) != len(before) {
				t.Errorf("there were %d files and are %d", len(before), len(after))
			}
			for _, e := range after {
				if e.Type().IsRegular() && read(t, filepath.Join(dir, e.Name())) != "kept" {
					t.Errorf("%s was written over", e.Name())
				}
			}
		})
	}
}

// TestNamedLink writes through a link that the user named.
func TestNamedLink(t *testing.T) {
	dir := t.TempDir()
	target, link := filepath.Join(dir, "target"), filepath.Join(dir, "link")
	save(t, target, "old", 0o600)
	if err := os.Symlink(target, link); err != nil {
		t.Skip(err)
	}
	s := set(link, "new")
	s.Named = true
	if err := write(t, s); err != nil {
		t.Fatal(err)
	}
	if got := read(t, target); got != "new" {
		t.Errorf("the file behind the link has %q", got)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v, %v", info, err)
	}
	if info, err := os.Stat(target); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the mode is %v, %v, want 0600", info.Mode(), err)
	}
}

// TestLock answers a second run while another writes, and lets it in once that has
// ended.
func TestLock(t *testing.T) {
	dir := t.TempDir()
	release, err := System{}.Lock(dir)
	if err != nil {
		t.Skip(err)
	}
	w := &writing{ctx: context.Background(), disk: System{}, set: set(filepath.Join(dir, "a"), "new"), wait: 50 * time.Millisecond}
	if err := w.write(); !errors.Is(err, ErrBusy) {
		t.Errorf("write = %v, want ErrBusy", err)
	}
	time.AfterFunc(100*time.Millisecond, release)
	if err := write(t, set(filepath.Join(dir, "a"), "new")); err != nil {
		t.Error(err)
	}
}

// TestTwoAtOnce: of two runs that write into one folder, all files are of one.
func TestTwoAtOnce(t *testing.T) {
	for range 20 {
		dir := filepath.Join(t.TempDir(), "shop")
		var group sync.WaitGroup
		for _, text := range []string{"one", "two"} {
			group.Go(func() {
				s := Set{Folder: dir}
				for _, name := range []string{"a", "b", "c", "patterns/d"} {
					s.Files = append(s.Files, File{filepath.Join(dir, name), []byte(text)})
				}
				if err := write(t, s); err != nil {
					t.Error(err)
				}
			})
		}
		group.Wait()
		first := read(t, filepath.Join(dir, "a"))
		for _, name := range []string{"b", "c", "patterns/d"} {
			if got := read(t, filepath.Join(dir, name)); got != first {
				t.Fatalf("a is of %q, %s of %q", first, name, got)
			}
		}
	}
}

// TestStopped: a run that is stopped before it moves anything leaves nothing.
func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	dir := t.TempDir()
	s := Set{Folder: filepath.Join(dir, "shop"), Files: []File{{filepath.Join(dir, "shop", "a"), nil}}}
	if err := Write(ctx, System{}, s); !errors.Is(err, context.Canceled) {
		t.Errorf("Write = %v, want a cancelled context", err)
	}
	if list, _ := os.ReadDir(dir); len(list) > 0 {
		t.Errorf("%v is left", list)
	}
}

// TestPlantedPlan carries out no plan that leads out of its folder.
func TestPlantedPlan(t *testing.T) {
	dir, elsewhere := t.TempDir(), t.TempDir()
	save(t, filepath.Join(elsewhere, "diary"), "kept", 0o644)
	if err := os.Symlink(elsewhere, filepath.Join(dir, "patterns")); err != nil {
		t.Skip(err)
	}
	for _, name := range []string{"patterns/diary", "../" + filepath.Base(elsewhere) + "/diary"} {
		at := filepath.Join(dir, token())
		for _, sub := range []string{newFolder, oldFolder} {
			if err := os.MkdirAll(filepath.Join(at, sub), 0o777); err != nil {
				t.Fatal(err)
			}
		}
		save(t, filepath.Join(at, newFolder, "0"), "planted", 0o644)
		save(t, filepath.Join(at, planName), string((&plan{Files: []string{name}}).text()), 0o644)
		if err := write(t, set(filepath.Join(dir, "a"), "new")); err == nil {
			t.Errorf("a plan for %s was carried out", name)
		}
		if got := read(t, filepath.Join(elsewhere, "diary")); got != "kept" {
			t.Errorf("the file elsewhere has %q", got)
		}
		if err := os.RemoveAll(at); err != nil {
			t.Fatal(err)
		}
	}
}
