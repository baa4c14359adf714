package cli

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"stabile/param/external"
)

// harbour is the design that the examples of the help speak of.
const harbour = `sculpture "Harbour"
units inch
adjust rise = 36 in from 24 in to 60 in step 1 in
adjust lean = 3 deg from 0 deg to 10 deg
adjust crown = 10 in from 8 in to 14 in
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 3/4 in }
base pad { plate 30 in by 30 in, metal slab }
post mast on pad { diameter 3 in, length rise, lean lean toward 90 deg, metal skin }
ball moon on mast { diameter crown, gores 8, metal skin }
site { push 20 lbf at 30 in }
require tipping >= 0.5
variation "tall" { rise = 55 in }
`

// asProgram has the test binary be the program itself.
const asProgram = "STABILE_TEST_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		os.Exit(Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv))
	}
	os.Exit(m.Run())
}

// TestHelpExamples has a shell run every example of the help in a folder with a design.
// Each ends well, or with status 1 where the design fails.
func TestHelpExamples(t *testing.T) {
	bash := external.Tool(t, "bash")
	help, err := helpTexts.ReadFile("help/help.txt")
	if err != nil {
		t.Fatal(err)
	}
	_, first, _ := strings.Cut(string(help), "first.stabile,\n")
	first, _, _ = strings.Cut(first, "and then")
	pages, err := helpTexts.ReadDir("help")
	if err != nil {
		t.Fatal(err)
	}
	for _, page := range pages {
		t.Run(page.Name(), func(t *testing.T) {
			t.Parallel()
			text, err := helpTexts.ReadFile("help/" + page.Name())
			if err != nil {
				t.Fatal(err)
			}
			found := try(t, bash, string(text), "  stabile ", func(dir string) error {
				if err := os.WriteFile(filepath.Join(dir, "first.stabile"), []byte(first), 0o666); err != nil {
					return err
				}
				return os.WriteFile(filepath.Join(dir, "harbour.stabile"), []byte(harbour), 0o666)
			})
			if found == 0 && page.Name() != "bench.txt" {
				t.Error("no example")
			}
		})
	}
}

// try has a shell run each line of a text that begins with lead, in a folder of its own
// that is filled for it, and returns how many there are. Each ends well, or with status 1
// where the design fails.
func try(t *testing.T, bash, text, lead string, fill func(dir string) error) (found int) {
	t.Helper()
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(text) {
		line, ok := strings.CutPrefix(strings.TrimSuffix(line, "\n"), lead)
		if !ok || strings.HasPrefix(line, "bench") {
			continue // a bench goes on until it is stopped
		}
		found++
		line, _, _ = strings.Cut(line, "   ") // what it makes stands beside it
		if strings.HasPrefix(line, "picture") {
			line += " --size 40x30" // what makes it slow is tried elsewhere
		}
		dir := t.TempDir()
		if err := fill(dir); err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command(bash, "-c", `"$0" `+line, program)
		cmd.Dir, cmd.Env = dir, append(os.Environ(), asProgram+"=1")
		var errs bytes.Buffer
		cmd.Stderr = &errs
		if err := cmd.Run(); err != nil && cmd.ProcessState.ExitCode() != statusFails {
			t.Errorf("stabile %s: %v\n%s", line, err, errs.String())
		}
	}
	return found
}

// TestReadmeExamples: the commands of the README run, and what it says may be adjusted is
// what the example says.
func TestReadmeExamples(t *testing.T) {
	bash := external.Tool(t, "bash")
	const root = "../../.."
	text, err := os.ReadFile(filepath.Join(root, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	if found := try(t, bash, string(text), "    stabile ", func(dir string) error {
		return os.CopyFS(filepath.Join(dir, "examples"), os.DirFS(filepath.Join(root, "examples")))
	}); found < 5 {
		t.Errorf("%d commands", found)
	}
	example, err := os.ReadFile(filepath.Join(root, "examples", "lamp-thorn.stabile"))
	if err != nil {
		t.Fatal(err)
	}
	_, after, _ := strings.Cut(string(text), "which says what may be changed:\n")
	said, _, _ := strings.Cut(strings.TrimLeft(after, "\n"), "\n\n")
	for line := range strings.Lines(said) {
		if !strings.Contains(spaced(string(example)), spaced(line)) {
			t.Errorf("the example does not say %q", strings.TrimSpace(line))
		}
	}
}

// spaced returns a text with one space where it has several.
func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// TestManualPage: the manual page has every line of the help, and a formatter finds
// nothing wrong with it.
func TestManualPage(t *testing.T) {
	var page, errs bytes.Buffer
	if status := Run([]string{"help", "--man"}, nil, &page, &errs, noEnv); status != statusWell {
		t.Fatalf("status %d: %s", status, errs.String())
	}
	for _, cmd := range commands() {
		if cmd.name != "help" && !strings.Contains(page.String(), "\n.SH STABILE "+strings.ToUpper(cmd.name)+"\n") {
			t.Errorf("nothing of %s", cmd.name)
		}
	}
	cmd := exec.Command(external.Tool(t, "groff"), "-man", "-Tutf8", "-ww", "-P-cbou")
	cmd.Stdin, cmd.Stderr = &page, &errs
	shown, err := cmd.Output()
	if err != nil || errs.Len() > 0 {
		t.Errorf("%v\n%s", err, errs.String())
	}
	for _, want := range []string{"stabile report harbour.stabile --json > harbour.json", "'tipping >= 1.5'", "The exit status is 0"} {
		if !strings.Contains(string(shown), want) {
			t.Errorf("the page does not show %q", want)
		}
	}
}
