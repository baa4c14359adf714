package cli

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/param/external"
)

func TestUnified(t *testing.T) {
	for _, tt := range []struct{ name, before, after, want string }{
		{"same", "a\nb\n", "a\nb\n", ""},
		{"nothing", "", "", ""},
		{"from nothing", "", "a\n", "@@ -0,0 +1 @@\n+a\n"},
		{"to nothing", "a\nb\n", "", "@@ -1,2 +0,0 @@\n-a\n-b\n"},
		{"no end", "a\nb", "a\nb\n", "@@ -1,2 +1,2 @@\n a\n-b\n\\ No newline at end of file\n+b\n"},
		{"one of many", "1\n2\n3\n4\n5\n6\n7\n8\n9\n", "1\n2\n3\n4\nx\n6\n7\n8\n9\n",
			"@@ -2,7 +2,7 @@\n 2\n 3\n 4\n-5\n+x\n 6\n 7\n 8\n"},
		{"two hunks", "a\n1\n2\n3\n4\n5\n6\n7\nb\n", "x\n1\n2\n3\n4\n5\n6\n7\ny\n",
			"@@ -1,4 +1,4 @@\n-a\n+x\n 1\n 2\n 3\n@@ -6,4 +6,4 @@\n 5\n 6\n 7\n-b\n+y\n"},
		{"near each other", "a\n1\n2\n3\n4\n5\n6\nb\n", "x\n1\n2\n3\n4\n5\n6\ny\n",
			"@@ -1,8 +1,8 @@\n-a\n+x\n 1\n 2\n 3\n 4\n 5\n 6\n-b\n+y\n"},
		{"lines alike", "{\n}\n{\n}\n", "{\n}\n\n{\n}\n", "@@ -1,4 +1,5 @@\n {\n }\n+\n {\n }\n"},
		{"moved", "a\nb\nc\nd\n", "d\na\nb\nc\n", "@@ -1,4 +1,4 @@\n+d\n a\n b\n c\n-d\n"},
	} {
		want := tt.want
		if want != "" {
			want = "--- f\n+++ f\n" + want
		}
		if got := unified("f", tt.before, tt.after); got != want {
			t.Errorf("%s: unified(%q, %q) =\n%swant\n%s", tt.name, tt.before, tt.after, got, want)
		}
	}
}

// pairOfTexts returns a text of a few different lines and one made from it by
// leaving out, doubling and changing some.
func pairOfTexts(r *rand.Rand) (before, after string) {
	var a, b strings.Builder
	for range r.IntN(40) {
		l := fmt.Sprintf("%d\n", r.IntN(25))
		a.WriteString(l)
		switch r.IntN(8) {
		case 0:
		case 1:
			b.WriteString(l + l)
		case 2:
			b.WriteString("x" + l)
		default:
			b.WriteString(l)
		}
	}
	before, after = a.String(), b.String()
	if r.IntN(4) == 0 {
		before = strings.TrimSuffix(before, "\n")
	}
	return before, after
}

// A diff makes the one text of the other when it is applied, and back.
func TestUnifiedApplies(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 3000 {
		before, after := pairOfTexts(r)
		d := unified("f", before, after)
		if got := apply(t, before, d, '-', '+'); got != after {
			t.Fatalf("applied to %q,\n%sgives %q, want %q", before, d, got, after)
		}
		if got := apply(t, after, d, '+', '-'); got != before {
			t.Fatalf("taken back from %q,\n%sgives %q, want %q", after, d, got, before)
		}
	}
}

// apply applies a diff to a text, taking lines with the one sign away and
// putting in those with the other. It sees that the heads of hunks are right.
func apply(t *testing.T, text, diff string, takes, puts byte) string {
	t.Helper()
	lines := splitLines(text)
	var out []string
	at := 0
	all := splitLines(diff)
	for i := 0; i < len(all); i++ {
		l := all[i]
		if strings.HasPrefix(l, "--- ") || strings.HasPrefix(l, "+++ ") {
			continue
		}
		if head, ok := strings.CutPrefix(l, "@@ -"); ok {
			one, other, _ := strings.Cut(strings.TrimSuffix(head, " @@\n"), " +")
			if takes == '+' {
				one = other
			}
			from, n := 0, 1
			if _, err := fmt.Sscanf(one, "%d,%d", &from, &n); err != nil {
				n = 1
			}
			if n > 0 {
				from--
			}
			if from < at {
				t.Fatalf("hunk at line %d, after line %d", from, at)
			}
			out = append(out, lines[at:from]...)
			at = from
			continue
		}
		sign, body := l[0], l[1:]
		if i+1 < len(all) && all[i+1][0] == '\\' {
			body = strings.TrimSuffix(body, "\n")
			i++
		}
		if sign == ' ' || sign == takes {
			if at >= len(lines) || lines[at] != body {
				t.Fatalf("line %d of the text is not %q, as the diff has it:\n%s", at+1, body, diff)
			}
			at++
		}
		if sign == ' ' || sign == puts {
			out = append(out, body)
		}
	}
	return strings.Join(append(out, lines[at:]...), "")
}

// The same is so where another program applies it.
func TestUnifiedPatch(t *testing.T) {
	patch := external.Tool(t, "patch")
	r := rand.New(rand.NewPCG(2, 1))
	dir := t.TempDir()
	file := filepath.Join(dir, "f")
	for range 100 {
		before, after := pairOfTexts(r)
		if before == after || after == "" {
			continue // patch takes a file away that becomes empty
		}
		require.NoError(t, os.WriteFile(file, []byte(before), 0o666))
		cmd := exec.Command(patch, "--quiet", "--fuzz=0", "f")
		cmd.Dir = dir
		cmd.Stdin = strings.NewReader(unified("f", before, after))
		said, err := cmd.CombinedOutput()
		require.NoError(t, err, "%s\n%s", said, unified("f", before, after))
		got, err := os.ReadFile(file)
		require.NoError(t, err)
		require.Equal(t, after, string(got))
	}
}

func FuzzUnified(f *testing.F) {
	f.Add("a\nb\n", "b\na")
	f.Fuzz(func(t *testing.T, before, after string) {
		d := unified("f", before, after)
		if (d == "") != (before == after) {
			t.Fatalf("unified(%q, %q) = %q", before, after, d)
		}
	})
}

func BenchmarkUnified(b *testing.B) {
	var before, after strings.Builder
	for i := range 100_000 {
		fmt.Fprintf(&before, "a %d\n}\n", i)
		fmt.Fprintf(&after, "a  %d\n}\n", i)
	}
	for b.Loop() {
		unified("f", before.String(), after.String())
	}
}
