// Package workers does work on several cores at a time.
package workers

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"
)

// A Panic is a panic of a worker as its caller sees it.
type Panic struct {
	Value any
	Stack []byte // of the worker
}

func (p *Panic) Error() string { return fmt.Sprint(p.Value) }

// Each does the work for each number below n, on all cores, the least begun first, and waits
// for all of it. It panics as Do does.
func Each(n int, work func(i int)) {
	var next atomic.Int64
	Do(min(runtime.GOMAXPROCS(0), n), func() {
		for {
			i := int(next.Add(1)) - 1
			if i >= n {
				return
			}
			work(i)
		}
	})
}

// Do lets n workers do the work and waits for all of them. Where one
// panics, Do panics with a *Panic once the others are done, so that whoever
// called it can recover: from a goroutine of its own a panic ends the program.
func Do(n int, work func()) {
	var group sync.WaitGroup
	var once sync.Once
	var broken *Panic
	for range n {
		group.Go(func() {
			defer func() {
				if v := recover(); v != nil {
					once.Do(func() { broken = &Panic{v, debug.Stack()} })
				}
			}()
			work()
		})
	}
	group.Wait()
	if broken != nil {
		panic(broken)
	}
}
