package syntax

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"stabile/param/golden"
	"stabile/param/quantity"
	"stabile/param/source"
)

func TestParseGolden(t *testing.T) {
	for _, name := range []string{"harbour", "garage"} {
		in, err := os.ReadFile(filepath.Join("testdata", name+".stabile"))
		if err != nil {
			t.Fatal(err)
		}
		f, list := Parse(source.NewFile(name+".stabile", string(in)))
		if err := list.Err(); err != nil {
			t.Errorf("Parse(%s): %v", name, err)
		}
		got := dumpFile(f)
		golden.Text(t, filepath.Join("testdata", name+".golden"), got)
		if n := strings.Count(string(in), "#"); len(f.Comments) != n {
			t.Errorf("Parse(%s) kept %d comments, want %d", name, len(f.Comments), n)
		}
		// The same text with tabs, carriage returns and a byte order mark says the same.
		worn := "\ufeff" + strings.ReplaceAll(strings.ReplaceAll(string(in), "  ", "\t"), "\n", "\r\n")
		f, list = Parse(source.NewFile(name, worn))
		if err := list.Err(); err != nil {
			t.Errorf("Parse(%s with tabs and CRLF): %v", name, err)
		}
		if again := dumpFile(f); again != got {
			t.Errorf("Parse(%s with tabs and CRLF) =\n%s\nwant\n%s", name, again, got)
		}
	}
}

func TestParseExpression(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"12", "12"},
		{".5 in", "0.5in"},
		{"12.5", "12.5"},
		{"3/8 in", "0.375in"},
		{"3 / 8", "{3 / 8}"},
		{"1-1/2 in", "1.5mixedin"},
		{"1-1/2", "1.5mixed"},
		{"1 - 1/2", "{1 - 0.5}"},
		{"2-1", "{2 - 1}"},
		{"1/2/2", "{0.5 / 2}"},
		{"3/8.5", "{3 / 8.5}"},
		{"5 ft 3-1/2 in", "5ft_3.5mixedin"},
		{"5ft3in", "5ft_3in"},
		{"2 lb 3 oz", "2lb_3oz"},
		{"5 ft - 3 in", "{5ft - 3in}"},
		{"100 km/h", "100km/h"},
		{"28 m/s", "28m/s"},
		{"490 lb/ft3", "490lb/ft3"},
		{"7850kg/m3", "7850kg/m3"},
		{"90 deg/45 deg", "{90deg / 45deg}"},
		{"12 m / n", "{12m / n}"},
		{"12 m/n", "{12m / n}"},
		{"a + b * c - d", "{{a + {b * c}} - d}"},
		{"(a + b) * c", "{({a + b}) * c}"},
		{"-a * b", "{{- a} * b}"},
		{"--a", "{- {- a}}"},
		{"not a == b and c or d", "{{{not {a == b}} and c} or d}"},
		{"a <= b", "{a <= b}"},
		{"a != b", "{a != b}"},
		{"moon.centre", "moon.centre"},
		{"reed[2].weight", "reed[2].weight"},
		{"reed[i + 1]", "reed[{i + 1}]"},
		{"polar(9 in, 60 deg * i)", "polar(9in, {60deg * i})"},
		{"f()", "f()"},
		{"(1, 2)", "point(1, 2)"},
		{"(1, 2,\n 3)", "point(1, 2, 3)"},
		{"a +\n b", "{a + b}"},
		{`"say \"so\" \\ there"`, `"say \"so\" \\ there"`},
		{"low-carbon-steel", "{{low - carbon} - steel}"},
		{"Säule * 2", "{Säule * 2}"},
		{"12 # a dozen", "12"},
	} {
		e, list := ParseExpression(source.NewFile("set", tt.in))
		if got := show(e); got != tt.want || len(list) != 0 {
			t.Errorf("ParseExpression(%q) = %s, %v, want %s", tt.in, got, list.Err(), tt.want)
		}
		if got := e.Span().Text(); !strings.HasPrefix(tt.in, got) || !strings.HasSuffix(got, strings.TrimSpace(strings.Split(tt.in, " #")[0])) {
			t.Errorf("ParseExpression(%q) spans %q", tt.in, got)
		}
	}
}

func TestWord(t *testing.T) {
	for _, tt := range []struct {
		in, want string
		ok       bool
	}{
		{"low-carbon-steel", "low-carbon-steel", true},
		{"304", "304", true},
		{"stainless-304", "stainless-304", true},
		{"aluminium-5052-h32", "aluminium-5052-h32", true},
		{"weather", "weather", true},
		{"low - carbon", "", false},
		{"3/8", "", false},
		{"1.5", "", false},
		{"-a", "", false},
		{"a--b", "", false},
		{"f(x)", "", false},
		{"5 in", "", false},
		{`"a"`, "", false},
	} {
		e, list := ParseExpression(source.NewFile("set", tt.in))
		got, ok := Word(e)
		if got != tt.want || ok != tt.ok || len(list) != 0 {
			t.Errorf("Word(%s) = %q, %v (%v), want %q, %v", tt.in, got, ok, list.Err(), tt.want, tt.ok)
		}
	}
}

// TestParseAlloy reads words that an expression would make units or numbers of.
func TestParseAlloy(t *testing.T) {
	for _, alloy := range []string{"316L", "410S", "6061-T6", "low-carbon-steel", "304", "a36", "aluminium-5052-h32"} {
		f, list := Parse(source.NewFile("a", "metal skin { alloy "+alloy+", gauge 16 }"))
		if len(list) != 0 {
			t.Errorf("alloy %s: %v", alloy, list.Err())
			continue
		}
		v := f.Statements[0].(*Declaration).Body[0].Arguments[0].Value
		if got, ok := Word(v); got != alloy || !ok {
			t.Errorf("Word(alloy %s) = %q, %v", alloy, got, ok)
		}
	}
}

// TestFractionsReadBack reads every length that a rule of 1/32 in shows.
func TestFractionsReadBack(t *testing.T) {
	for n := range 40 * 32 {
		want := float64(n) / 32
		in := quantity.Fraction(want, 32) + " in"
		e, list := ParseExpression(source.NewFile("set", in))
		lit, ok := e.(*Literal)
		if !ok || len(list) != 0 || lit.Terms[0].Number != want || lit.Terms[0].Unit.Text != "in" {
			t.Errorf("ParseExpression(%q) = %s (%v), want %v in", in, show(e), list.Err(), want)
		}
	}
}
