package file

import (
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
)

// The names of what is unfinished.
const (
	freshEnding = ".new" // of a single file, after its token
	newFolder   = "new"
	oldFolder   = "old"
	planName    = "plan"
	draftName   = "draft" // of a plan on which nothing has been decided
	lockName    = ".stabile-lock"
)

// unfinished is a name that only this package gives.
var unfinished = regexp.MustCompile(`^\.stabile-[A-Z2-7]{26}(\.new)?$`)

// token returns an unused name, hidden from lists.
func token() string { return ".stabile-" + rand.Text() }

// A plan says what a folder of unfinished work is for.
type plan struct {
	// Folder is the name of the folder that changes places with the one made
	// again; "" where files are moved one by one.
	Folder string `json:"folder,omitempty"`

	// Files are the places of the files, relative to the folder that they go to.
	Files []string `json:"files"`
}

func (p *plan) text() []byte {
	text, err := json.Marshal(p)
	if err != nil {
		panic(err) // strings alone
	}
	return text
}

// clear finishes or takes away what dead runs left in a folder that is locked.
func (w *writing) clear(folder string) error {
	list, err := w.disk.ReadDir(folder)
	if err != nil {
		return nil // what cannot be read is left alone
	}
	for _, e := range list {
		path := filepath.Join(folder, e.Name())
		switch {
		case !unfinished.MatchString(e.Name()):
		case e.IsDir():
			if err := w.finish(path); err != nil {
				return fmt.Errorf("%s: what an earlier run left unfinished cannot be finished: %w", folder, cause(err))
			}
		case e.Type().IsRegular():
			_ = w.disk.Remove(path)
		}
	}
	return nil
}

// finish finishes what a folder of unfinished work was for, as far as that had
// been decided, and takes the folder away.
func (w *writing) finish(at string) error {
	text, err := w.disk.ReadFile(filepath.Join(at, planName))
	var p plan
	if err == nil {
		err = json.Unmarshal(text, &p)
	}
	switch {
	case errors.Is(err, fs.ErrNotExist), err != nil && !errors.Is(err, fs.ErrPermission):
		// Nothing had been decided; a plan that was cut short is none.
	case err != nil:
		return err
	case p.Folder != "":
		if err := w.settle(at, &p); err != nil {
			return err
		}
	default:
		if err := w.move(at, &p); err != nil {
			return err
		}
	}
	w.removeAll(at)
	return nil
}

// settle finishes the change of two folders: it puts the new one in its place if
// that is empty, and takes over files that the user saved in the old one while
// they changed places.
func (w *writing) settle(at string, p *plan) error {
	folder := filepath.Join(filepath.Dir(at), filepath.Base(p.Folder))
	fresh, old := filepath.Join(at, newFolder), filepath.Join(at, oldFolder)
	if _, err := w.disk.Lstat(folder); errors.Is(err, fs.ErrNotExist) {
		if _, err := w.disk.Lstat(old); err != nil {
			return nil // the user has taken the folder away
		}
		if err := w.disk.Rename(fresh, folder); err != nil {
			return err
		}
	}
	ours := map[string]bool{}
	for _, name := range p.Files {
		ours[filepath.FromSlash(name)] = true
	}
	for _, from := range []string{fresh, old} {
		if err := w.takeOver(from, folder, ".", ours); err != nil {
			return err
		}
	}
	return nil
}

// takeOver moves files that are not ours from an old folder to the one in its
// place, unless the same or a later one is there.
func (w *writing) takeOver(from, to, dir string, ours map[string]bool) error {
	list, err := w.disk.ReadDir(filepath.Join(from, dir))
	if err != nil {
		return nil // there is none
	}
	for _, e := range list {
		inside := filepath.Join(dir, e.Name())
		source, target := filepath.Join(from, inside), filepath.Join(to, inside)
		there, err := w.disk.Lstat(target)
		switch missing := errors.Is(err, fs.ErrNotExist); {
		case ours[inside], e.Name() == lockName:
			continue
		case err != nil && !missing:
			return err
		case e.IsDir() && !missing:
			if !there.IsDir() {
				continue // a link leads elsewhere
			}
			if err := w.takeOver(from, to, inside, ours); err != nil {
				return err
			}
			continue
		case !missing:
			info, err := w.disk.Lstat(source)
			if err != nil {
				return err
			}
			if os.SameFile(info, there) || !info.ModTime().After(there.ModTime()) {
				continue
			}
		}
		if err := w.disk.Rename(source, target); err != nil {
			return err
		}
	}
	return nil
}

// inPlace writes files into a folder that stays in its place.
func (w *writing) inPlace(folder string) error {
	at, err := w.begin(folder, nil)
	if err != nil {
		return fmt.Errorf("%s: %w", folder, cause(err))
	}
	p := &plan{}
	err = w.stage(at, folder, p)
	if err == nil {
		// From here on the plan is carried out, if not by this run, by the next.
		if err = w.disk.Rename(filepath.Join(at, draftName), filepath.Join(at, planName)); err != nil {
			err = fmt.Errorf("%s: %w", folder, cause(err))
		}
	}
	if err != nil {
		w.removeAll(at)
		return err
	}
	if err := w.move(at, p); err != nil {
		if back := w.moveBack(at, p); back != nil {
			return fmt.Errorf("%s: %w; the next run into this folder tries again", folder, cause(err))
		}
		w.removeAll(at)
		return err
	}
	_ = w.disk.Sync(folder)
	w.removeAll(at)
	return nil
}

// stage writes the files of a plan, and its draft.
func (w *writing) stage(at, folder string, p *plan) error {
	for _, name := range []string{newFolder, oldFolder} {
		if err := w.disk.Mkdir(filepath.Join(at, name)); err != nil {
			return fmt.Errorf("%s: %w", folder, cause(err))
		}
	}
	for i := range w.places {
		inside, err := filepath.Rel(folder, w.places[i].Path)
		if err != nil {
			return fmt.Errorf("%s: %w", w.places[i].Path, err)
		}
		p.Files = append(p.Files, filepath.ToSlash(inside))
		if err := w.create(&w.places[i], filepath.Join(at, newFolder, strconv.Itoa(i))); err != nil {
			return err
		}
	}
	if err := w.disk.Create(filepath.Join(at, draftName), 0o666, p.text()); err != nil {
		return fmt.Errorf("%s: %w", folder, cause(err))
	}
	return w.stopped()
}

// move carries out a plan, from wherever it was left: first all old files are
// moved out, then all new ones in, so that files of two runs never lie side by
// side.
func (w *writing) move(at string, p *plan) error {
	folder := filepath.Dir(at)
	waits := make([]bool, len(p.Files))
	for i, name := range p.Files {
		number, path := strconv.Itoa(i), filepath.Join(folder, filepath.FromSlash(name))
		if !w.inside(folder, path, filepath.FromSlash(name)) {
			return fmt.Errorf("%s: lies outside of its folder", path)
		}
		if _, err := w.disk.Lstat(filepath.Join(at, newFolder, number)); errors.Is(err, fs.ErrNotExist) {
			continue // it is in its place
		}
		waits[i] = true
		if _, err := w.disk.Lstat(path); errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err := w.disk.Rename(path, filepath.Join(at, oldFolder, number)); err != nil {
			return fmt.Errorf("%s: %w", path, cause(err))
		}
	}
	for i, name := range p.Files {
		if !waits[i] {
			continue
		}
		path := filepath.Join(folder, filepath.FromSlash(name))
		err := w.folders(folder, filepath.Dir(path))
		if err == nil {
			err = w.disk.Rename(filepath.Join(at, newFolder, strconv.Itoa(i)), path)
		}
		if err != nil {
			return fmt.Errorf("%s: %w", path, cause(err))
		}
	}
	return nil
}

// inside reports whether a path leads to a place in a folder, through no link: a
// plan may have been planted.
func (w *writing) inside(folder, path, name string) bool {
	if !filepath.IsLocal(name) {
		return false
	}
	for dir := filepath.Dir(path); dir != folder; dir = filepath.Dir(dir) {
		if info, err := w.disk.Lstat(dir); err == nil && !info.IsDir() {
			return false
		}
	}
	return true
}

// moveBack undoes as much of a plan as was carried out.
func (w *writing) moveBack(at string, p *plan) error {
	folder := filepath.Dir(at)
	for i, name := range p.Files {
		waiting, path := filepath.Join(at, newFolder, strconv.Itoa(i)), filepath.Join(folder, filepath.FromSlash(name))
		if _, err := w.disk.Lstat(waiting); !errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err := w.disk.Rename(path, waiting); err != nil {
			return err
		}
	}
	for i, name := range p.Files {
		out, path := filepath.Join(at, oldFolder, strconv.Itoa(i)), filepath.Join(folder, filepath.FromSlash(name))
		if _, err := w.disk.Lstat(out); errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err := w.disk.Rename(out, path); err != nil {
			return err
		}
		if dir := filepath.Dir(path); dir != folder {
			_ = w.disk.Remove(dir) // which this run may have made; one with files in it stays
		}
	}
	// As long as the plan is there, the next run carries it out.
	return w.disk.Remove(filepath.Join(at, planName))
}

// removeAll takes a folder of unfinished work away, its plan last. What is left
// does no harm: the next run clears it.
func (w *writing) removeAll(at string) {
	list, err := w.disk.ReadDir(at)
	if err != nil {
		return
	}
	for _, e := range list {
		if e.Name() == planName {
			continue
		}
		if path := filepath.Join(at, e.Name()); e.IsDir() {
			w.removeAll(path)
		} else {
			_ = w.disk.Remove(path)
		}
	}
	_ = w.disk.Remove(filepath.Join(at, planName))
	_ = w.disk.Remove(at)
}
