package vector

import (
	"fmt"
	"sync"

	"github.com/tdewolff/canvas"

	"stabile/render/ink"
)

// pointsPerMillimetre is the printer's point, 1/72 in, in which the library
// needs the size of a typeface.
const pointsPerMillimetre = 72 / 25.4

// family holds the typefaces, loaded once at first use and then only read.
// They are part of the program: one that cannot be read is a fault of it.
//
// Both weights are real: the library's imitation of bold would spoil the widths
// of the lines that follow.
var family = sync.OnceValue(func() *canvas.FontFamily {
	f := canvas.NewFontFamily("Go") // not one of the names that a PDF leaves unembedded
	load := func(face ink.Face, style canvas.FontStyle) {
		if err := f.LoadFont(face.TTF(), 0, style); err != nil {
			panic(fmt.Sprintf("vector: %v typeface: %v", face, err))
		}
	}
	load(ink.Regular, canvas.FontRegular)
	load(ink.Bold, canvas.FontBold)
	return f
})

// font returns the typeface as the library knows it.
func font(f ink.Face) *canvas.Font {
	return face(f, 1).Font
}

// face returns the typeface at the size at which a capital is height mm high.
func face(f ink.Face, height float64) *canvas.FontFace {
	style := canvas.FontRegular
	if f == ink.Bold {
		style = canvas.FontBold
	}
	return family().Face(f.Em(height)*pointsPerMillimetre, style, canvas.Black)
}
