package file

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"
)

// ErrBusy reports that another run is writing into the same folder.
var ErrBusy = errors.New("another stabile is writing here: let it finish, then try again")

// patience is how long a run waits for another that is writing into its folder:
// many times as long as a pack takes to be written.
const patience = 5 * time.Second

// A File is a file to be written.
type File struct {
	Path string
	Data []byte
}

// A Set is the files that a run writes, all or none.
type Set struct {
	Files []File

	// Folder is the folder in which all of Files lie, if they are a pack: it is
	// made where it is missing, and may change places with one made again.
	Folder string

	// Named says that the user named the only file, or the folder, so that a link
	// in its place is followed. No other link is.
	Named bool

	// Guarded are files that are never written over, by whatever name: the design
	// and what it brings.
	Guarded []string

	// Same says that a file stays the same to everything but its text: it is
	// refused if it has other names, or an owner that cannot be kept.
	Same bool
}

// Write writes the files of a set, all of them or, with an error that names a
// place, none. The context and Ctrl-C stop it until the first is moved to its
// place. Of a set without a folder, the folders must exist.
func Write(ctx context.Context, d Disk, s Set) error {
	ctx, release := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM)
	defer release()
	w := &writing{ctx: ctx, disk: d, set: s, wait: patience}
	return w.write()
}

// A writing is a set on its way to the disk.
type writing struct {
	ctx    context.Context
	disk   Disk
	set    Set
	wait   time.Duration
	places []place
}

// A place is where a file goes.
type place struct {
	File
	was fs.FileInfo // the file that is there; nil for none
}

func (w *writing) write() error {
	if w.set.Folder != "" {
		return w.pack()
	}
	if w.set.Named && len(w.set.Files) == 1 {
		if at, err := filepath.EvalSymlinks(w.set.Files[0].Path); err == nil {
			w.set.Files = []File{{at, w.set.Files[0].Data}}
		}
	}
	folder := filepath.Dir(w.set.Files[0].Path)
	release, err := w.lock(folder)
	if err != nil {
		return err
	}
	defer release()
	if err := w.look(); err != nil {
		return err
	}
	if len(w.places) == 1 {
		return w.single(&w.places[0])
	}
	return w.inPlace(folder)
}

// pack writes a set that has a folder.
func (w *writing) pack() error {
	folder := filepath.Clean(w.set.Folder)
	if info, err := w.disk.Lstat(folder); err == nil && info.Mode()&fs.ModeSymlink != 0 {
		if !w.set.Named {
			return fmt.Errorf("%s: is a link, and is not written through; name the folder with -o", folder)
		}
		at, err := filepath.EvalSymlinks(folder)
		if err != nil {
			return fmt.Errorf("%s: %w", folder, cause(err))
		}
		for i, f := range w.set.Files {
			inside, err := filepath.Rel(folder, f.Path)
			if err != nil {
				return fmt.Errorf("%s: %w", f.Path, err)
			}
			w.set.Files[i].Path = filepath.Join(at, inside)
		}
		folder = at
	}
	top := folder // the highest folder that is missing, or the folder itself
	for parent := filepath.Dir(top); parent != top; parent = filepath.Dir(top) {
		if _, err := w.disk.Lstat(parent); err == nil {
			break
		}
		top = parent
	}
	// The folder above is locked before the folder, by all alike.
	release, err := w.lock(filepath.Dir(top))
	if err != nil {
		return err
	}
	defer release()
	info, err := w.disk.Lstat(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err := w.look(); err != nil {
			return err
		}
		return w.fresh(folder, top)
	case err != nil:
		return fmt.Errorf("cannot make the folder %s: %w", folder, cause(err))
	case !info.IsDir():
		return fmt.Errorf("%s: is not a folder", folder)
	}
	release, err = w.lock(folder)
	if err != nil {
		return err
	}
	defer release()
	if err := w.look(); err != nil {
		return err
	}
	if stays, ok := w.replaceable(folder, info); ok {
		done, err := w.exchange(folder, info, stays)
		if done || w.ctx.Err() != nil {
			return err
		}
	}
	return w.inPlace(folder)
}

// lock locks a folder, waiting a while for another run, and clears away what dead
// runs left there. A folder that cannot be locked is not cleared.
func (w *writing) lock(folder string) (release func(), err error) {
	for start := time.Now(); ; time.Sleep(20 * time.Millisecond) {
		release, err = w.disk.Lock(folder)
		if !errors.Is(err, ErrBusy) || time.Since(start) > w.wait || w.ctx.Err() != nil {
			break
		}
	}
	switch {
	case errors.Is(err, errors.ErrUnsupported):
		return func() {}, nil
	case err != nil:
		return nil, fmt.Errorf("%s: %w", folder, cause(err))
	}
	if err := w.clear(folder); err != nil {
		release()
		return nil, err
	}
	return release, nil
}

// look sees what is in the places of the files, and refuses what must not be
// written over.
func (w *writing) look() error {
	var guarded []fs.FileInfo
	for _, path := range w.set.Guarded {
		if info, err := os.Stat(path); err == nil {
			guarded = append(guarded, info)
		}
	}
	w.places = make([]place, len(w.set.Files))
	for i, f := range w.set.Files {
		info, err := w.disk.Lstat(f.Path)
		if err == nil {
			err = w.mayReplace(f.Path, info, guarded)
		} else if errors.Is(err, fs.ErrNotExist) {
			info, err = nil, nil
		}
		if err == nil {
			err = w.straight(filepath.Dir(f.Path))
		}
		if err != nil {
			return fmt.Errorf("%s: %w", f.Path, cause(err))
		}
		w.places[i] = place{f, info}
	}
	return nil
}

// mayReplace returns why a file must not be written over.
func (w *writing) mayReplace(path string, info fs.FileInfo, guarded []fs.FileInfo) error {
	const ownerWrites = 0o200
	is := func(other fs.FileInfo) bool { return os.SameFile(info, other) }
	switch {
	case info.Mode()&fs.ModeSymlink != 0:
		return errors.New("is a link, and is not written through; remove it first")
	case !info.Mode().IsRegular():
		return errors.New("is not a plain file")
	case slices.ContainsFunc(guarded, is):
		return errors.New("is the design, or a file that it brings, and is not overwritten")
	case info.Mode()&ownerWrites == 0:
		return errors.New("the file is write-protected")
	case w.set.Same && links(path, info) > 1:
		return errors.New("has other names (hard links), which a new text would part from it; remove them, or use standard input and output")
	}
	return nil
}

// straight returns an error if a folder of a pack, below its own, is a link.
func (w *writing) straight(folder string) error {
	if w.set.Folder == "" {
		return nil
	}
	if inside, err := filepath.Rel(w.set.Folder, folder); err != nil || inside == "." || strings.HasPrefix(inside, "..") {
		return nil
	}
	info, err := w.disk.Lstat(folder)
	if err == nil && !info.IsDir() {
		return fmt.Errorf("%s is a link or a file, not a folder", folder)
	}
	return nil
}

// create writes a place's file under another name, like the one that it replaces.
func (w *writing) create(p *place, path string) error {
	if err := w.stopped(); err != nil {
		return err
	}
	mode := fs.FileMode(0o666) // less what the user's mask takes away
	if p.was != nil {
		mode = p.was.Mode().Perm()
	}
	err := w.disk.Create(path, mode, p.Data)
	if err == nil && p.was != nil {
		if err = w.disk.Keep(path, p.was); errors.Is(err, fs.ErrPermission) {
			err = nil
			if w.set.Same {
				err = errors.New("belongs to another user or group, which a new text would lose; use standard input and output")
			}
		}
	}
	if err != nil {
		return fmt.Errorf("%s: %w", p.Path, cause(err))
	}
	return nil
}

// errStopped is the error of a run that the user stopped.
var errStopped = fmt.Errorf("stopped; nothing was written: %w", context.Canceled)

func (w *writing) stopped() error {
	if w.ctx.Err() != nil {
		return errStopped
	}
	return nil
}

// single writes one file.
func (w *writing) single(p *place) error {
	fresh := filepath.Join(filepath.Dir(p.Path), token()+freshEnding)
	err := w.create(p, fresh)
	if err == nil {
		if err = w.disk.Rename(fresh, p.Path); err == nil {
			_ = w.disk.Sync(filepath.Dir(p.Path)) // it is in its place
			return nil
		}
		err = fmt.Errorf("%s: %w", p.Path, cause(err))
	}
	_ = w.disk.Remove(fresh) // what is left is cleared by the next run
	return err
}

// cause returns what is wrong with a file without the path and the system call
// that the error repeats: the path may be one that the user has never seen.
func cause(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}
