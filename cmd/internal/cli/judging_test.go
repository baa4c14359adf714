package cli

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// judging are ways of deciding again what package fab has decided, or of reading
// what package words has written. None of them may stand in render or cmd.
var judging = []struct {
	what    string
	pattern *regexp.Regexp
	except  []string // folders and files in which it is about something else
}{
	{"compares a ratio with its limit", regexp.MustCompile(`\b(Ratio|Worst|Together|Interaction)\s*[<>]=?\s*1\b`), nil},
	{"compares a factor with its target", regexp.MustCompile(`\bFactor\s*[<>]=?\s*[\w.]*Target`), nil},
	{"compares a check with its limit", regexp.MustCompile(`\bFound\s*[<>]=?\s*[\w.]*Limit|\bLimit\s*[<>]=?\s*[\w.]*Found`), nil},
	{"judges the standing", regexp.MustCompile(`\.(Reached|Held|Stable)\(\)`), nil},
	{"judges a requirement", regexp.MustCompile(`Outcome\.(Holds|Unchecked)`), nil},
	{"runs a regular expression", regexp.MustCompile(`"regexp"`), []string{"render/vector/", "render/internal/inspect/", "render/bench/files.go", "cmd/internal/cli/broken.go", "cmd/internal/file/plan.go"}},
	{"reads a sentence", regexp.MustCompile(`strings\.(HasPrefix|HasSuffix|Contains|Cut|CutPrefix|CutSuffix|Index|Fields|Split)\(\w*\.?(text|Text|note|Note|Why|Value|says?|said)\b`),
		[]string{"render/picture/paint.go", "render/terminal/page.go", "cmd/internal/cli/word.go"}}, // a flag; wrapping; help of the language
	{"reads a requirement", regexp.MustCompile(`strings\.\w+\([\w.]*(r|q|requirement)\.Text`), nil},
}

// TestNoJudging holds that render and cmd say what fab found, and decide nothing.
func TestNoJudging(t *testing.T) {
	root := filepath.Join("..", "..", "..")
	for _, storey := range []string{"render", "cmd"} {
		err := filepath.WalkDir(filepath.Join(root, storey), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			name, err := filepath.Rel(root, path)
			if err != nil {
				return err
			}
			name = filepath.ToSlash(name)
			number := 0
			for line := range strings.Lines(string(text)) {
				number++
				code, _, _ := strings.Cut(line, "//")
				for _, j := range judging {
					if j.pattern.MatchString(code) && !under(name, j.except) {
						t.Errorf("%s:%d %s: %s", name, number, j.what, strings.TrimSpace(code))
					}
				}
			}
			return nil
		})
		require.NoError(t, err)
	}
}

func under(name string, places []string) bool {
	for _, f := range places {
		if strings.HasPrefix(name, f) {
			return true
		}
	}
	return false
}

// TestJudgingIsFound holds that the patterns find what they are meant to.
func TestJudgingIsFound(t *testing.T) {
	for line, want := range map[string]string{
		`if s := j.Strength; s != nil && s.Worst > 1 {`:    "compares a ratio with its limit",
		`facts.add(t.Factor < t.Target, "factor")`:         "compares a factor with its target",
		`if c.Found > c.Limit {`:                           "compares a check with its limit",
		`case t.Reached():`:                                "judges the standing",
		`case !q.Outcome.Holds:`:                           "judges a requirement",
		`	"regexp"`:                                        "runs a regular expression",
		`if strings.Contains(f.Text, "not checked") {`:     "reads a sentence",
		`return strings.HasPrefix(note, "Roll to a cone")`: "reads a sentence",
		`case strings.Contains(r.Text, "cost"):`:           "reads a sentence",
	} {
		found := ""
		for _, j := range judging {
			if j.pattern.MatchString(line) {
				found = j.what
				break
			}
		}
		if found != want {
			t.Errorf("%s: found %q, want %q", line, found, want)
		}
	}
}
