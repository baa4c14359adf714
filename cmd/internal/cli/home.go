package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"stabile/param"
)

// A home is the folder of a design, out of which no path and no link leads
// unless the user gives leave.
type home struct {
	fs.FS
	dir  string
	root *os.Root // nil with leave

	opened func(path string) // notified of each file that is opened; nil for nobody
}

// openFolder opens the folder of a design, to be closed by the caller.
func openFolder(dir string, outside bool) (*home, error) {
	if outside {
		return &home{FS: os.DirFS(dir), dir: dir}, nil
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("the folder %s: %w", dir, cause(err))
	}
	return &home{FS: root.FS(), dir: dir, root: root}, nil
}

// Close closes the folder.
func (h *home) Close() error {
	if h.root == nil {
		return nil
	}
	return h.root.Close()
}

// Stat tells of a file of the folder without opening it, which for a pipe waits.
func (h *home) Stat(name string) (fs.FileInfo, error) { return fs.Stat(h.FS, name) }

// Open opens a file of the folder. A file that is there, but where a link out of
// the folder leads, is param.ErrOutside.
func (h *home) Open(name string) (fs.File, error) {
	h.tell(filepath.Join(h.dir, filepath.FromSlash(name)))
	f, err := h.FS.Open(name)
	if err == nil || h.root == nil || errors.Is(err, fs.ErrPermission) || !fs.ValidPath(name) {
		return f, err
	}
	if _, there := os.Stat(filepath.Join(h.dir, filepath.FromSlash(name))); there == nil {
		err = &fs.PathError{Op: "open", Path: name, Err: param.ErrOutside}
	}
	return nil, err
}

func (h *home) tell(path string) {
	if h.opened != nil {
		h.opened(path)
	}
}

// outside opens a file by an absolute path, or one relative to the folder.
func (h *home) outside(name string) (fs.File, error) {
	path := filepath.FromSlash(name)
	if !filepath.IsAbs(path) {
		path = filepath.Join(h.dir, path)
	}
	h.tell(path)
	if info, err := os.Stat(path); err == nil {
		if err := param.Readable(info); err != nil {
			return nil, &fs.PathError{Op: "open", Path: name, Err: err}
		}
	}
	return os.Open(path)
}
