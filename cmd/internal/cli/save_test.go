package cli

import (
	"bytes"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"stabile/cmd/internal/file/fault"
)

// adjustable is a design with values to vary, small and quick to draw.
var adjustable = strings.Replace(whole, "length 30 in", "length rise", 1) + "adjust rise = 30 in from 20 in to 40 in\n"

// plain is a design with few sheets.
var plain = whole[:strings.Index(whole, "ball")]

// untidy is a design that tidy changes.
var untidy = strings.Replace(whole, "post mast", "post   mast", 1)

// lying returns the files below a folder, but for those in folders that were there
// before, and whether unfinished work lies there.
func lying(t *testing.T, dir string) (files map[string]string, unfinished bool) {
	t.Helper()
	files = contents(t, dir)
	maps.DeleteFunc(files, func(name, _ string) bool {
		hidden := strings.Contains(name, ".stabile-")
		unfinished = unfinished || hidden
		return hidden
	})
	return files, unfinished
}

// TestDeathOfCommands lets each command that writes die at each of its calls to
// the disk: what is there is what was, or all of the new, or, while pictures are
// moved one by one, no files of two runs; the next run completes it and clears up.
func TestDeathOfCommands(t *testing.T) {
	for _, tt := range []struct {
		name  string
		text  string
		args  []string
		stale map[string]string // what lies there from before
		moves bool              // several files go into a folder that stays
	}{
		{"draw", plain, []string{"draw", "piece.stabile", "-o", "shop", "--book", "office"}, nil, false},
		{"draw a PDF", whole, []string{"draw", "piece.stabile", "-o", "shop.pdf"}, map[string]string{"shop.pdf": "stale"}, false},
		{"picture", whole, []string{"picture", "piece.stabile", "-o", "p.png", "--size", "40x30", "--sketch"}, map[string]string{"p.png": "stale"}, false},
		{
			"turn", whole, []string{"picture", "piece.stabile", "-o", "turned", "--size", "40x30", "--sketch", "--turn", "3"},
			nil, false,
		},
		{"vary", adjustable, []string{"vary", "piece.stabile", "--random", "3", "-o", "v.csv"}, map[string]string{"v.csv": "stale"}, false},
		{"tidy", untidy, []string{"tidy", "piece.stabile"}, nil, false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			run := func(disk *fault.Disk) {
				var out bytes.Buffer
				c := &call{stdin: strings.NewReader(""), stdout: &out, stderr: &out, getenv: noEnv}
				if disk != nil {
					c.disk = disk
				}
				status, err := c.command(tt.args[0], tt.args[1:])
				if disk == nil {
					require.NoError(t, err)
					require.Equal(t, statusWell, status, out.String())
				}
			}
			start := func() (dir string, before map[string]string) {
				dir = t.TempDir()
				t.Chdir(dir)
				before = map[string]string{"piece.stabile": tt.text}
				maps.Copy(before, tt.stale)
				for name, text := range before {
					require.NoError(t, os.WriteFile(name, []byte(text), 0o666))
				}
				return dir, before
			}
			dir, _ := start()
			run(nil)
			want, _ := lying(t, dir)
			deaths := 0
			for at := 1; ; at++ {
				dir, before := start()
				disk := &fault.Disk{At: at}
				run(disk)
				if disk.Calls < at {
					break
				}
				deaths++
				got, _ := lying(t, dir)
				if !maps.Equal(got, before) && !maps.Equal(got, want) {
					mixed := false
					for name, text := range got {
						mixed = mixed || text == "stale" && len(got) > len(before) && name != "piece.stabile"
					}
					if !tt.moves || mixed {
						t.Errorf("dead at call %d: half is there: %v", at, names(got))
					}
				}
				run(nil)
				if got, unfinished := lying(t, dir); !maps.Equal(got, want) || unfinished {
					t.Errorf("dead at call %d, the next run leaves %v, unfinished: %v", at, names(got), unfinished)
				}
			}
			t.Logf("%d deaths", deaths)
		})
	}
}

func names(files map[string]string) []string {
	var list []string
	for name := range files {
		list = append(list, name)
	}
	return list
}

// TestDesignStays: no command writes over the design or what it brings, by
// whatever name.
func TestDesignStays(t *testing.T) {
	for _, command := range [][]string{
		{"vary", "--random", "2", "-o", "X.csv"}, {"picture", "--size", "40x30", "-o", "X.png"}, {"draw", "-o", "X.pdf"}, {"offer", "-o", "X.pdf"},
	} {
		for _, way := range []string{"itself", "link", "hard link"} {
			t.Chdir(t.TempDir())
			out := command[len(command)-1]
			design := "piece.stabile"
			if way == "itself" {
				design = out
			}
			require.NoError(t, os.WriteFile(design, []byte(adjustable), 0o666))
			switch way {
			case "link":
				require.NoError(t, os.Symlink(design, out))
			case "hard link":
				require.NoError(t, os.Link(design, out))
			}
			var stdout, stderr bytes.Buffer
			status := Run(append(append([]string{}, command...), design), nil, &stdout, &stderr, noEnv)
			text, err := os.ReadFile(design)
			require.NoError(t, err)
			if status != statusWrong || string(text) != adjustable || !strings.Contains(stderr.String(), "not overwritten") {
				t.Errorf("%s into %s: status %d, %s", command[0], way, status, stderr.String())
			}
		}
	}
}

// TestBroughtStays: what a design brings is not written over either.
func TestBroughtStays(t *testing.T) {
	t.Chdir(t.TempDir())
	metals, rest, _ := strings.Cut(whole, "base pad")
	metals, _ = strings.CutPrefix(metals, "units inch\n")
	require.NoError(t, os.WriteFile("garage.csv", []byte(metals), 0o666))
	for _, word := range []string{"bring"} {
		text := word + " \"garage.csv\"\nunits inch\nbase pad" + strings.Replace(rest, "length 30 in", "length rise", 1) + "adjust rise = 30 in from 20 in to 40 in\n"
		require.NoError(t, os.WriteFile("piece.stabile", []byte(text), 0o666))
		var out bytes.Buffer
		if Run([]string{"report", "piece.stabile"}, nil, &out, &out, noEnv) == statusWrong {
			continue // the language has the other word
		}
		out.Reset()
		status := Run([]string{"vary", "piece.stabile", "--random", "2", "-o", "garage.csv"}, nil, &out, &out, noEnv)
		if status != statusWrong || !strings.Contains(out.String(), "not overwritten") {
			t.Errorf("status %d, %s", status, out.String())
		}
		return
	}
	t.Error("the design cannot be read")
}

// TestNamesOfPacks: a design's file never gives its pack a name that leads
// elsewhere, and a dash is no folder.
func TestNamesOfPacks(t *testing.T) {
	for file, want := range map[string]string{
		"gate.stabile": "gate", ".stabile": ".stabile-pack", "...stabile": "...stabile-pack", "..stabile": "..stabile-pack",
		"a/b.stabile": "b", " .stabile": " .stabile-pack", "gate": "gate-pack",
	} {
		if got := packName(file, nil); got != want {
			t.Errorf("packName(%q) = %q, want %q", file, got, want)
		}
	}
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("piece.stabile", []byte(whole), 0o666))
	var out bytes.Buffer
	if status := Run([]string{"draw", "piece.stabile", "-o", "-"}, nil, &out, &out, noEnv); status != statusWrong {
		t.Errorf("status %d, %s", status, out.String())
	}
	if got := contents(t, "."); len(got) != 1 {
		t.Errorf("there is %v", names(got))
	}
}

// TestNamesOnTerminal: names of files reach no terminal with what would steer it.
func TestNamesOnTerminal(t *testing.T) {
	const evil = "a\x1b[31mb\u202ec\u2028d\x07"
	t.Chdir(t.TempDir())
	file := evil + ".stabile"
	if err := os.WriteFile(file, []byte(adjustable), 0o666); err != nil {
		t.Skip(err)
	}
	require.NoError(t, os.WriteFile(evil+"untidy.stabile", []byte(untidy), 0o666))
	require.NoError(t, os.WriteFile(evil+"wrong.stabile", []byte("post"), 0o666))
	require.NoError(t, os.Mkdir(evil, 0o777))
	require.NoError(t, os.WriteFile(filepath.Join(evil, evil+".svg"), nil, 0o666))
	for _, args := range [][]string{
		{"report", file},
		{"report", evil + "wrong.stabile"},
		{"report", evil + "none.stabile"},
		{"report", evil},
		{"draw", file, "-o", evil},
		{"draw", file, "-o", evil + "/" + evil + ".pdf"},
		{"picture", file, "--size", "40x30"},
		{"offer", file},
		{"vary", file, "--random", "2"},
		{"vary", file, "--random", "2", "-o", evil + ".csv"},
		{"vary", file, "--random", "2", "-o", evil + ".txt"},
		{"solve", file, "rise", "for", "tipping >= 1"},
		{"tidy", "--check", evil + "untidy.stabile"},
		{"tidy", "--diff", evil + "untidy.stabile"},
		{"tidy", evil + "untidy.stabile"},
		{"report", file, "--set", evil},
		{evil},
	} {
		var out bytes.Buffer
		Run(args, nil, &out, &out, noEnv)
		for _, r := range out.String() {
			if r != '\n' && !unicode.IsPrint(r) {
				t.Errorf("%q: the output has %U: %q", args, r, out.String())
				break
			}
		}
	}
}
