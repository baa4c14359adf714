package cli

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"syscall"
	"time"

	"github.com/spf13/pflag"

	"stabile/render/bench"
)

// bench opens the workbench in the browser, and serves it until the user ends it
// or its terminal is closed.
func (c *call) bench(args []string) (int, error) {
	flags := pflag.NewFlagSet("bench", pflag.ContinueOnError)
	var o bench.Options
	quiet := flags.Bool("no-open", false, "")
	port := flags.Int("port", 0, "")
	flags.BoolVar(&o.Sealed, "read-only", false, "")
	flags.BoolVar(&o.Outside, "allow-outside", false, "")
	flags.StringVar(&o.Date, "date", "", "")
	args, err := parse("bench", flags, args)
	if err != nil {
		return statusWrong, err
	}
	if *port < 0 || *port > 65535 {
		return statusWrong, misuse("from 1 to 65535; without it, any that is free", "--port cannot be %d", *port)
	}
	if o.Dir, o.File, err = benchPlace(args); err != nil {
		return statusWrong, err
	}
	if cache, err := os.UserCacheDir(); err == nil {
		o.Drafts = filepath.Join(cache, "stabile", "drafts")
	}
	// Each change leaves what was worked out before behind.
	debug.SetGCPercent(benchRoomy)
	s, err := bench.New(o)
	if err != nil {
		return statusWrong, err
	}
	defer s.Close()
	l, address, err := s.Listen(*port)
	if err != nil {
		return statusWrong, misuse("another program may have it; leave --port out for any that is free", "port %d cannot be used: %s", *port, err)
	}
	ctx, release := c.untilClosed()
	defer release()
	return statusWell, c.serve(ctx, s, l, address, *quiet)
}

// benchRoomy is how far the heap may grow, in percent of what is in use, before
// it is swept.
const benchRoomy = 300

// benchPlace returns the folder, and the design in it if one is named.
func benchPlace(args []string) (dir, file string, err error) {
	switch len(args) {
	case 0:
		return ".", "", nil
	case 1:
	default:
		return "", "", misuse("name a design, or the folder of several", "bench takes one design or folder, not %d", len(args))
	}
	info, err := os.Stat(args[0])
	switch {
	case err == nil && info.IsDir():
		return args[0], "", nil
	case err != nil:
		return "", "", readable(args[0])
	}
	dir, file = filepath.Split(args[0])
	return filepath.Clean(dir), file, nil
}

// untilClosed returns a context that Ctrl-C ends, or the end of the terminal.
func (c *call) untilClosed() (context.Context, context.CancelFunc) {
	if c.stop != nil {
		return context.WithCancel(c.stop)
	}
	return signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
}

// openURL opens an address in the user's browser.
func openURL(ctx context.Context, address string) error {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	if _, err := exec.LookPath(name); err != nil {
		return err
	}
	ctx, done := context.WithTimeout(ctx, 10*time.Second)
	defer done()
	err := exec.CommandContext(ctx, name, args...).Run()
	if errors.Is(ctx.Err(), context.DeadlineExceeded) {
		return nil // it stays with the browser that it started
	}
	return err
}
