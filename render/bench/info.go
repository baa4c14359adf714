package bench

import (
	"io/fs"
	"net/url"
	"time"
)

// A fileInfo is of a file whose text is at hand.
type fileInfo struct {
	name string
	size int64
}

func (i fileInfo) Name() string     { return i.name }
func (i fileInfo) Size() int64      { return i.size }
func (fileInfo) Mode() fs.FileMode  { return 0o444 }
func (fileInfo) ModTime() time.Time { return time.Time{} }
func (fileInfo) IsDir() bool        { return false }
func (fileInfo) Sys() any           { return nil }

// An escaped is a text within an address.
type escaped struct{ text string }

func (e *escaped) String() string { return url.QueryEscape(e.text) }
