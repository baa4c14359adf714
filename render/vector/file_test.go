package vector

import (
	"os"
	"path/filepath"
	"testing"
)

func read(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// names returns what is in a folder, which must be nothing but what was asked
// for.
func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, e := range entries {
		list = append(list, e.Name())
	}
	return list
}

func TestWriteFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.pdf")
	for _, want := range []string{"first", "second", ""} {
		if err := WriteFile(path, []byte(want)); err != nil {
			t.Fatal(err)
		}
		if got := read(t, path); got != want {
			t.Errorf("the file has %q, want %q", got, want)
		}
	}
	if list := names(t, dir); len(list) != 1 {
		t.Errorf("the folder has %q, want only a.pdf", list)
	}
}

func TestWriteFileKeepsModeAndLink(t *testing.T) {
	dir := t.TempDir()
	target, link := filepath.Join(dir, "target"), filepath.Join(dir, "link")
	if err := os.WriteFile(target, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(target, link); err != nil {
		t.Skip(err)
	}
	if err := WriteFile(link, []byte("new")); err != nil {
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

func TestWriteFilesAllOrNone(t *testing.T) {
	for _, tt := range []struct {
		name  string
		block func(dir string) error // makes the last of three files impossible
	}{
		{"no folder", func(dir string) error { return nil }},
		{"a folder in its place", func(dir string) error { return os.MkdirAll(filepath.Join(dir, "sub", "c"), 0o755) }},
	} {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			if err := tt.block(dir); err != nil {
				t.Fatal(err)
			}
			before := len(names(t, dir))
			old := filepath.Join(dir, "a")
			if err := os.WriteFile(old, []byte("old"), 0o644); err != nil {
				t.Fatal(err)
			}
			err := WriteFiles([]File{
				{old, []byte("new")}, {filepath.Join(dir, "b"), []byte("new")}, {filepath.Join(dir, "sub", "c"), []byte("new")},
			})
			if err == nil {
				t.Fatal("no error")
			}
			if got := read(t, old); got != "old" {
				t.Errorf("the file from before has %q", got)
			}
			if list := names(t, dir); len(list) != before+1 {
				t.Errorf("the folder has %q", list)
			}
		})
	}
}

// A fault that shows only when the files are moved puts all back.
func TestWriteFilesUndo(t *testing.T) {
	dir := t.TempDir()
	old, fresh := filepath.Join(dir, "old"), filepath.Join(dir, "fresh")
	if err := os.WriteFile(old, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	var staged []*stage
	for _, f := range []File{{old, []byte("new")}, {fresh, []byte("new")}} {
		s, err := prepare(f)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.move(); err != nil {
			t.Fatal(err)
		}
		staged = append(staged, s)
	}
	if read(t, old) != "new" || read(t, fresh) != "new" {
		t.Error("the files were not moved")
	}
	for _, s := range staged {
		if err := s.undo(); err != nil {
			t.Fatal(err)
		}
		s.clean()
	}
	if got := read(t, old); got != "old" {
		t.Errorf("the file from before has %q", got)
	}
	if list := names(t, dir); len(list) != 1 {
		t.Errorf("the folder has %q, want only what was there", list)
	}

	// Moved no further than the backup.
	s, err := prepare(File{old, []byte("new")})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(s.fresh); err != nil {
		t.Fatal(err)
	}
	if err := s.move(); err == nil {
		t.Fatal("a file that is gone was moved")
	}
	if err := s.undo(); err != nil {
		t.Fatal(err)
	}
	s.clean()
	if got, list := read(t, old), names(t, dir); got != "old" || len(list) != 1 {
		t.Errorf("the file has %q and the folder %q", got, list)
	}
}
