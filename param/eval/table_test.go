package eval

import (
	"slices"
	"strings"
	"testing"

	"stabile/param/source"
	"stabile/param/syntax"
)

// The table is sound: each property says what it means, and its example is
// read by the parser as that property and nothing else.
func TestTable(t *testing.T) {
	for _, d := range Declarations() {
		if d.Meaning == "" || !strings.HasPrefix(d.Form, d.Keyword) {
			t.Errorf("%s: form %q, meaning %q", d.Keyword, d.Form, d.Meaning)
		}
		var seen []string
		for _, p := range d.Properties {
			where := d.Keyword + " " + p.Word
			if slices.Contains(seen, p.Word) {
				t.Errorf("%s stands twice", where)
			}
			seen = append(seen, p.Word)
			if p.Meaning == "" || len(p.Arguments) > mostArgs {
				t.Errorf("%s: meaning %q, %d arguments", where, p.Meaning, len(p.Arguments))
			}
			for _, w := range p.With {
				if d.property(w) == nil {
					t.Errorf("%s goes with %q, which is no property", where, w)
				}
			}
			if p.Unless != "" && d.property(p.Unless) == nil {
				t.Errorf("%s: Unless %q is no property", where, p.Unless)
			}
			if p.Later {
				continue
			}
			must := p.Required || p.OneOf != "" || slices.Contains(p.With, "anchors")
			if must != (p.Default == "") {
				t.Errorf("%s: default %q, but must be given: %v", where, p.Default, must)
			}
			f, list := syntax.Parse(source.NewFile("example", d.Keyword+" thing { "+p.Example+" }"))
			if len(list) > 0 || len(f.Statements) != 1 {
				t.Errorf("%s: example %q: %v", where, p.Example, list.Err())
				continue
			}
			body := f.Statements[0].(*syntax.Declaration).Body
			if len(body) != 1 || body[0].Word.Text != p.Word {
				t.Errorf("%s: example %q is read as %d properties", where, p.Example, len(body))
			}
		}
	}
}

// Each example of the table is sound where it applies.
func TestTableExamples(t *testing.T) {
	const head = `units inch
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 3/8 in }
`
	for _, d := range Declarations() {
		for _, p := range d.Properties {
			if p.Later {
				continue
			}
			text := head + sample(d.Keyword, p)
			if _, list := evaluate(text, Options{}); len(list) > 0 {
				t.Errorf("%s: %v\n%s", p.Example, list.Err(), text)
			}
		}
	}
}

// sample returns the rest of a design in which the example of a property
// applies.
func sample(keyword string, p Property) string {
	with := func(lines ...string) string {
		out := p.Example
		for _, l := range lines {
			word, _, _ := strings.Cut(l, " ")
			if word != p.Word {
				out += ", " + l
			}
		}
		return "{ " + out + " }\n"
	}
	const base = "base pad { plate 96 by 96, metal slab }\n"
	switch keyword {
	case "metal":
		thick := "gauge 14"
		if p.OneOf != "" {
			thick = p.Example
			return base + "metal other { alloy copper, " + thick + " }\n"
		}
		return base + "metal other " + with("alloy copper", thick)
	case "base":
		switch p.Word {
		case "feet":
			return "base pad { feet }\n"
		case "plate", "disc":
			return "base pad " + with("metal slab")
		case "anchors", "anchor_diameter", "anchor_edge":
			return "base pad " + with("disc 30", "metal slab", "anchors 4", "anchor_diameter 1/2 in", "anchor_edge 2")
		}
		return "base pad " + with("disc 30", "metal slab")
	case "post":
		post := with("diameter 3", "length 20", "metal skin")
		if slices.Contains(p.On, OnBall) {
			return base + "ball rock on pad { diameter 20, halves, metal skin }\npost one on rock " + post
		}
		return base + "post one on pad " + post
	case "ball":
		built := "gores 8"
		if p.OneOf != "" {
			built = p.Example
		}
		ball := with("diameter 12", "metal skin", built)
		if slices.Contains(p.On, OnPost) {
			return base + "post leg on pad { diameter 3, length 20, metal skin }\nball one on leg " + ball
		}
		return base + "ball one on pad " + ball
	}
	return base + keyword + " " + with()
}
