package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"slices"

	"github.com/spf13/pflag"

	"stabile/param"
	"stabile/param/source"
)

// A tidying is what tidy is to do with texts that are not tidy, other than to
// write them again.
type tidying struct {
	check bool // name them
	diff  bool // show what would change
}

// tidy puts designs into the house style: each file in its place, or the
// standard input to standard output. Every file is done or reported,
// whatever is wrong with others.
func (c *call) tidy(args []string) (int, error) {
	flags := pflag.NewFlagSet("tidy", pflag.ContinueOnError)
	var how tidying
	flags.BoolVar(&how.check, "check", false, "")
	flags.BoolVar(&how.diff, "diff", false, "")
	files, err := parse("tidy", flags, args)
	switch {
	case err != nil:
		return statusWrong, err
	case len(files) == 0:
		files = []string{"-"}
	case len(files) > 1 && slices.Contains(files, "-"):
		return statusWrong, misuse("name files, or a dash alone", "tidy takes standard input or files, not both")
	}
	worst, reported := statusWell, false
	for _, path := range files {
		status, err := c.tidyOne(path, how)
		if err != nil {
			if reported {
				fmt.Fprintln(c.stderr)
			}
			reported = true
			status = c.fail(err)
		}
		worst = max(worst, status)
	}
	return worst, nil
}

// tidyOne tidies a file, or standard input for "-".
func (c *call) tidyOne(path string, how tidying) (int, error) {
	text, err := c.text(path)
	if err != nil {
		return statusWrong, err
	}
	name := path
	if path == "-" {
		name = inputName
	}
	tidy, wrong := param.Tidy(source.NewFile(name, text))
	if err := wrong.Err(); err != nil {
		return statusWrong, err
	}
	status, say := statusWell, ""
	switch changes := string(tidy) != text; {
	case how.check || how.diff:
		if changes && how.check {
			status, say = statusFails, printable(name)+"\n"
		}
		if changes && how.diff {
			say = unified(printable(name), text, string(tidy))
		}
	case path == "-":
		say = string(tidy)
	case changes:
		set := named(path, tidy)
		set.Same = true
		if err := c.save(context.Background(), set); err != nil {
			return statusWrong, err
		}
		say = "tidied " + printable(name) + "\n"
	}
	_, err = io.WriteString(c.stdout, say)
	return status, err
}

// text reads a file, or standard input for "-": no more of it than shows
// that it is longer than a text may be.
func (c *call) text(file string) (string, error) {
	in := c.stdin
	if file == "-" {
		file = "standard input"
	} else {
		if err := readable(file); err != nil {
			return "", err
		}
		f, err := os.Open(file)
		if err != nil {
			return "", fmt.Errorf("%s: %w", file, cause(err))
		}
		defer f.Close()
		in = f
	}
	text, err := io.ReadAll(io.LimitReader(in, param.MaxSource+1))
	if err != nil {
		return "", fmt.Errorf("reading %s: %w", file, cause(err))
	}
	return string(text), nil
}
