package contact

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/render/picture"
)

// full is how many entries fill a sheet of the usual paper.
const full = 24

// finest is how much finer than on a full sheet a picture is made at most.
const finest = 4

// Picture gives each entry that can be made its picture, upright for a tall piece: long
// by short dots where many share a sheet, and finer where few do, since each is then
// larger. All are seen from the same place, so that they compare.
func Picture(ctx context.Context, entries []Entry, long, short int, o picture.Options) error {
	o.Frame = around(entries)
	finer := min(max(1, math.Sqrt(full/float64(max(1, len(entries))))), finest)
	long, short = int(float64(long)*finer), int(float64(short)*finer)
	for i := range entries {
		if err := ctx.Err(); err != nil {
			return err
		}
		j := entries[i].Job
		if j == nil {
			continue
		}
		s, err := picture.New(j, o)
		if err != nil {
			return err
		}
		w, h := long, short
		if s.Upright() {
			w, h = short, long
		}
		entries[i].Picture = s.Render(w, h)
	}
	return nil
}

// around returns the box about all entries that can be made.
func around(entries []Entry) r3.Box {
	var box r3.Box
	first := true
	for i := range entries {
		j := entries[i].Job
		if j == nil {
			continue
		}
		lo, hi := j.Size.Min, j.Size.Max
		if first {
			box, first = r3.Box{Min: lo, Max: hi}, false
			continue
		}
		box.Min = r3.Vec{X: min(box.Min.X, lo.X), Y: min(box.Min.Y, lo.Y), Z: min(box.Min.Z, lo.Z)}
		box.Max = r3.Vec{X: max(box.Max.X, hi.X), Y: max(box.Max.Y, hi.Y), Z: max(box.Max.Z, hi.Z)}
	}
	return box
}
