package syntax

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"stabile/param/golden"
	"stabile/param/source"
)

// texts returns the designs that lie in this package's testdata and beside the
// program, by name.
func texts(t testing.TB) map[string]string {
	t.Helper()
	all := make(map[string]string)
	for _, pattern := range []string{"testdata/*.stabile", "testdata/tidy/*.stabile", "../testdata/*.stabile", "../../examples/*.stabile"} {
		names, err := filepath.Glob(pattern)
		if err != nil || len(names) == 0 {
			t.Fatalf("no designs at %s: %v", pattern, err)
		}
		for _, name := range names {
			in, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			all[name] = string(in)
		}
	}
	return all
}

func TestTidyGolden(t *testing.T) {
	names, err := filepath.Glob("testdata/tidy/*.stabile")
	if err != nil || len(names) == 0 {
		t.Fatalf("no texts to tidy: %v", err)
	}
	for _, name := range append(names, "testdata/harbour.stabile", "testdata/garage.stabile") {
		in, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		got, list := Tidy(source.NewFile(name, string(in)))
		if len(list) > 0 {
			t.Errorf("Tidy(%s): %v", name, list.Err())
			continue
		}
		golden.Text(t, filepath.Join("testdata", "tidy", strings.TrimSuffix(filepath.Base(name), ".stabile")+".golden"), string(got))
		checkTidy(t, string(in))
	}
}

func TestTidyMistakes(t *testing.T) {
	out, list := Tidy(source.NewFile("a", "let x = 3 inn\nlet y = 4"))
	if out != nil || len(list) != 1 || list[0].Text != "unknown unit 'inn'" {
		t.Errorf("Tidy of a text with a mistake = %q, %v, want nothing and the mistake", out, list.Err())
	}
	// Properties of 1000 bytes on one line are 1001 at one level and 1003 at two.
	long := strings.Repeat(`, x "`+strings.Repeat("a", 994)+`"`, maxSource/1001-1)
	out, list = Tidy(source.NewFile("a", "shop { x 1"+long+" }"))
	if out == nil || len(list) > 0 {
		t.Errorf("Tidy of a long text: %v", list.Err())
	}
	out, list = Tidy(source.NewFile("a", "when a { shop { x 1"+long+" } }"))
	if out != nil || len(list) != 1 || list[0].Text != "the text would be longer than 4 MiB when tidied" {
		t.Errorf("Tidy of a text too long when tidied = %d bytes, %v", len(out), list.Err())
	}
}

// checkTidy sees that a tidy text says the same as the text it was made from,
// holds the same tokens and comments in the same order, and is tidy. A text
// with mistakes is not looked at.
func checkTidy(t *testing.T, in string) {
	t.Helper()
	f := source.NewFile("a", in)
	was, list := Parse(f)
	if len(list) > 0 {
		return
	}
	out, list := Tidy(f)
	if len(list) > 0 {
		t.Fatalf("Tidy(%q): %v", in, list.Err())
	}
	tidy := source.NewFile("b", string(out))
	is, list := Parse(tidy)
	if len(list) > 0 {
		t.Fatalf("Tidy(%q) =\n%s\nwhich has mistakes: %v", in, out, list.Err())
	}
	if got, want := dumpFile(is), dumpFile(was); got != want {
		t.Fatalf("Tidy(%q) =\n%s\nreads otherwise: %s", in, out, parting(got, want))
	}
	if got, want := stream(tidy), stream(f); got != want {
		t.Fatalf("Tidy(%q) =\n%s\nholds other tokens or comments: %s", in, out, parting(got, want))
	}
	again, _ := Tidy(tidy)
	if string(again) != string(out) {
		t.Fatalf("Tidy(%q) =\n%s\nand tidied again: %s", in, out, parting(string(again), string(out)))
	}
	if s := string(out); s != "" && !strings.HasSuffix(s, "\n") || strings.Contains(s, "\n\n\n") || strings.HasPrefix(s, "\n") || strings.HasSuffix(s, "\n\n") {
		t.Fatalf("Tidy(%q) = %q: empty lines or no end", in, s)
	}
	for l := range strings.Lines(string(out)) {
		l = strings.TrimSuffix(l, "\n")
		if strings.TrimRight(l, blanks) != l {
			t.Fatalf("Tidy(%q): line %q ends with a blank", in, l)
		}
		if code, _, _ := strings.Cut(l, "#"); !strings.Contains(code, `"`) && strings.ContainsAny(code, "\t\r\f\v") {
			t.Fatalf("Tidy(%q): line %q holds other blanks than the plain one", in, l)
		}
	}
}

// parting reports the first lines that two texts differ in.
func parting(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return fmt.Sprintf("line %d is %q, want %q", i+1, g[i], w[i])
		}
	}
	return fmt.Sprintf("%d lines, want %d", len(g), len(w))
}

// stream returns the tokens and comments of a text in order, one to a line,
// without blanks and commas. A comment that stands behind a token is distinguished from
// one on a line of its own; a comma that starts a line counts as behind the one
// before.
func stream(f *source.File) string {
	var list source.List
	var comments []Comment
	s := newScanner(f, &list, &comments)
	var b strings.Builder
	last, told, behind := 0, 0, false
	for tok := s.next(); ; tok = s.next() {
		for ; told < len(comments); told++ {
			at := comments[told].Span
			if behind && !strings.Contains(f.Text[last:at.From], "\n") {
				b.WriteString("behind ")
			}
			b.WriteString(strings.TrimRight(at.Text(), blanks) + "\n")
			last, behind = at.To, false
		}
		last = tok.to
		switch tok.kind {
		case endOfText:
			return b.String()
		case comma:
			continue
		case number:
			fmt.Fprintf(&b, "%s %s\n", f.Text[tok.from:tok.numberTo], tok.unit)
		default:
			b.WriteString(f.Text[tok.from:tok.to] + "\n")
		}
		behind = true
	}
}

func BenchmarkTidy(b *testing.B) {
	for _, parts := range []int{10, 100, 1000, 10000} {
		f := source.NewFile("bench.stabile", design(parts))
		b.Run(fmt.Sprintf("parts=%d", parts), func(b *testing.B) {
			b.SetBytes(int64(len(f.Text)))
			b.ReportAllocs()
			for b.Loop() {
				if _, list := Tidy(f); len(list) > 0 {
					b.Fatal(list.Err())
				}
			}
		})
	}
}

// BenchmarkTidyNested tidies braces within braces on one line that does not
// fit, which are tried once for each level.
func BenchmarkTidyNested(b *testing.B) {
	in := strings.Repeat("when a { ", maxBlocks-1) + "shop { x 1" + strings.Repeat(", x 1", 30_000) + " }" + strings.Repeat(" }", maxBlocks-1)
	f := source.NewFile("bench.stabile", in)
	b.SetBytes(int64(len(in)))
	for b.Loop() {
		if _, list := Tidy(f); len(list) > 0 {
			b.Fatal(list.Err())
		}
	}
}

// TestTidyCaps keeps the sizes of caps, and the shape that follows them.
func TestTidyCaps(t *testing.T) {
	for _, tt := range [][2]string{
		{"ball b on p { gores 8,caps 3 in   round }\n", "ball b on p { gores 8, caps 3 in round }\n"},
		{"ball b on p { caps 3 in  ,2 in round,gores 8 }\n", "ball b on p { caps 3 in, 2 in round, gores 8 }\n"},
		{"ball b on p { caps 3,(a/2), gores 8 }\n", "ball b on p { caps 3, (a / 2), gores 8 }\n"},
	} {
		got, wrong := Tidy(source.NewFile("caps.stabile", tt[0]))
		if err := wrong.Err(); err != nil || string(got) != tt[1] {
			t.Errorf("%q is tidied to %q, want %q: %v", tt[0], got, tt[1], err)
		}
	}
}
