package strength

import (
	"math"
	"testing"

	"stabile/param/design"
)

// TestFiller: the weld of aluminium is as strong as its filler at most, 11.5 ksi / 1.95.
func TestFiller(t *testing.T) {
	steel := &design.Metal{Alloy: "low-carbon-steel"}
	aluminium := &design.Metal{Alloy: "aluminium-6061"}
	bronze := &design.Metal{Alloy: "silicon-bronze"}
	for _, tt := range []struct {
		a, b *design.Metal
		want float64
	}{
		{steel, nil, 144.6}, {steel, steel, 144.6}, {aluminium, aluminium, 40.67}, {bronze, steel, 103.5},
	} {
		if got := fillerStress(tt.a, tt.b); math.Abs(got-tt.want) > 0.05 {
			t.Errorf("%v MPa, want %v", got, tt.want)
		}
	}
}
