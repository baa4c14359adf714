package param

import (
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"stabile/param/source"
	"stabile/param/syntax"
)

// MaxFiles is the greatest number of files that a design consists of.
const MaxFiles = 32

// extension is how the name of a design's file ends.
const extension = ".stabile"

// A library reads the files that a design brings, each once.
type library struct {
	Options
	home  string // the folder of the design
	size  int    // bytes read
	read  map[string]bool
	open  []string       // the names of the files that are being read, each brought by the one before it
	files []*syntax.File // those read in full, brought ones before those that bring them
	full  bool           // a limit has been reported
	list  source.List
}

// add parses a file and all that it brings.
func (l *library) add(f *source.File) {
	name := path.Clean(f.Name)
	l.read[name] = true
	l.size += len(f.Text)
	l.open = append(l.open, name)
	tree, list := syntax.Parse(f)
	l.list = append(l.list, list...)
	brought := map[string]source.Span{}
	for _, s := range tree.Statements {
		set, ok := s.(*syntax.Setting)
		if !ok || set.Keyword.Text != "bring" {
			continue
		}
		if name, ok := set.Value.(*syntax.String); ok {
			l.bring(f, name, brought)
		}
	}
	l.files = append(l.files, tree)
	l.open = l.open[:len(l.open)-1]
}

// bring reads the file that a text names, or reports why it cannot.
func (l *library) bring(by *source.File, value *syntax.String, brought map[string]source.Span) {
	at := value.Span()
	name, ok := l.resolve(by, value)
	if !ok {
		return
	}
	if first, twice := brought[name]; twice {
		l.tell(at, "leave one of the two out", "'%s' is brought twice", value.Text)
		l.list[len(l.list)-1].Note = []source.Note{{Span: first, Text: "first brought here"}}
		return
	}
	brought[name] = at
	if i := slices.Index(l.open, name); i >= 0 {
		l.circle(at, l.open[i:])
		return
	}
	if l.read[name] || l.full {
		return // by another file, or past the limit
	}
	if len(l.read) >= MaxFiles {
		l.full = true
		l.tell(at, "combine some of the files", "a design has at most %d files", MaxFiles)
		return
	}
	text, err := l.text(name)
	switch {
	case errors.Is(err, errLarge):
		l.full = true
		l.tell(at, "", "with '%s' the files of the design are larger than %d MiB together", value.Text, MaxSource>>20)
	case errors.Is(err, ErrOutside):
		l.tellOutside(at, value.Text)
	case errors.Is(err, fs.ErrNotExist):
		l.tell(at, l.near(name, value.Text), "there is no file '%s'", value.Text)
	case err != nil:
		l.tell(at, "", "'%s' cannot be read: %v", value.Text, cause(err))
	default:
		l.add(source.NewFile(name, text))
	}
}

// resolve returns the name of the file that a text names, relative to the
// design's file system. It reports one that may not be read.
func (l *library) resolve(by *source.File, value *syntax.String) (string, bool) {
	at, written := value.Span(), value.Text
	switch {
	case strings.TrimSpace(written) == "":
		l.tell(at, `write bring "garage.stabile"`, "'bring' names no file")
		return "", false
	case strings.ContainsRune(written, 0):
		l.tell(at, "", "a file cannot have this name")
		return "", false
	case strings.ContainsRune(written, '\\'):
		l.tell(at, `write bring "`+strings.ReplaceAll(written, `\`, "/")+`"`, "separate the folders of a path with '/'")
		return "", false
	}
	name := path.Clean(written)
	if !path.IsAbs(written) {
		name = path.Join(path.Dir(by.Name), written)
	}
	if l.Outside == nil && l.isOutside(name) {
		l.tellOutside(at, written)
		return "", false
	}
	return name, true
}

// ErrOutside is what a file system returns for a file that a link leads to from
// within the design's folder, but that lies outside of it.
var ErrOutside = errors.New("outside the design's own folder")

func (l *library) tellOutside(at source.Span, written string) {
	l.tell(at, "copy the file into it, or give --allow-outside", "'%s' is outside the design's own folder", written)
}

// isOutside reports whether a file is not in the folder of the design or one
// within it.
func (l *library) isOutside(name string) bool {
	if l.home == "." {
		return !fs.ValidPath(name)
	}
	return !strings.HasPrefix(name, l.home+"/")
}

var errLarge = errors.New("larger than a design may be")

// text reads a file, but no more of it than a design may have.
func (l *library) text(name string) (string, error) {
	f, err := l.openFile(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil {
		if err := Readable(info); err != nil {
			return "", err
		}
	}
	left := MaxSource - l.size
	text, err := io.ReadAll(io.LimitReader(f, int64(left)+1))
	if err == nil && len(text) > left {
		err = errLarge
	}
	return string(text), err
}

func (l *library) openFile(name string) (fs.File, error) {
	switch {
	case l.isOutside(name):
		return l.Outside(name)
	case l.Files == nil:
		return nil, errors.New("the design is not in a folder")
	}
	// A pipe would be waited for without end when it is opened.
	if info, err := fs.Stat(l.Files, name); err == nil {
		if err := Readable(info); err != nil {
			return nil, err
		}
	}
	return l.Files.Open(name)
}

// Readable returns why what lies under a name is not a file that can be brought; nil for
// one that can.
func Readable(info fs.FileInfo) error {
	switch mode := info.Mode(); {
	case mode.IsDir():
		return errors.New("it is a folder")
	case !mode.IsRegular():
		return errors.New("it is not a file but a pipe or a device")
	}
	return nil
}

// circle reports files that bring each other.
func (l *library) circle(at source.Span, names []string) {
	if len(names) == 1 {
		l.tell(at, "leave it out", "'%s' brings itself", path.Base(names[0]))
		return
	}
	short := make([]string, len(names))
	for i, n := range names {
		short[i] = "'" + path.Base(n) + "'"
	}
	l.tell(at, "put what they share into a file of its own", "%s and %s bring each other in a circle",
		strings.Join(short[:len(short)-1], ", "), short[len(short)-1])
}

// near returns the hint that asks whether another file of the same folder was
// meant.
func (l *library) near(name, written string) string {
	if l.isOutside(name) || l.Files == nil {
		return ""
	}
	entries, err := fs.ReadDir(l.Files, path.Dir(name))
	if err != nil {
		return fromHere
	}
	var names []string
	for _, e := range entries {
		if e.Name() == path.Base(name)+extension {
			return "did you mean '" + written + extension + "'?"
		}
		isOpen := slices.Contains(l.open, path.Join(path.Dir(name), e.Name()))
		if !e.IsDir() && !isOpen && strings.HasSuffix(e.Name(), extension) {
			names = append(names, e.Name())
		}
	}
	if near, ok := source.Suggest(path.Base(name), names); ok {
		return "did you mean '" + path.Join(path.Dir(written), near) + "'?"
	}
	return fromHere
}

// fromHere says where a path starts.
const fromHere = "write its path from the folder of this file"

func (l *library) tell(at source.Span, hint, format string, args ...any) {
	l.list.Add(at, hint, format, args...)
}

// cause returns what is wrong with a file without the path and the system call
// that the error repeats.
func cause(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}
