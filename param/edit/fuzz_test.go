package edit

import (
	"errors"
	"math"
	"strings"
	"testing"

	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// awkward are texts in which an edit is easily got wrong.
var awkward = []string{
	"", "\ufeff", "{", "post", "post a", "post a on", "post a on pad {", "post a on pad { length }", "post a on pad { length 3",
	"base pad { feet }\npost a on pad {}", "base pad { feet }\npost a on pad { # nothing\n}", "base pad { feet }\r\npost a on pad {\r\n  length 9 mm,\r\n  metal skin\r\n}\r\n",
	"let a = b\nlet b = a\npost p on q { length a }", "let a = a + 1\npost p on q { length 2 * a }",
	"post p on p { length p.length }", "post p on q { length -3 in }\npost q on p { length 1/0 in }",
	"repeat i from 1 to 3 { post p[i] on pad { length i * 3 in, at (i, 2) } }", "when x { post p on pad { length 9 mm } }",
	"adjust a = 3 in from 5 in to 1 in step 0\npost p on pad { length a }", "adjust a = 3 in from 1 in to 5 in step -1 in\npost p on pad { length a * 2 }",
	"post p on pad { length 5 ft 3 in }", "post p on pad { length 5ft, lean 0 deg toward p, at polar(0, 0 deg) }",
	"post p on pad { length 3–1⁄2″ }", "post p on pad { lean 1 - 1 deg toward -0 deg }", "let pi2 = pi\npost p on pad { length pi2 * 1 in }",
	"units inch\npost p on pad { length 1-1/2, length 3 }", "ball p at (1 in, 2 in, 3 in) { diameter 5 in }", "# ü\npost ü on pad { length 3 in } # ü",
	"variation \"x\" { a = 3 in }\nadjust a = 1 in from 0 in to 9 in\npost p on pad { length a }", "require p.top < 3 in\npost p on q {}",
	"post p on pad { length 99999999999999999999999999999999999 km }", "base pad { plate polygon (0, 0), (3, 0), (3, 4) }",
}

// FuzzEdit sets, adds, removes and completes in any text. None panics or hangs;
// an edit that is made reads no worse than the text did and is undone to the same
// bytes.
func FuzzEdit(f *testing.F) {
	for _, text := range examples(f) {
		f.Add(text, 14, 312.5, uint8(3))
	}
	f.Add(stack, 3, 700.0, uint8(0))
	for i, text := range awkward {
		f.Add(text, i, float64(i)-3.3, uint8(i))
	}
	f.Fuzz(func(t *testing.T, text string, at int, value float64, which uint8) {
		if len(text) > 20_000 {
			return
		}
		read := Read("a", text, Options{Variation: "x"})
		_, _, words := read.Complete(at)
		for _, w := range words {
			if w.Text == "" {
				t.Fatalf("an empty word at %d", at)
			}
		}
		if _, from, to, ok := read.About(at); ok && (from < 0 || to > len(text) || from > to) {
			t.Fatalf("a word at [%d, %d) of %d bytes", from, to, len(text))
		}
		for i := range min(len(read.parts), 3) {
			p := read.parts[(i+int(which))%len(read.parts)]
			name := p.Name.Text
			if p.Index != nil {
				name += "[1]"
			}
			for _, q := range declarationOf(p.Keyword.Text).Properties {
				for n := range q.Arguments {
					s, err := read.Set(wish(name, q.Word, n, i, quantity.Quantity{Number: value, Dim: dimension(&q.Arguments[n])}))
					checkEdit(t, text, s, err)
				}
			}
			s, err := read.Set(wish(name, "lean", 0, 0, deg(value)), wish(name, "lean", 1, 0, deg(value)), wish(name, "at", 0, 0, mm(value)), wish(name, "at", 0, 1, mm(value)))
			checkEdit(t, text, s, err)
			a, err := read.Add(Addition{Keyword: "ball", Host: name, Properties: []Given{{"diameter", size(mm(value))}, {"gores", size(number(value))}}})
			if a != nil {
				checkEdit(t, text, &Set{Text: a.Text, Edit: a.Edit, Undo: a.Undo}, err)
				if got := a.Text[a.From:a.To]; !strings.HasPrefix(got, "ball "+a.Name) {
					t.Fatalf("the part stands at %q", got)
				}
			}
			r, err := read.Remove(p.Name.Text)
			if r != nil {
				checkEdit(t, text, &Set{Text: r.Text, Edit: r.Edit, Undo: r.Undo}, err)
			}
		}
	})
}

func checkEdit(t *testing.T, text string, s *Set, err error) {
	t.Helper()
	if err != nil {
		var r *Refusal
		if !errors.As(err, &r) {
			t.Fatal(err)
		}
		return
	}
	if got, err := s.Edit.Apply(text); err != nil || got != s.Text {
		t.Fatalf("%+v gives %q, %v; want %q", s.Edit, got, err, s.Text)
	}
	if back, err := s.Undo.Apply(s.Text); err != nil || back != text {
		t.Fatalf("undone to %q, %v", back, err)
	}
	for _, n := range s.Numbers {
		if math.IsNaN(n.Value.Number) || math.IsInf(n.Value.Number, 0) {
			t.Fatalf("set to %v", n.Value)
		}
	}
	tree, wrong := syntax.Parse(source.NewFile("a", s.Text))
	if _, before := syntax.Parse(source.NewFile("a", text)); len(wrong) > len(before) {
		t.Fatalf("%+v: %v", s.Edit, wrong.Err())
	}
	eval.Evaluate(tree, eval.Options{})
}
