package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/strength"
	"stabile/fab/study"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/contact"
	"stabile/render/ink"
	"stabile/render/list"
	"stabile/render/report"
	"stabile/render/terminal"
	"stabile/render/words"
)

// always is a condition that every design meets.
const always = "weight >= 0 kg"

// figures are those of a design that a document of it or of a study has.
type figures struct {
	mass, height      float64 // kg, mm
	tipping, strength *float64
	written           []string // as tables and contact sheets write them
}

// figuresOf takes from a job the figures that outputs of it must have.
func figuresOf(j *fab.Job) figures {
	w := words.In(j.Design.Units)
	f := figures{mass: report.Rounded(j.Mass.Total), height: report.Rounded(j.Size.Height)}
	f.written = []string{w.Weight(j.Mass.Total), w.Long(j.Size.Height)}
	if t := j.Tipping; t != nil && t.Loaded && len(t.Edges) > 0 {
		x := report.Rounded(t.Factor)
		f.tipping = &x
		f.written = append(f.written, words.Factor(t.Factor))
	}
	if q, why := j.Result("strength"); why == nil {
		x := report.Rounded(q.Number)
		f.strength = &x
		f.written = append(f.written, words.Use(q.Number))
	}
	return f
}

// unadvised returns findings without what is worked out of cures for posts over their
// limit: a report has that, a study has not, and those that then say the same are one.
func unadvised(list []finding.Finding) []finding.Finding {
	plain := slices.Clone(list)
	for i := range plain {
		if f, ok := plain[i].Fact.(strength.OverLimit); ok {
			f.Advice, f.Cures = strength.NoAdvice, nil
			plain[i].Fact = f
		}
	}
	return finding.Gather(plain)
}

// sameOfStudy holds a study of a design with nothing changed, and a search for a value
// that changes nothing, to the design's own job.
func sameOfStudy(t *testing.T, load func(param.Options) (*design.Design, error), j *fab.Job, drawn bool, of string) {
	t.Helper()
	s := &study.Study{Load: load, Options: param.Options{
		Sweep: []string{"probe"},
		Ask: []param.Question{
			{From: "CONDITION", Text: always, Condition: true},
			{From: "--plot", Text: "weight"}, {From: "--plot", Text: "height"},
		},
	}}
	d, err := load(s.Options)
	require.NoError(t, err, of)
	sweep := d.Sweeps[0]
	sweep.To, sweep.Count = sweep.From, 1
	sol, err := s.Solve(context.Background(), d, study.Problem{Sweep: sweep})
	require.NoError(t, err, of)
	w, want := words.In(d.Units), figuresOf(j)
	last := w.LastWord(j)
	grave := w.Named(slices.DeleteFunc(unadvised(j.Findings), func(f finding.Finding) bool { return !f.Level.Fails() }))

	// The result, and the document of a study and of a search.
	r := &sol.Scanned[0]
	require.NoError(t, r.Err, of)
	require.Equal(t, last, w.Verdict(r.Verdict, r.Reasons), of)
	alone, err := s.Job(r.Trial, 0)
	require.NoError(t, err)
	require.Equal(t, verdicts(j.Checks), verdicts(alone.Checks), of)
	var studied, searched bytes.Buffer
	require.NoError(t, report.OfVariations(d, 1, nil, "", sol.Scanned).WriteJSON(&studied))
	require.NoError(t, report.OfSolution(d, sol, always, false).WriteJSON(&searched))
	var variations report.Variations
	var solution report.Solution
	require.NoError(t, json.Unmarshal(studied.Bytes(), &variations))
	require.NoError(t, json.Unmarshal(searched.Bytes(), &solution))
	require.True(t, solution.Found, of)
	for _, got := range []*report.Trial{&variations.Results[0], solution.Trial} {
		require.Equal(t, []string{string(j.Verdict), last}, []string{got.Verdict, got.VerdictText}, of)
		require.Len(t, got.Grave, len(grave), of)
		for i, g := range got.Grave {
			// A report works out cures as well, and adds them.
			more, ok := strings.CutPrefix(grave[i], g)
			require.True(t, ok && (more == "" || strings.HasPrefix(more, "; ")), "%q for %q, of %s", g, grave[i], of)
		}
		require.Equal(t, want.mass, got.Mass.Total, of)
		require.Equal(t, want.height, got.Size.Height, of)
		require.Equal(t, want.tipping, got.Tipping, of)
		require.Equal(t, want.strength, got.Strength, of)
	}

	// The tables of a study, and the answer of a search.
	var row strings.Builder
	require.NoError(t, list.CSV(&row, list.Variations(sol.Scanned, d.Units)))
	require.Contains(t, bare(row.String()), bare(strings.ReplaceAll(last, `"`, `""`)), of)
	for _, g := range variations.Results[0].Grave {
		require.Contains(t, row.String(), strings.ReplaceAll(g, `"`, `""`), of)
	}
	var table, answer bytes.Buffer
	shown := terminal.Variations{Design: d, Tried: 1, Kept: 1, Results: sol.Scanned}
	require.NoError(t, shown.Write(&table, terminal.Style{}))
	found := terminal.Solution{Solution: sol, Name: sweep.Name, Condition: always, Units: d.Units}
	require.NoError(t, found.Write(&answer, terminal.Style{}))
	require.Contains(t, bare(table.String()), bare(last), of)
	inOrder(t, bare(table.String()), append(want.inTable(), last), of)
	inOrder(t, bare(answer.String()), []string{"(" + want.written[0] + ")", "weighs " + want.written[0], last}, of)
	require.Equal(t, j.Verdict == check.Fails, strings.Contains(bare(answer.String()), "the design then fails"), of)
	if !drawn {
		return
	}
	sameOnContact(t, s, d, r, j, of)
	sameOnPlot(t, d, sol.Scanned, j, of)
}

// inTable returns figures in the order of the terminal's table of variations.
func (f *figures) inTable() []string {
	return append(append([]string{f.written[0]}, f.written[2:]...), f.written[1])
}

// sameOnContact holds the contact sheet of a result to the design's own job.
func sameOnContact(t *testing.T, s *study.Study, d *design.Design, r *study.Result, j *fab.Job, of string) {
	t.Helper()
	planned, err := s.Job(r.Trial, fab.WithPlan)
	require.NoError(t, err, of)
	require.Equal(t, j.Checks, planned.Checks, of)
	sheets, err := contact.Sheets(d, []contact.Entry{{Result: study.Of(r.Trial, 1, planned), Job: planned}}, contact.Options{})
	require.NoError(t, err, of)
	text, w := sheetText(sheets), words.In(d.Units)
	for _, figure := range figuresOf(j).written {
		require.Contains(t, text, letters(figure), of)
	}
	// What has no room ends at a word with the sign for more.
	last := letters(w.LastWord(j))
	at := strings.Index(text, last[:10])
	require.GreaterOrEqual(t, at, 0, of)
	shown, _, cut := strings.Cut(text[at:], "…")
	require.True(t, strings.HasPrefix(shown, last) || cut && strings.HasPrefix(last, shown), "%q is shown as %q, of %s", last, shown, of)
}

// sameOnPlot reads the one point of a plot of height against weight off its scales,
// and holds it and its mark to the design's own job.
func sameOnPlot(t *testing.T, d *design.Design, results []study.Result, j *fab.Job, of string) {
	t.Helper()
	sheet, err := contact.Plot(d, results, contact.NewAxis(d, 1), contact.NewAxis(d, 2), contact.Options{})
	require.NoError(t, err, of)
	lines := map[ink.Anchor]map[float64]*ruled{ink.Middle: {}, ink.End: {}} // by the line that they stand on
	for _, item := range sheet.Items {
		if x, ok := item.(*ink.Text); ok {
			n, err := strconv.ParseFloat(x.Text, 64)
			if along, across := x.At.X, x.At.Y; err == nil && lines[x.Anchor] != nil {
				if x.Anchor == ink.End {
					along, across = x.At.Y+x.Height/2, x.At.X
				}
				if lines[x.Anchor][across] == nil {
					lines[x.Anchor][across] = &ruled{}
				}
				lines[x.Anchor][across].add(along, n)
			}
		}
	}
	level, upright := longest(lines[ink.Middle]), longest(lines[ink.End])
	var frame *ink.Stroke // of the plot: the least about its numbers
	for _, item := range sheet.Items {
		x, ok := item.(*ink.Stroke)
		if !ok || !x.Closed || len(x.Path) != 4 || !level.within(x.Path[0].X, x.Path[2].X) || !upright.within(x.Path[0].Y, x.Path[2].Y) {
			continue
		}
		if frame == nil || x.Path[2].X-x.Path[0].X < frame.Path[2].X-frame.Path[0].X {
			frame = x
		}
	}
	require.NotNil(t, frame, of)
	// A single point lies in the middle.
	x, y := (frame.Path[0].X+frame.Path[2].X)/2, (frame.Path[0].Y+frame.Path[2].Y)/2
	length, mass := 1.0, 1.0
	if d.Units == quantity.Inch {
		length, mass = 25.4, 0.45359237
	}
	require.InEpsilon(t, j.Mass.Total/mass, level.read(x), 1e-6, of)
	require.InEpsilon(t, j.Size.Height/length, upright.read(y), 1e-6, of)
	require.Equal(t, j.Verdict, markAt(sheet, x, y), of)
}

// A ruled is a scale as its numbers are written along it.
type ruled struct{ at, n []float64 }

func (r *ruled) add(at, n float64) { r.at, r.n = append(r.at, at), append(r.n, n) }

// longest returns the scale with the most numbers.
func longest(list map[float64]*ruled) *ruled {
	best := &ruled{}
	for _, r := range list {
		if len(r.at) > len(best.at) {
			best = r
		}
	}
	return best
}

// within reports whether the numbers lie between two places.
func (r *ruled) within(from, to float64) bool {
	for _, at := range r.at {
		if at < from || at > to {
			return false
		}
	}
	return len(r.at) > 1
}

// read returns the number at a place.
func (r *ruled) read(at float64) float64 {
	last := len(r.at) - 1
	return r.n[0] + (at-r.at[0])/(r.at[last]-r.at[0])*(r.n[last]-r.n[0])
}

// markAt returns the verdict that the mark at a place of a plot stands for.
func markAt(sheet *ink.Sheet, x, y float64) check.Verdict {
	here := func(px, py float64) bool { return math.Hypot(px-x, py-y) < 1e-6 }
	for _, item := range sheet.Items {
		switch mark := item.(type) {
		case *ink.Fill: // a full point, a regular polygon
			if a, b := mark.Path[0], mark.Path[len(mark.Path)/2]; here((a.X+b.X)/2, (a.Y+b.Y)/2) {
				return check.Holds
			}
		case *ink.Stroke:
			if len(mark.Path) == 2 && here((mark.Path[0].X+mark.Path[1].X)/2, (mark.Path[0].Y+mark.Path[1].Y)/2) {
				return check.Fails
			}
		case *ink.Arc:
			if mark.Whole() && here(mark.Center.X, mark.Center.Y) {
				return check.Undecided
			}
		}
	}
	return ""
}

// copied returns a file system in memory with the files of another.
func copied(t *testing.T, from fs.FS) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(from, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := fs.ReadFile(from, name)
		out[name] = &fstest.MapFile{Data: data}
		return err
	}))
	return out
}
