package cli

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"stabile/cmd/internal/file"
	"stabile/fab"
	"stabile/render/picture"
	"stabile/render/terminal"
)

// picture makes a shaded picture of the finished piece, or as many as it is
// turned to.
func (c *call) picture(args []string) (int, error) {
	flags := pflag.NewFlagSet("picture", pflag.ContinueOnError)
	var ch choice
	ch.flags(flags)
	out := flags.StringP("output", "o", "", "")
	var size pixels
	flags.Var(&size, "size", "")
	sketch := flags.Bool("sketch", false, "")
	turns := flags.Int("turn", 0, "")
	watch := flags.Bool("watch", false, "")
	var seen look
	seen.flags(flags)
	args, err := parse("picture", flags, args)
	if err != nil {
		return statusWrong, err
	}
	if flags.Changed("turn") && (*turns < leastTurns || *turns > mostTurns) {
		return statusWrong, misuse(fmt.Sprintf("take from %d to %d", leastTurns, mostTurns), "--turn cannot make %d pictures", *turns)
	}
	file, err := oneFile("picture", args)
	if err != nil {
		return statusWrong, err
	}
	work := func() (int, error) {
		j, err := c.build(file, ch, fab.Everything)
		if err != nil {
			return statusWrong, err
		}
		o := picture.Options{Sketch: *sketch, Round: *turns > 0}
		if err := seen.read(flags, j.Design.Units, &o); err != nil {
			return statusWrong, err
		}
		s, err := picture.New(j, o)
		if err != nil {
			return statusWrong, misuse("", "%s", err)
		}
		if *turns > 0 {
			err = c.turn(s, size, turnFolder(file, *out, flags.Changed("output"), j), packName(file, j), flags.Changed("output"), *turns)
		} else {
			err = c.still(s, size.or(s, 1600, 1200), file, *out, flags.Changed("output"), j)
		}
		if err != nil {
			return statusWrong, err
		}
		return status(j), terminal.Verdict(c.stdout, j, terminal.Style{ANSI: c.marksUp()})
	}
	if *watch {
		return c.watch(file, work)
	}
	return work()
}

// still writes one picture.
func (c *call) still(s *picture.Scene, size pixels, from, out string, given bool, j *fab.Job) error {
	path, err := pictureFile(from, out, given, j)
	if err != nil {
		return err
	}
	data, err := picture.PNG(s.Render(size.width, size.height))
	if err != nil {
		return err
	}
	if err := c.save(context.Background(), file.Set{Files: []file.File{{Path: path, Data: data}}, Named: given}); err != nil {
		return err
	}
	_, err = fmt.Fprintf(c.stdout, "wrote %s, %d x %d\n\n", printable(path), size.width, size.height)
	return err
}

// pictureFile reads what was asked for with -o. Without it the picture is named
// after the design.
func pictureFile(file, out string, given bool, j *fab.Job) (string, error) {
	const ending = ".png"
	if !given {
		return packName(file, j) + ending, nil
	}
	if info, err := os.Stat(out); err == nil && info.IsDir() {
		return filepath.Join(out, packName(file, j)+ending), nil
	}
	if !strings.EqualFold(filepath.Ext(out), ending) {
		return "", misuse("name a file that ends in .png, or an existing folder", "'%s' is not a name for a picture", out)
	}
	if dir := filepath.Dir(out); dir != "." {
		if info, err := os.Stat(dir); err != nil || !info.IsDir() {
			return "", misuse("make it first, or name an existing one", "there is no folder '%s'", dir)
		}
	}
	return out, nil
}
