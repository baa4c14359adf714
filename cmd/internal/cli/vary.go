package cli

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"stabile/fab/study"
	"stabile/param"
	"stabile/param/design"
	"stabile/render/terminal"
)

// A wish is which variations are wanted, and in what order.
type wish struct {
	each        []string
	random      int
	seed        uint64
	keep        []string
	least, most string
	first       int
	plot        string
	picture     bool
	shop        bool
	resume      bool
	date        string
	paper       paper
}

func (w *wish) flags(f *pflag.FlagSet) {
	f.StringArrayVar(&w.each, "each", nil, "")
	f.IntVar(&w.random, "random", 0, "")
	f.Uint64Var(&w.seed, "seed", 1, "")
	f.StringArrayVar(&w.keep, "keep", nil, "")
	f.StringVar(&w.least, "least", "", "")
	f.StringVar(&w.most, "most", "", "")
	f.IntVar(&w.first, "first", 0, "")
	f.StringVar(&w.plot, "plot", "", "")
	f.BoolVar(&w.picture, "picture", false, "")
	f.BoolVar(&w.shop, "shop", false, "")
	f.BoolVar(&w.resume, "resume", false, "")
	f.StringVar(&w.date, "date", "", "")
	f.Var(&w.paper, "paper", "")
}

// check returns what is wrong with the flags together.
func (w *wish) check(f *pflag.FlagSet) error {
	switch {
	case f.Changed("least") && f.Changed("most"):
		return misuse("choose one", "--least and --most both say what comes first")
	case f.Changed("random") && (w.random < 1 || w.random > study.MaxTrials):
		return misuse("", "--random needs a number of variations from 1 to %d", study.MaxTrials)
	case f.Changed("seed") && w.random == 0:
		return misuse("add --random 50", "--seed is for random variations")
	case f.Changed("plot") && !f.Changed("output"):
		return misuse("as in -o plot.pdf", "--plot needs a file to draw into")
	case w.plot != "" && len(w.axes()) != 2:
		return misuse("as in --plot 'weight against tipping'", "--plot needs two figures with 'against' between them")
	case f.Changed("first") && w.first < 1:
		return misuse("", "--first needs a number of variations, from 1 up")
	}
	return nil
}

// by says what comes first, such as "least weight"; "" for the order of trial.
func (w *wish) by() string {
	switch {
	case w.least != "":
		return "least " + w.least
	case w.most != "":
		return "most " + w.most
	}
	return ""
}

// ask returns what is asked of every variation: the conditions, then by what
// they are sorted.
func (w *wish) ask() []param.Question {
	var list []param.Question
	for _, text := range w.keep {
		list = append(list, param.Question{From: "--keep", Text: text, Condition: true})
	}
	if w.least != "" {
		list = append(list, param.Question{From: "--least", Text: w.least})
	}
	if w.most != "" {
		list = append(list, param.Question{From: "--most", Text: w.most})
	}
	for _, text := range w.axes() {
		list = append(list, param.Question{From: "--plot", Text: text})
	}
	return list
}

// axes returns the two figures of the plot, the upright one first.
func (w *wish) axes() []string {
	if w.plot == "" {
		return nil
	}
	return strings.Split(w.plot, " against ")
}

// trials returns the variations that are wanted. Without a sweep, random ones
// change all that the design lets one adjust, and those named are the design's.
func (w *wish) trials(d *design.Design) ([]study.Trial, error) {
	switch {
	case w.random > 0:
		sweeps := d.Sweeps
		if len(w.each) == 0 {
			sweeps = study.All(d)
		}
		if len(sweeps) == 0 {
			return nil, misuse("declare one, as in 'adjust rise = 36 in from 24 in to 60 in'", "the design has nothing to adjust")
		}
		return study.Random(d, sweeps, w.random, w.seed)
	case len(d.Sweeps) > 0:
		return study.Grid(d, d.Sweeps)
	case len(d.Variations) == 0:
		return nil, misuse("try the values of one, as in --each 'rise from 24 in to 60 in', or take --random 50", "the design has no named variations")
	case d.Variation != "":
		return nil, misuse("leave it out, or add --each", "--variation chooses one variation only")
	}
	return study.Named(d), nil
}

// vary tries variations of a design and shows them as a table, or writes them as
// a list for a spreadsheet or a script.
func (c *call) vary(args []string) (int, error) {
	flags := pflag.NewFlagSet("vary", pflag.ContinueOnError)
	var ch choice
	ch.flags(flags)
	var w wish
	w.flags(flags)
	out := flags.StringP("output", "o", "", "")
	args, err := parse("vary", flags, args)
	if err != nil {
		return statusWrong, err
	}
	if err := errors.Join(w.check(flags), w.checkResume(*out)); err != nil {
		return statusWrong, err
	}
	file, err := oneFile("vary", args)
	if err != nil {
		return statusWrong, err
	}
	s, d, err := c.study(file, ch, param.Options{Sweep: w.each, Ask: w.ask()})
	if err != nil {
		return statusWrong, err
	}
	s.Plan = w.shop
	trials, err := w.trials(d)
	if err != nil {
		return statusWrong, err
	}
	ctx, release := interruptible()
	defer release()
	if w.resume {
		return c.resume(ctx, s, d, trials, *out)
	}
	done := c.showProgress(s, len(trials))
	results, err := s.Run(ctx, trials)
	done()
	if err != nil {
		return statusWrong, stopped(err)
	}
	kept := results
	if len(w.keep) > 0 {
		kept = study.Keep(results, len(w.keep))
	}
	if w.by() != "" {
		study.Sort(kept, len(w.keep), w.most != "")
	}
	v := terminal.Variations{
		Design: d, Tried: len(results), Kept: len(kept), Keep: w.keep,
		By: w.by(), ByAt: len(w.keep), Results: kept,
	}
	if w.first > 0 {
		v.Results = kept[:min(w.first, len(kept))]
	}
	if flags.Changed("output") {
		if err = c.writeVariations(ctx, *out, &w, s, &v); err == nil {
			_, err = fmt.Fprintf(c.stdout, "wrote %s\n\n%s\n", printable(*out), v.Said())
		}
	} else {
		err = v.Write(c.stdout, terminal.Style{ANSI: c.marksUp()})
	}
	if err != nil {
		return statusWrong, stopped(err)
	}
	if len(kept) == 0 {
		return statusFails, nil
	}
	return statusWell, nil
}
