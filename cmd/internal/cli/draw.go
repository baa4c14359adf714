package cli

import (
	"context"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"stabile/fab"
	"stabile/render/pack"
	"stabile/render/terminal"
)

// draw writes the print pack of a design: into a folder as a PDF for each book and
// an SVG for each sheet, or as one PDF alone; with it, or in the PDF in its place,
// full-size patterns.
func (c *call) draw(args []string) (int, error) {
	flags := pflag.NewFlagSet("draw", pflag.ContinueOnError)
	var ch choice
	ch.flags(flags)
	out := flags.StringP("output", "o", "", "")
	var o pack.Options
	flags.StringVar(&o.Date, "date", "", "")
	var arrangement paper
	flags.Var(&arrangement, "paper", "")
	flags.Var((*paper)(&o.Bench), "bench-paper", "")
	var full pack.PatternOptions
	fullSize := flags.Bool("full-size", false, "")
	flags.Var((*printer)(&full.Paper), "printer", "")
	flags.BoolVar(&full.Long, "long", false, "")
	flags.Var((*books)(&o.Books), "book", "")
	only := flags.StringSlice("only", nil, "")
	flags.Var((*skip)(&o.SkipReadyCut), "skip", "")
	watch := flags.Bool("watch", false, "")
	args, err := parse("draw", flags, args)
	if err != nil {
		return statusWrong, err
	}
	if err := patternFlags(flags, *fullSize); err != nil {
		return statusWrong, err
	}
	full.Date = o.Date
	file, err := oneFile("draw", args)
	if err != nil {
		return statusWrong, err
	}
	work := func() (int, error) {
		j, err := c.build(file, ch, fab.Everything)
		if err != nil {
			return statusWrong, err
		}
		if o.Only, err = theParts(j, *only); err != nil {
			return statusWrong, err
		}
		full.Only, full.SkipReadyCut = o.Only, o.SkipReadyCut
		where, err := destination(file, *out, flags.Changed("output"), j)
		if err != nil {
			return statusWrong, err
		}
		w := writer{target: where, title: j.Design.Title}
		if !where.only || !*fullSize {
			o.Arrangement = arrangement.orShop(j.Design)
			w.pack(j, pack.Books(j, o))
		}
		if *fullSize {
			w.patterns(j, full)
		}
		if w.err != nil {
			return statusWrong, w.err
		}
		if err := c.save(context.Background(), w.set()); err != nil {
			return statusWrong, err
		}
		if err := w.tell(c.stdout); err != nil {
			return statusWrong, err
		}
		return status(j), terminal.Verdict(c.stdout, j, terminal.Style{ANSI: c.marksUp()})
	}
	if *watch {
		return c.watch(file, work)
	}
	return work()
}

// patternFlags returns what is wrong with the flags for full-size patterns.
func patternFlags(flags *pflag.FlagSet, fullSize bool) error {
	for _, name := range []string{"printer", "long"} {
		if flags.Changed(name) && !fullSize {
			return misuse("add --full-size", "--%s is for full-size patterns", name)
		}
	}
	if flags.Changed("printer") && flags.Changed("long") {
		return misuse("choose one", "--long pages are as long as the piece and have no --printer paper")
	}
	return nil
}

// A target is where a print pack goes.
type target struct {
	dir  string // the folder
	name string // that of the PDF where it is alone, else what the names in the folder begin with
	only bool   // one PDF alone

	named bool // the user gave it
}

// destination reads what was asked for with -o. Without it the pack goes to a
// folder named after the design.
func destination(file, out string, given bool, j *fab.Job) (target, error) {
	name := packName(file, j)
	if !given {
		out = name
	}
	if out == "" {
		return target{}, misuse("as in -o shop or -o shop.pdf", "-o needs a name after it")
	}
	if out == "-" {
		return target{}, misuse("as in -o shop; for a folder of that name, -o ./-", "a pack is not one text for standard output")
	}
	info, err := os.Stat(out)
	switch isPDF := strings.EqualFold(filepath.Ext(out), ".pdf"); {
	case err == nil && info.IsDir(), err != nil && !isPDF:
		return target{dir: out, name: name, named: given}, nil
	case !isPDF:
		return target{}, misuse("name a folder, or a file that ends in .pdf", "'%s' is a file, not a folder", out)
	case err == nil && same(file, info):
		return target{}, misuse("", "'%s' is the design itself and is not overwritten", out)
	}
	dir, pdf := filepath.Split(out)
	return target{dir: dir, name: pdf, only: true, named: given}, nil
}

func same(file string, out os.FileInfo) bool {
	in, err := os.Stat(file)
	return err == nil && os.SameFile(in, out)
}

// packName returns what a pack is called: the design's file without its
// ending, or its title where it came by standard input.
func packName(file string, j *fab.Job) string {
	if file != "-" {
		base := filepath.Base(file)
		if name := strings.TrimSuffix(base, extension); name != base && strings.Trim(name, ". ") != "" {
			return name
		}
		return base + "-pack" // never the design itself
	}
	plain := strings.Map(func(r rune) rune {
		switch {
		case 'A' <= r && r <= 'Z':
			return r - 'A' + 'a'
		case 'a' <= r && r <= 'z', '0' <= r && r <= '9':
			return r
		}
		return ' '
	}, j.Design.Title)
	if words := strings.Fields(plain); len(words) > 0 {
		return strings.Join(words, "-")
	}
	return "pack"
}
