package cli

import (
	"io"
	"os"
	"strings"

	"github.com/spf13/pflag"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/render/report"
	"stabile/render/terminal"
)

// report prints the report of a design: for reading, or as JSON.
func (c *call) report(args []string) (int, error) {
	flags := pflag.NewFlagSet("report", pflag.ContinueOnError)
	var ch choice
	ch.flags(flags)
	asJSON := flags.Bool("json", false, "")
	brief := flags.Bool("brief", false, "")
	all := flags.Bool("all", false, "")
	var show sections
	flags.Var(&show, "show", "")
	strict := flags.Bool("strict", false, "")
	watch := flags.Bool("watch", false, "")
	args, err := parse("report", flags, args)
	if err != nil {
		return statusWrong, err
	}
	file, err := oneFile("report", args)
	if err != nil {
		return statusWrong, err
	}
	if *brief && !*asJSON {
		return statusWrong, misuse("a report for reading is brief without it", "--brief goes with --json")
	}
	work := func() (int, error) {
		j, err := c.build(file, ch, fab.Everything)
		if err != nil {
			return statusWrong, err
		}
		style := terminal.Style{ANSI: c.marksUp()}
		switch {
		case *asJSON:
			err = report.Write(c.stdout, j, *brief)
		case *all:
			err = terminal.Report(c.stdout, j, style, terminal.Sections[:]...)
		case len(show) > 0:
			err = terminal.Report(c.stdout, j, style, show...)
		default:
			err = terminal.Brief(c.stdout, j, style)
		}
		return strictStatus(j, *strict), err
	}
	if *watch {
		return c.watch(file, work)
	}
	return work()
}

// status returns the exit status for a job worked out.
func status(j *fab.Job) int { return strictStatus(j, false) }

// strictStatus is status, where what is not decided may count as failing.
func strictStatus(j *fab.Job, strict bool) int {
	if j.Verdict == check.Fails || strict && j.Verdict == check.Undecided {
		return statusFails
	}
	return statusWell
}

// sections are those of the report that are asked for, by a flag that may be given
// several times, or once with a list.
type sections []terminal.Section

// String returns the sections as they are written.
func (s *sections) String() string {
	var names []string
	for _, x := range *s {
		names = append(names, string(x))
	}
	return strings.Join(names, ",")
}

// Type returns what the flag takes.
func (s *sections) Type() string { return "section" }

// Set adds sections.
func (s *sections) Set(list string) error {
	for name := range strings.SplitSeq(list, ",") {
		section, err := terminal.ParseSection(strings.TrimSpace(name))
		if err != nil {
			return err
		}
		*s = append(*s, section)
	}
	return nil
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
