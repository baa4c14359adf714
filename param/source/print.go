package source

import (
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// excerptWidth is the longest piece of a source line that is shown: enough for
// the marked words and what stands about them on a terminal of 100 columns.
const excerptWidth = 90

// Print writes each diagnostic of the list: the place and what is wrong, the
// source line, a marker under the very words, notes and the hint.
func (l List) Print(w io.Writer) error {
	var b strings.Builder
	for i, d := range l {
		if i > 0 {
			b.WriteByte('\n')
		}
		d.print(&b)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (d Diagnostic) print(b *strings.Builder) {
	fmt.Fprintf(b, "%s\n", d.Error())
	excerpt(b, d.Span)
	for _, n := range d.Note {
		fmt.Fprintf(b, "\n  %s%s\n", place(n.Span), visible(n.Text))
		excerpt(b, n.Span)
	}
	if d.Hint != "" {
		fmt.Fprintf(b, "\n  %s\n", visible(d.Hint))
	}
}

// visible returns a text with each character that cannot be seen as one blank,
// so that words taken from a design neither move a marker nor steer a terminal.
func visible(s string) string {
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError || !unicode.IsPrint(r) {
			return ' '
		}
		return r
	}, s)
}

// excerpt shows the first line of a span with a marker under its words.
func excerpt(b *strings.Builder, s Span) {
	if s.File == nil {
		return
	}
	at := s.Start()
	line := []rune(visible(s.File.Line(at.Line)))
	from := min(at.Column-1, len(line))
	to := from + utf8.RuneCountInString(s.Text())
	to = max(from+1, min(to, len(line)))

	// A very long line is shown from a little before the marked words.
	if len(line) > excerptWidth {
		cut := max(0, min(from-excerptWidth/3, len(line)-excerptWidth))
		line = line[cut:]
		from, to = from-cut, to-cut
		line = line[:min(len(line), excerptWidth)]
		to = max(from+1, min(to, len(line)))
	}
	number := fmt.Sprint(at.Line)
	gutter := strings.Repeat(" ", len(number))
	fmt.Fprintf(b, "\n  %s | %s\n", number, strings.TrimRight(string(line), " "))
	fmt.Fprintf(b, "  %s | %s%s\n", gutter, strings.Repeat(" ", from), strings.Repeat("^", to-from))
}
