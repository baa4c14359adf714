package report

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"stabile/fab"
	"stabile/param"
)

var update = flag.Bool("update", false, "write the golden files anew")

// TestGolden compares the report of a small design with the one kept.
func TestGolden(t *testing.T) {
	d, err := param.Load(os.DirFS("testdata"), "pair.stabile", param.Options{})
	if err != nil {
		t.Fatal(err)
	}
	d.Revision = "" // it changes with any word of the text
	j, wrong := fab.Build(d, fab.Everything)
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	var got bytes.Buffer
	if err := Of(j).WriteJSON(&got); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join("testdata", "pair.json")
	if *update {
		if err := os.WriteFile(name, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got.Bytes(), want) {
		t.Errorf("the report of pair.stabile is not %s; with -update it is written anew", name)
		g, w := bytes.Split(got.Bytes(), []byte("\n")), bytes.Split(want, []byte("\n"))
		for i := range min(len(g), len(w)) {
			if !bytes.Equal(g[i], w[i]) {
				t.Fatalf("line %d: got %s, want %s", i+1, g[i], w[i])
			}
		}
	}
}

func TestJoinNumbers(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"[\n  1,\n  -2.5e3\n]", "[1, -2.5e3]"},
		{"{\"a\": \"[ 1,\\\" 2 ]\", \"b\": [\n [\n 1\n ],\n []\n]}", "{\"a\": \"[ 1,\\\" 2 ]\", \"b\": [\n [1],\n []\n]}"},
		{"[\n \"x\"\n]", "[\n \"x\"\n]"},
	} {
		if got := string(joinNumbers([]byte(tt.in))); got != tt.want {
			t.Errorf("joinNumbers(%q) = %q, want %q", tt.in, got, tt.want)
		}
	}
}
