package edit

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/stock"
	"stabile/param/syntax"
)

// A Sort is what a word of the text is.
type Sort string

// The sorts of words.
const (
	Keyword  Sort = "keyword"
	Property Sort = "property"
	Link     Sort = "link"   // leads to a further value
	Choice   Sort = "choice" // one of the words that a property takes
	UnitName Sort = "unit"
	AlloyOf  Sort = "alloy"
	MetalOf  Sort = "metal"
	PartName Sort = "part"
	Member   Sort = "member" // a number of a part
	Named    Sort = "name"   // of a let, an adjust or a repeat
	Function Sort = "function"
	Result   Sort = "result"
)

// A Word is one that may stand at a place, with what the vocabulary says of it.
type Word struct {
	Text    string
	Sort    Sort
	Form    string // how it is written; of a name, its definition
	Meaning string
	Default string // what holds where it is left out
	Example string
}

// Complete returns the words that may stand at a place, in bytes from the start
// of the text, of which what stands there is the beginning; and the bytes that
// such a word takes the place of.
func (t *Text) Complete(offset int) (from, to int, words []Word) {
	from, to = t.word(offset)
	begun := t.tree.Source.Text[from:min(max(from, offset-t.mark), to)]
	for _, w := range t.words(from, true) {
		if strings.HasPrefix(w.Text, begun) && !slices.ContainsFunc(words, func(v Word) bool { return v.Text == w.Text && v.Sort == w.Sort }) {
			words = append(words, w)
		}
	}
	return from + t.mark, to + t.mark, words
}

// About returns what the vocabulary says of the word at a place, and where the
// word stands. It reports false where no word of it stands there.
func (t *Text) About(offset int) (w Word, from, to int, ok bool) {
	from, to = t.word(offset)
	said := syntax.British(t.tree.Source.Text[from:to])
	if said == "" {
		return w, from + t.mark, to + t.mark, false
	}
	for _, w = range t.words(from, false) {
		if w.Text == said || w.Sort == Property && strings.HasPrefix(w.Text, said+" ") {
			return w, from + t.mark, to + t.mark, true
		}
	}
	return Word{}, from + t.mark, to + t.mark, false
}

// word returns the word that a place stands in or behind.
func (t *Text) word(offset int) (from, to int) {
	src := t.tree.Source.Text
	from = max(0, min(offset-t.mark, len(src)))
	for from > 0 && from < len(src) && !utf8.RuneStart(src[from]) {
		from--
	}
	to = from
	in := func(r rune) bool {
		return r == '_' || r == '/' || r == '-' || unicode.IsLetter(r) || unicode.IsDigit(r)
	}
	for from > 0 {
		r, n := utf8.DecodeLastRuneInString(src[:from])
		if !in(r) {
			break
		}
		from -= n
	}
	for to < len(src) {
		r, n := utf8.DecodeRuneInString(src[to:])
		if !in(r) {
			break
		}
		to += n
	}
	// Only the name of an alloy has a hyphen, and only a unit a stroke.
	whole := src[from:to]
	if slices.Contains(t.alloys(), whole) || strings.HasSuffix(strings.TrimRight(src[:from], " \t"), "alloy") {
		return from, to
	}
	if _, ok := quantity.LookupUnit(strings.TrimLeft(whole, "0123456789")); !ok {
		at := max(from, min(offset-t.mark, to))
		if i := strings.LastIndexAny(src[from:at], "-/"); i >= 0 {
			from += i + 1
		}
		if i := strings.IndexAny(src[at:to], "-/"); i >= 0 {
			to = at + i
		}
	}
	for from < to && src[from] >= '0' && src[from] <= '9' {
		from++ // of 36in the unit
	}
	return from, to
}

func (t *Text) alloys() []string {
	if t.options.Alloys != nil {
		return t.options.Alloys.Names()
	}
	return stock.AlloyNames()
}

// words returns the words that may stand at a place of the tree's text, those
// that are given already left out where wanted.
func (t *Text) words(at int, fresh bool) []Word {
	src := t.tree.Source.Text
	c := contextAt(src[:at])
	if c.silent {
		return nil
	}
	if strings.HasSuffix(c.segment, ".") {
		return t.members(c.segment)
	}
	if len(c.frames) > 0 {
		if d, host := t.table(c); d != nil {
			if c.segment == "" {
				return properties(d, host, c.given, fresh)
			}
			return t.valueWords(d, host, c.segment, at)
		}
		if strings.HasPrefix(c.frames[len(c.frames)-1].head, "variation") {
			if c.segment != "" {
				return t.valueOf(eval.Argument{}, c.segment, at)
			}
			return slices.DeleteFunc(t.named(at), func(w Word) bool { return !strings.HasPrefix(w.Form, "adjust ") })
		}
	}
	if c.segment == "" {
		return statements(len(c.frames) > 0)
	}
	return t.statementWords(c.segment, at)
}

// statements returns the words that a statement starts with.
func statements(inBlock bool) []Word {
	var list []Word
	for _, s := range eval.Statements() {
		switch s.Word {
		case "sculpture", "units", "bring", "adjust", "variation":
			if inBlock {
				continue
			}
		}
		list = append(list, Word{Text: s.Word, Sort: Keyword, Form: s.Form, Meaning: s.Meaning, Example: s.Example})
	}
	for _, d := range eval.Declarations() {
		if !d.Top || !inBlock {
			list = append(list, Word{Text: d.Keyword, Sort: Keyword, Form: d.Form, Meaning: d.Meaning})
		}
	}
	return list
}

// properties returns those that a declaration may have.
func properties(d *eval.Declaration, host eval.Host, given []string, fresh bool) []Word {
	var list []Word
	for i := range d.Properties {
		p := &d.Properties[i]
		word, _, _ := strings.Cut(p.Word, " ")
		if !applies(p, host) || fresh && !p.Many && slices.Contains(given, word) {
			continue
		}
		list = append(list, Word{Text: p.Word, Sort: Property, Meaning: p.Meaning, Default: d.Without(p), Example: p.Example})
	}
	return list
}

// valueWords returns the words that may stand behind those of a property.
func (t *Text) valueWords(d *eval.Declaration, host eval.Host, segment string, at int) []Word {
	words := strings.Fields(segment)
	word := syntax.British(words[0])
	p := propertyOf(d, word, host)
	if len(words) > 1 {
		if q := propertyOf(d, word+" "+words[1], host); q != nil {
			p = q
		}
	}
	if p == nil {
		return nil
	}
	last := syntax.British(words[len(words)-1])
	var list []Word
	n := 0 // the argument in hand
	for i, a := range p.Arguments {
		if a.Link != "" && (slices.Contains(words, a.Link) || i > 0 && slices.Contains(britished(words), a.Link)) {
			n = i
		}
	}
	if n < len(p.Arguments) {
		list = append(list, t.valueOf(p.Arguments[n], segment, at)...)
	}
	for i, a := range p.Arguments {
		if a.Link != "" && a.Link != last && (i > n || i == n && len(words) == 1) {
			list = append(list, Word{Text: a.Link, Sort: Link, Meaning: p.Meaning, Example: p.Example})
		}
	}
	return list
}

func britished(words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = syntax.British(w)
	}
	return out
}

// valueOf returns the words that may be an argument, or its unit behind a
// number.
func (t *Text) valueOf(a eval.Argument, segment string, at int) []Word {
	if r := strings.TrimRight(segment, " \t"); r != "" && r[len(r)-1] >= '0' && r[len(r)-1] <= '9' {
		dim := dimension(&a)
		return units(dim, a.Kind == eval.Measure && dim == quantity.Number)
	}
	var list []Word
	switch a.Kind {
	case eval.Choice:
		for _, c := range a.Choices {
			list = append(list, Word{Text: c, Sort: Choice})
		}
		return list
	case eval.Alloy:
		for _, n := range t.alloys() {
			list = append(list, Word{Text: n, Sort: AlloyOf})
		}
		return list
	case eval.Metal:
		return t.metals()
	case eval.Text:
		return nil
	}
	list = append(t.named(at), t.partNames(at)...)
	if a.Kind == eval.Bearing {
		for _, w := range eval.Ways() {
			list = append(list, Word{Text: w.Word, Sort: Choice, Meaning: w.Meaning})
		}
	}
	for _, f := range eval.Functions() {
		list = append(list, Word{Text: f.Name, Sort: Function, Form: f.Form, Meaning: f.Meaning})
	}
	return list
}

// units returns the units of a dimension, or all.
func units(d quantity.Dimension, all bool) []Word {
	names := quantity.UnitNames(&d)
	if all {
		names = quantity.UnitNames(nil)
	}
	var list []Word
	for _, n := range names {
		u, _ := quantity.LookupUnit(n)
		list = append(list, Word{Text: n, Sort: UnitName, Meaning: u.Dim.String()})
	}
	return list
}

// metals returns the metals of the text and of the files that it brings.
func (t *Text) metals() []Word {
	var list []Word
	for _, f := range append(t.used[:len(t.used):len(t.used)], t.tree) {
		for _, s := range f.Statements {
			if d, ok := s.(*syntax.Declaration); ok && d.Keyword.Text == "metal" && d.Name.Text != "" {
				list = append(list, Word{Text: d.Name.Text, Sort: MetalOf, Form: f.Words(d.Span())})
			}
		}
	}
	return list
}

// partNames returns the parts that are declared before a place.
func (t *Text) partNames(at int) []Word {
	var list []Word
	for _, p := range t.parts {
		if p.Span().To <= at {
			list = append(list, Word{Text: p.Name.Text, Sort: PartName, Form: t.tree.Words(p.Span())})
		}
	}
	return list
}

// named returns the lets and adjusts that can be read at a place.
func (t *Text) named(at int) []Word {
	var list []Word
	var add func(f *syntax.File, block []syntax.Statement)
	add = func(f *syntax.File, block []syntax.Statement) {
		for _, s := range block {
			sp := s.Span()
			within := sp.File == t.tree.Source && sp.From <= at && at <= sp.To
			switch s := s.(type) {
			case *syntax.Let:
				list = append(list, Word{Text: s.Name.Text, Sort: Named, Form: f.Words(sp)})
			case *syntax.Adjust:
				list = append(list, Word{Text: s.Name.Text, Sort: Named, Form: f.Words(sp)})
			case *syntax.Repeat:
				if within {
					head := sp
					head.To = s.To.Span().To
					list = append(list, Word{Text: s.Variable.Text, Sort: Named, Form: f.Words(head)})
					add(f, s.Block)
				}
			case *syntax.When:
				if within {
					add(f, s.Block)
				}
			}
		}
	}
	for _, f := range append(t.used[:len(t.used):len(t.used)], t.tree) {
		add(f, f.Statements)
	}
	return slices.DeleteFunc(list, func(w Word) bool { return w.Text == "" })
}

// members returns the numbers that can be read of the part before a point.
func (t *Text) members(segment string) []Word {
	of := strings.TrimSuffix(segment, ".")
	if strings.HasSuffix(of, "]") {
		of = of[:max(0, strings.LastIndexByte(of, '['))]
	}
	i := strings.LastIndexFunc(of, func(r rune) bool { return r != '_' && !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	kind := t.kindOf(of[i+1:])
	if kind == "" {
		return nil
	}
	var list []Word
	for _, m := range eval.Members(kind) {
		list = append(list, Word{Text: m, Sort: Member})
	}
	if strings.HasPrefix(segment, "require") {
		list = append(list, Word{Text: "weight", Sort: Member})
	}
	return list
}

// statementWords returns the words that may stand behind those of a statement.
func (t *Text) statementWords(segment string, at int) []Word {
	words := strings.Fields(segment)
	switch first := words[0]; {
	case first == "units":
		return []Word{{Text: quantity.Inch.String(), Sort: Choice}, {Text: quantity.Millimetre.String(), Sort: Choice}}
	case first == "require":
		list := t.valueOf(eval.Argument{}, segment, at)
		for _, r := range eval.Results() {
			list = append(list, Word{Text: r.Name, Sort: Result, Meaning: r.Meaning})
		}
		return list
	case first == "when", strings.Contains(segment, "="):
		return t.valueOf(eval.Argument{}, segment, at)
	default:
		return t.clauseWords(words, at)
	}
}

// clauseWords returns the words that tie a declaration to a part, or the parts
// that it may be tied to.
func (t *Text) clauseWords(words []string, at int) []Word {
	d := declarationOf(words[0])
	if d == nil || len(words) < 2 {
		return nil
	}
	var list []Word
	last := words[len(words)-1]
	for _, c := range d.Clauses {
		switch {
		case c.Word == last && len(words) > 2:
			for _, w := range t.partNames(at) {
				if slices.Contains(c.To, t.kindOf(w.Text)) {
					list = append(list, w)
				}
			}
			return list
		case (len(words) == 2) != (c.Word == "to"):
			list = append(list, Word{Text: c.Word, Sort: Link, Form: c.Form, Meaning: c.Meaning})
		}
	}
	if len(words) > 2 && !slices.Contains(words, "from") {
		return nil
	}
	return list
}
