package cli

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// settle is how long a file must have been left alone before it is read again:
// editors save in several steps.
const settle = 60 * time.Millisecond

// watch does a piece of work once, and again each time that a file it was made
// from is saved, until the user ends it. What is wrong is reported each time; what
// was written before stays. It returns the status of the last time.
func (c *call) watch(file string, work func() (int, error)) (int, error) {
	if file == "-" {
		return statusWrong, misuse("save it as a file", "--watch cannot watch standard input")
	}
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return statusWrong, fmt.Errorf("--watch: %w", err)
	}
	defer w.Close()
	ctx, release := c.untilStopped()
	defer release()
	for {
		c.sources = nil
		status, err := guarded(work)
		if err != nil {
			status = c.fail(err)
		}
		files := append(c.sources, filepath.Clean(file))
		if err := follow(w, files); err != nil {
			return statusWrong, err
		}
		fmt.Fprintf(c.stderr, "\nwatching %s; press Ctrl-C to stop\n", printable(strings.Join(unique(files), ", ")))
		if !saved(ctx, w, files) {
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

// follow watches the folders of files: an editor may save by putting another
// file in the place of one.
func follow(w *fsnotify.Watcher, files []string) error {
	watched := w.WatchList()
	for _, f := range files {
		dir := filepath.Dir(f)
		if slices.Contains(watched, dir) {
			continue
		}
		if err := w.Add(dir); err != nil {
			return fmt.Errorf("--watch: the folder %s: %w", dir, err)
		}
		watched = append(watched, dir)
	}
	return nil
}

// unique returns each name once, in the order of the alphabet.
func unique(names []string) []string {
	names = slices.Clone(names)
	slices.Sort(names)
	return slices.Compact(names)
}

// saved waits until one of the files has been saved and left alone for a moment.
// It reports false when the user ends the waiting.
func saved(ctx context.Context, w *fsnotify.Watcher, files []string) bool {
	var after <-chan time.Time
	for {
		select {
		case <-ctx.Done():
			return false
		case e, open := <-w.Events:
			if !open {
				return false
			}
			if !e.Has(fsnotify.Chmod) && slices.Contains(files, filepath.Clean(e.Name)) {
				after = time.After(settle)
			}
		case err, open := <-w.Errors:
			if !open {
				return false
			}
			// Too many events to be reported one by one: something was saved.
			if errors.Is(err, fsnotify.ErrEventOverflow) {
				after = time.After(settle)
			}
		case <-after:
			return true
		}
	}
}
