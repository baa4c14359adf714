package estimate

import (
	"fmt"
	"testing"
)

// BenchmarkMake estimates a sculpture and compares thirty posts with pipe.
func BenchmarkMake(b *testing.B) {
	in := full()
	tubes := make([]Tube, 30)
	for i := range tubes {
		tubes[i] = Tube{Part: fmt.Sprint(i), Outside: 30 + 5*float64(i), Length: 500, Mass: 1}
	}
	for b.Loop() {
		Make(in)
		Compare(tubes, 2)
	}
}
