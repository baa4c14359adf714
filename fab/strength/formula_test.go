package strength

import "testing"

// TestShare: shares that AISC 360 writes as fractions are written as such, (H1-1a) and
// (E7-7).
func TestShare(t *testing.T) {
	for _, tt := range []struct {
		x    float64
		want string
	}{{bendingShare, "8/9"}, {areaLeast, "2/3"}, {0.5, "1/2"}, {0.038, "0.038"}} {
		if got := share(tt.x); got != tt.want {
			t.Errorf("share(%v) = %q, want %q", tt.x, got, tt.want)
		}
	}
}
