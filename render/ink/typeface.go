package ink

import (
	"fmt"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Writing is measured here from the typefaces themselves, without the drawing
// library, so that a layout can be worked out and tested where nothing is
// drawn. The Go typefaces have no kerning and no ligatures: a line is as wide
// as the sum of its letters. A test of package vector holds the two together.

// TTF returns the typeface as a TrueType file.
func (f Face) TTF() []byte {
	if f == Bold {
		return gobold.TTF
	}
	return goregular.TTF
}

// String returns the name of the face.
func (f Face) String() string {
	if f == Bold {
		return "bold"
	}
	return "regular"
}

// Em returns the size of the typeface, in mm, at which a capital letter has
// the given height in mm.
func (f Face) Em(height float64) float64 {
	t := f.typeface()
	return height * t.em / t.capital
}

// A typeface is what is known of a face's letters, in font units.
type typeface struct {
	em      float64     // units to the em
	capital float64     // height of a capital
	ascii   [0x80]glyph // of the letters that most writing is of
	glyphs  map[rune]glyph
	missing glyph // drawn in the place of a letter that the face lacks
}

// A glyph is the size of one letter in font units, y up from the baseline.
type glyph struct {
	advance      float64
	bottom, top  float64 // of the ink; both 0 where there is none
	present, ink bool
}

// Loaded once at first use and never changed.
var (
	regular = sync.OnceValue(func() *typeface { return load(goregular.TTF) })
	bold    = sync.OnceValue(func() *typeface { return load(gobold.TTF) })
)

func (f Face) typeface() *typeface {
	if f == Bold {
		return bold()
	}
	return regular()
}

// load reads the metrics of every letter in the Basic Multilingual Plane. The
// typefaces are part of the program, so that one which cannot be read is a
// fault of the program.
func load(ttf []byte) *typeface {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic(fmt.Sprintf("ink: typeface: %v", err))
	}
	var buf sfnt.Buffer
	units := fixed.Int26_6(f.UnitsPerEm()) // at this size a fixed-point unit is a font unit
	metrics, err := f.Metrics(&buf, units, font.HintingNone)
	if err != nil {
		panic(fmt.Sprintf("ink: typeface: %v", err))
	}
	t := &typeface{
		em:      float64(f.UnitsPerEm()),
		capital: float64(metrics.CapHeight),
		glyphs:  make(map[rune]glyph),
	}
	measure := func(x sfnt.GlyphIndex) glyph {
		bounds, advance, err := f.GlyphBounds(&buf, x, units, font.HintingNone)
		if err != nil {
			panic(fmt.Sprintf("ink: glyph %d: %v", x, err))
		}
		return glyph{
			advance: float64(advance),
			bottom:  -float64(bounds.Max.Y), // the reader's y is down
			top:     -float64(bounds.Min.Y),
			present: x != 0,
			ink:     bounds.Max.Y > bounds.Min.Y,
		}
	}
	t.missing = measure(0)
	for r := rune(0); r <= 0xffff; r++ {
		if x, err := f.GlyphIndex(&buf, r); err == nil && x != 0 {
			t.glyphs[r] = measure(x)
		}
	}
	for r := range rune(len(t.ascii)) {
		t.ascii[r] = t.lookUp(r)
	}
	return t
}

// of returns the glyph that is drawn for a letter.
func (t *typeface) of(r rune) *glyph {
	if 0 <= r && int(r) < len(t.ascii) {
		return &t.ascii[r]
	}
	g := t.lookUp(r)
	return &g
}

func (t *typeface) lookUp(r rune) glyph {
	if r = plain(r); r < 0 {
		return glyph{present: true}
	}
	if g, ok := t.glyphs[r]; ok {
		return g
	}
	return t.missing
}
