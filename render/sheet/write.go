package sheet

import (
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// leading is the distance between baselines as a share of the height of a
// capital; ISO 3098 has 1.5 at least for letters without accents on capitals.
const leading = 1.55

// descent is how far letters reach under the baseline, as a share of the
// height of a capital, rounded up from the typefaces' own.
const descent = 0.3

// LineHeight returns the distance between baselines of writing of a height.
func LineHeight(height float64) float64 { return leading * height }

// Wrap breaks a text into lines no wider than width, in mm: at spaces where it
// can, within a word where that alone is too wide, and at every newline. A
// no-break space holds its words together.
func Wrap(text string, width, height float64, face ink.Face) []string {
	var lines []string
	space := ink.Width(" ", height, face)
	for paragraph := range strings.SplitSeq(text, "\n") {
		var line strings.Builder
		at := 0.0
		end := func() {
			lines = append(lines, line.String())
			line.Reset()
			at = 0
		}
		for word := range strings.SplitSeq(paragraph, " ") {
			if word == "" {
				continue
			}
			long := ink.Width(word, height, face)
			if line.Len() > 0 {
				if at+space+long <= width {
					line.WriteByte(' ')
					line.WriteString(word)
					at += space + long
					continue
				}
				end()
			}
			for long > width {
				head, w := headOf(word, width, height, face)
				if head == word {
					break // a single letter, wider than the width
				}
				rest := word[len(head):]
				if i := strings.LastIndex(head+ahead(rest), bound); i > 0 {
					// Words that are bound to each other part before a word breaks.
					head, rest = word[:i], word[i+len(bound):]
					w = long - ink.Width(rest, height, face)
				}
				lines = append(lines, head)
				word = rest
				long -= w
			}
			line.WriteString(word)
			at = long
		}
		end()
	}
	return lines
}

// bound is the space that keeps two words on a line.
const bound = "\u00a0"

// ahead returns the space that a rest of a word begins with, if it does.
func ahead(rest string) string {
	if strings.HasPrefix(rest, bound) {
		return bound
	}
	return ""
}

// headOf returns as much of a word as goes into a width, one letter at least,
// and how wide that is.
func headOf(word string, width, height float64, face ink.Face) (head string, at float64) {
	for i, r := range word {
		w := ink.Width(string(r), height, face)
		if at+w > width && i > 0 {
			return word[:i], at
		}
		at += w
	}
	return word, at
}

// Elide returns the text, or as much of it as goes into a width with an
// ellipsis after it; nothing where even that is too wide.
func Elide(text string, width, height float64, face ink.Face) string {
	const ellipsis = "…"
	if ink.Width(text, height, face) <= width {
		return text
	}
	room := width - ink.Width(ellipsis, height, face)
	if room < 0 {
		return ""
	}
	at := 0.0
	for i, r := range text {
		at += ink.Width(string(r), height, face)
		if at > room {
			return strings.TrimRight(text[:i], " ") + ellipsis
		}
	}
	return text
}

// writeLines writes lines under each other, the top of the capitals of the
// first at top.
func writeLines(s *ink.Sheet, lines []string, x, top, height float64, face ink.Face, anchor ink.Anchor) {
	for i, line := range lines {
		if line == "" {
			continue
		}
		s.Add(&ink.Text{
			At:     r2.Vec{X: x, Y: top - height - float64(i)*LineHeight(height)},
			Height: height,
			Face:   face,
			Anchor: anchor,
			Text:   line,
		})
	}
}

// blockHeight returns the height of n lines, from the top of the first's
// capitals to the baseline of the last.
func blockHeight(n int, height float64) float64 {
	if n == 0 {
		return 0
	}
	return height + float64(n-1)*LineHeight(height)
}
