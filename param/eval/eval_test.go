package eval

import (
	"strings"
	"testing"

	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/syntax"
)

// evaluate parses and evaluates a text.
func evaluate(text string, o Options) (*design.Design, source.List) {
	f, list := syntax.Parse(source.NewFile("test.stabile", text))
	o.Partial = len(list) > 0
	for _, d := range list {
		o.Unread = append(o.Unread, d.Span)
	}
	d, more := Evaluate(f, o)
	list = append(list, more...)
	list.Sort()
	return d, list
}

// mustEvaluate evaluates a text that is to be sound.
func mustEvaluate(t testing.TB, text string) *design.Design {
	t.Helper()
	d, list := evaluate(text, Options{})
	if len(list) > 0 {
		var b strings.Builder
		list.Print(&b)
		t.Fatalf("unexpected mistakes:\n%s", b.String())
	}
	return d
}

// part returns a part that is to be there.
func part(t testing.TB, d *design.Design, name string) *design.Part {
	t.Helper()
	p := d.Part(name)
	if p == nil {
		t.Fatalf("there is no part %q", name)
	}
	return p
}

// A wrong is a mistake that is to be reported in a text: what is said of the marked
// words, and a piece of the hint; "" for no hint.
type wrong struct{ text, hint string }

// marked takes the marks out of a text in which each stretch in guillemets is
// to be reported as a mistake, and returns their spans in order.
func marked(text string) (string, [][2]int) {
	var b strings.Builder
	var spans [][2]int
	var open []int
	for _, r := range text {
		switch r {
		case '«':
			open = append(open, len(spans))
			spans = append(spans, [2]int{b.Len(), 0})
		case '»':
			spans[open[len(open)-1]][1] = b.Len()
			open = open[:len(open)-1]
		default:
			b.WriteRune(r)
		}
	}
	return b.String(), spans
}

// checkMistakes evaluates a marked text and compares what is reported with what
// is wanted, each at the very words.
func checkMistakes(t *testing.T, text string, o Options, want []wrong) {
	t.Helper()
	plain, spans := marked(text)
	if len(spans) != len(want) {
		t.Fatalf("%d marks and %d mistakes", len(spans), len(want))
	}
	d, list := evaluate(plain, o)
	if len(list) > 0 && d != nil {
		t.Errorf("a design comes with %d mistakes", len(list))
	}
	for i, got := range list {
		if i >= len(want) {
			t.Errorf("too many: %v\n\thint: %s", got, got.Hint)
			continue
		}
		w := want[i]
		if got.Text != w.text || !strings.Contains(got.Hint, w.hint) || (w.hint == "") != (got.Hint == "") {
			t.Errorf("got  %v\n\thint: %s\nwant %s\n\thint: %s", got, got.Hint, w.text, w.hint)
		}
		if got.Span.From != spans[i][0] || got.Span.To != spans[i][1] {
			t.Errorf("%q is told of %q (%d to %d), want %q (%d to %d)", got.Text,
				got.Span.Text(), got.Span.From, got.Span.To, plain[spans[i][0]:spans[i][1]], spans[i][0], spans[i][1])
		}
	}
	for _, w := range want[min(len(list), len(want)):] {
		t.Errorf("not told: %s", w.text)
	}
	for _, got := range list {
		if got.Cure == nil || got.Cure.Span.File.Text != plain {
			continue
		}
		mended := got.Cure.In(plain)
		if _, left := evaluate(mended, o); len(left) >= len(list) {
			t.Errorf("%q is not mended by %q: %v", got.Text, got.Cure.Words, left.Err())
		}
	}
}
