package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"path"
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
	files, home, dir, err := c.locate(file, ch)
	if err != nil {
		return nil, nil, err
	}
	defer home.Close()
	once := &readOnce{open: files.Open}
	o.Set, o.Variation = ch.set, ch.variation
	if ch.outside {
		beyond := &readOnce{open: home.outside}
		o.Outside = beyond.Open
	}
	s := &study.Study{Options: o, Load: func(o param.Options) (*design.Design, error) {
		d, err := param.Load(once, files.name, o)
		if err != nil {
			return nil, placed(err, dir)
		}
		return d, nil
	}}
	// The first reading opens all files that there are to be read.
	d, err := s.Load(o)
	return s, d, err
}

// readOnce is files that are read when they are first opened, and kept, so that
// thousands of variations need read no more and are all of the same text.
type readOnce struct {
	open func(name string) (fs.File, error)
	mu   sync.Mutex
	kept map[string]kept
}

type kept struct {
	text string
	err  error
}

// Open opens a file as it was when it was first read.
func (r *readOnce) Open(name string) (fs.File, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	k, ok := r.kept[name]
	if !ok {
		k = r.read(name)
		if r.kept == nil {
			r.kept = map[string]kept{}
		}
		r.kept[name] = k
	}
	if k.err != nil {
		return nil, k.err
	}
	return withText{name: path.Base(name), text: k.text}.Open(path.Base(name))
}

func (r *readOnce) read(name string) kept {
	f, err := r.open(name)
	if err != nil {
		return kept{err: err}
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return kept{err: err}
	case info.Size() > param.MaxSource:
		return kept{text: string(make([]byte, param.MaxSource+1))} // told as too large by whoever reads it
	}
	text, err := io.ReadAll(io.LimitReader(f, param.MaxSource+1))
	return kept{text: string(text), err: err}
}

// roomy is how far the heap may grow, in percent of what is in use, before it is
// swept: far, since each variation leaves a megabyte that is of no more use, and
// little is kept.
const roomy = 2000

// errStopped tells that the user stopped the work.
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
		fmt.Fprintf(c.stderr, "\r%d of %d", k, n)
	}
	return func() {
		if drawn {
			fmt.Fprint(c.stderr, "\r\x1b[K")
		}
	}
}
