// Package cli is the command line of stabile: flags, files and exit statuses,
// and no thinking of its own.
package cli

import (
	"context"
	"errors"
	"io"

	"github.com/spf13/pflag"

	"stabile/cmd/internal/file"
)

// The exit statuses.
const (
	statusWell   = 0  // all well
	statusFails  = 1  // the design is sound but a requirement or check fails
	statusWrong  = 2  // the design or the call is wrong, or a file could not be read or written
	statusBroken = 70 // the program itself is at fault: EX_SOFTWARE of BSD's sysexits
)

// Run runs one call of the program with the arguments after its name and
// returns its exit status. Results go to stdout, diagnostics to stderr; getenv
// looks up the environment.
func Run(args []string, stdin io.Reader, stdout, stderr io.Writer, getenv func(string) string) int {
	c := &call{stdin: stdin, stdout: stdout, stderr: stderr, getenv: getenv}
	if len(args) == 0 {
		c.stdout = stderr
		if err := c.help(nil); err != nil {
			return c.fail(err)
		}
		return statusWrong
	}
	status, err := guarded(func() (int, error) { return c.command(args[0], args[1:]) })
	if err != nil {
		return c.fail(err)
	}
	return status
}

// A call is one run of the program.
type call struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	getenv         func(string) string

	disk    file.Disk        // what is written to; nil for the system's
	sources map[string]stamp // the files that designs were read from, as they were then
	stop    context.Context  // ends what goes on until it is stopped; nil for Ctrl-C alone
}

// A command is one word that the program obeys.
type command struct {
	name, usage, summary string
	run                  func(c *call, args []string) (int, error)
}

func commands() []command {
	return []command{
		{"bench", "bench [FILE]", "the workbench, in your browser: write, drag, look, and see whether it stands", (*call).bench},
		{"start", "start NAME", "an empty, commented design to begin from", (*call).start},
		{"report", "report FILE", "what every part weighs, whether the piece stands, what to cut", (*call).report},
		{"draw", "draw FILE", "shop drawings: elevations, parts list and every flat blank", (*call).draw},
		{"picture", "picture FILE", "a shaded picture of the finished piece, with a figure for scale", (*call).picture},
		{"offer", "offer FILE", "an offer for a client: picture, sizes, weight, price and terms", (*call).offer},
		{"vary", "vary FILE", "many variations of a design side by side: named, value by value or random", (*call).vary},
		{"solve", "solve FILE ...", "the largest or smallest value that meets a condition", (*call).solve},
		{"tidy", "tidy FILE...", "rewrite designs in one neat style", (*call).tidy},
		{"help", "help [WORD]", "how to use a command, or a word of the language: help post", (*call).helpCommand},
		{"complete", "complete SHELL", "a script by which bash, zsh, fish or PowerShell completes words", (*call).complete},
		{"version", "version", "which version of stabile this is", (*call).version},
	}
}

// command runs the command of the given name. The usual flags for help and
// version are taken as the commands of those names.
func (c *call) command(name string, args []string) (int, error) {
	switch name {
	case "-h", "--help":
		name = "help"
	case "--version":
		name = "version"
	}
	var names []string
	for _, cmd := range commands() {
		if cmd.name == name {
			status, err := cmd.run(c, args)
			if errors.Is(err, pflag.ErrHelp) {
				return statusWell, c.help([]string{name})
			}
			return status, err
		}
		names = append(names, cmd.name)
	}
	return statusWrong, misuse(didYouMean(name, names, "'stabile help' lists the commands"), "there is no command '%s'", name)
}
