package param

import (
	"fmt"
	"slices"
	"strings"

	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/stock"
	"stabile/param/syntax"
)

// About returns what the language says of a word, in lines of a terminal: of a
// statement, a declaration or a machine of the shop with all its properties, a
// property wherever it may stand, a function, a unit, a result, an alloy or what
// can be read of a part. The word may be in British or American spelling. It
// reports false for a word that the language does not have.
func About(word string) (string, bool) {
	word = syntax.British(word)
	var b strings.Builder
	for _, about := range []func(*strings.Builder, string){
		aboutStatement, aboutDeclarations, aboutProperty, aboutFunction, aboutWay, aboutResult, aboutMember, aboutUnit, aboutAlloy,
	} {
		about(&b, word)
	}
	return b.String(), b.Len() > 0
}

// Words returns all words of the language, those of which About tells, in order.
func Words() []string {
	var words []string
	for _, s := range eval.Statements() {
		words = append(words, s.Word)
	}
	for _, d := range allDeclarations() {
		words = append(words, d.Keyword)
		for _, p := range d.Properties {
			words = append(words, p.Word)
		}
	}
	for _, f := range eval.Functions() {
		words = append(words, nameOf(f.Form))
	}
	for _, w := range eval.Ways() {
		words = append(words, w.Word)
	}
	for _, r := range eval.Results() {
		words = append(words, r.Name)
	}
	for _, h := range eval.Kinds {
		words = append(words, eval.Members(h)...)
	}
	words = append(words, quantity.UnitNames(nil)...)
	words = append(words, stock.AlloyNames()...)
	slices.Sort(words)
	return slices.Compact(words)
}

// allDeclarations returns the declarations of a design and those that a shop holds.
func allDeclarations() []eval.Declaration {
	var list []eval.Declaration
	for _, d := range eval.Declarations() {
		list = append(list, d)
		for _, p := range d.Properties {
			if p.Body != nil {
				body := *p.Body
				body.Meaning = p.Meaning + ", in a " + d.Keyword
				list = append(list, body)
			}
		}
	}
	return list
}

func aboutStatement(b *strings.Builder, word string) {
	for _, s := range eval.Statements() {
		if s.Word == word {
			fmt.Fprintf(b, "%s\n\n", s.Form)
			paragraph(b, s.Meaning+".")
			fmt.Fprintf(b, "\n  %s\n\n", s.Example)
		}
	}
}

func aboutDeclarations(b *strings.Builder, word string) {
	for _, d := range allDeclarations() {
		if d.Keyword != word {
			continue
		}
		forms := []string{d.Form}
		for _, c := range d.Clauses {
			if !slices.Contains(forms, c.Form) {
				forms = append(forms, c.Form)
			}
		}
		fmt.Fprintf(b, "%s\n\n", strings.Join(forms, "\n"))
		paragraph(b, d.Meaning+".")
		b.WriteByte('\n')
		for i := range d.Properties {
			writeProperty(b, &d, &d.Properties[i], "")
		}
		b.WriteByte('\n')
	}
}

func aboutProperty(b *strings.Builder, word string) {
	seen := false
	for _, d := range allDeclarations() {
		for i := range d.Properties {
			if p := &d.Properties[i]; isAbout(p, word) && p.Body == nil {
				if !seen {
					fmt.Fprintf(b, "%s, a property\n\n", word)
					seen = true
				}
				writeProperty(b, &d, p, "of a "+d.Keyword+": ")
			}
		}
	}
	if seen {
		b.WriteByte('\n')
	}
}

// isAbout reports whether a word is a property, or one of the two words of one, or leads to
// a value in it.
func isAbout(p *eval.Property, word string) bool {
	first, second, isPair := strings.Cut(p.Word, " ")
	if p.Word == word || first == word || isPair && second == word {
		return true
	}
	return isPair && slices.ContainsFunc(p.Arguments, func(a eval.Argument) bool { return a.Link == word })
}

// writeProperty writes one property: an example, what it says, its units and what holds
// where it is left out.
func writeProperty(b *strings.Builder, d *eval.Declaration, p *eval.Property, of string) {
	fmt.Fprintf(b, "  %s\n", p.Example)
	hosts := make([]string, len(p.On))
	for i, h := range p.On {
		hosts[i] = h.Words()
	}
	text := of + p.Meaning
	if len(hosts) > 0 {
		text = of + strings.Join(hosts, ", ") + ": " + p.Meaning
	}
	for i := range p.Arguments {
		a := &p.Arguments[i]
		switch {
		case a.Kind == eval.Choice:
			text += "; one of " + strings.Join(a.Choices, ", ")
		case a.Kind == eval.Whole && a.Range.From >= 0:
			text += "; a whole number, " + a.Range.Words
		case a.Kind == eval.Measure && a.Noun == "":
			if names := quantity.UnitNames(&a.Dim); len(names) > 0 && i == 0 {
				text += "; units " + strings.Join(names, ", ")
			}
		}
	}
	if without := d.Without(p); without != "" {
		text += ". " + without
	}
	for _, line := range wrapped(text+".", 72) {
		fmt.Fprintf(b, "      %s\n", line)
	}
}

func aboutFunction(b *strings.Builder, word string) {
	for _, f := range eval.Functions() {
		if nameOf(f.Form) == word {
			fmt.Fprintf(b, "%s\n\n", f.Form)
			paragraph(b, "Gives "+f.Meaning+".")
			b.WriteByte('\n')
		}
	}
}

func aboutWay(b *strings.Builder, word string) {
	for _, w := range eval.Ways() {
		if w.Word == word {
			fmt.Fprintf(b, "%s, %s, as in lean 6 deg toward %s\n\n", w.Word, w.Meaning, w.Word)
		}
	}
}

// nameOf returns the name of a function from how it is written.
func nameOf(form string) string {
	name, _, _ := strings.Cut(form, "(")
	return name
}

func aboutResult(b *strings.Builder, word string) {
	for _, r := range eval.Results() {
		if r.Name == word {
			fmt.Fprintf(b, "%s, a result that 'require' can read\n\n", r.Name)
			paragraph(b, r.Meaning+".")
			b.WriteByte('\n')
		}
	}
}

func aboutMember(b *strings.Builder, word string) {
	var of []string
	for _, h := range eval.Kinds {
		if slices.Contains(eval.Members(h), word) {
			of = append(of, "a "+string(h))
		}
	}
	if len(of) > 0 {
		fmt.Fprintf(b, "NAME.%s, what can be read of %s, as in moon.%s\n\n", word, strings.Join(of, ", "), word)
	}
}

func aboutUnit(b *strings.Builder, word string) {
	if u, ok := quantity.LookupUnit(word); ok {
		fmt.Fprintf(b, "%s, a unit of %s: one of %s\n\n", word, strings.TrimPrefix(strings.TrimPrefix(u.Dim.String(), "an "), "a "), strings.Join(quantity.UnitNames(&u.Dim), ", "))
	}
}

func aboutAlloy(b *strings.Builder, word string) {
	a, ok := stock.LookupAlloy(word)
	if !ok {
		return
	}
	first, last := a.Family.Gauges()
	fmt.Fprintf(b, "%s, an alloy, as in metal skin { alloy %s, gauge 18 }\n\n", a.Name, a.Name)
	paragraph(b, fmt.Sprintf("Density %.0f kg/m3, yield %.0f MPa, modulus %.0f MPa. Gauges %d to %d of the %s table.",
		a.Density, a.Yield, a.Modulus, first, last, a.Family.GaugeTable()))
	b.WriteByte('\n')
}

// paragraph writes a text in lines of a terminal, with a capital.
func paragraph(b *strings.Builder, text string) {
	for _, line := range wrapped(strings.ToUpper(text[:1])+text[1:], 78) {
		fmt.Fprintf(b, "%s\n", line)
	}
}

// wrapped breaks a text into lines of at most the given number of letters.
func wrapped(text string, width int) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(text) {
		switch {
		case line == "":
			line = w
		case len([]rune(line))+1+len([]rune(w)) > width:
			lines, line = append(lines, line), w
		default:
			line += " " + w
		}
	}
	return append(lines, line)
}
