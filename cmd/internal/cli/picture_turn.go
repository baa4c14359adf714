package cli

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"

	"stabile/cmd/internal/file"
	"stabile/fab"
	"stabile/render/picture"
)

// The number of pictures that one call turns a piece through.
const (
	leastTurns = 2
	mostTurns  = 360
)

// lap is how long the turning picture takes for once round, in seconds.
const lap = 6.0

// The longer and the shorter side of the turning picture, in pixels: about as many
// as a telephone shows.
const (
	turnLong  = 720
	turnShort = 540
)

// turnFolder returns the folder for pictures from all round. Without one it is
// named after the design.
func turnFolder(file, out string, given bool, j *fab.Job) string {
	if given {
		return out
	}
	return packName(file, j) + "-turn"
}

// turn writes pictures from all round into a folder, which it makes, and one that
// turns.
func (c *call) turn(s *picture.Scene, size pixels, dir, name string, given bool, n int) error {
	switch info, err := os.Stat(dir); {
	case dir == "":
		return misuse("as in -o turn", "-o needs a name after it")
	case err == nil && !info.IsDir():
		return misuse("name a folder", "'%s' is a file, and --turn fills a folder", dir)
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return err
	case err != nil && filepath.Ext(dir) != "":
		return misuse("name a folder, without an ending", "--turn fills a folder, and '%s' looks like a file", dir)
	}
	size = size.or(s, 1600, 1200)
	small := pixels{turnLong, turnShort}
	if size.height > size.width {
		small = pixels{turnShort, turnLong}
	}
	if k := float64(size.width) / float64(small.width); k < 1 {
		small = size
	} else {
		small.height = int(math.Round(float64(size.height) / k))
	}
	var files []file.File
	moving, err := picture.NewAnimation(n, lap)
	if err != nil {
		return err
	}
	for i := range n {
		turned, err := s.Turned(2 * math.Pi * float64(i) / float64(n))
		if err != nil {
			return misuse("", "%s", err)
		}
		data, err := picture.PNG(turned.Render(size.width, size.height))
		if err != nil {
			return err
		}
		path := filepath.Join(dir, fmt.Sprintf("%s-%0*d.png", name, len(fmt.Sprint(n)), i+1))
		files = append(files, file.File{Path: path, Data: data})
		if err := moving.Add(turned.Plainly().Render(small.width, small.height)); err != nil {
			return err
		}
		fmt.Fprintf(c.stderr, "picture %d of %d\n", i+1, n)
	}
	data, err := moving.APNG()
	if err != nil {
		return err
	}
	path := filepath.Join(dir, name+"-turning.png")
	files = append(files, file.File{Path: path, Data: data})
	if err := c.save(context.Background(), file.Set{Files: files, Folder: dir, Named: given}); err != nil {
		return err
	}
	if _, err := fmt.Fprintf(c.stdout, "wrote %s to %s, %d x %d\n", printable(files[0].Path), printable(filepath.Base(files[n-1].Path)), size.width, size.height); err != nil {
		return err
	}
	_, err = fmt.Fprintf(c.stdout, "wrote %s, which turns: %d x %d, %s\n\n", printable(path), small.width, small.height, fileSize(len(data)))
	return err
}

// fileSize returns a number of bytes as one says it.
func fileSize(n int) string {
	if n < 100_000 {
		return fmt.Sprintf("%d kB", (n+500)/1000)
	}
	return fmt.Sprintf("%.1f MB", float64(n)/1e6)
}
