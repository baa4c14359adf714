package cli

import (
	"io/fs"
	"strings"
	"time"
)

// inputName is what standard input is called in diagnostics.
const inputName = "standard-input"

// withText is a folder in which a design that has been read lies as one more
// file, so that it can use the files beside it: one from standard input, or
// one that a link names.
type withText struct {
	fs.FS
	name, text string
}

func (w withText) Open(name string) (fs.File, error) {
	if name == w.name {
		return &textFile{Reader: strings.NewReader(w.text), name: name}, nil
	}
	return w.FS.Open(name)
}

// Stat tells of a file without opening it.
func (w withText) Stat(name string) (fs.FileInfo, error) {
	if name == w.name {
		return textInfo{name, int64(len(w.text))}, nil
	}
	return fs.Stat(w.FS, name)
}

type textFile struct {
	*strings.Reader
	name string
}

func (f *textFile) Close() error               { return nil }
func (f *textFile) Stat() (fs.FileInfo, error) { return textInfo{f.name, f.Reader.Size()}, nil }

type textInfo struct {
	name string
	size int64
}

func (i textInfo) Name() string     { return i.name }
func (i textInfo) Size() int64      { return i.size }
func (textInfo) Mode() fs.FileMode  { return 0o444 }
func (textInfo) ModTime() time.Time { return time.Time{} }
func (textInfo) IsDir() bool        { return false }
func (textInfo) Sys() any           { return nil }
