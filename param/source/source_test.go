package source

import (
	"errors"
	"strings"
	"testing"
)

func TestPosition(t *testing.T) {
	f := NewFile("a", "\ufeffab\r\nä½c\n\nend")
	for _, tt := range []struct {
		at           string // the text from the place on
		line, column int
	}{
		{"ab", 1, 1},
		{"b\r", 1, 2},
		{"ä½c", 2, 1},
		{"½c", 2, 2},
		{"c\n", 2, 3},
		{"\nend", 3, 1},
		{"end", 4, 1},
		{"", 4, 4},
	} {
		offset := len(f.Text)
		if tt.at != "" {
			offset = strings.Index(f.Text, tt.at)
		}
		if got, want := f.Position(offset), (Position{tt.line, tt.column}); got != want {
			t.Errorf("Position(%d) = %v, want %v", offset, got, want)
		}
	}
	for _, tt := range []struct{ offset, line, column int }{{-1, 1, 1}, {1000, 4, 4}} {
		if got, want := f.Position(tt.offset), (Position{tt.line, tt.column}); got != want {
			t.Errorf("Position(%d) = %v, want %v", tt.offset, got, want)
		}
	}
	for i, want := range []string{"", "ab", "ä½c", "", "end", ""} {
		if got := f.Line(i); got != want {
			t.Errorf("Line(%d) = %q, want %q", i, got, want)
		}
	}
}

func TestSpan(t *testing.T) {
	f := NewFile("a", "one two three")
	one, three := Span{f, 0, 3}, Span{f, 8, 13}
	if got := one.Join(three).Text(); got != f.Text {
		t.Errorf("Join = %q, want %q", got, f.Text)
	}
	if got := three.Join(one); got != one.Join(three) {
		t.Errorf("Join the other way = %v, want %v", got, one.Join(three))
	}
	if got := one.Join(Span{}); got != one {
		t.Errorf("Join(nothing) = %v, want %v", got, one)
	}
	if got := (Span{}).Join(one); got != one {
		t.Errorf("nothing.Join = %v, want %v", got, one)
	}
	if (Span{}).Text() != "" || (Span{}).Start() != (Position{}) || !(Span{}).IsZero() || one.IsZero() {
		t.Errorf("the zero Span points somewhere")
	}
}

func TestListErr(t *testing.T) {
	var l List
	if err := l.Err(); err != nil {
		t.Errorf("Err of an empty list = %v, want nil", err)
	}
	f := NewFile("b.stabile", "let x = 3\nlet y = 4\n")
	l.Add(Span{f, 14, 15}, "hint", "'%s' is wrong", "y")
	l.Add(Span{f, 4, 5}, "", "'x' is wrong")
	l.Add(Span{f, 14, 15}, "another", "'y' is wrong")
	l.Add(Span{}, "", "no file at all")
	l.Add(Span{NewFile("a.stabile", "x"), 0, 1}, "", "of the first file")
	l.Sort()
	const want = "no file at all\n" +
		"a.stabile:1:1: of the first file\n" +
		"b.stabile:1:5: 'x' is wrong\n" +
		"b.stabile:2:5: 'y' is wrong"
	err := l.Err()
	if err == nil || err.Error() != want {
		t.Errorf("Err = %v, want %v", err, want)
	}
	var all *Error
	if !errors.As(err, &all) || len(all.List) != 4 || all.List[3].Hint != "hint" {
		t.Errorf("Err carries %v, want the list", all)
	}
}

func TestPrint(t *testing.T) {
	long := strings.Repeat("a", 200) + " wrong " + strings.Repeat("b", 200)
	for _, tt := range []struct {
		name, text, words string
		want              string
	}{
		{"plain", "let x = 3 in\n", "3", "a:1:9: bad\n\n  1 | let x = 3 in\n    |         ^\n\n  mend it\n"},
		{"tab", "\tgap ½ in\r\n", "½", "a:1:6: bad\n\n  1 |  gap ½ in\n    |      ^\n\n  mend it\n"},
		{"not UTF-8", "\xe9\xe9 gap", "gap", "a:1:4: bad\n\n  1 |    gap\n    |    ^^^\n\n  mend it\n"},
		{"line 10", strings.Repeat("\n", 9) + "gap", "gap", "a:10:1: bad\n\n  10 | gap\n     | ^^^\n\n  mend it\n"},
		{"two lines", "a {\nb", "{\nb", "a:1:3: bad\n\n  1 | a {\n    |   ^\n\n  mend it\n"},
		{"long", long, "wrong", "a:1:202: bad\n\n  1 | " + strings.Repeat("a", 29) + " wrong " + strings.Repeat("b", 54) +
			"\n    | " + strings.Repeat(" ", 30) + "^^^^^\n\n  mend it\n"},
		{"terminal", "gap \x1b[2m\u202e3", "3", "a:1:10: bad\n\n  1 | gap  [2m 3\n    |          ^\n\n  mend it\n"},
		{"end", "gap", "", "a:1:4: bad\n\n  1 | gap\n    |    ^\n\n  mend it\n"},
	} {
		f := NewFile("a", tt.text)
		from := len(tt.text)
		if tt.words != "" {
			from = strings.Index(tt.text, tt.words)
		}
		l := List{{Span: Span{f, from, from + len(tt.words)}, Text: "bad", Hint: "mend it"}}
		var b strings.Builder
		if err := l.Print(&b); err != nil {
			t.Fatal(err)
		}
		if got := b.String(); got != tt.want {
			t.Errorf("%s: Print =\n%s\nwant\n%s", tt.name, got, tt.want)
		}
	}
}

func TestPrintNote(t *testing.T) {
	f := NewFile("a", "let x = 3\nlet x = 4\n")
	l := List{
		{Span: Span{f, 14, 15}, Text: "'x' is named again", Note: []Note{{Span{f, 4, 5}, "named here first"}}},
		{Text: "the design has no part"},
	}
	const want = `a:2:5: 'x' is named again

  2 | let x = 4
    |     ^

  a:1:5: named here first

  1 | let x = 3
    |     ^

the design has no part
`
	var b strings.Builder
	if err := l.Print(&b); err != nil || b.String() != want {
		t.Errorf("Print = %v\n%s\nwant\n%s", err, b.String(), want)
	}
}

func TestSuggest(t *testing.T) {
	words := []string{"diameter", "length", "lean", "metal", "offset", "at", "post", "ball", "weathering-steel", "copper", "stainless-304", "stainless-316"}
	for _, tt := range []struct {
		word, want string
	}{
		{"diametre", "diameter"}, // two letters swapped
		{"diamter", "diameter"},
		{"lenght", "length"},
		{"len", "lean"},
		{"metla", "metal"},
		{"ofset", "offset"},
		{"offsett", "offset"},
		{"pst", "post"},
		{"ta", "at"},
		{"gap", ""},
		{"x", ""},
		{"post", ""}, // is right
		{"circumference", ""},
		{"", ""},
		{"weathering", "weathering-steel"},
		{"copper-sheet", "copper"},
		{"stainless", ""}, // there are two
		{strings.Repeat("diameter", 20), ""},
	} {
		got, ok := Suggest(tt.word, words)
		if got != tt.want || ok != (tt.want != "") {
			t.Errorf("Suggest(%q) = %q, %v, want %q", tt.word, got, ok, tt.want)
		}
	}
}

func FuzzSuggest(f *testing.F) {
	f.Add("diametre", "diameter")
	f.Add("Säule", "säule")
	f.Fuzz(func(t *testing.T, a, b string) {
		if len(a)+len(b) > 1000 {
			return
		}
		d := distance(a, b)
		if back := distance(b, a); back != d {
			t.Errorf("distance(%q, %q) = %d, and back %d", a, b, d, back)
		}
		if (d == 0) != (string([]rune(a)) == string([]rune(b))) {
			t.Errorf("distance(%q, %q) = %d", a, b, d)
		}
	})
}

func FuzzPrint(f *testing.F) {
	f.Add("\tgap ½\r\n\xe9", 3, 5)
	f.Fuzz(func(t *testing.T, text string, from, to int) {
		file := NewFile("a", text)
		n := len(file.Text)
		from, to = max(0, min(from, n)), max(0, min(to, n))
		var b strings.Builder
		l := List{{Span: Span{file, min(from, to), max(from, to)}, Text: text, Hint: text}}
		if err := l.Print(&b); err != nil {
			t.Fatal(err)
		}
		if strings.ContainsAny(b.String(), "\x1b\r\t") {
			t.Errorf("Print lets a control character through: %q", b.String())
		}
	})
}

func TestDistance(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"report", "report", 0}, {"reprot", "report", 1}, {"drw", "draw", 1},
		{"raport", "report", 1}, {"", "abc", 3}, {"kitten", "sitting", 3}, {"ab", "ba", 1},
	} {
		if got := distance(tt.a, tt.b); got != tt.want {
			t.Errorf("distance(%q, %q) = %d, want %d", tt.a, tt.b, got, tt.want)
		}
	}
}
