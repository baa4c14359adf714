package file

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// fresh makes a folder that is not there, with its files, and those above it from
// top down that are missing too: all appear by one rename.
func (w *writing) fresh(folder, top string) error {
	at, err := w.begin(filepath.Dir(top), nil)
	if err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", folder, cause(err))
	}
	defer w.removeAll(at)
	for i := range w.places {
		inside, err := filepath.Rel(top, w.places[i].Path)
		if err != nil {
			return fmt.Errorf("%s: %w", w.places[i].Path, err)
		}
		path := filepath.Join(at, newFolder, inside)
		if err := w.folders(at, filepath.Dir(path)); err != nil {
			return fmt.Errorf("cannot make the folder %s: %w", folder, cause(err))
		}
		if err := w.create(&w.places[i], path); err != nil {
			return err
		}
	}
	if err := w.stopped(); err != nil {
		return err
	}
	if err := w.disk.Rename(filepath.Join(at, newFolder), top); err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", folder, cause(err))
	}
	_ = w.disk.Sync(filepath.Dir(top))
	return nil
}

// begin makes the folder for unfinished work in another, with the plan of what it
// is for, if it has one.
func (w *writing) begin(in string, p *plan) (at string, err error) {
	at = filepath.Join(in, token())
	if err := w.disk.Mkdir(at); err != nil {
		return "", err
	}
	if p != nil {
		if err := w.disk.Create(filepath.Join(at, planName), 0o666, p.text()); err != nil {
			w.removeAll(at)
			return "", err
		}
	}
	return at, nil
}

// folders makes a folder, and those above it that are missing, below another that
// is there.
func (w *writing) folders(below, folder string) error {
	if folder == below {
		return nil
	}
	if _, err := w.disk.Lstat(folder); err == nil {
		return nil
	}
	if err := w.folders(below, filepath.Dir(folder)); err != nil {
		return err
	}
	return w.disk.Mkdir(folder)
}

// mostStay is the greatest number of the user's files in a folder that is made
// again: linking more takes longer than it is worth.
const mostStay = 5000

// replaceable returns the files of a folder that stay, by their paths in it, and
// whether the folder may change places with one made again.
func (w *writing) replaceable(folder string, was fs.FileInfo) (stays []string, ok bool) {
	const ownerWrites = 0o200
	if was.Mode()&ownerWrites == 0 || inUse(folder) {
		return nil, false
	}
	for _, g := range w.set.Guarded {
		if within(folder, g) {
			return nil, false // what watches its folder would lose it
		}
	}
	ours := map[string]bool{}
	sub := map[string]bool{".": true}
	for _, p := range w.places {
		inside, err := filepath.Rel(folder, p.Path)
		if err != nil {
			return nil, false
		}
		ours[inside] = true
		sub[filepath.Dir(inside)] = true
	}
	for dir := range sub {
		list, err := w.disk.ReadDir(filepath.Join(folder, dir))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return nil, false
		}
		for _, e := range list {
			inside := filepath.Join(dir, e.Name())
			switch {
			case ours[inside], e.IsDir() && sub[inside], dir == "." && e.Name() == lockName:
			case !e.Type().IsRegular(), len(stays) == mostStay:
				return nil, false
			default:
				stays = append(stays, inside)
			}
		}
	}
	return stays, true
}

// inUse reports whether a folder is that in which the program was started, or one
// above it: a shell would be left in the old one.
func inUse(folder string) bool {
	here, err := os.Getwd()
	return err != nil || within(folder, here)
}

// within reports whether a path is a folder's or lies in it.
func within(folder, path string) bool {
	f, err := filepath.EvalSymlinks(folder)
	if err != nil {
		return true
	}
	if f, err = filepath.Abs(f); err != nil {
		return true
	}
	p, err := filepath.EvalSymlinks(path)
	if err != nil {
		return false
	}
	if p, err = filepath.Abs(p); err != nil {
		return true
	}
	inside, err := filepath.Rel(f, p)
	return err == nil && inside != ".." && !strings.HasPrefix(inside, ".."+string(filepath.Separator))
}

// exchange makes a folder again and lets it change places with the old one. It
// reports whether it did; if not, nothing has changed.
func (w *writing) exchange(folder string, was fs.FileInfo, stays []string) (done bool, err error) {
	p := &plan{Folder: filepath.Base(folder)}
	for i := range w.places {
		inside, err := filepath.Rel(folder, w.places[i].Path)
		if err != nil {
			return false, err
		}
		p.Files = append(p.Files, filepath.ToSlash(inside))
	}
	at, err := w.begin(filepath.Dir(folder), p)
	if err != nil {
		return false, err
	}
	defer func() {
		if !done {
			w.removeAll(at)
		}
	}()
	fresh, old := filepath.Join(at, newFolder), filepath.Join(at, oldFolder)
	if err := w.disk.Mkdir(fresh); err != nil {
		return false, err
	}
	if err := w.disk.Keep(fresh, was); err != nil {
		return false, err
	}
	for i := range w.places {
		path := filepath.Join(fresh, filepath.FromSlash(p.Files[i]))
		if err := w.folders(fresh, filepath.Dir(path)); err != nil {
			return false, err
		}
		if err := w.create(&w.places[i], path); err != nil {
			return false, err
		}
	}
	for _, inside := range stays {
		if err := w.disk.Link(filepath.Join(folder, inside), filepath.Join(fresh, inside)); err != nil {
			return false, err
		}
	}
	if err := w.stopped(); err != nil {
		return false, err
	}
	err = w.disk.Exchange(fresh, folder)
	if errors.Is(err, errors.ErrUnsupported) {
		if err = w.disk.Rename(folder, old); err == nil {
			if err = w.disk.Rename(fresh, folder); err != nil {
				// Should it not go back, the next run finds it by the plan.
				if back := w.disk.Rename(old, folder); back != nil {
					return true, fmt.Errorf("%s: %w; what was in it is in %s", folder, cause(err), old)
				}
			}
		}
	}
	if err != nil {
		return false, err
	}
	_ = w.disk.Sync(filepath.Dir(folder))
	_ = w.finish(at) // what is left is cleared by the next run
	return true, nil
}
