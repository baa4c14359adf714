package cli

import (
	"path/filepath"
	"slices"
)

// olderSheets returns the SVG files of a folder that were not just written:
// sheets of an earlier pack, whose part may have changed its name or be gone,
// are not to be taken for sheets of this one.
func olderSheets(dir string, wrote []string) []string {
	all, _ := filepath.Glob(filepath.Join(quoteGlob(dir), "*.svg"))
	return slices.DeleteFunc(all, func(path string) bool {
		return slices.Contains(wrote, filepath.Clean(path))
	})
}
