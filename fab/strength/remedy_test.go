package strength_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/frame/trial"
	"stabile/fab/strength"
	"stabile/param/design"
)

// TestRemedies holds that what a change is said to bring is what a design made
// with it comes to, and that the design asked about is left alone.
func TestRemedies(t *testing.T) {
	make := func(d, wall float64) (strength.Input, *design.Part) {
		b := trial.New(wall)
		b.Metal.Yield = 140
		plate := b.Plate(400, 400, 12)
		post := b.Stand("mast", plate, r3.Vec{Z: 12}, r3.Vec{Z: 1212}, d, d)
		ball := b.Ball("moon", r3.Vec{Z: 1350}, 140)
		post.Post.Ends[design.Head].Contact = design.Contact{Meets: design.OnBall, With: ball}
		b.Weigh(ball, 4)
		b.Design.Site = &design.Site{Push: 400, PushHeight: 1200}
		return strength.Input{Design: &b.Design, Items: b.Items(), Footprint: rectangle(400, 400)}, post
	}
	in, post := make(60, 1.2)
	before, err := strength.Check(in)
	require.NoError(t, err)
	ratio, _ := before.OfPart("mast")
	list, err := before.Remedies(in, post, 10)
	require.NoError(t, err)
	if ratio <= 1 || len(list) != 2 {
		t.Fatalf("ratio %v, remedies %+v", ratio, list)
	}
	for _, r := range list {
		d, wall := 60.0, 1.2
		if r.Thickness > 0 {
			wall = r.Thickness
		}
		if r.Diameter > 0 {
			d = r.Diameter
		}
		changed, _ := make(d, wall)
		// The metals of balls and plates are not changed with the post's.
		for i := range changed.Items {
			if changed.Items[i].Part.Post == nil {
				changed.Items[i].Mass = in.Items[i].Mass
				changed.Items[i].Part.Metal = in.Items[i].Part.Metal
			}
		}
		s, err := strength.Check(changed)
		require.NoError(t, err)
		if want, _ := s.OfPart("mast"); r.Ratio > 1 || !near(r.Ratio, want, 1e-9) {
			t.Errorf("%+v: made so, the ratio is %v", r, want)
		}
	}
	found, err := before.Advise(in)
	require.NoError(t, err)
	f := found[0]
	fact, ok := f.Fact.(strength.OverLimit)
	cures := []strength.Cure{
		{Gauge: list[0].Gauge, Thickness: list[0].Thickness, Ratio: list[0].Ratio}, {Diameter: list[1].Diameter, Ratio: list[1].Ratio},
	}
	if !ok || f.Level != finding.Danger || !slices.Equal(f.Parts, []string{"mast"}) || !fact.Weld || fact.Where != check.Foot || fact.Ratio != ratio ||
		fact.Case.Kind != check.Push || fact.Case.Part != "mast" || fact.Advice != strength.Advised || !slices.Equal(fact.Cures, cures) {
		t.Errorf("finding %+v", f)
	}
	// Of a piece of many parts it is not worked out, and said so.
	many := in
	for len(many.Items) <= 2400 {
		many.Items = append(many.Items, in.Items[0])
	}
	found, err = before.Advise(many)
	require.NoError(t, err)
	if fact := found[0].Fact.(strength.OverLimit); fact.Advice != strength.TooManyParts || fact.Cures != nil {
		t.Errorf("of many parts: %+v", fact)
	}
	again, err := strength.Check(in)
	require.NoError(t, err)
	if r, _ := again.OfPart("mast"); r != ratio || post.Metal.Thickness != 1.2 || post.Post.Ends[design.Foot].Diameter != 60 {
		t.Error("the design asked about was changed")
	}
}
