package param

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
)

// shelf holds what the texts of fuzzing may use.
var shelf = texts("garage.stabile", garage, "lib/alloys.stabile", alloys)

// FuzzEvaluate checks that no text makes the reading of designs panic, and that
// a design that comes of it is finite all through.
func FuzzEvaluate(f *testing.F) {
	seeds, err := filepath.Glob("testdata/*.stabile")
	if err != nil || len(seeds) == 0 {
		f.Fatalf("no seeds in testdata: %v", err)
	}
	for _, name := range seeds {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text), "rise=3", "tall")
	}
	f.Fuzz(func(t *testing.T, text, set, variation string) {
		defer watch(text)()
		options := Options{Variation: variation, Files: shelf}
		if set != "" {
			options.Set = []string{set}
		}
		d, list := Evaluate(source.NewFile("fuzz.stabile", text), options)
		if (d == nil) != (len(list) > 0) {
			t.Fatalf("a design: %v, and %d mistakes", d != nil, len(list))
		}
		for _, m := range list {
			checkWords(t, m.Text+m.Hint)
		}
		var b strings.Builder
		if err := list.Print(&b); err != nil {
			t.Fatal(err)
		}
		if d == nil {
			return
		}
		checkFinite(t, reflect.ValueOf(d), "design", map[uintptr]bool{})
		for _, r := range d.Require {
			checkWords(t, r.Check(someResults).Why)
		}
	})
}

// watch fails the run where a text is not worked out within a time that none
// needs: a fuzz run does not see a hang by itself.
func watch(text string) (stop func() bool) {
	return time.AfterFunc(10*time.Second, func() { panic(fmt.Sprintf("hangs: %q", text)) }).Stop
}

// someResults gives every weight as 1 kg, every size as 1 m, and no factor.
func someResults(name string) (quantity.Quantity, string, bool) {
	switch {
	case strings.HasSuffix(name, "weight"):
		return quantity.Quantity{Number: 1, Dim: quantity.Mass}, "", true
	case name == "tipping":
		return quantity.Quantity{}, "no load is given", false
	}
	return quantity.Quantity{Number: 1000, Dim: quantity.Length}, "", true
}

// checkWords checks that no number that is none gets into words.
func checkWords(t *testing.T, words string) {
	t.Helper()
	for _, w := range strings.Fields(words) {
		if w == "NaN" || w == "+Inf" || w == "-Inf" {
			t.Fatalf("%q in %q", w, words)
		}
	}
}

// checkFinite checks every number that can be reached from v.
func checkFinite(t *testing.T, v reflect.Value, path string, seen map[uintptr]bool) {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			t.Fatalf("%s = %v", path, x)
		}
	case reflect.Pointer:
		if v.IsNil() || seen[v.Pointer()] || v.Type() == reflect.TypeFor[*source.File]() {
			return
		}
		seen[v.Pointer()] = true
		checkFinite(t, v.Elem(), path, seen)
	case reflect.Struct:
		for i := range v.NumField() {
			checkFinite(t, v.Field(i), path+"."+v.Type().Field(i).Name, seen)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			checkFinite(t, v.Index(i), path, seen)
		}
	}
}

// The walk finds a number that is none, wherever it hides.
func TestCheckFinite(t *testing.T) {
	d := &design.Design{Parts: []*design.Part{{Post: &design.Post{}}, {Ball: &design.Ball{}}}}
	d.Joints = []design.Joint{{A: d.Parts[0], B: d.Parts[1]}}
	d.Joints[0].At.Z = math.NaN()
	failed := false
	done := make(chan bool)
	go func() {
		defer close(done)
		in := &testing.T{}
		defer func() { failed = in.Failed() }()
		checkFinite(in, reflect.ValueOf(d), "design", map[uintptr]bool{})
	}()
	<-done
	if !failed {
		t.Error("a NaN in a joint is not found")
	}
}
