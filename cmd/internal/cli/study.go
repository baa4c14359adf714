package cli

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"runtime/debug"
	"sync"
	"time"

	"stabile/fab/study"
	"stabile/param"
	"stabile/param/design"
)

// study opens a design to be tried with other values. What it reads is read
// once; the options are those of the choice, with what the caller asks.
func (c *call) study(file string, ch choice, o param.Options) (*study.Study, *design.Design, error) {
	debug.SetGCPercent(roomy)
	debug.SetMemoryLimit(roof)
	files, home, dir, err := c.locate(file, ch)
	if err != nil {
		return nil, nil, err
	}
	defer home.Close()
	o.Set, o.Variation = ch.set, ch.variation
	if ch.outside {
		o.Outside = home.outside
	}
	text, err := readText(files, dir, o)
	if err != nil {
		return nil, nil, err
	}
	d, err := text.Design(o)
	return &study.Study{Options: o, Load: text.Design}, d, err
}

// roomy is how far the heap may grow, in percent of what is in use, before it is
// swept: far, since each variation leaves a megabyte that is of no more use, and
// little is kept.
const roomy = 2000

// roof is where the heap is swept however little is in use, in bytes.
const roof = 320 << 20

// errStopped reports that the user stopped the work.
var errStopped = errors.New("stopped; nothing was written")

// interruptible returns a context that the user ends with Ctrl-C.
func interruptible() (context.Context, context.CancelFunc) {
	return signal.NotifyContext(context.Background(), os.Interrupt)
}

// stopped returns the error of work that a context ended in words.
func stopped(err error) error {
	if errors.Is(err, context.Canceled) {
		return errStopped
	}
	return err
}

// patience is how long work goes on before its progress is shown.
const patience = time.Second

// showProgress shows on a terminal how many of n things are done, once they take
// long. The function that it returns takes the line away again.
func (c *call) showProgress(s *study.Study, n int) (done func()) {
	if !isTerminal(c.stderr) {
		return func() {}
	}
	var mu sync.Mutex
	start, shown := time.Now(), time.Time{}
	drawn := false
	s.Progress = func(k int) {
		mu.Lock()
		defer mu.Unlock()
		now := time.Now()
		if now.Sub(start) < patience || now.Sub(shown) < patience/10 {
			return
		}
		shown, drawn = now, true
		left := time.Duration(float64(now.Sub(start)) / float64(k) * float64(n-k))
		fmt.Fprintf(c.stderr, "\r%d of %d, about %s left\x1b[K", k, n, left.Round(time.Second))
	}
	return func() {
		if drawn {
			fmt.Fprint(c.stderr, "\r\x1b[K")
		}
	}
}
