package syntax

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"stabile/param/source"
)

// A grammarian writes texts at random that hold everything that the grammar
// allows, with blanks, line ends and comments wherever they may stand.
type grammarian struct {
	*rand.Rand
	strings.Builder
	depth    int
	paren    int
	comments int
}

func (g *grammarian) one(of ...string) string { return of[g.IntN(len(of))] }

func (g *grammarian) put(s string) { g.WriteString(s) }

// gap writes blanks, or nothing.
func (g *grammarian) gap() { g.put(g.one("", "", " ", "  ", "\t")) }

// blank writes at least one blank.
func (g *grammarian) blank() { g.put(g.one(" ", " ", "  ", "\t", " \t ")) }

// line writes a line end, with comments and empty lines.
func (g *grammarian) line() {
	g.gap()
	for range g.IntN(3) {
		if g.IntN(2) == 0 {
			g.comments++
			fmt.Fprintf(g, "#%s %d%s", g.one("", " a", "# {", " , }", ` "`), g.comments, g.one("", " ", "\t", "\r"))
		}
		g.put(g.one("\n", "\n", "\r\n", "\n\n", "\n \n\n"))
		g.gap()
	}
	g.put("\n")
	g.gap()
}

// soft writes blanks or, now and then, a line end.
func (g *grammarian) soft() {
	if g.IntN(8) == 0 {
		g.line()
		return
	}
	g.blank()
}

// within writes what may stand between the tokens of an expression: a line end
// in parentheses only.
func (g *grammarian) within() {
	if g.paren > 0 && g.IntN(10) == 0 {
		g.line()
		return
	}
	g.gap()
}

func (g *grammarian) name() string {
	return g.one("a", "b1", "rise", "lean_to", "mast", "Säule", "reed", "weight", "x", "y")
}

func (g *grammarian) literal() {
	g.put(g.one("12", ".5", "12.50", "3/8", "1-1/2", "007", "0"))
	if g.IntN(2) == 0 {
		g.gap()
		g.put(g.one("in", "deg", "mm", "m/s", "lb/ft3", "kN"))
	}
}

func (g *grammarian) list(open, closing string, n int) {
	g.put(open)
	g.paren++
	for i := range n {
		if i > 0 {
			g.within()
			g.put(",")
		}
		g.within()
		g.expression()
	}
	g.within()
	g.paren--
	g.put(closing)
}

func (g *grammarian) expression() {
	g.depth++
	defer func() { g.depth-- }()
	kind := g.IntN(14)
	if g.depth > 4 {
		kind = g.IntN(5)
	}
	switch kind {
	case 0:
		g.literal()
	case 1:
		g.put(g.one("5 ft 3-1/2 in", "5ft3in", "2lb  3 oz"))
	case 2:
		g.put(g.one(`"a"`, `"say \"so\" # \\ ,"`, `"}"`))
	case 3, 4:
		g.put(g.name())
	case 5:
		g.put(g.one("-", "not "))
		g.gap()
		g.operand()
	case 6:
		g.put(g.name())
		g.gap()
		g.list("(", ")", g.IntN(4))
	case 7:
		g.list("(", ")", 2+g.IntN(2))
	case 8:
		g.list("(", ")", 1)
	case 9:
		g.put(g.name())
		g.gap()
		g.list("[", "]", 1)
		if g.IntN(2) == 0 {
			g.put(".")
			g.put(g.name())
		}
	case 10:
		g.put(g.name())
		g.within()
		g.put(".")
		g.gap()
		g.put(g.name())
	default:
		g.operand()
		g.within()
		if op := g.one("+", "-", "*", "/", "and", "<=", "==", "!="); op == "and" || op == "-" {
			g.blank()
			g.put(op)
			g.blank()
		} else {
			g.put(op)
		}
		if g.IntN(8) == 0 {
			g.line()
		} else {
			g.gap()
		}
		g.operand()
	}
}

// operand writes an expression that binds as tightly as any.
func (g *grammarian) operand() {
	if g.IntN(3) > 0 {
		g.put(g.name())
		return
	}
	g.list("(", ")", 1)
}

// braces writes some of what may stand between braces.
func (g *grammarian) braces(item func(), parted bool) {
	g.put("{")
	n := g.IntN(5)
	oneLine := g.IntN(2) == 0
	end := func() {
		switch {
		case !oneLine:
			g.line()
		default:
			g.gap()
		}
	}
	end()
	for i := range n {
		item()
		switch {
		case !parted && i < n-1:
			g.line()
		case parted && (oneLine || g.IntN(3) == 0) && (i < n-1 || g.IntN(3) == 0):
			g.gap()
			g.put(",")
			end()
		default:
			end()
			if parted && oneLine && i < n-1 {
				g.line()
			}
		}
	}
	g.put("}")
}

func (g *grammarian) properties() { g.braces(g.property, true) }

func (g *grammarian) property() {
	word := g.one("diameter", "at", "lean", "halves", "anchor_edge", "alloy", "metal", "anchor-edge")
	g.put(word)
	if word == "alloy" {
		g.put(" " + g.one("low-carbon-steel", "316L-x", "304", "copper", `"brass"`))
		return
	}
	n := g.IntN(4)
	for i := range n {
		g.blank()
		if i > 0 || g.IntN(5) == 0 {
			g.put(g.one("to", "toward", "by", "at"))
			g.soft()
		}
		switch g.IntN(5) {
		case 0:
			g.put(g.one("slip-rolls", "a-b-c", "6061-T6", "3in-x"))
		default:
			g.expression()
		}
	}
	if g.depth < 3 && g.IntN(8) == 0 {
		g.depth++
		g.gap()
		g.properties()
		g.depth--
	}
}

func (g *grammarian) assignment() {
	g.put(g.name())
	g.gap()
	g.put("=")
	g.soft()
	g.expression()
}

func (g *grammarian) statement() {
	kind := g.IntN(12)
	if g.depth > 2 {
		kind = g.IntN(9)
	}
	switch kind {
	case 0:
		g.put(g.one(`sculpture "A  title"`, "units\tinch", `bring "a.stabile"`))
	case 1, 2:
		g.put("let ")
		g.assignment()
	case 3, 4:
		g.put("adjust ")
		g.assignment()
		for _, w := range []string{"from", "to", "step"}[:2+g.IntN(2)] {
			g.blank()
			g.put(w)
			g.soft()
			g.expression()
		}
	case 5:
		g.put("require ")
		g.expression()
		g.put(g.one("", "", " <= 3", ` < 4 in "why"`))
	case 6:
		g.put(g.one("metal", "base", "shop ", "site ", "finish", "variation"))
		if s := g.String(); strings.HasSuffix(s, "variation") {
			g.put(` "tall"`)
			g.soft()
			g.braces(g.assignment, true)
			return
		} else if !strings.HasSuffix(s, " ") {
			g.blank()
			g.put(g.name())
		}
		g.soft()
		g.properties()
	case 7, 8:
		g.put(g.one("post", "ball"))
		g.blank()
		g.put(g.name())
		if g.IntN(3) == 0 {
			g.list("[", "]", 1)
		}
		for range g.IntN(3) {
			g.soft()
			g.put(g.one("on", "from", "to", "around", "at"))
			g.soft()
			g.expression()
		}
		g.soft()
		g.properties()
	default:
		if g.IntN(2) == 0 {
			g.put("when ")
			g.expression()
		} else {
			g.put("repeat i from ")
			g.expression()
			g.put(" to ")
			g.expression()
		}
		g.depth++
		g.soft()
		g.braces(g.statement, false)
		g.depth--
	}
}

// grammatical returns a text at random.
func grammatical(seed uint64) string {
	g := &grammarian{Rand: rand.New(rand.NewPCG(seed, 1))}
	if g.IntN(4) == 0 {
		g.put("\ufeff")
	}
	g.gap()
	for range 1 + g.IntN(6) {
		g.statement()
		g.line()
	}
	return strings.TrimRight(g.String(), g.one("", "\n", " \n\r"))
}

// TestTidyGrammar tidies texts that hold everything that the grammar allows.
// Those with a mistake, of which chance makes some, do not count.
func TestTidyGrammar(t *testing.T) {
	const rounds, least = 5_000, 4_000
	well := 0
	for seed := range uint64(rounds) {
		in := grammatical(seed)
		if _, list := Parse(source.NewFile("a", in)); len(list) == 0 {
			well++
			checkTidy(t, in)
		}
	}
	if well < least {
		t.Errorf("%d of %d texts are without mistakes, want %d at least", well, rounds, least)
	}
	t.Logf("%d of %d texts are without mistakes", well, rounds)
}

// TestTidyBlanks changes only the blanks between the tokens of a line. The tidy
// text must not.
func TestTidyBlanks(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for name, in := range texts(t) {
		f := source.NewFile(name, in)
		want, list := Tidy(f)
		if len(list) > 0 {
			t.Fatalf("Tidy(%s): %v", name, list.Err())
		}
		for range 50 {
			var b strings.Builder
			s := newScanner(f, nil, nil)
			last := 0
			for tok := s.next(); ; tok = s.next() {
				b.WriteString(respaced(f.Text[last:tok.from], r))
				if tok.kind == endOfText {
					break
				}
				b.WriteString(f.Text[tok.from:tok.to])
				last = tok.to
			}
			got, list := Tidy(source.NewFile(name, b.String()))
			if len(list) > 0 || string(got) != string(want) {
				t.Fatalf("Tidy(%s with other blanks) (%v): %s", name, list.Err(), parting(string(got), string(want)))
			}
		}
	}
}

// respaced returns what stands between two tokens with another number of blanks
// in each run of them. None is put where none is, nor taken away entirely,
// since a sign may mean another thing then.
func respaced(s string, r *rand.Rand) string {
	var b strings.Builder
	for i := 0; i < len(s); {
		switch {
		case s[i] == '#':
			n := strings.IndexByte(s[i:]+"\n", '\n')
			b.WriteString(s[i : i+n])
			i += n
		case s[i] == ' ' || s[i] == '\t':
			for i < len(s) && (s[i] == ' ' || s[i] == '\t') {
				i++
			}
			b.WriteString([]string{" ", "  ", "\t", "   \t "}[r.IntN(4)])
		default:
			b.WriteByte(s[i])
			i++
		}
	}
	return b.String()
}
