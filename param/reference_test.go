package param

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stabile/param/eval"
	"stabile/param/golden"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/stock"
)

const (
	page     = "../examples/LANGUAGE.md"
	pageName = "harbour.stabile" // by which the answers on it speak of their text
)

var (
	tablePattern  = regexp.MustCompile(`(?s)(<!-- (\w+)(?: (\w+))? -->\n).*?(<!-- end -->)`)
	fencePattern  = regexp.MustCompile("(?s)```stabile( wrong)?\n(.*?)```\n")
	answerPattern = regexp.MustCompile("(?s)\n```text\n(.*?)```\n")
)

// TestReferenceTables holds the tables of the language page to those that the
// language is read by.
func TestReferenceTables(t *testing.T) {
	text := readPage(t)
	seen := map[string]bool{}
	got := tablePattern.ReplaceAllStringFunc(text, func(s string) string {
		m := tablePattern.FindStringSubmatch(s)
		seen[m[2]+m[3]] = true
		return m[1] + referenceTable(t, m[2], m[3]) + m[4]
	})
	for _, d := range eval.Declarations() {
		if !seen["table"+d.Keyword] {
			t.Errorf("the page has no table of %s", d.Keyword)
		}
	}
	for _, name := range []string{"units", "functions", "members", "results", "alloys"} {
		if !seen[name] {
			t.Errorf("the page has no table of %s", name)
		}
	}
	rewrite(t, text, got, "the tables of the page are not those of the language")
}

// TestReferenceSnippets evaluates each snippet of the page: a sound one after the
// page's first, unless it has a beginning of its own, and one with a mistake
// alone, whose answer stands below it. Each is tidy.
func TestReferenceSnippets(t *testing.T) {
	text := readPage(t)
	snippets := fencePattern.FindAllStringSubmatchIndex(text, -1)
	stage, shown, sound, wrong := "", text, 0, 0
	for i := len(snippets) - 1; i >= 0; i-- { // from the end, so that places stay
		at := snippets[i]
		if stage == "" {
			stage = text[snippets[0][4]:snippets[0][5]]
		}
		snippet := text[at[4]:at[5]]
		checkSnippetTidy(t, snippet)
		if at[2] < 0 {
			sound++
			checkSnippet(t, stage, snippet)
			continue
		}
		wrong++
		answer := answerPattern.FindStringSubmatchIndex(text[at[1]:])
		if answer == nil || answer[0] != 0 {
			t.Errorf("no answer stands below\n%s", snippet)
			continue
		}
		shown = shown[:at[1]+answer[2]] + answerTo(t, snippet) + shown[at[1]+answer[3]:]
	}
	if sound < 18 || wrong < 5 {
		t.Errorf("the page has %d sound snippets and %d with a mistake", sound, wrong)
	}
	rewrite(t, text, shown, "an answer of the page is not what the snippet is told")
}

func readPage(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// rewrite compares the page with what it is to be, or writes it again.
func rewrite(t *testing.T, text, want, wrong string) {
	t.Helper()
	if golden.Updating() {
		if err := os.WriteFile(page, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if text != want {
		t.Errorf("%s; with -update they are written anew:\n%s", wrong, parting(text, want))
	}
}

func checkSnippetTidy(t *testing.T, snippet string) {
	t.Helper()
	tidy, list := Tidy(source.NewFile(pageName, snippet))
	if len(list) == 0 && string(tidy) != snippet {
		t.Errorf("a snippet is not tidy:\n%s\nwant\n%s", snippet, tidy)
	}
}

func checkSnippet(t *testing.T, stage, snippet string) {
	t.Helper()
	text := snippet
	if !strings.HasPrefix(snippet, "units") && !strings.HasPrefix(snippet, "sculpture") {
		text = stage + snippet
	}
	d, list := Evaluate(source.NewFile(pageName, text), Options{Files: os.DirFS("../examples")})
	if len(list) > 0 {
		var b strings.Builder
		_ = list.Print(&b)
		t.Errorf("a snippet is not sound:\n%s", b.String())
		return
	}
	for _, title := range d.Variations {
		if _, list := Evaluate(source.NewFile(pageName, text), Options{Variation: title}); len(list) > 0 {
			t.Errorf("variation %q: %v", title, list.Err())
		}
	}
}

func answerTo(t *testing.T, snippet string) string {
	t.Helper()
	_, list := Evaluate(source.NewFile(pageName, snippet), Options{})
	if len(list) != 1 {
		t.Errorf("%d mistakes, want 1, in\n%s", len(list), snippet)
	}
	var b strings.Builder
	if err := list.Print(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// referenceTable returns a table of the page.
func referenceTable(t *testing.T, name, of string) string {
	t.Helper()
	var b strings.Builder
	row := func(cells ...string) { fmt.Fprintf(&b, "| %s |\n", strings.Join(cells, " | ")) }
	head := func(cells ...string) {
		row(cells...)
		row(slices.Repeat([]string{"---"}, len(cells))...)
	}
	switch name {
	case "units":
		head("what", "units")
		for _, d := range []quantity.Dimension{quantity.Length, quantity.Angle, quantity.Mass, quantity.Force, quantity.Pressure,
			quantity.Speed, quantity.Density, quantity.Time, quantity.Rate} {
			row(plain(d.String()), code(quantity.UnitNames(&d)...))
		}
	case "functions":
		head("function", "gives")
		for _, f := range eval.Functions() {
			row(code(f.Form), f.Meaning)
		}
	case "members":
		head("of", "can be read")
		for _, h := range []eval.Host{eval.OnBase, eval.OnPost, eval.OnBall} {
			row("a "+string(h), code(eval.Members(h)...))
		}
	case "results":
		head("result", "what it is")
		for _, r := range eval.Results() {
			row(code(r.Name), r.Meaning)
		}
		row("`PART.weight`", "of one part, without weld metal")
	case "alloys":
		head("alloy", "")
		b.Reset()
		fmt.Fprintf(&b, "The alloys are %s.\n", code(stock.AlloyNames()...))
	case "table":
		declarationTables(&b, of)
	}
	if b.Len() == 0 {
		t.Fatalf("there is no table %s %s", name, of)
	}
	return b.String()
}

// declarationTables writes the table of a declaration, and of each property that
// has braces of its own.
func declarationTables(b *strings.Builder, keyword string) {
	all := eval.Declarations()
	i := slices.IndexFunc(all, func(d eval.Declaration) bool { return d.Keyword == keyword })
	if i < 0 {
		return
	}
	d := all[i]
	fmt.Fprintf(b, "%s: %s.\n\n", code(forms(d)...), d.Meaning)
	propertyTable(b, d)
	for _, p := range d.Properties {
		if p.Body != nil {
			fmt.Fprintf(b, "\n%s: %s.\n\n", code(p.Body.Form), p.Meaning)
			propertyTable(b, *p.Body)
		}
	}
}

// forms returns the ways in which a declaration is written.
func forms(d eval.Declaration) []string {
	list := []string{d.Form}
	for _, c := range d.Clauses {
		if !slices.Contains(list, c.Form) {
			list = append(list, c.Form)
		}
	}
	return list
}

func propertyTable(b *strings.Builder, d eval.Declaration) {
	b.WriteString("| such as | what it says | if left out |\n| --- | --- | --- |\n")
	for _, p := range d.Properties {
		without := p.Default
		switch {
		case p.OneOf != "":
			without = "required: choose one"
		case p.Required && p.Unless != "":
			without = "required, except for a " + d.Keyword + " that is " + p.Unless
		case without == "" && len(p.With) == 1:
			without = "required beside '" + p.With[0] + "'"
		case p.Required:
			without = "required"
		}
		says := p.Meaning
		if len(p.On) > 0 {
			says = strings.Join(hostWords(p.On), ", ") + ": " + says
		}
		fmt.Fprintf(b, "| `%s` | %s | %s |\n", p.Example, says, without)
	}
}

func hostWords(hosts []eval.Host) []string {
	words := make([]string, len(hosts))
	for i, h := range hosts {
		switch h {
		case eval.OnBase, eval.OnWall, eval.OnPost, eval.OnBall:
			words[i] = "on a " + string(h)
		case eval.Between:
			words[i] = "between two parts"
		case eval.Around:
			words[i] = "around a post"
		default:
			words[i] = "placed outright"
		}
	}
	return words
}

// code returns words as a list of code.
func code(words ...string) string { return "`" + strings.Join(words, "`, `") + "`" }

// plain returns a noun without its article.
func plain(noun string) string {
	return strings.TrimPrefix(strings.TrimPrefix(noun, "a "), "an ")
}
