package flat

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"

	"stabile/param"
	"stabile/param/design"
	"stabile/param/sample"
	"stabile/param/source"
	"stabile/param/written"
)

// Blanks that no mark is wanted on are as with them, but for the lines on balls that
// only marks are made from.
func TestUnmarked(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 1))
	sound, cut := 0, 0
	for range 400 {
		d, wrong := param.Evaluate(source.NewFile("random.stabile", sample.Text(r)), param.Options{})
		if len(wrong) > 0 {
			continue
		}
		for _, p := range d.Parts {
			if b := p.Ball; b != nil && b.Build != design.Bought && r.IntN(2) == 0 {
				b.Vent = 6
				cut++
			}
		}
		want, wrong := All(d)
		got, others := Unmarked(d)
		if len(wrong) != len(others) {
			t.Fatalf("%d parts cannot be made, and %d without marks", len(wrong), len(others))
		}
		if len(wrong) > 0 {
			continue
		}
		sound++
		for i, p := range d.Parts {
			for k := range want[i].Toes {
				if p.Post == nil || p.Post.Ends[k].Meets == design.OnBall {
					want[i].Toes[k], got[i].Toes[k] = nil, nil
				}
			}
			want[i].Body, got[i].Body = nil, nil
			if !reflect.DeepEqual(want[i], got[i]) {
				t.Fatalf("%s is %+v, without marks %+v", p.Name, want[i], got[i])
			}
		}
	}
	if sound < 40 || cut < 10 {
		t.Errorf("%d designs are sound, %d balls cut open", sound, cut)
	}
}

// TestUnmarkedHoles: a hole that runs into a joint is reported with and without marks, in a
// bought ball too, which is not cut open otherwise.
func TestUnmarkedHoles(t *testing.T) {
	for _, built := range []string{"bought 4 kg", "gores 8"} {
		d := written.Design(t, written.Metric+`base pad { plate 900 by 900, metal slab }
ball moon on pad { diameter 300, `+built+`, metal skin }
post mast on moon { diameter 60, length 300, metal skin }
hole spot in moon { up 80 deg, toward 0 deg, diameter 20 }
`)
		_, want := All(d)
		_, got := Unmarked(d)
		if len(want) != 1 || fmt.Sprint(want.Err()) != fmt.Sprint(got.Err()) {
			t.Errorf("%s: %v, without marks %v", built, want.Err(), got.Err())
		}
	}
}
