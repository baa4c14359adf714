package param

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"stabile/param/design"
	"stabile/param/source"
)

// designs returns the texts of testdata and the examples.
func designs(t testing.TB) map[string]string {
	t.Helper()
	all := make(map[string]string)
	for _, pattern := range []string{"testdata/*.stabile", "../examples/*.stabile"} {
		names, err := filepath.Glob(pattern)
		if err != nil || len(names) == 0 {
			t.Fatalf("no designs at %s: %v", pattern, err)
		}
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			all[name] = string(text)
		}
	}
	return all
}

// TestTidyMeansTheSame writes designs with other blanks, line ends and
// comments, and sees that they come to the same, and so do they when tidied.
func TestTidyMeansTheSame(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	well := 0
	for name, text := range designs(t) {
		want := meaning(name, text)
		if !strings.HasPrefix(want, "mistakes") {
			well++
		}
		checkMeaning(t, name, text)
		for range 20 {
			loose := loosened(text, r)
			if got := meaning(name, loose); got != want && !strings.HasPrefix(want, "mistakes") {
				t.Fatalf("%s comes to something else when written as\n%s\n%s", name, loose, parting(got, want))
			}
			checkMeaning(t, name, loose)
		}
	}
	if well < 3 {
		t.Errorf("only %d designs are without mistakes", well)
	}
}

func FuzzTidyMeansTheSame(f *testing.F) {
	for _, text := range designs(f) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		defer watch(text)()
		checkMeaning(t, "fuzz.stabile", text)
	})
}

func checkMeaning(t *testing.T, name, text string) {
	t.Helper()
	tidy, list := Tidy(source.NewFile(name, text))
	if len(list) > 0 {
		return
	}
	if got, want := meaning(name, string(tidy)), meaning(name, text); got != want {
		t.Fatalf("%s means otherwise when tidied:\n%s\n%s", name, tidy, parting(got, want))
	}
}

// parting reports the first place where two texts differ.
func parting(got, want string) string {
	i := 0
	for i < min(len(got), len(want)) && got[i] == want[i] {
		i++
	}
	about := func(s string) string { return s[max(0, i-60):min(len(s), i+60)] }
	return fmt.Sprintf("%q, want %q", about(got), about(want))
}

// meaning returns all that a text comes to, but for places in it and blanks:
// the design, or the mistakes.
func meaning(name, text string) string {
	d, list := Evaluate(source.NewFile(name, text), Options{})
	var b strings.Builder
	if len(list) > 0 {
		b.WriteString("mistakes\n")
		for _, m := range list {
			fmt.Fprintf(&b, "%s (%s)\n", m.Text, m.Hint)
		}
	} else {
		show(&b, reflect.ValueOf(d).Elem(), map[uintptr]int{})
		for _, r := range d.Require {
			fmt.Fprintf(&b, "%+v\n", r.Check(someResults))
		}
	}
	return strings.NewReplacer(" ", "", "\n", "", "\t", "", "\r", "").Replace(b.String())
}

// show writes a value with all that it leads to, but for places in texts, what
// is made of the whole text, and functions.
func show(b *strings.Builder, v reflect.Value, seen map[uintptr]int) {
	switch v.Type() {
	case reflect.TypeFor[source.Span](), reflect.TypeFor[*source.File]():
		return
	}
	switch v.Kind() {
	case reflect.Func:
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			b.WriteString("nil")
			return
		}
		if v.Kind() == reflect.Pointer {
			if n, ok := seen[v.Pointer()]; ok {
				fmt.Fprintf(b, "number %d", n)
				return
			}
			seen[v.Pointer()] = len(seen)
		}
		show(b, v.Elem(), seen)
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if v.Type() == reflect.TypeFor[design.Design]() && f.Name == "Fingerprint" {
				continue
			}
			fmt.Fprintf(b, "%s {", f.Name)
			show(b, v.Field(i), seen)
			b.WriteString("} ")
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			show(b, v.Index(i), seen)
			b.WriteString("; ")
		}
	case reflect.Map:
		var keys []string
		for _, k := range v.MapKeys() {
			keys = append(keys, k.String())
		}
		slices.Sort(keys)
		fmt.Fprint(b, keys)
	default:
		fmt.Fprint(b, v)
	}
}

// loosened returns a text with other blanks, and with line ends and comments
// where they may stand. A requirement gets no comments, since it is reported as it
// is written.
func loosened(text string, r *rand.Rand) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		comments := !strings.HasPrefix(strings.TrimSpace(line), "require")
		for i := 0; i < len(line); i++ {
			c := line[i]
			switch {
			case c == '#':
				b.WriteString(line[i:])
				i = len(line)
				continue
			case c == '"':
				n := strings.IndexByte(line[i+1:], '"') + 1
				b.WriteString(line[i : i+n+1])
				i += n
				continue
			case c == ' ':
				b.WriteString([]string{" ", "  ", "\t", " \t "}[r.IntN(4)])
				continue
			case c == '}' && r.IntN(4) == 0:
				loosen(&b, r, comments)
			}
			b.WriteByte(c)
			if strings.IndexByte("{(,*", c) >= 0 && r.IntN(4) == 0 {
				loosen(&b, r, comments)
			}
		}
		if r.IntN(6) == 0 {
			loosen(&b, r, comments)
		}
	}
	return b.String()
}

// loosen writes a line end, now and then with comments and empty lines.
func loosen(b *strings.Builder, r *rand.Rand, comments bool) {
	ways := []string{"\n", "\r\n", "\n\n\t\n", " # loose\n", "\n  # loose\n# and more\n\n", "# loose\n\n"}
	if !comments {
		ways = ways[:3]
	}
	b.WriteString(ways[r.IntN(len(ways))])
}
