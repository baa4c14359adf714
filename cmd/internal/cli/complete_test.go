package cli

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stabile/cmd/internal/complete"
	"stabile/param/external"
)

func script(t *testing.T, shell string) string {
	t.Helper()
	var out, errs bytes.Buffer
	if status := Run([]string{"complete", shell}, nil, &out, &errs, noEnv); status != statusWell {
		t.Fatalf("status %d: %s", status, errs.String())
	}
	return out.String()
}

// TestCompleteBash asks bash what it offers for words that are begun.
func TestCompleteBash(t *testing.T) {
	bash := external.Tool(t, "bash")
	dir := t.TempDir()
	for _, name := range []string{"harbour.stabile", "harbour two.stabile", "notes.txt"} {
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	file := filepath.Join(dir, "complete.bash")
	if err := os.WriteFile(file, []byte(script(t, "bash")), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		words []string
		want  []string
	}{
		{[]string{"re"}, []string{"report"}},
		{[]string{"report", "--a"}, []string{"--all", "--allow-outside"}},
		{[]string{"draw", "--paper", "ANSI"}, []string{`ANSI\ A`, `ANSI\ B`, `ANSI\ C`, `ANSI\ D`}},
		{[]string{"picture", "--place", "pl"}, []string{"plain", "plinth"}},
		{[]string{"report", "--show", "str"}, []string{"strength"}},
		{[]string{"help", "zon"}, []string{"zones"}},
		{[]string{"complete", "f"}, []string{"fish"}},
		{[]string{"draw", "h"}, []string{"harbour two.stabile", "harbour.stabile"}},
		{[]string{"draw", "n"}, nil},
		{[]string{"draw", "x.stabile", "-o", "n"}, []string{"notes.txt"}},
	} {
		args := append([]string{"-c", `cd "$1"; source ./complete.bash; shift; COMP_WORDS=(stabile "$@"); COMP_CWORD=$#; _stabile; printf '%s\n' "${COMPREPLY[@]}"`, "-", dir}, tt.words...)
		out, err := exec.Command(bash, args...).CombinedOutput()
		if err != nil {
			t.Errorf("%q: %v\n%s", tt.words, err, out)
			continue
		}
		got := strings.Split(strings.TrimSpace(string(out)), "\n")
		if got[0] == "" {
			got = nil
		}
		slices.Sort(got)
		if !slices.Equal(got, tt.want) {
			t.Errorf("%q is completed by %q, want %q", tt.words, got, tt.want)
		}
	}
}

// TestCompleteRead has shells read their scripts. PowerShell's is held to the others by its
// words alone.
func TestCompleteRead(t *testing.T) {
	for _, shell := range []string{"bash", "zsh", "fish"} {
		t.Run(shell, func(t *testing.T) {
			path, file := external.Tool(t, shell), filepath.Join(t.TempDir(), "script")
			if err := os.WriteFile(file, []byte(script(t, shell)), 0o666); err != nil {
				t.Fatal(err)
			}
			if out, err := exec.Command(path, "-n", file).CombinedOutput(); err != nil || len(out) > 0 {
				t.Errorf("%v\n%s", err, out)
			}
		})
	}
}

// TestCompleteFish asks fish what it offers for lines that are begun.
func TestCompleteFish(t *testing.T) {
	fish, dir := external.Tool(t, "fish"), t.TempDir()
	for name, text := range map[string]string{"complete.fish": script(t, "fish"), "harbour.stabile": "", "notes.txt": ""} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	for line, want := range map[string]string{
		"stabile rep":               "report",
		"stabile draw --paper ANSI": "ANSI A,ANSI B,ANSI C,ANSI D",
		"stabile help zon":          "zones",
		"stabile draw ha":           "harbour.stabile",
	} {
		cmd := exec.Command(fish, "--no-config", "-c", "source complete.fish; complete -C $argv[1]", line)
		cmd.Dir, cmd.Env = dir, append(os.Environ(), "HOME="+dir)
		out, err := cmd.Output()
		if err != nil {
			t.Errorf("%s: %v", line, err)
			continue
		}
		var got []string
		for offered := range strings.Lines(string(out)) {
			word, _, _ := strings.Cut(strings.TrimSpace(offered), "\t")
			got = append(got, word)
		}
		if strings.Join(got, ",") != want {
			t.Errorf("%q is completed by %q, want %q", line, got, want)
		}
	}
}

// TestCompleteAll: every flag is in the script of every shell.
func TestCompleteAll(t *testing.T) {
	for _, shell := range complete.Shells() {
		text := script(t, shell)
		for _, cmd := range commands() {
			for _, f := range takes(cmd) {
				if !strings.Contains(text, f.Name) {
					t.Errorf("%s does not complete %s --%s", shell, cmd.name, f.Name)
				}
			}
		}
	}
}

// TestFlagsHelped: the help of a command says each of its flags, and no other.
func TestFlagsHelped(t *testing.T) {
	for _, cmd := range commands() {
		if cmd.name == "help" {
			continue
		}
		text, err := helpTexts.ReadFile("help/" + cmd.name + ".txt")
		if err != nil {
			t.Error(err)
			continue
		}
		for _, f := range takes(cmd) {
			if !strings.Contains(string(text), "--"+f.Name) && (f.Shorthand == "" || !strings.Contains(string(text), "  -"+f.Shorthand+" ")) {
				t.Errorf("the help of %s does not say --%s", cmd.name, f.Name)
			}
		}
	}
}
