package cli

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
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
	bash, err := exec.LookPath("bash")
	if err != nil {
		t.Skip(err)
	}
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
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
			found := 0
			for line := range strings.Lines(string(text)) {
				line, ok := strings.CutPrefix(strings.TrimSuffix(line, "\n"), "  stabile ")
				if !ok || strings.HasPrefix(line, "bench") {
					continue // a bench goes on until it is stopped
				}
				found++
				line, _, _ = strings.Cut(line, "   ") // what it makes stands beside it
				if strings.HasPrefix(line, "picture") {
					line += " --size 40x30" // what makes it slow is tried elsewhere
				}
				dir := t.TempDir()
				for name, text := range map[string]string{"harbour.stabile": harbour, "first.stabile": first} {
					if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
						t.Fatal(err)
					}
				}
				cmd := exec.Command(bash, "-c", `"$0" `+line, program)
				cmd.Dir, cmd.Env = dir, append(os.Environ(), asProgram+"=1")
				var errs bytes.Buffer
				cmd.Stderr = &errs
				if err := cmd.Run(); err != nil && cmd.ProcessState.ExitCode() != statusFails {
					t.Errorf("stabile %s: %v\n%s", line, err, errs.String())
				}
			}
			if found == 0 && page.Name() != "bench.txt" {
				t.Error("no example")
			}
		})
	}
}

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
	groff, err := exec.LookPath("groff")
	if err != nil {
		t.Skip(err)
	}
	cmd := exec.Command(groff, "-man", "-Tutf8", "-ww", "-P-cbou")
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
