package cli

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"stabile/fab"
	"stabile/render/ink"
	"stabile/render/pack"
	"stabile/render/terminal"
	"stabile/render/vector"
)

// draw writes the print pack of a design: into a folder as one PDF and an SVG
// for each sheet, or as the PDF alone.
func (c *call) draw(args []string) (int, error) {
	flags := pflag.NewFlagSet("draw", pflag.ContinueOnError)
	var ch choice
	ch.flags(flags)
	out := flags.StringP("output", "o", "", "")
	var o pack.Options
	flags.StringVar(&o.Date, "date", "", "")
	flags.Var((*paper)(&o.Arrangement), "paper", "")
	flags.Var((*paper)(&o.Bench), "bench-paper", "")
	args, err := parse("draw", flags, args)
	if err != nil {
		return statusWrong, err
	}
	file, err := oneFile("draw", args)
	if err != nil {
		return statusWrong, err
	}
	j, err := c.build(file, ch)
	if err != nil {
		return statusWrong, err
	}
	where, err := destination(file, *out, flags.Changed("output"), j)
	if err != nil {
		return statusWrong, err
	}
	sheets := pack.Sheets(j, o)
	wrote, err := where.write(sheets, j.Design.Title)
	if err != nil {
		return statusWrong, err
	}
	var before []string
	if !where.only {
		before = olderSheets(where.dir, wrote)
	}
	if err := tell(c.stdout, wrote, before, len(sheets)); err != nil {
		return statusWrong, err
	}
	return status(j), terminal.Verdict(c.stdout, j, terminal.Style{ANSI: c.marksUp()})
}

// A target is where a print pack goes.
type target struct {
	dir  string // the folder
	pdf  string // the name of the PDF in it
	only bool   // the PDF alone
}

// destination reads what was asked for with -o. Without it the pack goes to a
// folder named after the design.
func destination(file, out string, given bool, j *fab.Job) (target, error) {
	name := packName(file, j)
	if !given {
		out = name
	}
	if out == "" {
		return target{}, misuse("as in -o shop or -o shop.pdf", "-o wants a name after it")
	}
	info, err := os.Stat(out)
	switch isPDF := strings.EqualFold(filepath.Ext(out), ".pdf"); {
	case err == nil && info.IsDir(), err != nil && !isPDF:
		return target{dir: out, pdf: name + ".pdf"}, nil
	case !isPDF:
		return target{}, misuse("name a folder, or a file that ends in .pdf", "'%s' is a file, not a folder", out)
	case err == nil && same(file, info):
		return target{}, misuse("", "'%s' is the design itself and is not written over", out)
	}
	dir, pdf := filepath.Split(out)
	return target{dir: dir, pdf: pdf, only: true}, nil
}

func same(file string, out os.FileInfo) bool {
	in, err := os.Stat(file)
	return err == nil && os.SameFile(in, out)
}

// packName returns what a pack is called: the design's file without its
// ending, or its title where it came by the standard input.
func packName(file string, j *fab.Job) string {
	if file != "-" {
		base := filepath.Base(file)
		if name := strings.TrimSuffix(base, extension); name != base && name != "" {
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

// write writes the pack, all of it or nothing, and returns the paths written.
func (t target) write(sheets []*ink.Sheet, title string) ([]string, error) {
	pdf, err := vector.PDF(sheets, vector.Info{Title: title, Subject: "shop drawings"})
	if err != nil {
		return nil, err
	}
	files := []vector.File{{Path: filepath.Join(t.dir, t.pdf), Data: pdf}}
	if !t.only {
		for _, s := range sheets {
			svg, err := vector.SVG(s)
			if err != nil {
				return nil, err
			}
			files = append(files, vector.File{Path: filepath.Join(t.dir, s.Name+".svg"), Data: svg})
		}
	}
	undo, err := makeFolder(filepath.Clean(t.dir))
	if err != nil {
		return nil, err
	}
	if err := vector.WriteFiles(files); err != nil {
		undo()
		return nil, err
	}
	paths := make([]string, len(files))
	for i, f := range files {
		paths[i] = f.Path
	}
	return paths, nil
}

// tell says what was written and which sheets lie beside it from before.
func tell(w io.Writer, wrote, before []string, sheets int) error {
	var b strings.Builder
	for i, path := range wrote {
		switch {
		case i == 0 && sheets == 1:
			fmt.Fprintf(&b, "wrote %s, 1 sheet\n", path)
		case i == 0:
			fmt.Fprintf(&b, "wrote %s, %d sheets\n", path, sheets)
		default:
			fmt.Fprintf(&b, "      %s\n", path)
		}
	}
	if len(before) > 0 {
		fmt.Fprintf(&b, "\nAlso there, not of this pack; do not cut from them:\n")
		for _, path := range before {
			fmt.Fprintf(&b, "      %s\n", path)
		}
	}
	b.WriteByte('\n')
	_, err := io.WriteString(w, b.String())
	return err
}
