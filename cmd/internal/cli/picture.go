package cli

import (
	"context"
	"fmt"
	"io"
	"math"
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
	size := pixels{1600, 1200}
	flags.Var(&size, "size", "")
	var o picture.Options
	flags.Var(&tint{&o.Backdrop}, "backdrop", "")
	flags.Var(&tint{&o.Paint}, "paint", "")
	flags.Uint64Var(&o.Seed, "seed", 0, "")
	flags.BoolVar(&o.Sketch, "sketch", false, "")
	turns := flags.Int("turntable", 1, "")
	watch := flags.Bool("watch", false, "")
	var stand standpoint
	stand.flags(flags)
	args, err := parse("picture", flags, args)
	if err != nil {
		return statusWrong, err
	}
	if *turns < 1 || *turns > mostTurns {
		return statusWrong, misuse(fmt.Sprintf("take from 1 to %d", mostTurns), "--turntable cannot make %d pictures", *turns)
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
		if err := stand.read(flags, j.Design.Units, &o); err != nil {
			return statusWrong, err
		}
		o.Round = *turns > 1
		path, err := pictureFile(file, *out, flags.Changed("output"), j)
		if err != nil {
			return statusWrong, err
		}
		files, err := pictures(j, o, size, path, *turns)
		if err != nil {
			return statusWrong, err
		}
		if err := c.save(context.Background(), together(files, flags.Changed("output"))); err != nil {
			return statusWrong, err
		}
		if err := tellPictures(c.stdout, files, size); err != nil {
			return statusWrong, err
		}
		return status(j), terminal.Verdict(c.stdout, j, terminal.Style{ANSI: c.marksUp()})
	}
	if *watch {
		return c.watch(file, work)
	}
	return work()
}

// together is a set of files beside each other.
func together(files []file.File, named bool) file.Set {
	return file.Set{Files: files, Named: named}
}

// mostTurns is the greatest number of pictures that one call makes.
const mostTurns = 360

// pictures makes the picture, or one for each of the turns.
func pictures(j *fab.Job, o picture.Options, size pixels, path string, turns int) ([]file.File, error) {
	scene, err := picture.New(j, o)
	if err != nil {
		return nil, misuse("", "%s", err)
	}
	files := make([]file.File, turns)
	for i := range files {
		turned, err := scene.Turned(2 * math.Pi * float64(i) / float64(turns))
		if err != nil {
			return nil, misuse("", "%s", err)
		}
		data, err := picture.PNG(turned.Render(size.width, size.height))
		if err != nil {
			return nil, err
		}
		files[i] = file.File{Path: numbered(path, i, turns), Data: data}
	}
	return files, nil
}

// numbered returns a path with a number before its ending, where there are
// several. All numbers are of one width, so that the files sort in their order.
func numbered(path string, i, of int) string {
	if of == 1 {
		return path
	}
	ext := filepath.Ext(path)
	return fmt.Sprintf("%s-%0*d%s", strings.TrimSuffix(path, ext), len(fmt.Sprint(of)), i+1, ext)
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
		return "", misuse("name a file that ends in .png, or a folder that is there", "'%s' is no name for a picture", out)
	}
	if dir := filepath.Dir(out); dir != "." {
		if info, err := os.Stat(dir); err != nil || !info.IsDir() {
			return "", misuse("make it first, or name one that is there", "there is no folder '%s'", dir)
		}
	}
	return out, nil
}

// tellPictures says what was written.
func tellPictures(to io.Writer, files []file.File, size pixels) error {
	var b strings.Builder
	for _, f := range files {
		fmt.Fprintf(&b, "wrote %s, %d x %d\n", printable(f.Path), size.width, size.height)
	}
	b.WriteByte('\n')
	_, err := io.WriteString(to, b.String())
	return err
}
