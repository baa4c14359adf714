package stand

import "testing"

// TestByHand: 100 kg on a square of 1 m, pushed with 200 N at 1.2 m: 980.665 N times
// 0.5 m is 490.3 N m, 200 N times 1.2 m is 240 N m, the factor 2.043 (by hand).
func TestByHand(t *testing.T) {
	tip := Tipping{Edges: []Edge{{Lever: 600}, {Lever: 500}, {Lever: 700}}}
	h, ok := tip.ByHand(100, 200, 1200)
	if !ok || h.Edge != 1 || h.Overturning != 240e3 || h.Restoring < 490.3e3 || h.Restoring > 490.4e3 || h.Factor < 2.043 || h.Factor > 2.044 {
		t.Errorf("ByHand = %+v, %v", h, ok)
	}
	if _, ok := tip.ByHand(100, 0, 1200); ok {
		t.Error("a check without a push")
	}
}
