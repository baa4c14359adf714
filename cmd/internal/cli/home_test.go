package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// No link leads out of a design's folder without leave; one within it is
// followed, and so is one by which the design itself is named.
func TestLinks(t *testing.T) {
	const metals = "metal skin { alloy copper, gauge 14 }\n"
	design := func(use string) string {
		return "units mm\nbring \"" + use + "\"\nbase pad { disc 300, metal skin }\n"
	}
	dir := t.TempDir()
	yard := filepath.Join(dir, "yard")
	put(t, filepath.Join(dir, "far.stabile"), metals)
	put(t, filepath.Join(dir, "elsewhere", "metals.stabile"), metals)
	put(t, filepath.Join(dir, "elsewhere", "real.stabile"), design("near.stabile"))
	put(t, filepath.Join(yard, "near.stabile"), metals)
	for name, use := range map[string]string{
		"file": "out.stabile", "folder": "lib/metals.stabile", "within": "in.stabile", "nowhere": "gone.stabile", "absolute": filepath.ToSlash(filepath.Join(dir, "far.stabile")),
	} {
		put(t, filepath.Join(yard, name+".stabile"), design(use))
	}
	for link, to := range map[string]string{
		"out.stabile": "../far.stabile", "lib": "../elsewhere", "in.stabile": "near.stabile", "gone.stabile": "../nothing.stabile", "linked.stabile": "../elsewhere/real.stabile",
	} {
		if err := os.Symlink(filepath.FromSlash(to), filepath.Join(yard, link)); err != nil {
			t.Skip("links cannot be made here: ", err)
		}
	}
	const outside = "is outside the design's own folder"
	for _, tt := range []struct {
		name, said string // without leave
		leave      bool   // it is well with leave
	}{
		{"file", outside, true}, {"folder", outside, true}, {"absolute", outside, true},
		{"within", "", true}, {"linked", "", true}, {"nowhere", "'gone.stabile' cannot be read", false},
	} {
		path := filepath.Join(yard, tt.name+extension)
		var stdout, stderr bytes.Buffer
		status := Run([]string{"report", path}, nil, &stdout, &stderr, noEnv)
		if well := status == statusWell; well != (tt.said == "") || !strings.Contains(stderr.String(), tt.said) {
			t.Errorf("%s: exit status %d, and it says %q, want %q", tt.name, status, stderr.String(), tt.said)
		}
		status = Run([]string{"report", "--allow-outside", path}, nil, &stdout, &stderr, noEnv)
		if well := status == statusWell; well != tt.leave {
			t.Errorf("%s with leave: exit status %d\n%s", tt.name, status, stderr.String())
		}
	}
}

// A design from standard input uses the files of the working folder, and no
// others.
func TestInputUses(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "far.stabile"), "")
	require.NoError(t, os.Mkdir(filepath.Join(dir, "yard"), 0o777))
	t.Chdir(filepath.Join(dir, "yard"))
	for _, tt := range []struct {
		args []string
		want int
	}{{[]string{"report", "-"}, statusWrong}, {[]string{"report", "-", "--allow-outside"}, statusFails}} { // which falls over
		var stdout, stderr bytes.Buffer
		in := strings.NewReader("bring \"../far.stabile\"\nbase pad { feet }\npost a on pad { diameter 60 mm, length 1 m, metal m1 }\nmetal m1 { alloy copper, gauge 14 }\n")
		if got := Run(tt.args, in, &stdout, &stderr, noEnv); got != tt.want {
			t.Errorf("%v: exit status %d, want %d\n%s", tt.args, got, tt.want, stderr.String())
		}
	}
}
