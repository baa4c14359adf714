package cli

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"stabile/cmd/internal/file"
	"stabile/render/bench"
)

// start writes an empty, commented design, and the shop that it brings where
// there is none.
func (c *call) start(args []string) (int, error) {
	flags := pflag.NewFlagSet("start", pflag.ContinueOnError)
	metric := flags.Bool("mm", false, "")
	args, err := parse("start", flags, args)
	if err != nil {
		return statusWrong, err
	}
	if len(args) != 1 {
		return statusWrong, misuse("as in 'stabile start gate-post'", "start takes one name, not %d", len(args))
	}
	name := strings.TrimSuffix(args[0], extension)
	dir, base := filepath.Split(name)
	if strings.Trim(base, ". ") == "" {
		return statusWrong, misuse("as in 'stabile start gate-post'", "'%s' is not a name for a design", args[0])
	}
	units := "inch"
	if *metric {
		units = "mm"
	}
	var set file.Set
	for i, f := range bench.Empty(base, units) {
		path := filepath.Join(dir, f.Name)
		switch _, err := os.Lstat(path); {
		case err == nil && i == 0:
			return statusWrong, misuse("choose another name, or open it with 'stabile bench'", "'%s' is there already and is not overwritten", path)
		case err == nil:
			continue // the shop of other designs
		case !errors.Is(err, fs.ErrNotExist):
			return statusWrong, fmt.Errorf("%s: %w", path, cause(err))
		}
		set.Files = append(set.Files, file.File{Path: path, Data: []byte(f.Text)})
	}
	if err := c.save(context.Background(), set); err != nil {
		return statusWrong, err
	}
	for _, f := range set.Files {
		fmt.Fprintf(c.stdout, "wrote %s\n", printable(f.Path))
	}
	_, err = fmt.Fprintf(c.stdout, "\nOpen it with: stabile bench %s\n", printable(name+extension))
	return statusWell, err
}
