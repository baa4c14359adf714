package cli

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"syscall"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/pflag"

	"stabile/param/source"
)

// A usageError is a mistake in the command line, not one in a design.
type usageError struct {
	text, hint string
}

func (e *usageError) Error() string { return e.text }

// misuse returns a usageError; the hint may be empty.
func misuse(hint, format string, args ...any) error {
	return &usageError{text: fmt.Sprintf(format, args...), hint: hint}
}

// mostShown is how many mistakes are shown at once, the first ones: they are read to be
// mended, and some of the rest go with them.
const mostShown = 10

// fail tells an error on standard error and returns the exit status. A
// reader who has gone away gets no message.
func (c *call) fail(err error) int {
	var wrong *source.Error
	var use *usageError
	var fault *brokenError
	switch {
	case errors.Is(err, syscall.EPIPE):
	case errors.As(err, &wrong):
		// A write that fails here leaves nowhere to say so.
		list := wrong.List
		if len(list) > mostShown {
			list = list[:mostShown]
		}
		_ = list.Print(c.stderr)
		switch more := len(wrong.List) - len(list); {
		case more == 1:
			fmt.Fprint(c.stderr, "\nand 1 mistake more\n")
		case more > 1:
			fmt.Fprintf(c.stderr, "\nand %d mistakes more\n", more)
		}
	case errors.As(err, &use):
		fmt.Fprintf(c.stderr, "stabile: %s\n", printable(use.text))
		if use.hint != "" {
			fmt.Fprintf(c.stderr, "\n  %s\n", printable(use.hint))
		}
	case errors.As(err, &fault):
		at := ""
		if fault.where != "" {
			at = " at " + fault.where
		}
		fmt.Fprintf(c.stderr, "stabile: a fault in the program itself, '%s'%s: please report it with the design\n", printable(fault.what), at)
		return statusBroken
	default:
		fmt.Fprintf(c.stderr, "stabile: %s\n", printable(err.Error()))
	}
	return statusWrong
}

// printable shows what of a name or word of the user's cannot be seen as spaces:
// characters that would steer a terminal, or turn the order of those after them.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError || !unicode.IsPrint(r) {
			return ' '
		}
		return r
	}, s)
}

// A helpAsked reports that a command was asked for its help, and which flags it has. It
// is pflag.ErrHelp.
type helpAsked struct{ flags *pflag.FlagSet }

func (*helpAsked) Error() string { return pflag.ErrHelp.Error() }
func (*helpAsked) Unwrap() error { return pflag.ErrHelp }

// retiredFlags are flags that once were, and what is written now.
var retiredFlags = map[string]string{"--sweep": "--each"}

// parse reads the flags of a command and returns what is not a flag.
func parse(command string, flags *pflag.FlagSet, args []string) ([]string, error) {
	flags.Usage = func() {} // help is ours to give
	err := flags.Parse(args)
	if errors.Is(err, pflag.ErrHelp) {
		return nil, &helpAsked{flags}
	}
	if err == nil {
		return flags.Args(), nil
	}
	otherwise := fmt.Sprintf("'stabile help %s' lists its flags", command)
	var bare *pflag.ValueRequiredError
	if errors.As(err, &bare) {
		name := "--" + bare.GetFlag().Name
		if bare.GetSpecifiedShortnames() != "" {
			name = "-" + bare.GetFlag().Shorthand
		}
		return nil, misuse(otherwise, "%s needs a value after it", name)
	}
	var bad *pflag.InvalidValueError
	if errors.As(err, &bad) {
		if bad.GetFlag().NoOptDefVal != "" {
			return nil, misuse(otherwise, "--%s takes no value", bad.GetFlag().Name)
		}
		return nil, misuse(bad.Unwrap().Error(), "--%s cannot be '%s'", bad.GetFlag().Name, bad.GetValue())
	}
	var unknown *pflag.NotExistError
	if !errors.As(err, &unknown) {
		return nil, misuse(otherwise, "%s: %s", command, err)
	}
	if short := unknown.GetSpecifiedShortnames(); short != "" {
		return nil, misuse(otherwise, "%s has no flag '-%s'", command, unknown.GetSpecifiedName())
	}
	var names []string
	flags.VisitAll(func(f *pflag.Flag) { names = append(names, "--"+f.Name) })
	name := "--" + unknown.GetSpecifiedName()
	if now, ok := retiredFlags[name]; ok && slices.Contains(names, now) {
		return nil, misuse("write "+now, "'%s' is now '%s'", name, now)
	}
	return nil, misuse(didYouMean(name, names, otherwise), "%s has no flag '%s'", command, name)
}

// oneFile returns the single design that a command is called with.
func oneFile(command string, args []string) (string, error) {
	switch len(args) {
	case 0:
		return "", misuse(fmt.Sprintf("as in 'stabile %s harbour.stabile', or - for standard input", command),
			"%s: which design?", command)
	case 1:
		return args[0], nil
	}
	return "", misuse(fmt.Sprintf("run 'stabile %s' once for each", command),
		"%s takes one design, not %d: '%s'", command, len(args), strings.Join(args, "', '"))
}
