package file

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"golang.org/x/sys/windows"
)

// lock locks a folder by a hidden file in it that nobody else may open, and that
// the system removes when it is closed or its process ends: folders themselves
// cannot be locked.
func lock(folder string) (func(), error) {
	name, err := windows.UTF16PtrFromString(filepath.Join(folder, ".stabile-lock"))
	if err != nil {
		return nil, err
	}
	h, err := windows.CreateFile(name, windows.GENERIC_WRITE, 0, nil, windows.OPEN_ALWAYS,
		windows.FILE_ATTRIBUTE_HIDDEN|windows.FILE_FLAG_DELETE_ON_CLOSE|windows.FILE_FLAG_OPEN_REPARSE_POINT, 0)
	switch {
	case err == nil:
		return func() { _ = windows.CloseHandle(h) }, nil
	case errors.Is(err, windows.ERROR_SHARING_VIOLATION):
		return nil, ErrBusy
	}
	return nil, errors.ErrUnsupported
}

// links returns how many names a file has.
func links(path string, _ fs.FileInfo) int {
	f, err := os.Open(path)
	if err != nil {
		return 1
	}
	defer f.Close()
	var info windows.ByHandleFileInformation
	if err := windows.GetFileInformationByHandle(windows.Handle(f.Fd()), &info); err != nil {
		return 1
	}
	return int(info.NumberOfLinks)
}

// own leaves owners alone: a file has that of its folder.
func own(string, fs.FileInfo) error { return nil }
