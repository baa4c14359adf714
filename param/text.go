package param

import (
	"fmt"
	"hash"
	"io/fs"
	"path"
	"sync"

	"stabile/param/design"
	"stabile/param/eval"
	"stabile/param/source"
	"stabile/param/syntax"
)

// A Text is a design as it is written: its file and those that it uses, read and
// parsed. Several goroutines may work designs out of it at a time.
type Text struct {
	files []*syntax.File     // used ones before those that use them; the design's own is the last
	wrong source.List        // with their wording
	said  func() hash.Cloner // what the statements say, worked out once it is needed
}

// Read reads and parses a design's text with those that it uses. Of the options
// it takes only where files are. A file that cannot be read is an error that
// wraps the one of the file system; what is wrong with the wording is reported by
// Design.
func Read(fsys fs.FS, name string, o Options) (*Text, error) {
	text, err := read(fsys, name)
	if err != nil {
		return nil, fmt.Errorf("reading the design: %w", err)
	}
	if o.Files == nil {
		o.Files = fsys
	}
	return parse(source.NewFile(name, text), o), nil
}

func read(fsys fs.FS, name string) (string, error) {
	info, err := fs.Stat(fsys, name)
	if err != nil {
		return "", err
	}
	if info.Size() > MaxSource {
		return "", fmt.Errorf("%s: the text is larger than %d MiB", name, MaxSource>>20)
	}
	text, err := fs.ReadFile(fsys, name)
	return string(text), err
}

func parse(f *source.File, o Options) *Text {
	if len(f.Text) > MaxSource {
		t := &Text{}
		t.wrong.Add(source.Span{}, "", "%s: the text is larger than %d MiB", f.Name, MaxSource>>20)
		return t
	}
	l := &library{Options: o, home: path.Dir(f.Name), read: map[string]bool{}}
	l.add(f)
	return &Text{l.files, l.list, sync.OnceValue(func() hash.Cloner {
		last := len(l.files) - 1
		return eval.Said(append([]*syntax.File{l.files[last]}, l.files[:last]...))
	})}
}

// Locate tells by what path diagnostics are to speak of each file, from the name
// that it was read by. It must not be called while a design is worked out.
func (t *Text) Locate(path func(name string) string) {
	for _, f := range t.files {
		f.Source.Path = path(f.Source.Name)
	}
}

// Design works the text out. What is wrong with it or with the options is a
// *source.Error.
func (t *Text) Design(o Options) (*design.Design, error) {
	d, list := t.evaluate(o)
	return d, list.Err()
}

// Used returns the files that the design uses, those first that others use.
func (t *Text) Used() []*source.File {
	var list []*source.File
	for _, f := range t.files[:max(0, len(t.files)-1)] {
		list = append(list, f.Source)
	}
	return list
}
