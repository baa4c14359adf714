package fab

import (
	"os"
	"path/filepath"
	"testing"

	"stabile/param"
)

// TestExamples builds the designs that come with the program.
func TestExamples(t *testing.T) {
	dir := os.DirFS(filepath.Join("..", "examples"))
	files, err := filepath.Glob(filepath.Join("..", "examples", "*.stabile"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	for _, f := range files {
		name := filepath.Base(f)
		d, err := param.Load(dir, name, param.Options{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		j, wrong := Build(d)
		if len(wrong) > 0 {
			t.Errorf("%s: %v", name, wrong.Err())
			continue
		}
		for _, f := range j.Findings {
			t.Logf("%s: %s: %s: %s", name, f.Level, f.Part, f.Text)
		}
		t.Logf("%s: %+v %+v tipping %v %v", name, j.Mass, j.Size, j.Tipping.Factor, j.OK())
	}
}
