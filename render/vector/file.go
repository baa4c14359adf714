package vector

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// A File is a file to be written.
type File struct {
	Path string
	Data []byte
}

// WriteFile writes a file whole or not at all: a reader finds either what was
// there before or all of the new. The folder must exist.
func WriteFile(path string, data []byte) error {
	return WriteFiles([]File{{path, data}})
}

// WriteFiles writes files all or none: where one cannot be written, those that
// were there before are put back and new ones taken away. The folders must
// exist.
//
// All are first written under other names beside their places, where a full
// disk or a missing right shows before anything is touched, and then moved.
func WriteFiles(files []File) (err error) {
	var staged []*stage
	defer func() {
		for _, s := range staged {
			if err != nil {
				err = errors.Join(err, s.undo())
			}
			s.clean()
		}
	}()
	for _, f := range files {
		s, err := prepare(f)
		if err != nil {
			return fmt.Errorf("%s: %w", f.Path, err)
		}
		staged = append(staged, s)
	}
	for _, s := range staged {
		if err := s.move(); err != nil {
			return fmt.Errorf("%s: %w", s.path, err)
		}
	}
	return nil
}

// A stage is a file on its way to its place.
type stage struct {
	path   string // its place
	fresh  string // where the new file waits; "" once it is moved
	backup string // where the file from before is kept; "" for none
	moved  bool
}

func prepare(f File) (*stage, error) {
	s := &stage{path: f.Path}
	mode := fs.FileMode(0o666) // less what the user's mask takes away
	switch was, err := os.Stat(f.Path); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return nil, err
	case !was.Mode().IsRegular():
		return nil, errors.New("is not a plain file")
	default:
		mode = was.Mode().Perm()
		if s.path, err = filepath.EvalSymlinks(f.Path); err != nil {
			return nil, err
		}
	}
	fresh := beside(s.path, "new")
	file, err := os.OpenFile(fresh, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return nil, err
	}
	_, err = file.Write(f.Data)
	if err == nil {
		err = file.Sync()
	}
	if err = errors.Join(err, file.Close()); err != nil {
		_ = os.Remove(fresh) // the first error is the one to tell
		return nil, err
	}
	s.fresh = fresh
	return s, nil
}

// beside returns an unused name in the folder of a path, hidden from lists.
func beside(path, ending string) string {
	return filepath.Join(filepath.Dir(path), ".stabile-"+rand.Text()+"."+ending)
}

func (s *stage) move() error {
	backup := beside(s.path, "old")
	switch err := os.Link(s.path, backup); {
	case err == nil:
		s.backup = backup
	case errors.Is(err, fs.ErrNotExist):
	default: // a file system without links: the file from before is moved aside
		if err := os.Rename(s.path, backup); err != nil {
			return err
		}
		s.backup = backup
	}
	if err := os.Rename(s.fresh, s.path); err != nil {
		return err
	}
	s.fresh, s.moved = "", true
	return nil
}

// undo puts the place back as it was.
func (s *stage) undo() error {
	switch {
	case s.backup != "":
		if err := os.Rename(s.backup, s.path); err != nil {
			s.backup = "" // the only copy: leave it
			return err
		}
	case s.moved:
		return os.Remove(s.path)
	}
	return nil
}

// clean takes away what is left beside the place; a backup may be, also after
// it was put back, where it is a second link to the same file. What cannot be
// taken away does no harm.
func (s *stage) clean() {
	for _, name := range []string{s.fresh, s.backup} {
		if name != "" {
			_ = os.Remove(name)
		}
	}
}
