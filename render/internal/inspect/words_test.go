package inspect

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/sheet"
)

// TestPlantedWords: each kind of bad writing is found where it is planted, in the model and,
// but for broken words, as written; and writing like it that is sound is not.
func TestPlantedWords(t *testing.T) {
	at := func(x, y float64, words string) *ink.Text {
		return &ink.Text{Text: words, At: r2.Vec{X: x, Y: y}, Height: 2.5}
	}
	next := 100 - sheet.LineHeight(2.5)
	for _, tt := range []struct {
		name  string
		kind  Kind
		bad   []*ink.Text
		sound []*ink.Text
	}{
		{"not a number", Garbled, []*ink.Text{at(200, 100, "NaN mm")}, []*ink.Text{at(200, 100, "Nan, 3 mm")}},
		{"a format's verb", Garbled, []*ink.Text{at(200, 100, "weight %!d")}, []*ink.Text{at(200, 100, "100 % of it")}},
		{"a unit twice", Garbled, []*ink.Text{at(200, 100, "sways 0.044 in in wind")}, []*ink.Text{at(200, 100, "48 ft in all"), at(200, 80, "ice 1/4 in in the site")}},
		{"a fraction", BrokenWord, []*ink.Text{at(200, 100, "3-17/"), at(200, next, "32")}, []*ink.Text{at(200, 100, "19/32 /"), at(200, next, "32")}},
		{"a mixed number", BrokenWord, []*ink.Text{at(200, 100, "Ø 3-"), at(200, next, "17/32")}, []*ink.Text{at(200, 100, "Ø –"), at(200, next, "17/32")}},
		{"a word", BrokenWord, []*ink.Text{at(200, 100, "Piec"), at(200, next, "e"), at(300, 100, "Piece")}, []*ink.Text{at(200, 100, "Piece"), at(200, next, "of")}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			with := func(texts []*ink.Text) (Report, Report) {
				s := sound(t)
				for _, it := range texts {
					s.Items = append(s.Items, it)
				}
				return found(t, s)
			}
			model, written := with(tt.bad)
			if model.Count(tt.kind) == 0 || written.Count(tt.kind) == 0 && tt.kind != BrokenWord {
				t.Errorf("found %d times in the model and %d as written, want it in both", model.Count(tt.kind), written.Count(tt.kind))
			}
			if model, written = with(tt.sound); model.Count(tt.kind)+written.Count(tt.kind) > 0 {
				t.Errorf("found in what is sound: %v %v", model.Faults, written.Faults)
			}
		})
	}
}

// TestCutShort: a word that is cut is found, and a sign that there is more is not.
func TestCutShort(t *testing.T) {
	s := sound(t)
	s.Items = append(s.Items,
		&ink.Text{Text: "under p…", At: r2.Vec{X: 200, Y: 100}, Height: 2.5},
		&ink.Text{Text: "there is more …", At: r2.Vec{X: 200, Y: 80}, Height: 2.5})
	if r := Model(s); len(r.CutShort) != 1 || r.CutShort[0] != "under p…" {
		t.Errorf("cut short: %q, want the first alone", r.CutShort)
	}
}

// TestThin: a sheet with a line of writing is thin, one with writing down to its block is
// not.
func TestThin(t *testing.T) {
	for _, tt := range []struct {
		lines int
		want  bool
	}{{2, true}, {12, true}, {40, false}} {
		a4, ok := sheet.LookupPaper("A4")
		if !ok {
			t.Fatal("no A4")
		}
		p := sheet.NewPage(a4.Portrait(), "trial-01", sheet.Block{Title: "Trial", Document: "Trial", Strip: true})
		f := sheet.NewFlow(func() (*ink.Sheet, r2.Box) { return p.Sheet, p.Free })
		for range tt.lines {
			f.Paragraph("Lay the sheet as drawn.")
		}
		r := Model(sheet.Finish([]*sheet.Page{p})[0])
		if got := len(r.Thin) == 1; got != tt.want {
			t.Errorf("%d lines: thin %v, want %v", tt.lines, got, tt.want)
		}
	}
}
