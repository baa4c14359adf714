package edit

import (
	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/stock"
	"stabile/param/syntax"
)

// Options are what an edit has to know beside the text.
type Options struct {
	// Used is the files that the text brings, those first that others bring.
	Used []*source.File

	// Variation is the title of the variation in force; "" for none.
	Variation string

	// Alloys are those that a metal may be of; nil for the house's.
	Alloys stock.Table
}

// A Text is the text of a design, read to be edited. It does not change: an edit
// gives another text.
type Text struct {
	options Options
	raw     string // with a byte order mark, where it has one
	mark    int    // bytes of that mark
	tree    *syntax.File
	used    []*syntax.File
	wrong   int // mistakes of writing
	top     *scope
	parts   []found
	kinds   map[string]eval.Host // of the parts, by their names without an index
}

// Read reads a text. One with mistakes can be edited where they leave it whole.
func Read(name, text string, o Options) *Text {
	f := source.NewFile(name, text)
	tree, wrong := syntax.Parse(f)
	t := &Text{options: o, raw: text, mark: len(text) - len(f.Text), tree: tree, wrong: len(wrong)}
	for _, u := range o.Used {
		tree, _ := syntax.Parse(u)
		t.used = append(t.used, tree)
	}
	t.enter()
	return t
}

// A scope holds the definitions of one block; the outermost those of all files.
type scope struct {
	outer *scope
	names map[string]*definition
}

// A definition is a name with the expression that it stands for.
type definition struct {
	name   syntax.Name
	value  syntax.Expression // nil for the counter of a repeat
	adjust *syntax.Adjust    // nil for others
	scope  *scope
}

func (s *scope) lookup(name string) *definition {
	for ; s != nil; s = s.outer {
		if d := s.names[name]; d != nil {
			return d
		}
	}
	return nil
}

// A found is a declaration of a part with the blocks that it stands in.
type found struct {
	*syntax.Declaration
	scope  *scope
	blocks []syntax.Statement // the outermost first
}

// inRow reports whether the declaration makes a row of parts.
func (f *found) inRow() bool {
	for _, b := range f.blocks {
		if _, ok := b.(*syntax.Repeat); ok {
			return true
		}
	}
	return false
}

// enter notes all definitions and all parts.
func (t *Text) enter() {
	t.top = &scope{names: map[string]*definition{}}
	for _, f := range t.used {
		define(f.Statements, t.top)
	}
	define(t.tree.Statements, t.top)
	for _, s := range t.tree.Statements {
		v, ok := s.(*syntax.Variation)
		if !ok || v.Title == nil || v.Title.Text != t.options.Variation || v.Title.Text == "" {
			continue
		}
		for _, a := range v.Set {
			if d := t.top.names[a.Name.Text]; d != nil && d.adjust != nil {
				d.value = a.Value
			}
		}
	}
	t.kinds = map[string]eval.Host{}
	t.findParts(t.tree.Statements, t.top, nil)
}

func define(block []syntax.Statement, s *scope) {
	for _, st := range block {
		var d *definition
		switch st := st.(type) {
		case *syntax.Let:
			d = &definition{name: st.Name, value: st.Value, scope: s}
		case *syntax.Adjust:
			d = &definition{name: st.Name, value: st.Value, adjust: st, scope: s}
		}
		if d != nil && s.names[d.name.Text] == nil {
			s.names[d.name.Text] = d
		}
	}
}

func (t *Text) findParts(block []syntax.Statement, s *scope, blocks []syntax.Statement) {
	within := blocks[:len(blocks):len(blocks)]
	for _, st := range block {
		switch st := st.(type) {
		case *syntax.Declaration:
			if isPart(st.Keyword.Text) && st.Name.Text != "" {
				t.parts = append(t.parts, found{st, s, blocks})
				t.kinds[st.Name.Text] = eval.KindOf(st.Keyword.Text)
			}
		case *syntax.Repeat:
			inner := &scope{outer: s, names: map[string]*definition{}}
			inner.names[st.Variable.Text] = &definition{name: st.Variable, scope: inner}
			define(st.Block, inner)
			t.findParts(st.Block, inner, append(within, st))
		case *syntax.When:
			inner := &scope{outer: s, names: map[string]*definition{}}
			define(st.Block, inner)
			t.findParts(st.Block, inner, append(within, st))
		}
	}
}

// units returns the system of units of a file.
func (t *Text) units(f *source.File) quantity.System {
	for _, tree := range append(t.used[:len(t.used):len(t.used)], t.tree) {
		if tree.Source != f {
			continue
		}
		for _, s := range tree.Statements {
			set, ok := s.(*syntax.Setting)
			if !ok || set.Keyword.Text != "units" {
				continue
			}
			switch set.Value.Span().Text() {
			case quantity.Inch.String():
				return quantity.Inch
			case quantity.Millimetre.String():
				return quantity.Millimetre
			}
		}
	}
	return quantity.NoSystem
}

// own reports whether a place is in the text itself, and not in a file that it
// brings.
func (t *Text) own(at source.Span) bool { return at.File == t.tree.Source }

// change returns the change of a place of the text.
func (t *Text) change(from, to int, text string) Change {
	return Change{From: t.mark + from, To: t.mark + to, Old: t.tree.Source.Text[from:to], New: text}
}

// finish makes an edit of changes. It refuses one after which more of the text
// cannot be read than before.
func (t *Text) finish(list []Change) (edit, undo Edit, text string, err error) {
	edit, ok := sorted(list)
	if !ok {
		return nil, nil, "", refuse(Conflict, source.Span{})
	}
	if text, err = edit.Apply(t.raw); err != nil {
		return nil, nil, "", err
	}
	if _, wrong := syntax.Parse(source.NewFile(t.tree.Source.Name, text)); len(wrong) > t.wrong {
		return nil, nil, "", refuse(Unreadable, wrong[0].Span, wrong[0].Text)
	}
	return edit, edit.Inverse(), text, nil
}
