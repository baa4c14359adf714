package file

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// A Disk does what this package needs of the system, one thing with each call. The
// tests put others in the place of System, which fail or die at any of them.
type Disk interface {
	Lstat(path string) (fs.FileInfo, error)
	ReadDir(path string) ([]fs.DirEntry, error)
	ReadFile(path string) ([]byte, error)
	Mkdir(path string) error

	// Create writes a file that is not there yet, down to the disk.
	Create(path string, mode fs.FileMode, data []byte) error

	// Keep gives a file or folder the permissions, special bits and owner of
	// another.
	Keep(path string, like fs.FileInfo) error

	Link(from, to string) error
	Rename(from, to string) error

	// Exchange lets two folders change places at once. It is
	// errors.ErrUnsupported where the system cannot.
	Exchange(a, b string) error

	Remove(path string) error

	// Sync brings down to the disk what was moved in a folder.
	Sync(folder string) error

	// Lock locks a folder until the function that it returns is called, or the
	// process ends. It is ErrBusy if another has it, and errors.ErrUnsupported
	// where folders cannot be locked.
	Lock(folder string) (release func(), err error)
}

// System is the system's own disk.
type System struct{}

func (System) Lstat(path string) (fs.FileInfo, error)     { return os.Lstat(path) }
func (System) ReadDir(path string) ([]fs.DirEntry, error) { return os.ReadDir(path) }
func (System) ReadFile(path string) ([]byte, error)       { return os.ReadFile(path) }
func (System) Mkdir(path string) error                    { return os.Mkdir(path, 0o777) }
func (System) Link(from, to string) error                 { return os.Link(from, to) }
func (System) Rename(from, to string) error               { return os.Rename(from, to) }
func (System) Exchange(a, b string) error                 { return exchange(a, b) }
func (System) Remove(path string) error                   { return os.Remove(path) }
func (System) Lock(folder string) (func(), error)         { return lock(folder) }

// Create writes a file; one that cannot be finished is taken away again.
func (System) Create(path string, mode fs.FileMode, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		_ = os.Remove(path) // the first error is the one to report
	}
	return err
}

// bits are those of a mode that Keep keeps.
const bits = fs.ModePerm | fs.ModeSetuid | fs.ModeSetgid | fs.ModeSticky

// Keep sets the owner first: the system takes special bits away when it changes.
func (System) Keep(path string, like fs.FileInfo) error {
	if err := own(path, like); err != nil {
		return err
	}
	now, err := os.Lstat(path)
	if err != nil || now.Mode()&bits == like.Mode()&bits {
		return err
	}
	return os.Chmod(path, like.Mode()&bits)
}

// Sync does nothing where folders cannot be synced.
func (System) Sync(folder string) error {
	f, err := os.Open(filepath.Clean(folder))
	if err != nil {
		return nil
	}
	_ = f.Sync()
	return f.Close()
}
