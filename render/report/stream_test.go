package report

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/param"
	"stabile/param/sample"
	"stabile/param/source"
)

// TestWriteStream: a report that is written a part at a time is, to the byte, the one that
// is written whole.
func TestWriteStream(t *testing.T) {
	rnd := rand.New(rand.NewPCG(77, 78))
	for seed := range 60 {
		d, wrong := param.Evaluate(source.NewFile("any.stabile", sample.Text(rnd)), param.Options{})
		if len(wrong) > 0 {
			continue
		}
		j, wrong := fab.Build(d, fab.Everything)
		if len(wrong) > 0 {
			continue
		}
		var b, got, brief bytes.Buffer
		e := json.NewEncoder(&b)
		e.SetEscapeHTML(false)
		e.SetIndent("", "  ")
		if err := e.Encode(Of(j)); err != nil {
			t.Fatal(err)
		}
		if err := Write(&got, j, false); err != nil {
			t.Fatal(err)
		}
		if want := joinNumbers(b.Bytes()); !bytes.Equal(got.Bytes(), want) {
			t.Fatalf("design %d: the two differ", seed)
		}
		if err := Write(&brief, j, true); err != nil {
			t.Fatal(err)
		}
		var whole, short Document
		if err := json.Unmarshal(got.Bytes(), &whole); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(brief.Bytes(), &short); err != nil {
			t.Fatal(err)
		}
		if strings.Contains(brief.String(), "outline_mm") || brief.Len() >= got.Len() {
			t.Errorf("design %d: %d bytes in brief of %d", seed, brief.Len(), got.Len())
		}
		for i := range whole.Parts {
			if whole.Parts[i].Mass != short.Parts[i].Mass || len(whole.Parts[i].Blanks) != len(short.Parts[i].Blanks) {
				t.Errorf("design %d: %s differs in brief", seed, whole.Parts[i].Name)
			}
		}
	}
}
