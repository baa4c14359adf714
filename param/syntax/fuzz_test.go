package syntax

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"stabile/param/source"
)

// seeds adds the designs of testdata, and texts of which each holds one thing
// that is easily got wrong.
func seeds(f *testing.F) {
	names, err := filepath.Glob("testdata/*.stabile")
	if err != nil || len(names) == 0 {
		f.Fatalf("no seeds in testdata: %v", err)
	}
	for _, name := range names {
		in, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(in))
	}
	for _, in := range []string{
		"", "{", "}", "((((", "shop {\n{\n}\n{}}", "{ let a = 3 }", "let a = 5 ft-3 in", "let a = 1 -1/2", "let a = 1–1⁄2″", "let a = 1½", "let a = 5'-3\"",
		"post a on b { at (3 ? in,\n4 in), x @ }", "sculpture “x”", "let a = 'b", "\xff\xfe", "\ufeff\ufeff#\r\n",
		"when a or not b { repeat i from 1 to 2 {", "metal a { alloy 316L-x, b {", "let a = 1e3 mm // b", "/* a */ let b = 2 * / 3",
		"variation x { a = 1 b = 2 }", "let a = 1/0 + 1-1/0 - .", "post a.b[c](d) { e: f; g = h }", "adjust a = 1 form 2 too 3",
		"hole a[i] in b { slot 1/2 in by 2 in, toward left, up -20 deg }", "hole in { joint a }", "hole in in in { at 3 in in }",
	} {
		f.Add(in)
	}
}

func checkList(t *testing.T, in string, list source.List) {
	t.Helper()
	if len(list) > maxMistakes+1 {
		t.Fatalf("%d mistakes in %q", len(list), in)
	}
	last := 0
	for _, d := range list {
		if d.Span.From < last || d.Span.To < d.Span.From || d.Span.To > len(in) {
			t.Fatalf("mistake %q at [%d, %d) after %d of %d bytes", d.Text, d.Span.From, d.Span.To, last, len(in))
		}
		if d.Text == "" || d.Hint == "" {
			t.Fatalf("mistake %q with hint %q", d.Text, d.Hint)
		}
		last = d.Span.From
	}
}

// watch fails the run where a text is not read within a time that none needs:
// a fuzz run does not see a hang by itself.
func watch(in string) (stop func() bool) {
	return time.AfterFunc(10*time.Second, func() { panic(fmt.Sprintf("hangs: %q", in)) }).Stop
}

func FuzzScan(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, in string) {
		defer watch(in)()
		var list source.List
		var comments []Comment
		s := newScanner(source.NewFile("a", in), &list, &comments)
		last := 0
		for n := 0; ; n++ {
			tok := s.next()
			if tok.from < last || tok.to < tok.from || tok.to > len(in) {
				t.Fatalf("token %d at [%d, %d) after %d in %q", n, tok.from, tok.to, last, in)
			}
			if tok.kind == endOfText {
				break
			}
			if tok.to == tok.from {
				t.Fatalf("empty token at %d in %q", tok.from, in)
			}
			if math.IsNaN(tok.value) || math.IsInf(tok.value, 0) || tok.value < 0 {
				t.Fatalf("number %v in %q", tok.value, in)
			}
			if tok.spoilt && len(list) == 0 {
				t.Fatalf("spoilt token at %d in %q, and nothing reported", tok.from, in)
			}
			last = tok.to
		}
		for _, c := range comments {
			if text := c.Span.Text(); text == "" || text[0] != '#' || strings.Contains(text, "\n") {
				t.Fatalf("comment %q", text)
			}
		}
		list.Sort()
		checkList(t, in, list)
	})
}

func FuzzParse(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, in string) {
		defer watch(in)()
		file, list := Parse(source.NewFile("a", in))
		checkList(t, in, list)
		if len(list) > 0 {
			return
		}
		last := 0
		for _, s := range file.Statements {
			at := s.Span()
			if at.From < last || at.To <= at.From || at.To > len(in) {
				t.Fatalf("statement at [%d, %d) after %d in %q", at.From, at.To, last, in)
			}
			last = at.To
			if bad := firstBad(s); bad != nil {
				t.Fatalf("a value at %d of %q could not be read, and nothing is reported", bad.at.From, in)
			}
			// The text of a statement alone says the same.
			again, list := Parse(source.NewFile("b", at.Text()))
			var want, got strings.Builder
			dump(&want, []Statement{s}, "")
			dump(&got, again.Statements, "")
			if got.String() != want.String() || len(list) != 0 {
				t.Fatalf("%q reads as %s, then as %s (%v)", at.Text(), want.String(), got.String(), list.Err())
			}
		}
	})
}

func FuzzParseExpression(f *testing.F) {
	for _, in := range []string{"36 in", "5 ft 3-1/2 in", "low-carbon-steel", "f(a, (b), c[d].e) or not -g", "1 -1/2", ""} {
		f.Add(in)
	}
	f.Fuzz(func(t *testing.T, in string) {
		defer watch(in)()
		e, list := ParseExpression(source.NewFile("a", in))
		checkList(t, in, list)
		if len(list) > 0 {
			return
		}
		again, list := ParseExpression(source.NewFile("b", e.Span().Text()))
		if got, want := show(again), show(e); got != want || len(list) != 0 {
			t.Fatalf("%q reads as %s, then as %s (%v)", in, want, got, list.Err())
		}
		Word(e)
	})
}

func FuzzTidy(f *testing.F) {
	seeds(f)
	for _, in := range texts(f) {
		f.Add(in)
	}
	for seed := range uint64(200) {
		f.Add(grammatical(seed))
	}
	f.Fuzz(func(t *testing.T, in string) {
		defer watch(in)()
		checkTidy(t, in)
	})
}
