package draft_test

import (
	"os"
	"path/filepath"
	"testing"

	"stabile/render/ink"
	"stabile/render/vector"
)

// look writes a sheet to a folder, for looking at.
func look(t *testing.T, dir string, s *ink.Sheet) {
	t.Helper()
	data, err := vector.PDF([]*ink.Sheet{s}, vector.Info{Title: s.Title})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, s.Name+".pdf"), data, 0o644); err != nil {
		t.Fatal(err)
	}
}
