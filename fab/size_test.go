package fab

import (
	"math"
	"testing"
)

func TestHeight(t *testing.T) {
	// An open leaning head reaches as far as its circle.
	j := build(t, shop+"post a on pad { at (0, 0), diameter 100, length 500, lean 30 deg toward 0 deg, head open, metal skin }")
	if want := 10 + 500*math.Cos(math.Pi/6) + 50*math.Sin(math.Pi/6); math.Abs(j.Size.Height-want) > 1e-9 {
		t.Errorf("height %v, want %v", j.Size.Height, want)
	}
}
