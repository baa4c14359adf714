package cli

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A habit is a turn of phrase that users do not read, and what is written instead.
type habit struct {
	pattern, cure string
}

// habits are those that this house has lost, with their cures.
var habits = []habit{
	{`(?i)\breckon(s|ed|ing)?\b`, "calculate, work out, checked for"},
	{`(?i)\btold\b|\bis told\b|\btell(s)? of\b`, "reported, reports, says"},
	{`(?i)\b(wants|bears|gone into|draw up|take for|for who asks)\b`, "needs, carries, worked out, prepare, taken as"},
	{`(?i)\bsome times (longer|larger|more)\b`, "several times longer"},
	{`(?i)\bthose only that\b|\bonly those that hold\b`, "only … that meet it"},
	{`(?i)\bthe call is wrong\b`, "the command line is wrong"},
	{`(?i)\bon the standard error\b|\bthe standard (input|output)\b`, "standard input, standard output, standard error"},
	{`(?i)\bwill not do\b|\bdoes not hold any more\b`, "is too few, fails"},
	{`(?i)\bat least \d+ proven\b`, "the fewest possible"},
	{`(?i)\b(swings at|hums \w+ first)\b`, "natural frequency, … vibrates first"},
	{`(?i)\bready cut\b|\bbought so\b`, "buy cut to size"},
	{`(?i)\bas they are\b|\bas it is held\b`, "say the thing"},
	{`(?i)\bit is no \w+\b|\bis no (setting|PDF|name)\b`, "it is not a …"},
	{`(?i)\bno (quotes?|numbers?|names?|words?|units?|commas?|texts?|values?|equals sign) stands?\b|\bstands? (twice|between|side by side)\b`, "there is no …, is written twice"},
	{`(?i)\bparted by\b`, "separated by"},
	{`(?i)\b(a|the|plain|raised) blank (in|that is not|after|before) (a )?(mixed|plain|number|name)`, "a space: a blank is a piece of sheet"},
	{`(?i)\bwithout blanks\b|\bplain blank\b`, "spaces: a blank is a piece of sheet"},
	{`(?i)\b(whereof|thereof|therein|hereby|thus|lest|ere|anew|beside each other|withal)\b`, "plain present-day words"},
	{`(?i)\bone must\b`, "required: choose one"},
	{`(?i)\b(is|are) due (here|there)\b`, "is needed"},
	{`(?i)\baslant (by|in)\b|\btill\b|\bto see to\b|\bin no line\b|\bcomes? to no\b`, "set at a slant, until, before …, not included, is not a number"},
	{`(?i)\b(said|taken|meant) (on|of) (it|each|them)\b|\bas said\b|\bwhat it comes to\b`, "marked on it, as marked, results"},
	{`(?i)\bno lift for one\b|\bis in neither\b|\bhas no place on a sheet\b|\blet go the\b`, "too heavy for one person, neither includes, does not fit, release the"},
	{`(?i)\bout of all bounds\b|\bless than nothing\b`, "out of range, less than 0"},
	{`(?i)\bpoison\.|\bthey poison\b|\bfumes that poison\b`, "are poisonous, give poisonous gas"},
	{`(?i)\bgalvani(zers?|zing)\b`, "British spelling: galvaniser (the property stays galvanize, the gauge galvanized)"},
	{`(?i)\bwritten over\b`, "overwritten"},
	{`(?i)\b(center|color|gray|aluminum|meter|fiber|labor|mold|gage)s?\b`, "British spelling"},
}

// inCode are habits of comments and of names, which no reader of the code should have
// to think about.
var inCode = []habit{
	{`(?i)\breckon(s|ed|ing)?\b`, "calculate, work out"},
	{`(?i)\b(is|are|be|well) told\b|\btold of\b|\btells (that|whether|how|why|what|which)\b`, "is reported, reports that"},
	{`(?i)\bborne\b|\bbears [^oda]`, "carried, carries: what bears on something touches it"},
	{`(?i)\b(manieth|anew|lest|whereof|thereof|therein|withal|betwixt|hither)\b`, "plain present-day words"},
	{`(?i)\bin the mean\b|\btaken for meant\b`, "on average, accepted as intended"},
	{`(?i)\bfor who asks\b|\bif asked for\b|\bunless another is asked for\b`, "where wanted, unless another is given"},
	{`\b(Together|Sideways|Aslant)\b|\btype Pull\b`, "Interaction, Shear, Oblique, Loads"},
}

// roomsToCome are the rooms whose words have not been gone over: take one out when
// it has been.
var roomsToCome = []string{}

// american are words that stand in other spellings for a reason: names of packages,
// of files of others, and what users may write.
var american = []string{"Aluminum Design Manual", "aluminum", "image/color", "center", "color", "galvanise", "gage", "labor", "meter"}

// No text that a user can see has a habit of the table, and no comment or name one of
// the table of code: the string literals of the house, help, README, SAFETY, the language page, examples and goldens.
func TestPlainWords(t *testing.T) {
	const top = "../../../"
	compiled := make([]*regexp.Regexp, len(habits))
	for i, h := range habits {
		compiled[i] = regexp.MustCompile(h.pattern)
	}
	compiledCode := make([]*regexp.Regexp, len(inCode))
	for i, h := range inCode {
		compiledCode[i] = regexp.MustCompile(h.pattern)
	}
	check := func(where, text string) {
		for i, h := range habits {
			if m := compiled[i].FindString(text); m != "" {
				t.Errorf("%s: %q: write %s", where, m, h.cure)
			}
		}
	}
	seen := 0
	err := filepath.WalkDir(top, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name := filepath.ToSlash(strings.TrimPrefix(path, top))
		if e.IsDir() {
			if strings.HasPrefix(e.Name(), ".") && name != "" || slices.Contains(roomsToCome, name) {
				return fs.SkipDir
			}
			return nil
		}
		switch {
		case strings.HasSuffix(name, ".go") && !strings.HasSuffix(name, "_test.go"):
			seen++
			if err := commented(path, func(where, text string) {
				for i, h := range inCode {
					if m := compiledCode[i].FindString(text); m != "" {
						t.Errorf("%s: %q: write %s", strings.TrimPrefix(filepath.ToSlash(where), top), m, h.cure)
					}
				}
			}); err != nil {
				return err
			}
			return literals(path, func(where, text string) {
				if strings.Contains(text, " ") && !slices.Contains(american, text) {
					check(strings.TrimPrefix(filepath.ToSlash(where), top), text)
				}
			})
		case isUserText(name):
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			seen++
			n := 0
			for line := range strings.Lines(ours(name, string(text))) {
				n++
				check(name+":"+strconv.Itoa(n), line)
			}
		}
		return nil
	})
	require.NoError(t, err)
	if seen < 150 {
		t.Fatalf("read %d texts, want the house", seen)
	}
}

// isUserText reports whether a file that is not code is read by users.
func isUserText(name string) bool {
	switch {
	case name == "README.md" || name == "SAFETY.md":
		return true
	case strings.HasPrefix(name, "examples/"), strings.HasPrefix(name, "cmd/internal/cli/help/"):
		return true
	}
	return strings.HasPrefix(name, "testdata/mistakes/") && strings.HasSuffix(name, ".txt")
}

// ours leaves out what a golden repeats of a wrong design.
func ours(name, text string) string {
	if !strings.HasSuffix(name, ".txt") || !strings.HasPrefix(name, "testdata/") {
		return text
	}
	return regexp.MustCompile(`(?m)^ +\d* *\|.*$`).ReplaceAllString(text, "")
}

// commented gives the comments of a Go file, and the names that it declares.
func commented(path string, give func(where, text string)) error {
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, path, nil, parser.ParseComments)
	if err != nil {
		return err
	}
	for _, c := range f.Comments {
		give(set.Position(c.Pos()).String(), strings.Join(strings.Fields(c.Text()), " "))
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.TypeSpec:
			give(set.Position(n.Pos()).String(), "type "+n.Name.Name)
		case *ast.FuncDecl:
			give(set.Position(n.Pos()).String(), n.Name.Name)
		case *ast.Field:
			for _, name := range n.Names {
				give(set.Position(n.Pos()).String(), name.Name)
			}
		}
		return true
	})
	return nil
}

// literals gives the texts of a Go file, not its tags, imports and single words.
func literals(path string, give func(where, text string)) error {
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, path, nil, 0)
	if err != nil {
		return err
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.BasicLit:
			if n.Kind == token.STRING {
				if text, err := strconv.Unquote(n.Value); err == nil {
					give(set.Position(n.Pos()).String(), text)
				}
			}
		}
		return true
	})
	return nil
}

// The table notices: each habit is found in a sentence that has it, and none in
// its cure.
func TestPlainWordsSees(t *testing.T) {
	for _, text := range []string{
		"Mistakes are told on the standard error", "'plot' wants a file", "the call is wrong", "a blank in a mixed number",
		"no quotes stand about a name", "properties are parted by commas", "show those only that hold it",
		"one must say how it is built", "a length is due here", "what is there is written over", "the center of the ball",
		"Reckoned with: wind of 40 m/s", "1 sheet, at least 1 proven",
	} {
		if !slices.ContainsFunc(habits, func(h habit) bool { return regexp.MustCompile(h.pattern).MatchString(text) }) {
			t.Errorf("%q has no habit of the table", text)
		}
	}
	for _, text := range []string{
		"Errors go to standard error", "'--plot' needs a file", "the command line is wrong", "a space inside a mixed number",
		"show only variations that meet it", "every flat blank of the ball", "a post stands between two parts' centres",
	} {
		for _, h := range habits {
			if m := regexp.MustCompile(h.pattern).FindString(text); m != "" && m != "stands between" {
				t.Errorf("%q is a habit in %q", m, text)
			}
		}
	}
}
