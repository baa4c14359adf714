//go:build unix

package file

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// lock takes the advisory lock of a folder.
func lock(folder string) (func(), error) {
	f, err := os.Open(folder)
	if err != nil {
		return nil, errors.ErrUnsupported // a folder that one may write but not read
	}
	switch err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); {
	case err == nil:
		return func() { _ = f.Close() }, nil
	case errors.Is(err, syscall.EWOULDBLOCK):
		_ = f.Close()
		return nil, ErrBusy
	}
	_ = f.Close()
	return nil, errors.ErrUnsupported
}

// links returns how many names a file has.
func links(_ string, info fs.FileInfo) int {
	if s, ok := info.Sys().(*syscall.Stat_t); ok {
		return int(s.Nlink)
	}
	return 1
}

// own gives a file the owner and group of another.
func own(path string, like fs.FileInfo) error {
	want, ok := like.Sys().(*syscall.Stat_t)
	if !ok {
		return nil
	}
	info, err := os.Lstat(path)
	if err != nil {
		return err
	}
	if now, ok := info.Sys().(*syscall.Stat_t); ok && now.Uid == want.Uid && now.Gid == want.Gid {
		return nil
	}
	return os.Lchown(path, int(want.Uid), int(want.Gid))
}
