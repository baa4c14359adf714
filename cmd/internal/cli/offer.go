package cli

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"stabile/fab"
	"stabile/render/ink"
	"stabile/render/offer"
	"stabile/render/picture"
	"stabile/render/terminal"
	"stabile/render/vector"
)

// offer writes the page for a client as a PDF.
func (c *call) offer(args []string) (int, error) {
	flags := pflag.NewFlagSet("offer", pflag.ContinueOnError)
	var ch choice
	ch.flags(flags)
	out := flags.StringP("output", "o", "", "")
	var o offer.Options
	flags.StringVar(&o.Date, "date", "", "")
	var asked paper
	flags.Var(&asked, "paper", "")
	price := flags.Bool("price", false, "")
	var seen look
	seen.flags(flags)
	args, err := parse("offer", flags, args)
	if err != nil {
		return statusWrong, err
	}
	file, err := oneFile("offer", args)
	if err != nil {
		return statusWrong, err
	}
	j, err := c.build(file, ch, fab.Everything)
	if err != nil {
		return statusWrong, err
	}
	path, err := pdfPath(file, *out, flags.Changed("output"), packName(file, j)+"-offer.pdf")
	if err != nil {
		return statusWrong, err
	}
	if *price {
		if o.Price, err = offer.Price(j); err != nil {
			return statusWrong, err
		}
	}
	o.Paper = asked.orShop(j.Design)
	units := j.Design.Units
	var view picture.Options
	if err := seen.read(flags, units, &view); err != nil {
		return statusWrong, err
	}
	s, err := picture.New(j, view)
	if err != nil {
		return statusWrong, misuse("", "%s", err)
	}
	o.Picture = s.Render(offer.PictureSize(o, units))
	page, err := offer.Page(j, o)
	if err != nil {
		return statusWrong, err
	}
	data, err := vector.PDF([]*ink.Sheet{page}, vector.Info{Title: j.Design.Title, Subject: "offer"})
	if err != nil {
		return statusWrong, err
	}
	set := named(path, data)
	set.Named = flags.Changed("output")
	if err := c.save(context.Background(), set); err != nil {
		return statusWrong, err
	}
	if _, err := fmt.Fprintf(c.stdout, "wrote %s\n\n", printable(path)); err != nil {
		return statusWrong, err
	}
	return status(j), terminal.Verdict(c.stdout, j, terminal.Style{ANSI: c.marksUp()})
}

// pdfPath returns the PDF to be written: the one given with -o, in a folder that
// is given, or one beside the user of the usual name.
func pdfPath(file, out string, given bool, usual string) (string, error) {
	if !given {
		return usual, nil
	}
	info, err := os.Stat(out)
	switch {
	case out == "":
		return "", misuse("as in -o offer.pdf", "-o needs a name after it")
	case err == nil && info.IsDir():
		return filepath.Join(out, usual), nil
	case !strings.EqualFold(filepath.Ext(out), ".pdf"):
		return "", misuse("name a file that ends in .pdf, or a folder", "'%s' is not a PDF", out)
	case err == nil && same(file, info):
		return "", misuse("", "'%s' is the design itself and is not overwritten", out)
	}
	return out, nil
}
