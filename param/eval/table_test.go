package eval

import (
	"slices"
	"strings"
	"testing"

	"stabile/param/source"
	"stabile/param/syntax"
)

// bodies returns the declarations with the bodies of properties, each as a
// declaration of its own.
func bodies() []Declaration {
	all := Declarations()
	for _, d := range Declarations() {
		if d.Meaning == "" {
			panic(d.Keyword + " has no meaning")
		}
		for _, p := range d.Properties {
			if p.Body != nil {
				all = append(all, *p.Body)
			}
		}
	}
	return all
}

// The table is sound: each property says what it means, and its example is
// read by the parser as that property and nothing else.
func TestTable(t *testing.T) {
	for _, d := range bodies() {
		if !strings.HasPrefix(d.Form, d.Keyword) {
			t.Errorf("%s: form %q", d.Keyword, d.Form)
		}
		for i, p := range d.Properties {
			where := d.Keyword + " " + p.Word
			for _, q := range d.Properties[:i] {
				if q.Word == p.Word && (len(p.On) == 0 || slices.ContainsFunc(p.On, q.appliesTo)) {
					t.Errorf("%s is written twice", where)
				}
			}
			if p.Meaning == "" || len(p.Arguments) > mostArgs {
				t.Errorf("%s: meaning %q, %d arguments", where, p.Meaning, len(p.Arguments))
			}
			for _, w := range p.With {
				if d.property(w, "") == nil {
					t.Errorf("%s goes with %q, which is no property", where, w)
				}
			}
			if p.Unless != "" && d.property(p.Unless, "") == nil {
				t.Errorf("%s: Unless %q is no property", where, p.Unless)
			}
			must := p.Required || p.OneOf != "" || p.Default == "" && len(p.With) == 1
			if must != (p.Default == "") {
				t.Errorf("%s: default %q, but must be given: %v", where, p.Default, must)
			}
			f, list := syntax.Parse(source.NewFile("example", "site { "+p.Example+" }"))
			if len(list) > 0 || len(f.Statements) != 1 {
				t.Errorf("%s: example %q: %v", where, p.Example, list.Err())
				continue
			}
			body := f.Statements[0].(*syntax.Declaration).Body
			if word, _, _ := strings.Cut(p.Word, " "); len(body) != 1 || body[0].Word.Text != word {
				t.Errorf("%s: example %q is read as %d properties", where, p.Example, len(body))
			}
		}
	}
}

// Each example of the table is sound where it applies, in each way to be tied.
func TestTableExamples(t *testing.T) {
	const head = `units inch
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 3/8 in }
`
	for _, d := range bodies() {
		for _, p := range d.Properties {
			on := p.On
			if len(on) == 0 {
				on = []Host{""}
			}
			for _, host := range on {
				shown := []Property{p}
				for _, a := range p.Arguments {
					if a.Example != "" {
						p.Example = a.Example
						shown = append(shown, p)
					}
				}
				for _, p := range shown {
					text := head + sample(d, p, host)
					if _, list := evaluate(text, Options{}); len(list) > 0 {
						t.Errorf("%s: %v\n%s", p.Example, list.Err(), text)
					}
				}
			}
		}
	}
}

// sample returns the rest of a design in which the example of a property
// applies.
func sample(d Declaration, p Property, host Host) string {
	with := func(lines ...string) string {
		out := p.Example
		for _, l := range lines {
			word, _, _ := strings.Cut(l, " ")
			if word != p.Word && l != p.Word {
				out += ", " + l
			}
		}
		return "{ " + out + " }\n"
	}
	const base = "base pad { plate 96 by 96, metal slab }\n"
	const rock = base + "ball rock on pad { at (40, 40), diameter 20, halves, metal skin }\n"
	const leg = base + "post leg on pad { diameter 3-1/2, length 40, metal skin }\n"
	built := "gores 8"
	if d.Keyword == "ball" && p.Word == "doubler" {
		built = "halves"
	}
	if d.Keyword == "ball" && p.Word == "price" {
		built = "bought 2 lb"
	}
	if p.OneOf != "" {
		built = p.Example
	}
	switch d.Keyword {
	case "metal":
		if p.OneOf != "" {
			return base + "metal other { alloy copper, " + p.Example + " }\n"
		}
		return base + "metal other " + with("alloy copper", "gauge 14")
	case "pad":
		return "base ground { feet }\npost leg on ground { diameter 3, length 30, metal skin, pad 12 by 12 " + strings.TrimSuffix(with("metal slab", "anchors 4", "anchor_diameter 1/2 in", "anchor_edge 1"), "\n") + " }\n"
	case "base":
		switch p.Word {
		case "feet":
			return "base pad { feet }\n"
		case "plate", "plate polygon", "disc":
			return "base pad " + with("metal slab")
		case "wall":
			return "base pad " + with("metal slab", "anchors 4", "anchor_diameter 1/2 in", "anchor_edge 1")
		case "block_material":
			return "base pad " + with("disc 24", "metal slab", "anchors 4", "anchor_diameter 1/2 in", "anchor_edge 2", "block 28 in by 24 in by 12 in")
		case "ground":
			return "base pad " + with("disc 30", "metal slab", "anchors 4", "anchor_diameter 1/2 in", "anchor_edge 2", "footing 36 in by 32 in by 18 in")
		case "anchors", "anchor_diameter", "anchor_edge", "anchor_depth", "anchor_kind", "concrete", "footing", "block":
			return "base pad " + with("disc 24", "metal slab", "anchors 4", "anchor_diameter 1/2 in", "anchor_edge 2")
		}
		return "base pad " + with("disc 30", "metal slab")
	case "post":
		switch p.Word {
		case "pad":
			return "base pad { feet }\npost one on pad " + with("diameter 3", "length 20", "metal skin")
		case "sunk", "footing":
			return "base pad { feet }\npost one on pad " + with("diameter 3", "length 20", "metal skin", "sunk 24 in", "footing 16 in")
		case "bought pipe":
			return base + "post one on pad " + with("length 20", "metal skin")
		case "bought tube", "wall", "stock":
			return base + "post one on pad " + with("diameter 3", "length 20", "metal skin", "wall 1/8 in", "bought tube")
		case "price":
			return base + "post one on pad " + with("length 20", "metal skin", "bought pipe 2 schedule 40")
		}
		switch host {
		case OnWall:
			return "base plate { wall 30 by 30 at 60 in, metal slab, anchors 4, anchor_diameter 1/2 in, anchor_edge 1 }\npost one on plate " + with("diameter 3", "length 20", "metal skin")
		case Between:
			if p.Word == "doubler" {
				return base + "ball rock at (40, 40, 30) { diameter 20, halves, metal skin }\npost one from pad to rock " + with("diameter 3", "metal skin")
			}
			return rock + "post one from pad to rock " + with("diameter 3", "metal skin", "at (-40, 0)")
		case OnBall:
			return rock + "post one on rock " + with("diameter 3", "length 20", "metal skin")
		case OnPost:
			return leg + "post one on leg " + with("diameter 3", "length 20", "metal skin", "at 20 in toward 0 deg")
		}
		if p.Word == "stagger" {
			return base + "post one on pad " + with("diameter 3", "length 20", "metal skin", "courses 2")
		}
		return base + "post one on pad " + with("diameter 3", "length 20", "metal skin")
	case "ball":
		switch host {
		case OnPost:
			return leg + "ball one on leg " + with("diameter 12", "metal skin", built)
		case OnBall:
			return rock + "ball one on rock " + with("diameter 12", "metal skin", built)
		case Around:
			return leg + "ball one around leg " + with("diameter 12", "height 20", "metal skin", built)
		}
		return base + "ball one on pad " + with("diameter 12", "metal skin", built)
	case "bowl":
		if p.Word == "price" {
			return base + "bowl one on pad " + with("diameter 12", "depth 5", "bought 3 kg")
		}
		switch host {
		case OnPost:
			return leg + "bowl one on leg " + with("diameter 12", "depth 5", "metal skin", built)
		case OnBall:
			return rock + "bowl one on rock " + with("diameter 12", "depth 5", "metal skin", built)
		}
		return base + "bowl one on pad " + with("diameter 12", "depth 5", "metal skin", built)
	case "ring":
		switch p.Word {
		case "bought pipe":
			return base + "ring one on pad " + with("across 30", "metal skin")
		case "bought tube", "wall", "stock":
			return base + "ring one on pad " + with("across 30", "diameter 3", "metal skin", "wall 1/8 in", "bought tube")
		case "price":
			return base + "ring one on pad " + with("across 30", "metal skin", "bought pipe 2 schedule 40")
		}
		return base + "ring one on pad " + with("across 30", "diameter 3", "metal skin")
	case "hole":
		wide := "diameter 1"
		if p.Word == "turn" || p.Word == "slot" {
			wide = "slot 1 by 2"
		}
		switch {
		case p.Word == "joint":
			return rock + "post spur on rock { diameter 3, length 20, metal skin }\nhole one in rock " + with(wide)
		case host == OnBall && p.Word == "up":
			return rock + "hole one in rock " + with(wide, "toward 40 deg")
		case host == OnBall:
			return rock + "hole one in rock " + with(wide, "toward 0 deg")
		case host == OnPost:
			return leg + "hole one in leg " + with(wide, "at 20 in toward 0 deg")
		}
		return base + "hole one in pad " + with(wide)
	case "site":
		switch p.Word {
		case "terrain":
			return base + "site " + with("wind 28 m/s")
		case "method", "wind":
			return base + "site " + with("wind 100 mph", "exposure C")
		case "exposure":
			return base + "site " + with("wind 100 mph")
		}
		return base + "site " + with()
	case "job":
		return base + "job " + with()
	case "revision":
		return base + "revision \"B\" " + with()
	case "finish":
		if p.OneOf != "" {
			return base + "finish coat " + with()
		}
		return base + "finish coat " + with("paint")
	case "sheet":
		return base + "shop { sheet skin " + with("size 48 by 96") + " }\n"
	case "offcut":
		return base + "shop { offcut skin " + with("size 20 by 48") + " }\n"
	case "cutter":
		return base + "shop { cutter " + with("kerf 1/16 in") + " }\n"
	case "saw":
		return base + "shop { saw " + with("kerf 1/16 in") + " }\n"
	case "shear", "rolls", "brake":
		if p.OneOf != "" {
			return base + "shop { " + d.Keyword + with("width 48", "alloy copper") + " }\n"
		}
		switch p.Word {
		case "second_alloy", "second_gauge":
			return base + "shop { " + d.Keyword + with("width 48", "alloy copper", "gauge 16", "second_alloy stainless-304", "second_gauge 18") + " }\n"
		case "second_thickness":
			return base + "shop { " + d.Keyword + with("width 48", "alloy copper", "gauge 16", "second_alloy stainless-304") + " }\n"
		}
		return base + "shop { " + d.Keyword + with("width 48", "alloy copper", "gauge 16") + " }\n"
	case "welding":
		return base + "shop { welding " + with("process tig") + " }\n"
	case "printer":
		return base + "shop { printer " + with("paper letter") + " }\n"
	case "rates":
		return base + "shop { rates " + with() + " }\n"
	}
	return base + d.Keyword + " " + with()
}
