package domain_test

import (
	"math"
	"testing"

	"stabile/fab/internal/domain"
)

func TestCheck(t *testing.T) {
	if err := domain.Check(domain.Length("wall", 1.5), domain.Distance("gap", 0)); err != nil {
		t.Error(err)
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 1e7} {
		if err := domain.Check(domain.Length("first", 1), domain.Length("wall", x)); err == nil {
			t.Errorf("a wall of %v passes", x)
		}
	}
	err := domain.Check(domain.Speed("wind", 500))
	if want := "wind of 500 is not within 0.1 to 300"; err == nil || err.Error() != want {
		t.Errorf("Check = %v, want %s", err, want)
	}
}
