package file_test

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"stabile/cmd/internal/file"
	"stabile/cmd/internal/file/fault"
)

// tree returns the files below a folder, unfinished ones too, with their texts.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || path == dir {
			return err
		}
		inside, _ := filepath.Rel(dir, path)
		if e.IsDir() {
			all[filepath.ToSlash(inside)+"/"] = ""
			return nil
		}
		text, err := os.ReadFile(path)
		all[filepath.ToSlash(inside)] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// finished returns what of a tree is not unfinished.
func finished(all map[string]string) map[string]string {
	all = maps.Clone(all)
	maps.DeleteFunc(all, func(name, _ string) bool { return strings.Contains(name, ".stabile-") })
	return all
}

// put writes files below a folder; a name that ends in a slash is a folder.
func put(t *testing.T, dir string, files map[string]string) {
	t.Helper()
	for name, text := range files {
		path := filepath.Join(dir, name)
		err := os.MkdirAll(filepath.Dir(path), 0o777)
		if strings.HasSuffix(name, "/") {
			err = os.MkdirAll(path, 0o777)
		} else if err == nil {
			err = os.WriteFile(path, []byte(text), 0o666)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// pack is the set of a pack in a folder, each file with one text.
func pack(dir, text string) file.Set {
	s := file.Set{Folder: dir}
	for _, name := range []string{"gate.pdf", "01-arrangement.svg", "02-parts.svg", "patterns/moon.svg", "patterns/mast.svg"} {
		s.Files = append(s.Files, file.File{Path: filepath.Join(dir, name), Data: []byte(text)})
	}
	return s
}

// A before is how a folder stands before a pack is written into it.
type before struct {
	name    string
	there   map[string]string // below the folder above that of the pack
	disk    fault.Disk
	inPlace bool // files are moved one by one: in between some are missing, but never mixed
}

func befores() []before {
	old := map[string]string{
		"shop/gate.pdf": "old", "shop/01-arrangement.svg": "old", "shop/patterns/moon.svg": "old", "shop/09-gone.svg": "stays",
	}
	with := func(more map[string]string) map[string]string {
		all := maps.Clone(old)
		maps.Copy(all, more)
		return all
	}
	users := map[string]string{"shop/notes.txt": "mine", "shop/patterns/sketch.dxf": "mine"}
	return []before{
		{name: "no folder", there: map[string]string{"notes.txt": "mine"}},
		{name: "empty folder", there: map[string]string{"shop/": ""}},
		{name: "older pack", there: old},
		{name: "files of the user's", there: with(users)},
		{name: "no exchange", there: with(users), disk: fault.Disk{NoExchange: true}},
		{name: "no links", there: with(users), disk: fault.Disk{NoLinks: true}, inPlace: true},
		{name: "folders of the user's", there: with(map[string]string{"shop/photos/moon.jpg": "mine"}), inPlace: true},
	}
}

// want returns what is to be there after the pack is written.
func (b *before) want() map[string]string {
	all := maps.Clone(b.there)
	delete(all, "shop/")
	for _, f := range pack("shop", "new").Files {
		all[filepath.ToSlash(f.Path)] = "new"
	}
	return all
}

// plain leaves the folders of a tree out.
func plain(all map[string]string) map[string]string {
	all = maps.Clone(all)
	maps.DeleteFunc(all, func(name, _ string) bool { return strings.HasSuffix(name, "/") })
	return all
}

// TestDeath lets the program die at each of its calls, in every kind of folder.
// What is then there is what was there or all of the new; the next run completes
// it and leaves nothing unfinished.
func TestDeath(t *testing.T) {
	for _, b := range befores() {
		deaths, half := 0, 0
		for at := 1; ; at++ {
			dir := t.TempDir()
			put(t, dir, b.there)
			disk := b.disk
			disk.At = at
			err := file.Write(context.Background(), &disk, pack(filepath.Join(dir, "shop"), "new"))
			if disk.Calls < at {
				if err != nil {
					t.Fatalf("%s: without a fault: %v", b.name, err)
				}
				break
			}
			deaths++
			name := fmt.Sprintf("%s: dead at call %d", b.name, at)
			switch got := plain(finished(tree(t, dir))); {
			case maps.Equal(got, plain(b.there)), maps.Equal(got, b.want()):
			case b.inPlace:
				half++
				unmixed(t, name, &b, got)
			case b.disk.NoExchange && missing(dir, "shop"):
				half++ // between the two renames; the next run puts it back
			default:
				t.Errorf("%s: half is there: %v", name, got)
			}
			disk = b.disk
			if err := file.Write(context.Background(), &disk, pack(filepath.Join(dir, "shop"), "new")); err != nil {
				t.Errorf("%s: the next run: %v", name, err)
			}
			if got := tree(t, dir); !maps.Equal(plain(got), b.want()) {
				t.Errorf("%s: after the next run: %v", name, got)
			} else if len(got) != len(finished(got)) {
				t.Errorf("%s: unfinished work is left: %v", name, got)
			}
		}
		t.Logf("%s: %d deaths, %d between moves", b.name, deaths, half)
	}
}

func missing(elements ...string) bool {
	_, err := os.Lstat(filepath.Join(elements...))
	return errors.Is(err, fs.ErrNotExist)
}

// unmixed checks that a folder has files of the old pack or of the new, not of
// both, and all of the user's.
func unmixed(t *testing.T, name string, b *before, got map[string]string) {
	t.Helper()
	seen := map[string]bool{}
	for _, text := range got {
		seen[text] = true
	}
	if seen["old"] && seen["new"] {
		t.Errorf("%s: files of two runs: %v", name, got)
	}
	for path, text := range b.there {
		if (text == "mine" || text == "stays") && got[path] != text {
			t.Errorf("%s: %s has %q", name, path, got[path])
		}
	}
}

// TestFault lets each call fail, as a full disk or a missing right does: all is
// written or nothing has changed, and nothing unfinished is left.
func TestFault(t *testing.T) {
	for _, fails := range []error{syscall.ENOSPC, &os.PathError{Op: "open", Path: ".stabile-x", Err: syscall.EACCES}} {
		for _, b := range befores() {
			for at := 1; ; at++ {
				dir := t.TempDir()
				put(t, dir, b.there)
				disk := b.disk
				disk.At, disk.Err = at, fails
				err := file.Write(context.Background(), &disk, pack(filepath.Join(dir, "shop"), "new"))
				if disk.Calls < at {
					break
				}
				want := b.want()
				if err != nil {
					want = plain(b.there)
					if strings.Contains(err.Error(), ".stabile-") {
						t.Errorf("%s: call %d: the error has a name of ours: %v", b.name, at, err)
					}
				}
				got := tree(t, dir)
				if !maps.Equal(plain(finished(got)), want) {
					t.Errorf("%s: call %d failed, Write = %v: there is %v", b.name, at, err, got)
				}
				if len(plain(got)) != len(plain(finished(got))) {
					// What could not be removed is cleared by the next run.
					disk = b.disk
					if err := file.Write(context.Background(), &disk, pack(filepath.Join(dir, "shop"), "new")); err != nil {
						t.Errorf("%s: call %d: the next run: %v", b.name, at, err)
					}
					if got := tree(t, dir); len(got) != len(finished(got)) {
						t.Errorf("%s: call %d: unfinished work is left: %v", b.name, at, got)
					}
				}
			}
		}
	}
}

// TestSingleFile: a file, as tidy writes it, is old or new at every death, also
// without hard links.
func TestSingleFile(t *testing.T) {
	for at := 1; ; at++ {
		dir := t.TempDir()
		put(t, dir, map[string]string{"gate.stabile": "old"})
		set := file.Set{Files: []file.File{{Path: filepath.Join(dir, "gate.stabile"), Data: []byte("new")}}, Named: true, Same: true}
		disk := fault.Disk{At: at, NoLinks: true}
		_ = file.Write(context.Background(), &disk, set)
		if disk.Calls < at {
			break
		}
		if got := finished(tree(t, dir)); len(got) != 1 || got["gate.stabile"] != "old" && got["gate.stabile"] != "new" {
			t.Errorf("dead at call %d: there is %v", at, got)
		}
		if err := file.Write(context.Background(), file.System{}, set); err != nil {
			t.Fatal(err)
		}
		if got := tree(t, dir); len(got) != 1 || got["gate.stabile"] != "new" {
			t.Errorf("dead at call %d, after the next run: %v", at, got)
		}
	}
}
