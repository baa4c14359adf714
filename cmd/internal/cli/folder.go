package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
)

// makeFolder makes a folder and those above it where they are missing. The
// function that it returns takes away again what it made, as long as it is
// empty.
func makeFolder(dir string) (undo func(), err error) {
	var missing []string // from the folder upward
	for d := dir; ; d = filepath.Dir(d) {
		if _, err := os.Lstat(d); err == nil || d == filepath.Dir(d) {
			break
		}
		missing = append(missing, d)
	}
	undo = func() {
		for _, d := range missing {
			_ = os.Remove(d) // one that is not empty is left
		}
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		undo()
		return nil, fmt.Errorf("cannot make the folder %s: %w", dir, cause(err))
	}
	return undo, nil
}

// olderSheets returns the SVG files of a folder that were not just written:
// sheets of an earlier pack, whose part may have changed its name or be gone,
// are not to be taken for sheets of this one.
func olderSheets(dir string, wrote []string) []string {
	all, _ := filepath.Glob(filepath.Join(quoteGlob(dir), "*.svg"))
	return slices.DeleteFunc(all, func(path string) bool {
		return slices.Contains(wrote, filepath.Clean(path))
	})
}
