package cli

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// storeys are the top folders in the order of who may import whom: each imports
// itself and those below.
var storeys = []string{"examples", "param", "fab", "render", "cmd"}

// sealed packages are imported only by the packages named: the text and how it
// is read stay within param, so that all else sees designs.
var sealed = map[string][]string{
	"stabile/param":        {"stabile/cmd", "stabile/fab/study", "stabile/param/written", "stabile/render/bench"}, // the study and the bench read the text again for each change
	"stabile/param/eval":   {"stabile/param"},
	"stabile/param/syntax": {"stabile/param"},
	"stabile/param/edit":   {"stabile/cmd", "stabile/render/bench"}, // who draws on paper has no hand in the text

	// Rooms for tests: nothing else imports them.
	"stabile/param/external":          {"stabile/fab/internal/brick"},
	"stabile/param/golden":            nil,
	"stabile/param/sample":            nil,
	"stabile/param/written":           nil,
	"stabile/fab/internal/brick":      nil,
	"stabile/fab/frame/trial":         nil,
	"stabile/fab/internal/worked":     nil,
	"stabile/render/internal/inspect": nil,
	"stabile/render/internal/sample":  nil,
}

// leaves import nothing of ours, or only what is named.
var leaves = map[string][]string{
	"stabile/param/source":   nil,
	"stabile/param/quantity": nil,
	"stabile/fab/finding":    nil,
	"stabile/render/ink":     nil,
	"stabile/render/vector":  {"stabile/render/ink"},
}

// foreign modules, and where in the house each may be used. One that is not
// named here may not be used at all.
var foreign = []struct {
	module string
	in     []string
}{
	{"github.com/spf13/pflag", []string{"stabile/cmd"}},
	{"golang.org/x/sys", []string{"stabile/cmd/internal/file"}},
	{"github.com/tdewolff/", []string{"stabile/render/vector"}},
	{"github.com/fogleman/gg", []string{"stabile/render/vector", "stabile/render/picture"}},
	{"golang.org/x/image", []string{"stabile/render"}},
	{"gonum.org/v1/gonum", []string{"stabile/param/design", "stabile/param/eval", "stabile/fab", "stabile/render"}},
}

// onlyTests is what tests may use beside that, and where.
var onlyTests = []struct{ module, in string }{
	{"github.com/stretchr/testify", "stabile"},
	{"github.com/chromedp/", "stabile/render/bench"},
}

// isOnlyTests reports whether tests of a package may use a module.
func isOnlyTests(from, to string) bool {
	for _, o := range onlyTests {
		if strings.HasPrefix(to, o.module) && within(from, []string{o.in}) {
			return true
		}
	}
	return false
}

type listed struct {
	ImportPath                         string
	Imports, TestImports, XTestImports []string
	CgoFiles                           []string
}

// packages lists the packages of the module.
func packages(t *testing.T) []listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Imports,TestImports,XTestImports,CgoFiles", "stabile/...")
	var stderr strings.Builder
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	require.NoError(t, err, stderr.String())
	var all []listed
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
		all = append(all, p)
	}
	require.NotEmpty(t, all)
	return all
}

// Imports run one way, cmd > render > fab > param, and each foreign module
// stays in its room.
func TestImportsRunOneWay(t *testing.T) {
	for _, p := range packages(t) {
		for _, fault := range faults(p) {
			t.Error(fault)
		}
	}
}

// The guard sees what it guards against.
func TestImportGuardSees(t *testing.T) {
	for _, tt := range []struct {
		p    listed
		want string
	}{
		{listed{ImportPath: "stabile/fab/flat", Imports: []string{"stabile/render/ink"}}, "upward"},
		{listed{ImportPath: "stabile/param/eval", TestImports: []string{"stabile/fab"}}, "upward"},
		{listed{ImportPath: "stabile/render/pack", Imports: []string{"stabile/param/syntax"}}, "sealed"},
		{listed{ImportPath: "stabile/render/ink", Imports: []string{"stabile/fab"}}, "leaf"},
		{listed{ImportPath: "stabile/render/pack", Imports: []string{"github.com/tdewolff/canvas"}}, "not used here"},
		{listed{ImportPath: "stabile/fab", Imports: []string{"github.com/spf13/pflag"}}, "not used here"},
		{listed{ImportPath: "stabile/fab", Imports: []string{"github.com/stretchr/testify/require"}}, "not used here"},
		{listed{ImportPath: "stabile/fab", Imports: []string{"example.org/other"}}, "not used here"},
		{listed{ImportPath: "stabile/other"}, "no storey"},
		{listed{ImportPath: "stabile/fab", CgoFiles: []string{"a.go"}}, "cgo"},
	} {
		if got := strings.Join(faults(tt.p), "; "); !strings.Contains(got, tt.want) {
			t.Errorf("faults(%+v) = %q, want one that says %q", tt.p, got, tt.want)
		}
	}
	sound := listed{
		ImportPath: "stabile/cmd/internal/cli", Imports: []string{"fmt", "stabile/param", "stabile/fab", "github.com/spf13/pflag"},
		TestImports: []string{"github.com/stretchr/testify/require"},
	}
	if got := faults(sound); len(got) > 0 {
		t.Errorf("faults(%+v) = %q, want none", sound, got)
	}
}

// faults lists what is wrong with the imports of a package.
func faults(p listed) []string {
	var out []string
	from := storey(p.ImportPath)
	if from < 0 {
		out = append(out, p.ImportPath+" is in no storey of the house")
	}
	if len(p.CgoFiles) > 0 {
		out = append(out, p.ImportPath+" uses cgo")
	}
	tests := slices.Concat(p.TestImports, p.XTestImports)
	for i, to := range slices.Concat(p.Imports, tests) {
		inTest := i >= len(p.Imports)
		if why := refuse(p.ImportPath, to, inTest); why != "" {
			out = append(out, p.ImportPath+" imports "+to+": "+why)
		}
	}
	return out
}

// refuse returns why a package may not import another, or "".
func refuse(from, to string, inTest bool) string {
	first, _, _ := strings.Cut(to, "/")
	switch {
	case first == "stabile":
		return refuseOurs(from, to, inTest)
	case !strings.Contains(first, "."):
		return "" // the standard library
	case inTest && isOnlyTests(from, to):
		return ""
	}
	for _, f := range foreign {
		if strings.HasPrefix(to, f.module) && within(from, f.in) {
			return ""
		}
	}
	return "that module is not used here"
}

func refuseOurs(from, to string, inTest bool) string {
	if storey(to) > storey(from) {
		return "that is upward"
	}
	if inTest {
		return "" // a test may read designs from their text
	}
	if allowed, ok := sealed[to]; ok && !within(from, allowed) {
		return "that is sealed"
	}
	if allowed, ok := leaves[from]; ok && !within(to, allowed) {
		return "the package is a leaf"
	}
	return ""
}

// within reports whether a package is one of those named or lies below one.
func within(path string, named []string) bool {
	return slices.ContainsFunc(named, func(n string) bool {
		return path == n || strings.HasPrefix(path, n+"/")
	})
}

// storey returns the height of a package's top folder, or -1.
func storey(path string) int {
	parts := strings.Split(path, "/")
	if len(parts) < 2 {
		return -1
	}
	return slices.Index(storeys, parts[1])
}
