package golden

import "testing"

func TestDiffer(t *testing.T) {
	for _, tt := range []struct {
		a, b   string
		n      int
		inA, B string
	}{
		{"one\ntwo\n", "one\ntwo\n", 0, "", ""},
		{"one\ntwo\n", "one\ntoo\n", 2, "two\n", "too\n"},
		{"one\n", "one\ntwo\n", 2, "", "two\n"},
		{"one", "one\n", 1, "one", "one\n"},
		{"", "one", 1, "", "one"},
	} {
		if n, a, b := differ(tt.a, tt.b); n != tt.n || a != tt.inA || b != tt.B {
			t.Errorf("differ(%q, %q) = %d, %q, %q, want %d, %q, %q", tt.a, tt.b, n, a, b, tt.n, tt.inA, tt.B)
		}
	}
}
