package cli

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/sample"
	"stabile/param/source"
	"stabile/render/ink"
	"stabile/render/offer"
	"stabile/render/pack"
	"stabile/render/report"
	"stabile/render/terminal"
	"stabile/render/words"
)

// alike is how many random designs must read the same in every output, and onPaper
// how many of them are drawn as well.
const (
	alike   = 300
	onPaper = 12
)

// probed gives a design a value that nothing uses, so that a study of it and a search
// for it find the design as it is.
const probed = "\nadjust probe = 1 from 1 to 2 step 1\n"

// TestSameEverywhere: the terminal, JSON, variations, their table, their contact sheet
// and plot, a search for a value, the sheets and the offer give the same verdict, the
// same checks, the same findings in the same order, the same figures, and the same last
// word, of random designs and of all examples.
func TestSameEverywhere(t *testing.T) {
	rnd := rand.New(rand.NewPCG(61, 62))
	for n := 0; n < alike; {
		text := sample.Text(rnd) + probed
		load := func(o param.Options) (*design.Design, error) {
			d, wrong := param.Evaluate(source.NewFile("any.stabile", text), o)
			return d, wrong.Err()
		}
		if sameOf(t, load, n < onPaper, text) {
			n++
		}
	}
	examples := copied(t, os.DirFS("../../../examples"))
	for _, name := range []string{"lamp-thorn", "reed-bed", "slow-tide", "winter-orchard"} {
		file := name + ".stabile"
		examples[file].Data = append(examples[file].Data, probed...)
		load := func(o param.Options) (*design.Design, error) { return param.Load(examples, file, o) }
		if !sameOf(t, load, true, name) {
			t.Errorf("%s cannot be made", name)
		}
	}
}

// sameOf holds the outputs of one design to each other; false where it cannot be made.
func sameOf(t *testing.T, load func(param.Options) (*design.Design, error), drawn bool, of string) bool {
	t.Helper()
	d, err := load(param.Options{})
	if err != nil {
		return false
	}
	j, wrong := fab.Build(d, fab.Everything)
	if len(wrong) > 0 {
		return false
	}
	w := words.In(d.Units)
	last := w.LastWord(j)

	// The terminal, on one screen and whole.
	var brief, whole bytes.Buffer
	require.NoError(t, terminal.Brief(&brief, j, terminal.Style{}))
	require.NoError(t, terminal.Report(&whole, j, terminal.Style{}, terminal.Sections[:]...))
	require.Contains(t, bare(brief.String()), bare(last), of)
	inOrder(t, bare(whole.String()), append(w.Named(j.Findings), last), of)
	for _, f := range j.Findings {
		if f.Level.Fails() {
			require.Contains(t, bare(brief.String()), bare(w.Finding(f)), of)
		}
	}

	// JSON.
	var text bytes.Buffer
	require.NoError(t, report.Of(j).WriteJSON(&text))
	var doc report.Document
	require.NoError(t, json.Unmarshal(text.Bytes(), &doc))
	require.Equal(t, []string{string(j.Verdict), last}, []string{doc.Verdict, doc.VerdictText}, of)
	require.Len(t, doc.Checks, len(j.Checks), of)
	for i, c := range j.Checks {
		require.Equal(t, []string{string(c.ID), c.Part, c.With, string(c.Verdict)}, []string{doc.Checks[i].ID, doc.Checks[i].Part, doc.Checks[i].With, doc.Checks[i].Verdict}, of)
	}
	f := figuresOf(j)
	require.Equal(t, f.mass, doc.Mass.Total, of)
	require.Equal(t, f.height, doc.Size.Height, of)
	if doc.Tipping != nil {
		require.Equal(t, f.tipping, doc.Tipping.Factor, of)
	}
	require.Contains(t, bare(brief.String()), w.Weight(j.Mass.Total), of)
	require.Contains(t, bare(brief.String()), w.Long(j.Size.Height)+" high", of)
	require.Len(t, doc.Findings, len(j.Findings), of)
	for i, f := range j.Findings {
		require.Equal(t, []string{string(f.Level), string(f.Concern), w.Finding(f)}, []string{doc.Findings[i].Level, doc.Findings[i].Concern, doc.Findings[i].Text}, of)
	}

	sameOfStudy(t, load, j, drawn, of)
	if !drawn {
		return true
	}

	// The sheets and the offer.
	p := words.OnPaper(d.Units)
	sheets := pack.Sheets(j, pack.Options{})
	for _, row := range p.Rows(j.Checks) {
		onSheets(t, sheets, row.What, of)
	}
	for _, f := range j.Findings {
		onSheets(t, sheets, p.Finding(f), of)
	}
	pages, err := offer.Pages(j, offer.Options{})
	require.NoError(t, err, of)
	offered, client := sheetText(pages), p.Client(j)
	for _, said := range slices.Concat(client.Fails, client.Open, client.Holds, client.Unmet) {
		require.Contains(t, offered, letters(said), of)
	}
	require.Equal(t, j.Verdict == check.Fails, strings.Contains(offered, letters("Not ready to be built")), of)
	return true
}

// verdicts returns checks without what only a whole job has: the price, which takes
// the layouts, and what rests on it.
func verdicts(list []check.Check) []check.Check {
	var out []check.Check
	for _, c := range list {
		if c.ID != check.Cost && c.Concern != finding.Money {
			c.Why = nil
			out = append(out, c)
		}
	}
	return out
}

// bare returns a text with each run of white space as one space.
func bare(s string) string { return strings.Join(strings.Fields(s), " ") }

// inOrder holds that texts stand in another one after the other.
func inOrder(t *testing.T, text string, list []string, of string) {
	t.Helper()
	for _, s := range list {
		i := strings.Index(text, bare(s))
		if i < 0 {
			t.Fatalf("%q is not there, or not in its place, of %s", s, of)
		}
		text = text[i:]
	}
}

// letters returns the letters and figures of a text, small: lines are broken, and
// sentences begin with capitals, as the place needs it.
func letters(s string) string {
	return strings.ToLower(strings.Map(func(r rune) rune {
		if r == ' ' || r == '\u00a0' || r == '\n' || r == '\u2060' {
			return -1
		}
		return r
	}, s))
}

// onSheets holds that a text stands on a sheet, or begins at the foot of one and goes on
// on the next.
func onSheets(t *testing.T, sheets []*ink.Sheet, text, of string) {
	t.Helper()
	want := letters(text)
	before := ""
	for _, s := range sheets {
		here := sheetText([]*ink.Sheet{s})
		if strings.Contains(here, want) {
			return
		}
		for k := range want {
			if k > 0 && strings.HasSuffix(before, want[:k]) && strings.Contains(here, want[k:]) {
				return
			}
		}
		before = here
	}
	t.Fatalf("no sheet says %q, of %s", text, of)
}

// sheetText returns all that is written on sheets, item by item.
func sheetText(sheets []*ink.Sheet) string {
	var b strings.Builder
	for _, s := range sheets {
		for _, item := range s.Items {
			if x, ok := item.(*ink.Text); ok {
				b.WriteString(x.Text)
			}
		}
	}
	return letters(b.String())
}

// TestVerdictsDiffer: the test above would see a check that is another.
func TestVerdictsDiffer(t *testing.T) {
	a := []check.Check{{ID: check.Post, Part: "mast", Verdict: check.Holds, Found: 0.5, Limit: 1}}
	b := []check.Check{{ID: check.Post, Part: "mast", Verdict: check.Fails, Found: 1.5, Limit: 1}}
	if reflect.DeepEqual(verdicts(a), verdicts(b)) {
		t.Error("a check that holds and one that fails are taken for the same")
	}
}
