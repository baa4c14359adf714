package cli

import (
	"io"
	"os"

	"github.com/spf13/pflag"

	"stabile/fab"
	"stabile/render/report"
	"stabile/render/terminal"
)

// report prints the report of a design: for reading, or as JSON.
func (c *call) report(args []string) (int, error) {
	flags := pflag.NewFlagSet("report", pflag.ContinueOnError)
	var ch choice
	ch.flags(flags)
	asJSON := flags.Bool("json", false, "")
	watch := flags.Bool("watch", false, "")
	args, err := parse("report", flags, args)
	if err != nil {
		return statusWrong, err
	}
	file, err := oneFile("report", args)
	if err != nil {
		return statusWrong, err
	}
	work := func() (int, error) {
		j, err := c.build(file, ch, fab.Everything)
		if err != nil {
			return statusWrong, err
		}
		if *asJSON {
			err = report.Of(j).WriteJSON(c.stdout)
		} else {
			err = terminal.Report(c.stdout, j, terminal.Style{ANSI: c.marksUp()})
		}
		return status(j), err
	}
	if *watch {
		return c.watch(file, work)
	}
	return work()
}

// status returns the exit status for a job worked out.
func status(j *fab.Job) int {
	if j.OK() {
		return statusWell
	}
	return statusFails
}

// marksUp reports whether the output is a terminal that shows bold and dim, and
// the user has not asked for plain text by NO_COLOR.
func (c *call) marksUp() bool {
	if c.getenv("NO_COLOR") != "" || c.getenv("TERM") == "dumb" || c.getenv("TERM") == "" {
		return false
	}
	return isTerminal(c.stdout)
}

// isTerminal reports whether a writer is a terminal.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
