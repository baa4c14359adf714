package workers

import (
	"strings"
	"sync/atomic"
	"testing"
)

func TestDo(t *testing.T) {
	var n atomic.Int64
	Do(7, func() { n.Add(1) })
	if got := n.Load(); got != 7 {
		t.Errorf("the work was done %d times, want 7", got)
	}
}

// TestEach: each number is taken once, with none too.
func TestEach(t *testing.T) {
	for _, n := range []int{0, 1, 1000} {
		times := make([]atomic.Int64, n)
		Each(n, func(i int) { times[i].Add(1) })
		for i := range times {
			if got := times[i].Load(); got != 1 {
				t.Errorf("of %d, number %d was taken %d times, want once", n, i, got)
			}
		}
	}
}

// TestDoPanics recovers from the panic of a worker, with its stack, once all
// others are done.
func TestDoPanics(t *testing.T) {
	var n, done atomic.Int64
	defer func() {
		p, ok := recover().(*Panic)
		if !ok || p.Error() != "broken" || !strings.Contains(string(p.Stack), "workers_test.go") {
			t.Errorf("recovered %+v", p)
		}
		if done.Load() != 3 {
			t.Errorf("%d others were done, want 3", done.Load())
		}
	}()
	Do(4, func() {
		if n.Add(1) == 1 {
			panic("broken")
		}
		done.Add(1)
	})
	t.Error("no panic")
}
