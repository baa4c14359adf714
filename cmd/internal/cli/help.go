package cli

import (
	"embed"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"

	"stabile/cmd/internal/manual"
	"stabile/param"
)

// languagePage is where the language is described.
const languagePage = "examples/LANGUAGE.md"

// The help for each command is a text of its own, written to be read.
//
//go:embed help/*.txt
var helpTexts embed.FS

func (c *call) helpCommand(args []string) (int, error) {
	flags := pflag.NewFlagSet("help", pflag.ContinueOnError)
	page := flags.Bool("man", false, "")
	args, err := parse("help", flags, args)
	if err != nil {
		return statusWrong, err
	}
	if *page {
		return statusWell, c.manual()
	}
	return statusWell, c.help(args)
}

// manual prints the help of all commands as a manual page.
func (c *call) manual() error {
	var first strings.Builder
	begun := *c
	begun.stdout = &first
	if err := begun.overview(); err != nil {
		return err
	}
	chapters := []manual.Chapter{{Title: "Description", Text: first.String()}}
	for _, cmd := range commands() {
		if text, err := helpTexts.ReadFile("help/" + cmd.name + ".txt"); err == nil && cmd.name != "help" {
			chapters = append(chapters, manual.Chapter{Title: "stabile " + cmd.name, Text: string(text)})
		}
	}
	_, err := io.WriteString(c.stdout, manual.Page("stabile", "free-standing sculptures of hollow balls and rolled tubes, worked out", "stabile", chapters))
	return err
}

// help prints the help for a command or for a word of the language, or the list of
// commands.
func (c *call) help(args []string) error {
	if len(args) > 1 {
		return misuse("", "help takes one command or one word of the language, not %d", len(args))
	}
	if len(args) == 0 || args[0] == "help" {
		return c.overview()
	}
	text, err := helpTexts.ReadFile("help/" + args[0] + ".txt")
	if err != nil {
		if about, ok := param.About(args[0]); ok {
			_, err := fmt.Fprintf(c.stdout, "%sThe whole language is described in %s.\n", about, languagePage)
			return err
		}
		var names []string
		for _, cmd := range commands() {
			names = append(names, cmd.name)
		}
		return misuse(didYouMean(args[0], append(names, param.Words()...), "'stabile help' lists the commands; "+languagePage+" describes the language"),
			"there is no command and no word of the language '%s'", args[0])
	}
	_, err = c.stdout.Write(text)
	return err
}

// overview says what the program is for and lists its commands.
func (c *call) overview() error {
	var b strings.Builder
	for _, cmd := range commands() {
		fmt.Fprintf(&b, "  stabile %-16s %s\n", cmd.usage, cmd.summary)
	}
	text, err := helpTexts.ReadFile("help/help.txt")
	if err != nil {
		return err
	}
	_, err = io.WriteString(c.stdout, strings.Replace(string(text), "COMMANDS\n", b.String(), 1))
	return err
}
