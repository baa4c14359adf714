package pack_test

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"stabile/fab"
	"stabile/param"
	"stabile/param/quantity"
	"stabile/render/internal/sample"
	"stabile/render/pack"
	"stabile/render/vector"
)

// TestLook writes packs to the folder named by LOOK, for looking at.
func TestLook(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip("LOOK is not set")
	}
	jobs := map[string]*fab.Job{
		"stack":  sample.Job(sample.Stack(quantity.Inch)),
		"tree9":  sample.Job(sample.Random(5, 9, quantity.Millimetre)),
		"tree30": sample.Job(sample.Random(4, 30, quantity.Millimetre)),
	}
	for _, e := range examples(t) {
		jobs[e.name] = e.job
	}
	for name, j := range jobs {
		start := time.Now()
		sheets := pack.Sheets(j, pack.Options{})
		fmt.Println(name, len(sheets), "sheets", time.Since(start))
		data, err := vector.PDF(sheets, vector.Info{Title: j.Design.Title})
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name+".pdf"), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// An example is a design that comes with the program, worked out.
type example struct {
	name string
	job  *fab.Job
}

func examples(t *testing.T) []example {
	t.Helper()
	folder := os.DirFS("../../examples")
	names, err := fs.Glob(folder, "*.stabile")
	if err != nil || len(names) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	var list []example
	for _, name := range names {
		d, err := param.Load(folder, name, param.Options{})
		if err != nil {
			t.Fatal(err)
		}
		j, wrong := fab.Build(d)
		if j == nil {
			t.Fatal(wrong)
		}
		list = append(list, example{strings.TrimSuffix(name, ".stabile"), j})
	}
	return list
}
