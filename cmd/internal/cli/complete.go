package cli

import (
	"errors"
	"io"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"stabile/cmd/internal/complete"
	"stabile/param"
	"stabile/render/picture"
	"stabile/render/sheet"
	"stabile/render/terminal"
)

// complete prints the completion script of a shell.
func (c *call) complete(args []string) (int, error) {
	args, err := parse("complete", pflag.NewFlagSet("complete", pflag.ContinueOnError), args)
	if err != nil {
		return statusWrong, err
	}
	shells := strings.Join(complete.Shells(), ", ")
	if len(args) != 1 {
		return statusWrong, misuse("one of "+shells, "complete takes one shell, not %d", len(args))
	}
	script, ok := complete.Script(args[0], "stabile", extension, completed())
	if !ok {
		return statusWrong, misuse(didYouMean(args[0], complete.Shells(), "the shells are "+shells), "there is no script for '%s'", args[0])
	}
	_, err = io.WriteString(c.stdout, script)
	return statusWell, err
}

// completed returns every command with its flags.
func completed() []complete.Command {
	var list []complete.Command
	for _, cmd := range commands() {
		out := complete.Command{Name: cmd.name, Summary: cmd.summary, Words: wordsAfter(cmd.name)}
		for _, f := range takes(cmd) {
			out.Flags = append(out.Flags, complete.Flag{Long: f.Name, Short: f.Shorthand, Value: f.NoOptDefVal == "", Words: valuesOf(f)})
		}
		out.Flags = append(out.Flags, complete.Flag{Long: "help", Short: "h"})
		list = append(list, out)
	}
	return list
}

// takes returns the flags that a command takes: it is asked for its help, which does nothing
// else.
func takes(cmd command) []*pflag.Flag {
	_, err := cmd.run(&call{stdin: strings.NewReader(""), stdout: io.Discard, stderr: io.Discard, getenv: func(string) string { return "" }}, []string{"--help"})
	var asked *helpAsked
	if !errors.As(err, &asked) {
		return nil
	}
	var list []*pflag.Flag
	asked.flags.VisitAll(func(f *pflag.Flag) { list = append(list, f) })
	return list
}

// wordsAfter returns what can stand after a command that takes no files; nil for one
// that does.
func wordsAfter(command string) []string {
	switch command {
	case "help":
		var list []string
		for _, cmd := range commands() {
			list = append(list, cmd.name)
		}
		list = append(list, param.Words()...)
		slices.Sort(list)
		return slices.Compact(list)
	case "complete":
		return complete.Shells()
	case "version":
		return []string{}
	}
	return nil
}

// valuesOf returns the values that a flag takes where they are a short list; nil
// otherwise.
func valuesOf(f *pflag.Flag) []string {
	switch f.Value.(type) {
	case *paper:
		list := []string{"letter", "tabloid"}
		for _, p := range sheet.Papers() {
			list = append(list, p.Name)
		}
		return list
	case *printer:
		return printerPapers()
	case *sections:
		return texts(terminal.Sections[:])
	}
	switch f.Name {
	case "place":
		return texts(picture.Places())
	case "light":
		return texts(picture.Lights())
	case "beside":
		return slices.Sorted(maps.Keys(measures))
	}
	return nil
}

func texts[T ~string](list []T) []string {
	out := make([]string, len(list))
	for i, x := range list {
		out[i] = string(x)
	}
	return out
}
