package pack_test

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"stabile/fab"
	"stabile/param"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/render/ink"
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
		"tree60": sample.Job(sample.Random(11, 60, quantity.Inch)),
		"tree24": sample.Job(sample.Random(21, 24, quantity.Inch)),
		"feet":   text(t, onFeet),
		"post":   text(t, onePost),
		"ball":   text(t, oneBall),
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

	// sheets returns its pack, dated the last of January 2026. It is drawn once for
	// all tests.
	sheets func() []*ink.Sheet
}

// newExample returns a job by its name.
func newExample(name string, j *fab.Job) example {
	return example{name, j, sync.OnceValue(func() []*ink.Sheet { return pack.Sheets(j, pack.Options{Date: "2026-01-31"}) })}
}

// made are the examples, worked out once for all tests.
var made = sync.OnceValues(func() ([]example, error) {
	folder := os.DirFS("../../examples")
	names, err := fs.Glob(folder, "*.stabile")
	if err != nil {
		return nil, err
	}
	var list []example
	for _, name := range names {
		src, err := fs.ReadFile(folder, name)
		if err != nil {
			return nil, err
		}
		if !strings.Contains("\n"+string(src), "\nsculpture ") {
			continue // what designs have in common, to be used by them
		}
		d, err := param.Load(folder, name, param.Options{})
		if err != nil {
			return nil, err
		}
		j, wrong := fab.Build(d, fab.Everything)
		if j == nil {
			return nil, wrong.Err()
		}
		list = append(list, newExample(strings.TrimSuffix(name, ".stabile"), j))
	}
	return list, nil
})

// stack is the sample that the goldens show, in inches.
var stack = sync.OnceValue(func() example { return newExample("stack", sample.Job(sample.Stack(quantity.Inch))) })

// examples returns all examples.
func examples(t *testing.T) []example {
	t.Helper()
	list, err := made()
	if err != nil || len(list) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	return slices.Clip(list)
}

// text works out a design given as text.
func text(t *testing.T, src string) *fab.Job {
	t.Helper()
	return textWith(t, src, fab.Everything)
}

// textWith works out what is wanted of a design given as text.
func textWith(t *testing.T, src string, want fab.Want) *fab.Job {
	t.Helper()
	d, wrong := param.Evaluate(source.NewFile("text.stabile", src), param.Options{})
	if d == nil {
		t.Fatal(wrong)
	}
	j, wrong := fab.Build(d, want)
	if j == nil {
		t.Fatal(wrong)
	}
	return j
}

// The least designs, and one on its own feet.
const (
	onePost = "sculpture \"Post\"\nunits mm\nmetal skin { alloy low-carbon-steel, gauge 18 }\nbase b { disc 300, metal skin }\npost p on b { diameter 60, length 900, metal skin }\n"
	oneBall = "sculpture \"Ball\"\nunits inch\nmetal skin { alloy low-carbon-steel, gauge 18 }\nbase b { plate 12 by 12, metal skin }\nball o on b { diameter 10, halves, metal skin }\n"
	onFeet  = "sculpture \"Tripod\"\nunits mm\nmetal skin { alloy low-carbon-steel, gauge 18 }\nbase b { feet }\n" +
		"repeat i from 1 to 3 {\n post p[i] on b { at polar(400, 120 deg * i), diameter 60, length 700 + 100 * i, lean 8 deg toward 120 deg * i + 90 deg, metal skin }\n" +
		" ball o[i] on p[i] { diameter 200, gores 8, metal skin }\n}\n"
)
