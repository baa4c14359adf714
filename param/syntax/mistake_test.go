package syntax

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"stabile/param/quantity"
	"stabile/param/source"
)

// body returns a post with the given properties, of which the first character
// stands at column 12.
func body(properties string) string { return "post a on b{" + properties + "}" }

func TestMistakes(t *testing.T) {
	units := strings.Join(quantity.UnitNames(nil), " ")
	for _, tt := range []struct {
		in   string
		want []string // LINE:COLUMN, the very words, what is wrong, and the hint
	}{
		// Statements.
		{"pst mast on pad { diameter 5 in }",
			[]string{"1:1 pst: no statement starts with 'pst' (did you mean 'post'?)"}},
		{"Post mast on pad { diameter 5 in }",
			[]string{"1:1 Post: no statement starts with 'Post' (did you mean 'post'?)"}},
		{"frobnicate the thing { a 1 b 2 }\nlet x = 3 furlongs",
			[]string{
				"1:1 frobnicate: no statement starts with 'frobnicate' (a statement starts with one of: sculpture, units, bring, let, adjust, metal, base, post, ball, bowl, ring, hole, repeat, when, variation, require, site, shop, finish, job, revision)",
				"2:11 furlongs: unknown unit 'furlongs' (the units are " + units + ")",
			}},
		{"rise = 36 in", []string{"1:1 rise: 'rise' is given a value without let (write let rise = ... to name a value)"}},
		{"let x = a\n  + b", []string{"2:3 +: a line cannot start with '+' (put it at the end of the line before, where it shows that the line goes on)"}},
		{"let x = 3 let y = 4", []string{"1:11 let: a new line is missing before 'let' (start it on a new line)"}},
		{"let x 3", []string{"1:5 x: there is no '=' between 'x' and its value (write x = ...)"}},
		{"let x == 3", []string{"1:7 ==: a value is set with one '=' (write =)"}},
		{"let x\nlet y = 3", []string{"1:5 x: 'x' is given no value (write x = ...)"}},
		{"let = 3", []string{"1:5 =: a name is missing before '=' (write let NAME = value)"}},
		{"sculpture Harbour Lights # a title", []string{`1:11 Harbour Lights: 'sculpture' needs a title in quotes after it (write sculpture "Harbour Lights")`}},
		{"bring", []string{`1:1 bring: 'bring' needs the name of a file in quotes after it (write bring "garage.stabile")`}},
		{"adjust a = 3 in", []string{"1:1 adjust: this adjust has no range: 'from' is missing (write adjust NAME = value from least to most)"}},
		{"adjust c = 3 in form 2 in to 3 in", []string{"1:17 form: 'form' is not understood here (did you mean 'from'?)"}},
		{"repeat i { }", []string{"1:1 repeat: this repeat has no range: 'from' is missing (write repeat i from 1 to 3 { ... })"}},
		{"variation tall { rise = 3 in leant = 4 in }", []string{
			`1:11 tall: put the title of a variation in quotes (write variation "tall")`,
			"1:30 leant: a comma is missing before 'leant' (put a comma or a new line between the two)",
		}},
		{"require weight = 140 lb", []string{"1:16 =: values are compared with '==' (write ==)"}},
		{"require a => b", []string{"1:11 =>: '=>' is not a comparison (write >=)"}},
		{"require a < b < c", []string{"1:15 <: comparisons cannot be chained (write a < b and b < c)"}},
		{"require weight <= 1,000 lb", []string{"1:20 ,: a number has no comma in it (write a decimal as 1.5, and a thousand as 1000)"}},

		// Names.
		{"let m = 3 in\nlet x = m", []string{"1:5 m: 'm' is a unit and cannot be a name (choose another name, such as 'm1')"}},
		{"base base { feet }", []string{"1:6 base: 'base' is a word of the language and cannot be a name (choose another name, such as 'base1')"}},
		{"let pi = 3", []string{"1:5 pi: 'pi' is the number 3.14159... and cannot be a name (choose another name, such as 'pi1')"}},
		{"post on pad { gap 1 }", []string{"1:1 post: a name is missing after 'post' (write post NAME ...)"}},
		{"post left-mast on pad { gap 1 }", []string{"1:6 left-mast: a name has no '-', which would read as a difference (write left_mast)"}},
		{"post 3a on pad { gap 1 }", []string{"1:6 3: a name starts with a letter (put a letter before it, as in p3)"}},
		{`post "mast" on pad { gap 1 }`, []string{`1:6 "mast": a name has no quotes (write post mast)`}},

		// Braces and parentheses.
		{"base pad { plate 24 in by 20 in\npost mast on pad { gap 5 in }",
			[]string{"1:10 {: this { is never closed (write } where it ends)"}},
		{"base pad { plate 24 in by 20 in\nmetal skin { gauge 16 }\nlet x = 3",
			[]string{"1:10 {: this { is never closed (write } where it ends)"}},
		{"repeat i from 1 to 3 { post a[i] on pad { gap 5 in }\nlet x = 3",
			[]string{"1:22 {: this { is never closed (write } where it ends)"}},
		{"post mast on pad\n  gap 5 in\n}\nlet x = 3", []string{"1:1 post: the { of 'post' is missing (write { before its contents)"}},
		{"site wind 100 mph, exposure C }\nlet x = 3", []string{"1:1 site: the { of 'site' is missing (write { before its contents)"}},
		{"repeat i from 1 to 3 { {\nlet x = 3\n}", []string{"1:24 {: this { is written twice (leave one of them out)"}},
		{"post post mast on pad { gap 5 in }", []string{"1:6 post: 'post' is written twice (leave one of them out)"}},
		{"let gap gap = 5 in", []string{"1:9 gap: there are two names before the '=' (leave one of them out)"}},
		{"rise = 36 in from 24 in to 60 in", []string{"1:1 rise: 'rise' is given a range without adjust (write adjust rise = ...)"}},
		{"let x = 3 }\n}\nlet y = 2", []string{
			"1:11 }: this } closes nothing (leave it out, or open what it closes with {)",
			"2:1 }: this } closes nothing (leave it out, or open what it closes with {)",
		}},
		{"let x = (a + b\nlet y = 3", []string{"1:9 (: this ( is never closed (close it with ))"}},
		{"let x = a + b)", []string{"1:14 ): this ) closes nothing (leave it out, or open what it closes)"}},
		{"post mast on pad\nball b on mast { gap 1 }", []string{"1:1 post: 'post' has no { } (write its contents between { and })"}},
		{"post mast on\n{ diameter 5 in, lean 3 dge }", []string{
			"1:11 on: a value is missing after 'on' (write a value there, such as 36 in)",
			"2:25 dge: unknown unit 'dge' (did you mean 'deg'?)",
		}},

		{"{ let a = 3 }\nlet b = 3 dge", []string{
			"1:1 {: this { belongs to nothing (write what it describes before it, such as a post or a ball)",
			"2:11 dge: unknown unit 'dge' (did you mean 'deg'?)",
		}},
		{"shop {\n{ a 1 }\nb 3 dge }", []string{
			"2:1 {: this { belongs to no property (write the property that it belongs to before it)",
			"3:5 dge: unknown unit 'dge' (did you mean 'deg'?)",
		}},

		// Properties.
		{body("a 5 in metal skin, c 3 in toword 90 deg"), []string{
			"1:20 metal: a comma is missing before 'metal' (put a comma or a new line between the two)",
			"1:39 toword: 'toword' is not understood after the property (did you mean 'toward'?)",
		}},
		{body("at (3 in 4 in), plate 24 in 20 in"), []string{
			"1:22 4 in: there are two values side by side (put a comma between them, or a word such as by, to or toward)",
			"1:41 20 in: there are two values side by side (put a comma between them, or a word such as by, to or toward)",
		}},
		{body("gores 10 metal skin"), []string{"1:22 metal: a comma is missing before 'metal' (put a comma or a new line between the two)"}},
		{body("a: 3 in, b = 4 in; c 3 deg"), []string{
			"1:14 :: a design has no ':' (leave it out)",
			"1:24 =: a property has no '=' before its value (leave it out)",
			"1:30 ;: a ';' has no meaning here (write a comma between properties, or a new line)",
		}},
		{body("diameter 1,5 mm, gap 2 in"), []string{"1:23 ,: a number has no comma in it (write a decimal as 1.5, and a thousand as 1000)"}},
		{body(", a 1,, b"), []string{
			"1:13 ,: there is nothing before this comma (leave it out)",
			"1:19 ,: there is nothing before this comma (leave it out)",
		}},
		{body(`"x" 3, a 3 in`), []string{
			`1:13 "x": no property starts with the text in quotes (a property starts with a word, such as diameter or metal)`,
		}},
		{body("(3, 4), a 3 in"), []string{"1:13 (: no property starts with '(' (a property starts with a word, such as at or offset)"}},
		{body("lean toward, gap 3 in +"), []string{
			"1:18 toward: a value is missing after 'toward' (write a value there, such as 36 in)",
			"1:35 +: a value is missing after '+' (write a value there, such as 36 in)",
		}},
		{body("at (3 ? in,\n 4 in), length $ 4"), []string{
			"1:19 ?: '?' has no meaning here (leave it out)",
			"2:16 $: a price has no currency sign (write the bare number)",
		}},

		// Numbers and units.
		{"let a = 1 -1/2 in", []string{"1:9 1 -1/2: '1 -1/2' may mean a mixed number or a difference (write 1-1/2 for the mixed number, or 1 - 1/2 for the difference)"}},
		{"let a = 1 1/2 in", []string{"1:9 1 1/2: a mixed number is written with a hyphen (write 1-1/2)"}},
		{"let a = 5 ft-3 in", []string{"1:9 5 ft-3 in: '5 ft-3 in' may mean a sum or a difference (write 5 ft 3 in for the sum, or 5 ft - 3 in for the difference)"}},
		{"let a = 1/0 in", []string{"1:9 1/0: '1/0' divides by zero (the bottom of a fraction cannot be 0)"}},
		{"let a = 1-1/0 in", []string{"1:11 1/0: '1/0' divides by zero (the bottom of a fraction cannot be 0)"}},
		{"let a = 10-24/3 in", []string{"1:9 10-24/3: '10-24/3' reads as 10 and 24/3, but the fraction of a mixed number is less than 1 (write 10 - 24/3 for the difference)"}},
		{"let a = " + strings.Repeat("9", 400) + " in", []string{"1:9 " + strings.Repeat("9", 400) + ": this number has more digits than any measure needs (round it)"}},
		{"let a = 12. in", []string{"1:11 .: there is no digit after the decimal point (leave it out, or write a digit after it)"}},
		{"let a = 1e3 mm", []string{"1:9 1e3: a number has no power of ten (write the number out, with all its digits)"}},
		{"let a = 5 inches + 3 IN", []string{
			"1:11 inches: unknown unit 'inches' (write 'in')",
			"1:22 IN: unknown unit 'IN' (write 'in')",
		}},
		{"let a = 10 km/hr", []string{"1:12 km/hr: unknown unit 'km/hr' (write 'km/h')"}},
		{"let a = 3 xx/yy", []string{"1:11 xx/yy: unknown unit 'xx/yy' (the units are " + units + ")"}},
		{"let a = (3 + 4) in", []string{"1:17 in: the unit 'in' is not after a number (write a unit right after its number, or multiply by 1 in)"}},
		{"let a = 5 in.", []string{"1:13 .: there is no full stop after 'in' (leave it out)"}},

		// Expressions.
		{"let a = b +\nlet c = 3", []string{"1:11 +: a value is missing after '+' (write a value there, such as 36 in)"}},
		{"let a = * 3", []string{"1:9 *: a value is missing before '*' (write a value there, such as 36 in)"}},
		{"let a =", []string{"1:7 =: a value is missing after '=' (write a value there, such as 36 in)"}},
		{"let a = ()", []string{"1:9 (): a point has two or three coordinates, not 0 (write (x, y) or (x, y, z))"}},
		{"let a = (1,2,3,4)", []string{"1:9 (1,2,3,4): a point has two or three coordinates, not 4 (write (x, y) or (x, y, z))"}},
		{"let a = f(1,)", []string{"1:12 ,: a value is missing after ',' (write a value there, such as 36 in)"}},
		{"let a = b[1,2]", []string{"1:10 [1,2]: an index is one number, not 2 (write one number, as in reed[2])"}},
		{"let a = b.\nlet c = 3", []string{"1:10 .: there is nothing after the '.' (write what you want to read after it, as in moon.centre)"}},
		{"let a = +3", []string{"1:9 +: a value has no '+' before it (leave it out)"}},
		{"let a = b ^ 2", []string{"1:11 ^: there is no sign for a power (multiply a value by itself, as in r * r)"}},
		{"when b && !c { }", []string{
			"1:8 &&: '&&' is written as a word (write 'and')",
			"1:11 !: '!' is written as a word (write 'not')",
		}},

		// Texts.
		{`sculpture "Harbour` + "\nunits inch", []string{`1:11 "Harbour: the text that starts here is not closed (close it with " on the same line)`}},
		{`variation "tall { rise = 54 in }` + "\nlet x = 3", []string{`1:11 "tall { rise = 54 in }: the text that starts here is not closed (close it with " on the same line)`}},
		{`sculpture "a\nb"`, []string{`1:13 \n: in text, \ goes only before " and \ (write \\ for one \)`}},
		{"sculpture 'abc'", []string{`1:11 'abc': put text in double quotes (write " before and after it)`}},
		{"// comment\nlet x = 3 /* y */", []string{
			"1:1 //: a comment starts with #, not with // (write # before a comment)",
			"2:11 /*: a comment starts with #, not with /* (write # before each line of a comment)",
		}},
	} {
		checkMistakes(t, tt.in, tt.want)
	}
}

// TestPasted reads what a word processor makes of a design. Each character is
// one mistake at its own column, but for the marks of feet and inches together, and the design is read as it was meant.
func TestPasted(t *testing.T) {
	for _, tt := range []struct {
		in   string
		tree string
		want []string
	}{
		{"let a = 5′ 3½″", "let a = 5ft_3.5mixedin", []string{
			"1:10 ′: feet are written 'ft' (write 'ft')",
			"1:13 ½: '½' is not written in a design (write 3-1/2)",
			"1:14 ″: inches are written 'in' (write 'in')",
		}},
		{`let a = 5'-3"`, "let a = BAD", []string{
			`1:9 5'-3": feet and inches are written 'ft' and 'in' (write 5 ft 3 in)`,
		}},
		{"let a = 1 ½ in", "let a = 1.5mixedin", []string{"1:11 ½: '½' is not written in a design (write 1-1/2)"}},
		{"let a = ½ in", "let a = 0.5in", []string{"1:9 ½: '½' is not written in a design (write 1/2)"}},
		{"let a = 1–1⁄2 in", "let a = 1.5mixedin", []string{
			"1:10 –: '–' is a dash (write -)",
			"1:12 ⁄: '⁄' is a fraction stroke (write /)",
		}},
		{"let a = b − c", "let a = {b - c}", []string{"1:11 −: '−' is a printer's minus (write -)"}},
		{"let a = b ÷ c", "let a = {b / c}", []string{"1:11 ÷: '÷' is a division sign (write /)"}},
		{"let a = b × c", "let a = BAD", []string{"1:11 ×: '×' is not written in a design (write * to multiply, or 'by' between two sizes)"}},
		{"let a = 90° + b", "let a = {90deg + b}", []string{"1:11 °: degrees are written 'deg' (write 'deg')"}},
		{"let a = 62 lb/ft³", "let a = 62lb/ft3", []string{"1:12 lb/ft³: 'lb/ft³' is not written in a design (write 'lb/ft3')"}},
		{"require a ≤ b", "require {a <= b}", []string{"1:11 ≤: '≤' is a printer's sign (write <=)"}},
		{"sculpture “Two Moons”", `sculpture "Two Moons"`, []string{`1:11 “Two Moons”: put text in straight quotes (write " before and after it)`}},
		{"sculpture \"Two Moons”", `sculpture "Two Moons"`, []string{`1:21 ”: put text in straight quotes (write ")`}},
		{"sculpture \"Kelly’s Moons\"", `sculpture "Kelly’s Moons"`, nil},
		{"let\u00a0a = 3\u00a0in", "let a = 3in", []string{
			"1:4 \u00a0: a pasted space that is not an ordinary one (U+00A0) (type an ordinary space)",
			"1:10 \u00a0: a pasted space that is not an ordinary one (U+00A0) (type an ordinary space)",
		}},
		{"let caf\xe9 = 3 in\nlet b = 2", "let caf = 3in\nlet b = 2", []string{"1:8 \xe9: a character that is not UTF-8 text (save the file as UTF-8 text)"}},
		{"sculpture \"caf\xe9\"", "sculpture \"caf\ufffd\"", []string{"1:15 \xe9: a character that is not UTF-8 text (save the file as UTF-8 text)"}},
		{"# caf\xe9 – “here”\nlet b = 2", "let b = 2", nil},
		{"\ufefflet a = 3\r\n\tlet b = 4\r\n", "let a = 3\nlet b = 4", nil},
		{"let a\ufeff = 3", "let a = 3", []string{"1:6 \ufeff: a pasted space that is not an ordinary one (U+FEFF) (type an ordinary space)"}},
	} {
		f := checkMistakes(t, tt.in, tt.want)
		if got := strings.TrimSuffix(dumpFile(f), "\n"); got != tt.tree {
			t.Errorf("Parse(%q) = %s, want %s", tt.in, got, tt.tree)
		}
	}
}

func checkMistakes(t *testing.T, in string, want []string) *File {
	t.Helper()
	f, list := Parse(source.NewFile("a", in))
	var got []string
	for _, d := range list {
		at := d.Span.Start()
		got = append(got, fmt.Sprintf("%d:%d %s: %s (%s)", at.Line, at.Column, d.Span.Text(), d.Text, d.Hint))
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("Parse(%q) reports\n\t%s\nwant\n\t%s", in, strings.Join(got, "\n\t"), strings.Join(want, "\n\t"))
	}
	for _, d := range list {
		if d.Cure == nil {
			continue
		}
		mended := d.Cure.In(in)
		if _, left := Parse(source.NewFile("a", mended)); len(left) >= len(list) {
			t.Errorf("%s is mended to %q, with %v", in, mended, left.Err())
		}
	}
	return f
}

func TestLimits(t *testing.T) {
	for _, tt := range []struct {
		name, in, want string
	}{
		{"source", strings.Repeat("#\n", maxSource/2+1), "1:1 : the text is longer than 4 MiB (keep parts of it in files of their own, and read them with bring)"},
		{"blocks", strings.Repeat("when a {\n", maxBlocks+1) + strings.Repeat("}\n", maxBlocks+1),
			"65:8 {: blocks are nested more than 64 deep (move some blocks out of the others)"},
		{"bodies", "shop {" + strings.Repeat("a {", maxBlocks+5) + strings.Repeat("}", maxBlocks+6),
			"1:198 {: blocks are nested more than 64 deep (move some blocks out of the others)"},
		{"parentheses", "let a = " + strings.Repeat("(", maxDepth+9) + "1" + strings.Repeat(")", maxDepth+9),
			"1:73 (: this expression is nested more than 64 deep (name parts of it with let)"},
		{"signs", "let a = " + strings.Repeat("-", 1000) + "1",
			"1:74 -: this expression is nested more than 64 deep (name parts of it with let)"},
		{"operators", "let a = 1" + strings.Repeat("+1", maxOperators+9),
			"1:2010 +: this expression has more than 1000 operators (name parts of it with let)"},
		{"parts", "let a = b" + strings.Repeat(".c", maxOperators+9),
			"1:2010 .: this expression has more than 1000 operators (name parts of it with let)"},
		{"UTF-16", "\xff\xfel\x00e\x00t\x00", "1:1 \xff\xfe: the text is UTF-16, not UTF-8 (save the file as UTF-8 text)"},
	} {
		t.Run(tt.name, func(t *testing.T) { checkMistakes(t, tt.in, []string{tt.want}) })
	}
	_, list := Parse(source.NewFile("a", strings.Repeat("let a = @\n", 3*maxMistakes)))
	if got := list[len(list)-1]; len(list) != maxMistakes+1 || got.Text != "more than 200 mistakes; the rest of the text is not read" {
		t.Errorf("%d mistakes, the last %q, want %d and the limit", len(list), got.Text, maxMistakes+1)
	}
}

// TestMistakesInParentheses reads more mistakes than are reported before
// parentheses that are looked for to their end.
func TestMistakesInParentheses(t *testing.T) {
	for _, in := range []string{"post a on b(%s) { }", "let a = (%s)", "shop { a (%s), b 3 }", "let a = b[%s]"} {
		in = fmt.Sprintf(in, "1 2 "+strings.Repeat("?", 2*maxMistakes))
		stop := watch(in)
		_, list := Parse(source.NewFile("a", in))
		stop()
		if len(list) != maxMistakes+1 {
			t.Errorf("Parse(%q) reports %d mistakes, want %d", in, len(list), maxMistakes+1)
		}
	}
}

// TestOneSlipOneMistake leaves out, garbles and doubles each token of the
// designs in testdata in turn. Nearly every slip must come to one mistake; a
// lost brace or parenthesis may now and then leave a second behind.
func TestOneSlipOneMistake(t *testing.T) {
	const share = 0.025 // of slips with more than one mistake; measured 0.017
	slips, more := 0, 0
	for _, name := range []string{"harbour", "garage"} {
		in, err := os.ReadFile(filepath.Join("testdata", name+".stabile"))
		if err != nil {
			t.Fatal(err)
		}
		s := newScanner(source.NewFile(name, string(in)), nil, nil)
		for tok := s.next(); tok.kind != endOfText; tok = s.next() {
			before, words, after := string(in[:tok.from]), string(in[tok.from:tok.to]), string(in[tok.to:])
			for _, slip := range []string{"", "?", words + " " + words} {
				f := source.NewFile(name, before+slip+after)
				_, list := Parse(f)
				slips++
				if len(list) > 1 {
					more++
					t.Logf("%q for %q in %q: %v", slip, words, f.Line(f.Position(tok.from).Line), list.Err())
				}
				if slip == "?" && len(list) == 0 || len(list) > 3 {
					t.Errorf("%q for %q in %q: %d mistakes: %v", slip, words, f.Line(f.Position(tok.from).Line), len(list), list.Err())
				}
			}
		}
	}
	if got := float64(more) / float64(slips); got > share {
		t.Errorf("%d of %d slips come to more than one mistake, %.3f, want at most %v", more, slips, got, share)
	}
	t.Logf("%d of %d slips come to more than one mistake", more, slips)
}
