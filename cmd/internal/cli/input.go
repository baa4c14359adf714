package cli

import (
	"bytes"
	"io/fs"
	"time"
)

// inputName is what the standard input is called in diagnostics.
const inputName = "standard-input"

// withInput is a folder in which the standard input lies as one more file, so
// that a design read from there can use the files beside it.
type withInput struct {
	fs.FS
	text []byte
}

func (w withInput) Open(name string) (fs.File, error) {
	if name == inputName {
		return &inputFile{Reader: bytes.NewReader(w.text), size: len(w.text)}, nil
	}
	return w.FS.Open(name)
}

type inputFile struct {
	*bytes.Reader
	size int
}

func (f *inputFile) Close() error               { return nil }
func (f *inputFile) Stat() (fs.FileInfo, error) { return inputInfo{int64(f.size)}, nil }

type inputInfo struct{ size int64 }

func (i inputInfo) Name() string     { return inputName }
func (i inputInfo) Size() int64      { return i.size }
func (inputInfo) Mode() fs.FileMode  { return 0o444 }
func (inputInfo) ModTime() time.Time { return time.Time{} }
func (inputInfo) IsDir() bool        { return false }
func (inputInfo) Sys() any           { return nil }
