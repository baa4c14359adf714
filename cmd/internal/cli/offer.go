package cli

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"stabile/fab"
	"stabile/render/offer"
	"stabile/render/picture"
	"stabile/render/sheet"
	"stabile/render/terminal"
	"stabile/render/vector"
	"stabile/render/words"
)

// offer writes the offer for a client as a PDF.
func (c *call) offer(args []string) (int, error) {
	flags := pflag.NewFlagSet("offer", pflag.ContinueOnError)
	var ch choice
	ch.flags(flags)
	out := flags.StringP("output", "o", "", "")
	var o offer.Options
	flags.StringVar(&o.Date, "date", "", "")
	var asked paper
	flags.Var(&asked, "paper", "")
	flags.BoolVar(&o.Price, "price", false, "")
	pages := flags.Int("pages", 1, "")
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
	if *pages != 1 && *pages != 2 {
		return statusWrong, misuse("--pages 2 adds one with the elevations large", "an offer has 1 page or 2, not %d", *pages)
	}
	o.Large = *pages == 2
	o.Paper = sheet.Paper(asked)
	units := j.Design.Units
	var view picture.Options
	if err := seen.read(flags, units, &view); err != nil {
		return statusWrong, err
	}
	s, err := picture.New(j, view)
	if err != nil {
		return statusWrong, misuse("", "%s", err)
	}
	o.Picture = s.Render(offer.PictureSize(o, units, s.Upright()))
	sheets, err := offer.Pages(j, o)
	if err != nil {
		return statusWrong, err
	}
	data, err := vector.PDF(sheets, vector.Info{Title: j.Design.Title, Subject: "offer"})
	if err != nil {
		return statusWrong, err
	}
	set := named(path, data)
	set.Named = flags.Changed("output")
	if err := c.save(context.Background(), set); err != nil {
		return statusWrong, err
	}
	text := fmt.Sprintf("wrote %s\n\n", printable(path))
	if o.Price {
		if _, why := j.Price(); why != nil {
			text += words.Capital(words.In(units).Fact(why)) + ".\nThe offer says that the price is to be worked out.\n\n"
		}
	}
	if _, err := fmt.Fprint(c.stdout, text); err != nil {
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
