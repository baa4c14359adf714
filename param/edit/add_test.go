package edit

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

func size(q ...quantity.Quantity) []Value {
	var list []Value
	for _, x := range q {
		list = append(list, Value{Quantity: x})
	}
	return list
}

func number(x float64) quantity.Quantity { return quantity.Quantity{Number: x} }

func TestAdd(t *testing.T) {
	for _, tt := range []struct {
		name   string
		text   string
		a      Addition
		behind string // what the new statement comes behind
		want   string
	}{
		{name: "post", a: Addition{Keyword: "post", Host: "moon", Properties: []Given{{"diameter", size(in(2))}, {"length", size(in(20.26))}, {"offset", size(in(1), deg(90))}}},
			behind: "ball moon on mast { diameter 14 in, gores 12, offset 0, metal skin }\n",
			want:   "post post1 on moon { diameter 2 in, length 20-1/4 in, offset 1 in toward 90 deg, metal skin }\n"},
		{name: "name taken", a: Addition{Keyword: "ball", Name: "moon", Host: "spur", Properties: []Given{{"diameter", size(in(6))}, {"gores", size(number(8))}}},
			behind: "length 8 in, metal skin }\n", want: "ball moon1 on spur { diameter 6 in, gores 8, metal skin }\n"},
		{name: "branch", a: Addition{Keyword: "post", Name: "twig", Host: "mast", Properties: []Given{{"at", size(in(4), deg(30))}, {"diameter", size(in(2))}, {"length", size(in(10))}}},
			behind: "# from the rack\n}\n", want: "post twig on mast { at 4 in toward 30 deg, diameter 2 in, length 10 in, metal skin }\n"},
		{name: "on the base", a: Addition{Keyword: "ball", Name: "egg", Host: "pad", Properties: []Given{{"at", []Value{{Point: []quantity.Quantity{in(1), in(-2.5)}}}}, {"diameter", size(in(6))}, {"halves", nil}}},
			behind: "base pad { plate 32 in by 28 in, metal slab }\n", want: "ball egg on pad { at (1 in, -2-1/2 in), diameter 6 in, halves, metal skin }\n"},
		{name: "threaded", a: Addition{Keyword: "ball", Name: "ring", Clause: "around", Host: "mast", Properties: []Given{{"diameter", size(in(9))}, {"height", size(in(12))}, {"gores", size(number(8))}}},
			behind: "# from the rack\n}\n", want: "ball ring around mast { diameter 9 in, height 12 in, gores 8, metal skin }\n"},
		{name: "on one of a row", a: Addition{Keyword: "post", Name: "tip", Host: "seed[2]", Properties: []Given{{"diameter", size(in(1))}, {"length", size(in(5))}}},
			behind: "metal skin }\n}\n", want: "post tip on seed[2] { diameter 1 in, length 5 in, metal skin }\n"},
		{name: "long", a: Addition{Keyword: "post", Name: "long_name_of_a_post", Host: "moon", Properties: []Given{{"diameter", size(in(2), in(1.5))}, {"length", size(in(20))}, {"offset", size(in(1), deg(90))}, {"lean", size(deg(5), deg(90))}}},
			behind: "offset 0, metal skin }\n",
			want:   "post long_name_of_a_post on moon {\n  diameter 2 in to 1-1/2 in\n  length   20 in\n  offset   1 in toward 90 deg\n  lean     5 deg toward 90 deg\n  metal    skin\n}\n"},
		{name: "pointing at a later part", a: Addition{Keyword: "post", Name: "arm", Host: "moon", Properties: []Given{{"diameter", size(in(2))}, {"length", size(in(5))}, {"lean", []Value{{Quantity: deg(5)}, {Word: "pebble"}}}}},
			behind: "halves, metal skin }\n", want: "post arm on moon { diameter 2 in, length 5 in, lean 5 deg toward pebble, metal skin }\n"},
		{name: "behind a comment", text: head + "post a on pad { diameter 2 in, length 9 in, metal skin }  # the first\n",
			a:      Addition{Keyword: "ball", Host: "a", Properties: []Given{{"diameter", size(in(5))}, {"halves", nil}}},
			behind: "# the first\n", want: "ball ball1 on a { diameter 5 in, halves, metal skin }\n"},
		{name: "base", text: "units mm\r\nmetal slab { alloy low-carbon-steel, thickness 8 }", a: Addition{Keyword: "base", Properties: []Given{{"plate", size(mm(600), mm(400.3))}}},
			behind: "thickness 8 }\r\n\r\n", want: "base base1 { plate 600 mm by 400.5 mm, metal slab }"},
		{name: "within a condition", text: head + "when 1 < 2 { post a on pad { diameter 2 in, length 9 in, metal skin } }\n",
			a:      Addition{Keyword: "ball", Host: "a", Properties: []Given{{"diameter", size(in(5))}, {"halves", nil}}},
			behind: "metal skin }\n  ", want: "ball ball1 on a { diameter 5 in, halves, metal skin }\n}\n"},
	} {
		text := tt.text
		if text == "" {
			text = stack
		}
		read := Read("a", text, Options{})
		s, err := read.Add(tt.a)
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if !strings.Contains(s.Text, tt.behind+tt.want) {
			t.Errorf("%s: got\n%s\nwant %s", tt.name, s.Text, tt.behind+tt.want)
		}
		if got := s.Text[s.From:s.To]; !strings.HasPrefix(got, tt.a.Keyword+" "+s.Name) || !strings.HasSuffix(strings.TrimRight(got, "\n"), "}") {
			t.Errorf("%s: it stands at %q", tt.name, got)
		}
		if back, err := s.Undo.Apply(s.Text); err != nil || back != text {
			t.Errorf("%s: undone to %q, %v", tt.name, back, err)
		}
	}
	for _, tt := range []struct {
		a    Addition
		want Reason
	}{
		{Addition{Keyword: "base", Properties: []Given{{"disc", size(in(9))}}}, OneBase},
		{Addition{Keyword: "post", Host: "nobody"}, NoPart},
		{Addition{Keyword: "metal", Host: "pad"}, NoPart},
		{Addition{Keyword: "post", Host: "moon", Properties: []Given{{"diameter", size(in(2))}}}, Missing},
		{Addition{Keyword: "ball", Host: "spur", Properties: []Given{{"diameter", size(in(2))}}}, Missing},
		{Addition{Keyword: "ball", Host: "spur", Properties: []Given{{"length", size(in(2))}}}, NoProperty},
		{Addition{Keyword: "ball", Host: "pad", Clause: "around"}, NoPart},
		{Addition{Keyword: "ball", Host: "pad", Properties: []Given{{"diameter", size(in(2))}, {"halves", nil}, {"metal", []Value{{Word: "a }\npost"}}}}}, Unreadable},
	} {
		var r *Refusal
		if s, err := Read("a", stack, Options{}).Add(tt.a); !errors.As(err, &r) || r.Reason != tt.want {
			t.Errorf("%+v: got %v, %v, want %v", tt.a, s, err, tt.want)
		}
	}
}

func TestRemove(t *testing.T) {
	text := stack + `
# The eye.
post eye on moon { diameter 2 in, length 9 in, lean 4 deg toward pebble, metal skin }

let gap = pebble.top
require eye.top <= 9 ft  "the door"
require seed[1].top <= 9 ft
require weight <= 900 lb
`
	for _, tt := range []struct {
		part   string
		gone   []string // that no longer stand in the text
		stays  []string
		fallen string
		left   string
	}{
		{part: "eye", gone: []string{"eye", "# The eye."}, stays: []string{"moon", "metal skin }\n}\nvariation \"tall\" { rise = 40 in }\n\nlet gap"}, fallen: "require"},
		{part: "moon", gone: []string{"moon", "eye"}, fallen: "post top, post eye, require"},
		{part: "mast", gone: []string{"mast", "moon", "spur", "# from the rack"}, fallen: "ball moon, post spur, post top, post eye, require"},
		{part: "reed", gone: []string{"reed", "seed", "\n\n\n"}, stays: []string{"repeat"}, fallen: "ball seed, require"},
		{part: "pebble", gone: []string{"ball pebble"}, left: "pebble pebble"},
		{part: "pad", gone: []string{"post", "ball", "base"}, fallen: "post mast, ball moon, post spur, post top, post polar1, ball pebble, post reed, ball seed, post eye, require, require", left: "pebble"},
	} {
		s, err := Read("a", text, Options{}).Remove(tt.part)
		if err != nil {
			t.Errorf("%s: %v", tt.part, err)
			continue
		}
		for _, g := range tt.gone {
			if strings.Contains(s.Text, g) {
				t.Errorf("%s: %q is still there:\n%s", tt.part, g, s.Text)
			}
		}
		for _, g := range tt.stays {
			if !strings.Contains(s.Text, g) {
				t.Errorf("%s: %q is gone:\n%s", tt.part, g, s.Text)
			}
		}
		var fallen, left []string
		for _, f := range s.Fallen {
			fallen = append(fallen, strings.TrimSpace(f.Keyword+" "+f.Name))
		}
		for _, l := range s.Left {
			left = append(left, l.Part)
		}
		if strings.Join(fallen, ", ") != tt.fallen || strings.Join(left, " ") != tt.left {
			t.Errorf("%s: %v fall and %v are left, want %v and %v", tt.part, fallen, left, tt.fallen, tt.left)
		}
		if back, err := s.Undo.Apply(s.Text); err != nil || back != text {
			t.Errorf("%s: undone to %q, %v", tt.part, back, err)
		}
	}
	var r *Refusal
	if _, err := Read("a", text, Options{}).Remove("reed[1]"); !errors.As(err, &r) || r.Reason != InRow {
		t.Errorf("one of a row: %v", err)
	}
}

// A tidy text stays tidy where a part is added, and the examples stay sound where
// one is added or taken away with what falls.
func TestTidyAndSound(t *testing.T) {
	for name, text := range examples(t) {
		used := usedBy(t, name, text)
		read := Read(name, text, Options{Used: used})
		before, _ := syntax.Tidy(source.NewFile(name, text))
		for _, p := range read.parts {
			if p.Keyword.Text != "ball" || p.inRow() {
				continue
			}
			s, err := read.Add(Addition{Keyword: "post", Host: p.Name.Text, Properties: []Given{{"diameter", size(in(1))}, {"length", size(in(3))}}})
			if err != nil {
				t.Errorf("%s: %s: %v", name, p.Name.Text, err)
				continue
			}
			if tidy, _ := syntax.Tidy(source.NewFile(name, s.Text)); string(before) == text && string(tidy) != s.Text {
				t.Errorf("%s: not tidy with a post on %s", name, p.Name.Text)
			}
		}
		for _, p := range read.parts {
			s, err := read.Remove(p.Name.Text)
			if err != nil {
				t.Errorf("%s: without %s: %v", name, p.Name.Text, err)
				continue
			}
			if len(s.Left) > 0 || p.Keyword.Text == "base" {
				continue
			}
			if wrong := mistakes(name, s.Text, used); len(wrong) > 0 && !strings.Contains(wrong[0].Text, "no part") {
				t.Errorf("%s: without %s: %v\n%s", name, p.Name.Text, wrong.Err(), s.Text)
			}
			if back, err := s.Undo.Apply(s.Text); err != nil || back != text {
				t.Errorf("%s: without %s: undone to other bytes", name, p.Name.Text)
			}
		}
	}
}

// examples returns the texts of the examples by their names.
func examples(t testing.TB) map[string]string {
	t.Helper()
	names, err := filepath.Glob("../../examples/*.stabile")
	if err != nil || len(names) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	texts := map[string]string{}
	for _, n := range names {
		text, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		texts[n] = string(text)
	}
	return texts
}

// usedBy returns the files that a text brings; those of the examples bring none.
func usedBy(t testing.TB, name, text string) []*source.File {
	t.Helper()
	tree, _ := syntax.Parse(source.NewFile(name, text))
	var list []*source.File
	for _, s := range tree.Statements {
		if set, ok := s.(*syntax.Setting); ok && set.Keyword.Text == "bring" {
			n := filepath.Join(filepath.Dir(name), set.Value.(*syntax.String).Text)
			text, err := os.ReadFile(n)
			if err != nil {
				t.Fatal(err)
			}
			list = append(list, source.NewFile(n, string(text)))
		}
	}
	return list
}

func mistakes(name, text string, used []*source.File) source.List {
	tree, wrong := syntax.Parse(source.NewFile(name, text))
	var o eval.Options
	for _, u := range used {
		f, _ := syntax.Parse(u)
		o.Used = append(o.Used, f)
	}
	_, more := eval.Evaluate(tree, o)
	return append(wrong, more...)
}
