package cli

import (
	"context"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// Files that are watched are looked at every glance. Editors save in several steps, so
// a file is read again when two glances have found it alike, or when that has not
// happened for a longer time. Looking finds what a report of the system does
// not: a folder that was made again, a link's target, a folder on another machine.
const (
	glance  = 80 * time.Millisecond
	patient = 600 * time.Millisecond
)

// A stamp is what tells one state of a file from another, through links.
type stamp struct {
	there bool
	size  int64
	mode  fs.FileMode
	when  time.Time
}

func stampOf(path string) stamp {
	info, err := os.Stat(path)
	if err != nil {
		return stamp{}
	}
	return stamp{true, info.Size(), info.Mode(), info.ModTime()}
}

// reads notes that a file is read, as it is now.
func (c *call) reads(path string) {
	path = filepath.Clean(path)
	if _, noted := c.sources[path]; noted {
		return
	}
	if c.sources == nil {
		c.sources = map[string]stamp{}
	}
	c.sources[path] = stampOf(path)
}

// watch does a piece of work once, and again each time that a file it was made
// from is saved, until the user ends it. What is wrong is reported each time; what
// was written before stays. It returns the status of the last time.
func (c *call) watch(file string, work func() (int, error)) (int, error) {
	if file == "-" {
		return statusWrong, misuse("save it as a file", "--watch cannot watch standard input")
	}
	ctx, release := c.untilStopped()
	defer release()
	for {
		c.sources = nil
		c.reads(file)
		status, err := guarded(work)
		if ctx.Err() != nil {
			return status, err
		}
		if err != nil {
			status = c.fail(err)
		}
		names := slices.Sorted(maps.Keys(c.sources))
		fmt.Fprintf(c.stderr, "\nwatching %s; press Ctrl-C to stop\n", printable(strings.Join(names, ", ")))
		if !saved(ctx, c.sources) {
			return status, nil
		}
		fmt.Fprintf(c.stderr, "\n")
	}
}

// untilStopped returns a context that Ctrl-C ends.
func (c *call) untilStopped() (context.Context, context.CancelFunc) {
	if c.stop != nil {
		return context.WithCancel(c.stop)
	}
	return interruptible()
}

// saved waits until one of the files is no more as it was. It reports false when the
// user ends the waiting.
func saved(ctx context.Context, was map[string]stamp) bool {
	ticks := time.NewTicker(glance)
	defer ticks.Stop()
	last := was
	var since time.Time // of the first glance at something else; zero before it
	for {
		select {
		case <-ctx.Done():
			return false
		case now := <-ticks.C:
			is := make(map[string]stamp, len(was))
			for path := range was {
				is[path] = stampOf(path)
			}
			switch {
			case maps.Equal(is, was):
				since = time.Time{}
			case since.IsZero():
				since = now
			case maps.Equal(is, last), now.Sub(since) > patient:
				return true
			}
			last = is
		}
	}
}
