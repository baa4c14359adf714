package words

import "testing"

func TestNames(t *testing.T) {
	for _, tt := range []struct {
		names []string
		want  string
	}{
		{nil, ""},
		{[]string{"mast", "moon"}, "mast, moon"},
		{[]string{"a[1]", "a[2]"}, "a[1], a[2]"},
		{[]string{"a[1]", "a[2]", "a[3]", "b"}, "a[1] to a[3], b"},
		{[]string{"a[1]", "a[3]", "a[4]", "a[5]"}, "a[1], a[3] to a[5]"},
		{[]string{"a[1] pole", "a[2] pole", "a[3] pole"}, "a[1] to a[3] pole"},
		// Each arm with its bud.
		{[]string{"mast", "arm[0]", "bud[0]", "arm[1]", "bud[1]", "arm[2]", "bud[2]", "tip"}, "mast, arm[0] to arm[2], bud[0] to bud[2], tip"},
	} {
		if got := Names(tt.names); got != tt.want {
			t.Errorf("%v: %q, want %q", tt.names, got, tt.want)
		}
	}
}
