package pack_test

import (
	"testing"

	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/internal/sample"
	"stabile/render/pack"
	"stabile/render/sheet"
)

// Work in millimetres has the plan under the front elevation and the left side
// elevation to its right; in inches the plan stands over it and the right side
// elevation to its right (ISO 5456-2).
func TestProjectionByUnits(t *testing.T) {
	tabloid, _ := sheet.LookupPaper("tabloid")
	for _, tt := range []struct {
		name    string
		units   quantity.System
		options pack.Options
		first   bool
	}{
		{"mm", quantity.Millimetre, pack.Options{}, true},
		{"inch", quantity.Inch, pack.Options{}, false},
		{"mm on ANSI paper", quantity.Millimetre, pack.Options{Arrangement: tabloid}, true},
	} {
		titles := map[string]*ink.Text{}
		for _, item := range pack.Sheets(sample.Job(sample.Stack(tt.units)), tt.options)[0].Items {
			if x, ok := item.(*ink.Text); ok {
				titles[x.Text] = x
			}
		}
		front, plan := titles["Front elevation"], titles["Plan"]
		side, other := titles["Right side elevation"], titles["Left side elevation"]
		if tt.first {
			side, other = other, side
		}
		if front == nil || plan == nil || side == nil || other != nil {
			t.Errorf("%s: the views are %v, %v, %v and %v", tt.name, front, plan, side, other)
			continue
		}
		if under := plan.At.Y < front.At.Y; under != tt.first || side.At.X <= front.At.X {
			t.Errorf("%s: the plan stands at %v, the front at %v, the side at %v", tt.name, plan.At, front.At, side.At)
		}
	}
}
