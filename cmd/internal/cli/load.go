package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"stabile/fab"
	"stabile/param"
)

// extension is how the name of a design's file ends.
const extension = ".stabile"

// A choice is what the command line says about a design: which, and with what
// values.
type choice struct {
	set       []string
	variation string
	outside   bool // it may use files from outside of its own folder
}

func (ch *choice) flags(f *pflag.FlagSet) {
	f.StringArrayVar(&ch.set, "set", nil, "")
	f.StringVar(&ch.variation, "variation", "", "")
	f.BoolVar(&ch.outside, "allow-outside", false, "")
}

// build loads a design from a file, or from standard input for "-", and
// works it out with what is wanted. What a design from standard input uses is looked for in the
// working folder.
func (c *call) build(file string, ch choice, want fab.Want) (*fab.Job, error) {
	files, home, dir, err := c.locate(file, ch)
	if err != nil {
		return nil, err
	}
	defer home.Close()
	// The file that the user names is read wherever a link may lead.
	o := param.Options{Set: ch.set, Variation: ch.variation}
	if ch.outside {
		o.Outside = home.outside
	}
	text, err := readText(files, dir, o)
	if err != nil {
		return nil, err
	}
	d, err := text.Design(o)
	if err != nil {
		return nil, err
	}
	j, wrong := fab.Build(d, want)
	return j, wrong.Err()
}

// locate reads a design's text and opens its folder, which the caller closes: the
// files among which the text lies, that folder, and its path as the user gave it.
func (c *call) locate(file string, ch choice) (files withText, h *home, dir string, err error) {
	text, err := c.text(file)
	if err != nil {
		return withText{}, nil, "", err
	}
	dir, name := filepath.Split(file)
	if file == "-" {
		dir, name = "", inputName
	}
	if h, err = openFolder(filepath.Clean(dir), ch.outside); err == nil {
		h.opened = c.reads
	}
	if file != "-" {
		c.reads(file)
	}
	return withText{h, name, text}, h, dir, err
}

// readText reads a design. Diagnostics speak of its files by the path that the
// user gave, so that they can be opened from where the user is.
func readText(files withText, dir string, o param.Options) (*param.Text, error) {
	text, err := param.Read(files, files.name, o)
	if err != nil {
		return nil, err
	}
	text.Locate(func(name string) string {
		if filepath.IsAbs(name) {
			return name
		}
		return filepath.Join(dir, name)
	})
	return text, nil
}

// readable returns why a design's file cannot be read, with the nearest name
// that could be meant.
func readable(file string) error {
	info, err := os.Stat(file)
	switch {
	case err == nil && info.IsDir():
		return misuse(designsIn(file), "'%s' is a folder, not a design", file)
	case err == nil:
		return nil
	case !errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: %w", file, cause(err))
	}
	near, _ := filepath.Glob(filepath.Join(quoteGlob(filepath.Dir(file)), "*"+extension))
	hint := didYouMean(file, near, "")
	for _, n := range near {
		if n == filepath.Clean(file+extension) {
			hint = fmt.Sprintf("did you mean '%s'?", n)
		}
	}
	return misuse(hint, "there is no file '%s'", file)
}

// designsIn names the first designs of a folder, as a hint.
func designsIn(dir string) string {
	const enough = 3
	names, _ := filepath.Glob(filepath.Join(quoteGlob(dir), "*"+extension))
	if len(names) == 0 {
		return ""
	}
	if len(names) > enough {
		return "in it, among others: " + strings.Join(names[:enough], ", ")
	}
	return "in it: " + strings.Join(names, ", ")
}

// quoteGlob makes a path stand for itself in a pattern.
func quoteGlob(path string) string {
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `?`, `\?`, `[`, `\[`).Replace(path)
}

// cause returns what is wrong with a file without the path and the system call
// that the error repeats.
func cause(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}
