package report

import (
	"bytes"
	"os"
	"testing"

	"stabile/fab"
	"stabile/param"
	"stabile/param/golden"
)

// TestGolden compares the report of a small design with the one kept.
func TestGolden(t *testing.T) {
	d, err := param.Load(os.DirFS("testdata"), "pair.stabile", param.Options{})
	if err != nil {
		t.Fatal(err)
	}
	d.Fingerprint = "" // it changes with any word of the text
	j, wrong := fab.Build(d, fab.Everything)
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	var got bytes.Buffer
	if err := Of(j).WriteJSON(&got); err != nil {
		t.Fatal(err)
	}
	golden.Text(t, "testdata/pair.json", got.String())
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
