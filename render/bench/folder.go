package bench

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"stabile/param"
)

// Extension is how the name of a design's file ends.
const Extension = ".stabile"

// mostListed is how many designs of a folder are offered.
const mostListed = 500

// A folder is where the designs lie. Nothing above it is read or written, nor
// what a link of it leads to outside.
type folder struct {
	dir     string
	root    *os.Root
	outside bool // designs may bring files from outside of it
	sealed  bool // nothing is written
}

func openFolder(dir string, outside, sealed bool) (*folder, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("the folder %s: %w", dir, cause(err))
	}
	return &folder{dir, root, outside, sealed}, nil
}

// errName is of a name that no design of the folder has.
var errName = errors.New("that is not the name of a design in this folder")

// named reports whether a name may be one of a design in the folder.
func named(name string) error {
	if !fs.ValidPath(name) || !filepath.IsLocal(filepath.FromSlash(name)) || strings.ContainsAny(name, "\\:\x00") ||
		!strings.HasSuffix(name, Extension) || strings.HasPrefix(path.Base(name), ".") || len(name) > 240 {
		return errName
	}
	return nil
}

// list returns the names of the designs in the folder.
func (f *folder) list() []string {
	names := []string{}
	entries, _ := fs.ReadDir(f.root.FS(), ".")
	for _, e := range entries {
		if named(e.Name()) == nil && !e.IsDir() && len(names) < mostListed {
			names = append(names, e.Name())
		}
	}
	slices.Sort(names)
	return names
}

// read returns the text of a design.
func (f *folder) read(name string) (string, error) {
	if err := named(name); err != nil {
		return "", err
	}
	file, err := f.regular(name)
	if err != nil {
		return "", err
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, param.MaxSource+1))
	if err == nil && len(text) > param.MaxSource {
		err = errors.New("the text is larger than a design may be")
	}
	return string(text), err
}

// regular opens a file that is one: no pipe or device, which might never answer.
func (f *folder) regular(name string) (fs.File, error) {
	info, err := f.root.Stat(filepath.FromSlash(name))
	if err != nil {
		return nil, cause(err)
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("it is not a file")
	}
	return f.root.Open(filepath.FromSlash(name))
}

// mark tells one text from another.
func mark(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:12])
}

// errChanged is of a file that was changed since it was read.
var errChanged = errors.New("the file was changed since it was read")

// save writes the text of a design whole or not at all. The file must still be
// the one with the mark: "" for one that is not there yet.
func (f *folder) save(name, text, was string) error {
	if err := named(name); err != nil {
		return err
	}
	if f.sealed {
		return errors.New("the bench was started to read only")
	}
	if len(text) > param.MaxSource {
		return errors.New("the text is larger than a design may be")
	}
	now, err := f.read(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if was != "" {
			return errChanged
		}
	case err != nil:
		return err
	case mark(now) != was:
		return errChanged
	}
	return f.replace(filepath.FromSlash(name), text)
}

// replace puts a text in the place of a file, by way of another file beside it.
func (f *folder) replace(name, text string) error {
	beside := filepath.Join(filepath.Dir(name), ".bench-"+token()[:16])
	mode := fs.FileMode(0o644)
	if info, err := f.root.Stat(name); err == nil {
		mode = info.Mode().Perm()
	}
	file, err := f.root.OpenFile(beside, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return cause(err)
	}
	_, err = file.WriteString(text)
	err = errors.Join(err, file.Sync(), file.Close())
	if err == nil {
		err = f.root.Rename(beside, name)
	}
	if err != nil {
		_ = f.root.Remove(beside)
		return cause(err)
	}
	return nil
}

// over is the folder with the text of one design as the page has it, for what it
// brings.
type over struct {
	*folder
	name, text string
}

// Open opens a file of the folder.
func (o over) Open(name string) (fs.File, error) {
	if name == o.name {
		return &written{Reader: strings.NewReader(o.text), name: path.Base(name)}, nil
	}
	if name == "." || !strings.HasSuffix(name, Extension) {
		return o.root.FS().Open(name) // a folder, to look for what was meant
	}
	file, err := o.regular(name)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		if _, there := os.Stat(filepath.Join(o.dir, filepath.FromSlash(name))); there == nil {
			err = param.ErrOutside
		}
		return nil, &fs.PathError{Op: "open", Path: name, Err: err}
	}
	return file, err
}

// beyond opens a file outside of the folder, where that is allowed.
func (f *folder) beyond(name string) (fs.File, error) {
	at := filepath.FromSlash(name)
	if !filepath.IsAbs(at) {
		at = filepath.Join(f.dir, at)
	}
	return os.Open(at)
}

// A written is a file whose text is at hand.
type written struct {
	*strings.Reader
	name string
}

func (f *written) Close() error               { return nil }
func (f *written) Stat() (fs.FileInfo, error) { return fileInfo{f.name, f.Reader.Size()}, nil }

// cause returns what is wrong with a file, without its path on this machine.
func cause(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	var l *os.LinkError
	if errors.As(err, &l) {
		return l.Err
	}
	return err
}
