// Package vector writes sheets of ink as SVG and PDF. It is the only
// package that knows the drawing library.
//
// Both ways of writing start from the same polylines, arcs and glyphs, rounded
// to the same micrometre, so that an SVG and the page of the PDF look the
// same. Equal sheets give equal bytes, on any day and in any time zone.
package vector

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// round returns a coordinate in mm to the micrometre, a fiftieth of the 0.05 mm
// to which outlines are true and a hundredth of the thinnest line. The library
// then writes eight digits, which is all of them up to a hundred metres.
func round(mm float64) float64 { return math.Round(mm*1e3) / 1e3 }

func roundPoint(p r2.Vec) r2.Vec { return r2.Vec{X: round(p.X), Y: round(p.Y)} }

// drawable is what one sheet must satisfy to be written: numbers that are
// numbers, and items that are known here.
func drawable(s *ink.Sheet) error {
	if s == nil {
		return fmt.Errorf("no sheet")
	}
	if !(s.Width > 0 && s.Height > 0 && finite(s.Width, s.Height)) {
		return fmt.Errorf("sheet %q: a size of %v x %v mm cannot be drawn", s.Name, s.Width, s.Height)
	}
	for i, item := range s.Items {
		if err := drawableItem(item); err != nil {
			return fmt.Errorf("sheet %q, item %d: %w", s.Name, i, err)
		}
	}
	return nil
}

func drawableItem(item ink.Item) error {
	ok := false
	switch it := item.(type) {
	case *ink.Stroke:
		ok = finitePath(it.Path)
	case *ink.Arc:
		ok = finite(it.Center.X, it.Center.Y, it.Radius, it.From, it.To) && it.Radius >= 0 && it.To >= it.From
	case *ink.Fill:
		ok = finitePath(it.Path) && it.Shade >= 0 && it.Shade <= 1
	case *ink.Image:
		ok = finitePath([]r2.Vec{it.Box.Min, it.Box.Max}) && it.Box.Min.X < it.Box.Max.X && it.Box.Min.Y < it.Box.Max.Y &&
			it.Image != nil && !it.Image.Bounds().Empty()
	case *ink.Text:
		ok = finite(it.At.X, it.At.Y, it.Height, it.Angle) && it.Height > 0
	default:
		return fmt.Errorf("%T cannot be drawn", item)
	}
	if !ok {
		return fmt.Errorf("%v cannot be drawn", item)
	}
	return nil
}

func finitePath(path []r2.Vec) bool {
	for _, p := range path {
		if !finite(p.X, p.Y) {
			return false
		}
	}
	return true
}

// finite reports whether all numbers are, and none is infinite.
func finite(list ...float64) bool {
	for _, x := range list {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
