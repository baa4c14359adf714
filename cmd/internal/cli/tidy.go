package cli

import (
	"fmt"
	"io"
	"os"
	"slices"

	"github.com/spf13/pflag"

	"stabile/param"
	"stabile/param/source"
	"stabile/render/vector"
)

// A tidying is what tidy is to do with texts that are not tidy, other than to
// write them anew.
type tidying struct {
	check bool // name them
	diff  bool // show what would change
}

// tidy puts designs into the house style: each file in its place, or the
// standard input to the standard output. Every file is done or told of,
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
		return statusWrong, misuse("name files, or a dash alone", "tidy takes the standard input or files, not both")
	}
	worst, told := statusWell, false
	for _, file := range files {
		status, err := c.tidyOne(file, how)
		if err != nil {
			if told {
				fmt.Fprintln(c.stderr)
			}
			told = true
			status = c.fail(err)
		}
		worst = max(worst, status)
	}
	return worst, nil
}

// tidyOne tidies a file, or the standard input for "-".
func (c *call) tidyOne(file string, how tidying) (int, error) {
	text, err := c.text(file)
	if err != nil {
		return statusWrong, err
	}
	name := file
	if file == "-" {
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
			status, say = statusFails, name+"\n"
		}
		if changes && how.diff {
			say = unified(name, text, string(tidy))
		}
	case file == "-":
		say = string(tidy)
	case changes:
		if err := rewrite(file, tidy); err != nil {
			return statusWrong, err
		}
		say = "tidied " + printable(name) + "\n"
	}
	_, err = io.WriteString(c.stdout, say)
	return status, err
}

// text reads a file, or the standard input for "-": no more of it than shows
// that it is longer than a text may be.
func (c *call) text(file string) (string, error) {
	in := c.stdin
	if file == "-" {
		file = "the standard input"
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

// rewrite gives a file another text, whole or not at all. It keeps the file's
// permissions, and leaves one alone that its owner may not write.
func rewrite(file string, text []byte) error {
	const ownerWrites = 0o200
	info, err := os.Stat(file)
	if err != nil {
		return fmt.Errorf("%s: %w", file, cause(err))
	}
	mode := info.Mode().Perm()
	if mode&ownerWrites == 0 {
		return fmt.Errorf("%s: the file is write-protected", file)
	}
	if err := vector.WriteFile(file, text); err != nil {
		return err
	}
	// A new file has fewer permissions than asked for where the user's mask
	// takes some away.
	if info, err = os.Stat(file); err == nil && info.Mode().Perm() != mode {
		err = os.Chmod(file, mode)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", file, cause(err))
	}
	return nil
}
