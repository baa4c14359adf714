package draft_test

import (
	"os"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/internal/sample"
	"stabile/render/vector"
)

func TestLook(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip()
	}
	for _, c := range []struct {
		name  string
		parts int
	}{{"a", 0}, {"b", 14}} {
		d := sample.Stack(quantity.Inch)
		if c.parts > 0 {
			d = sample.Random(5, c.parts, quantity.Millimetre)
		}
		parts := sample.Job(d).Parts
		sc := draft.NewScene(parts)
		dr := draft.New(draft.Inch(), r2.Box{Max: r2.Vec{X: 420, Y: 297}})
		for i, v := range []draft.View{{draft.Front, 0.1, r2.Vec{X: 100, Y: 30}}, {draft.Side, 0.1, r2.Vec{X: 260, Y: 30}}, {draft.Plan, 0.1, r2.Vec{X: 100, Y: 240}}} {
			_ = i
			dr.Picture(sc, v, v.Projection == draft.Plan)
		}
		s := &ink.Sheet{Name: c.name, Width: 420, Height: 297}
		s.Add(dr.Items...)
		b, err := vector.SVG(s)
		if err != nil {
			t.Fatal(err)
		}
		os.WriteFile(dir+"/"+c.name+".svg", b, 0o644)
		b, err = vector.PDF([]*ink.Sheet{s}, vector.Info{})
		if err != nil {
			t.Fatal(err)
		}
		os.WriteFile(dir+"/"+c.name+".pdf", b, 0o644)
	}
}
