package vector

import (
	"math"
	"testing"

	"github.com/tdewolff/canvas"

	"stabile/render/ink"
)

// What ink measures is what the library draws, letter by letter and in a line,
// for every text that the typefaces can write.
func FuzzMeasure(f *testing.F) {
	for _, s := range []string{
		"", "A", "18 ga low-carbon steel", "5-1/4 in Ø120 ±0.5°", "Typewriter AVA To Wa fi fl ffi",
		"a\u00adb", "e\u0301", "a\tb\nc", "\u2028x", "שלום", "\u202eabc", "\xff\ufffd", "中央",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, style := range []ink.Face{ink.Regular, ink.Bold} {
			text := &ink.Text{Text: s, Height: 3.5, Face: style}
			line := text.Line()
			face := face(style, text.Height)
			written := canvas.NewTextLine(face, line, canvas.Left).Width
			_, outlined, err := face.ToPath(line)
			if err != nil {
				t.Fatal(err)
			}
			if len(ink.Missing(s)) > 0 {
				continue
			}
			const slack = 1e-6 // mm, what floating point loses
			if got := text.Width(); math.Abs(got-written) > slack || math.Abs(got-outlined) > slack {
				t.Errorf("%q is %v mm wide, as written %v, as outlines %v", s, got, written, outlined)
			}
		}
	})
}

func TestCapitalHeight(t *testing.T) {
	for _, style := range []ink.Face{ink.Regular, ink.Bold} {
		f := face(style, 3.5)
		if f.FauxBold != 0 || f.FauxItalic != 0 {
			t.Errorf("%v is an imitation", style)
		}
		outline, _, err := f.ToPath("H")
		if err != nil {
			t.Fatal(err)
		}
		if b := outline.Bounds(); math.Abs(b.Y1-3.5) > 1e-9 || b.Y0 != 0 {
			t.Errorf("a capital in %v reaches from %v to %v mm, want 0 to 3.5", style, b.Y0, b.Y1)
		}
	}
}
