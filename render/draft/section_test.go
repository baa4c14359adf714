package draft_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/internal/sample"
)

// The mast of the stack is 127 mm across and leans 6 deg: its section at a fifth
// of its size is a ring 25.4 mm across about a point of its axis, which the narrow
// line touches from within. Where all along the mast is taken there is none.
func TestSection(t *testing.T) {
	j := sample.Job(sample.Stack(quantity.Millimetre))
	s := draft.NewScene(j.Parts)
	mast := j.Parts[1].Post
	v := draft.View{Projection: draft.Front, Scale: 0.2, Origin: r2.Vec{X: 150, Y: 20}}
	area := r2.Box{Max: r2.Vec{X: 300, Y: 400}}

	for _, tt := range []struct {
		name    string
		wall    float64
		rings   int
		prepare func(d *draft.Drawing)
		want    bool
	}{
		{"thin wall", 1.2, 1, func(d *draft.Drawing) { d.Picture(s, v, false) }, true},
		{"thick wall", 12, 2, func(d *draft.Drawing) { d.Picture(s, v, false) }, true},
		{"taken", 1.2, 0, func(d *draft.Drawing) {
			d.Reserve(r2.Box{Min: v.At(r3.Vec{X: -300}), Max: v.At(r3.Vec{X: 300, Z: 1500})})
		}, false},
	} {
		d := draft.New(draft.Millimetre(), area)
		tt.prepare(d)
		before := len(d.Items)
		if got := d.Section(s, v, 1, tt.wall); got != tt.want {
			t.Errorf("%s: Section = %v, want %v", tt.name, got, tt.want)
			continue
		}
		rings := 0
		for _, item := range d.Items[before:] {
			a, ok := item.(*ink.Arc)
			if !ok {
				continue
			}
			rings++
			if a.Line != ink.Thin {
				t.Errorf("%s: a revolved section in %v lines", tt.name, a.Line)
			}
			foot, along := v.At(mast.Ends[design.Foot].At), r2.Unit(r2.Sub(v.At(mast.Ends[design.Head].At), v.At(mast.Ends[design.Foot].At)))
			if off := math.Abs(r2.Cross(along, r2.Sub(a.Center, foot))); off > 1e-9 {
				t.Errorf("%s: the section stands %v mm off the axis", tt.name, off)
			}
			outer := 12.7
			switch {
			case tt.rings == 1:
				outer -= a.Line.Width() / 2
			case rings == 2:
				outer -= tt.wall * v.Scale
			}
			if math.Abs(a.Radius-outer) > 1e-9 {
				t.Errorf("%s: a ring of radius %v, want %v", tt.name, a.Radius, outer)
			}
		}
		if rings != tt.rings {
			t.Errorf("%s: %d rings, want %d", tt.name, rings, tt.rings)
		}
	}
	d := draft.New(draft.Millimetre(), area)
	if d.Section(s, v, 2, 1.2) {
		t.Error("a ball has a section")
	}
}
