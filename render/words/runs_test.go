package words

import "testing"

func TestRuns(t *testing.T) {
	for _, tt := range []struct {
		numbers []int
		want    string
	}{
		{[]int{4}, "4"},
		{[]int{1, 2}, "1, 2"},
		{[]int{1, 2, 3}, "1 to 3"},
		{[]int{1, 2, 3, 11, 12}, "1 to 3, 11, 12"},
		{[]int{2, 4, 5, 6, 7, 9}, "2, 4 to 7, 9"},
	} {
		if got := Runs(tt.numbers); got != tt.want {
			t.Errorf("Runs(%v) = %q, want %q", tt.numbers, got, tt.want)
		}
	}
}
