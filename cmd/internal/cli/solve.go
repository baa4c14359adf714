package cli

import (
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"stabile/fab/study"
	"stabile/param"
	"stabile/render/report"
	"stabile/render/terminal"
)

// solve looks for the largest or least value of an adjustable name with which a
// condition holds.
func (c *call) solve(args []string) (int, error) {
	flags := pflag.NewFlagSet("solve", pflag.ContinueOnError)
	var ch choice
	ch.flags(flags)
	least := flags.Bool("least", false, "")
	most := flags.Bool("most", false, "")
	json := flags.Bool("json", false, "")
	args, err := parse("solve", flags, args)
	if err != nil {
		return statusWrong, err
	}
	if *least && *most {
		return statusWrong, misuse("choose one; without either it is the largest", "--least and --most both say which value to find")
	}
	file, name, condition, err := sought(args)
	if err != nil {
		return statusWrong, err
	}
	o := param.Options{Sweep: []string{name}, SweepFrom: soughtName, Ask: []param.Question{{From: soughtCondition, Text: condition, Condition: true}}}
	s, d, err := c.study(file, ch, o)
	if err != nil {
		return statusWrong, err
	}
	ctx, release := interruptible()
	defer release()
	sol, err := s.Solve(ctx, d, study.Problem{Sweep: d.Sweeps[0], Least: *least})
	if err != nil {
		return statusWrong, stopped(err)
	}
	if *json {
		err = report.OfSolution(d, sol, condition, *least).WriteJSON(c.stdout)
	} else {
		t := terminal.Solution{Solution: sol, Name: d.Sweeps[0].Name, Least: *least, Condition: condition, Units: d.Units}
		err = t.Write(c.stdout, terminal.Style{ANSI: c.marksUp()})
	}
	if err != nil {
		return statusWrong, err
	}
	if !sol.Found {
		return statusFails, nil
	}
	return statusWell, nil
}

// What diagnostics call the two texts that solve is called with.
const (
	soughtName      = "NAME"
	soughtCondition = "CONDITION"
)

// sought reads FILE NAME [from ...] for CONDITION, quoted or not.
func sought(args []string) (file, name, condition string, err error) {
	const form = "as in stabile solve harbour.stabile rise for 'tipping >= 1.5'"
	if len(args) == 0 {
		return "", "", "", misuse(form, "solve: which design?")
	}
	file = args[0]
	rest := args[1:]
	at := slices.Index(rest, "for")
	switch {
	case len(rest) == 0 || at == 0:
		return "", "", "", misuse(form, "solve: which value?")
	case at < 0 || at == len(rest)-1:
		return "", "", "", misuse(form, "solve: for which condition?")
	}
	return file, strings.Join(rest[:at], " "), strings.Join(rest[at+1:], " "), nil
}
