package eval

import (
	"slices"
	"strings"
	"testing"

	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/syntax"
)

const stand24 = "units inch\nmetal skin { alloy copper, gauge 18 }\nbase pad { plate 24 by 20, metal skin }\npost mast on pad { diameter 3, length 20, metal skin }\n"

// TestRevisions: the revisions stand in order, and the papers carry the last.
func TestRevisions(t *testing.T) {
	d := mustEvaluate(t, stand24+`revision "A" { date "2026-10-02", note "first issue" }
revision "B" { date "2026-11-30", note "moon raised 2 in" }
`)
	want := []design.Revision{{Letter: "A", Date: "2026-10-02", Note: "first issue"}, {Letter: "B", Date: "2026-11-30", Note: "moon raised 2 in"}}
	if !slices.Equal(d.Revisions, want) {
		t.Errorf("Revisions = %+v, want %+v", d.Revisions, want)
	}
	before := mustEvaluate(t, stand24)
	if got := before.Revision(); got != before.Fingerprint || d.Revision() != "B, "+before.Fingerprint {
		t.Errorf("Revision = %q with two, %q without", d.Revision(), got)
	}
}

func TestRevisionMistakes(t *testing.T) {
	for text, want := range map[string]string{
		`revision B { note "x" }`:                "put the letter of a revision in quotes",
		`revision 2 { note "x" }`:                "put the letter of a revision in quotes",
		`revision { note "x" }`:                  "a letter in quotes is missing after 'revision'",
		`revision "" { note "x" }`:               "a revision needs a letter",
		`revision "the second" { }`:              "at most 4 characters",
		`revision "B" { date "30.11.2026" }`:     "this is not a date",
		`revision "B" { date "2026-02-30" }`:     "this is not a date",
		`revision "B" { what "x" }`:              "a revision has no 'what'",
		"revision \"B\" { }\nrevision \"B\" { }": "there are two revisions 'B'",
		"revision \"A\" { date \"2026-11-30\" }\nrevision \"B\" { date \"2026-11-29\" }": "revision 'B' is dated before revision 'A'",
		`when 1 < 2 { revision "B" { } }`:                                                "goes at the top of the file",
	} {
		_, list := evaluate(stand24+text+"\n", Options{})
		if len(list) != 1 || !strings.Contains(list.Err().Error(), want) {
			t.Errorf("%s: %v, want %q", text, list.Err(), want)
		}
	}
}

// TestFingerprint: comments, layout and revisions leave the fingerprint; a value, a
// unit, a name and the order of statements change it.
func TestFingerprint(t *testing.T) {
	of := func(text string) string {
		t.Helper()
		return mustEvaluate(t, text).Fingerprint
	}
	first := of(stand24)
	for _, same := range []string{
		"# by the gate\n" + stand24,
		strings.ReplaceAll(stand24, ", ", "\n  "),
		strings.ReplaceAll(stand24, " {", "\n\t{"),
		stand24 + "revision \"B\" { note \"moon raised\" }\n",
		strings.Replace(stand24, "length 20", "length 20.0", 1),
	} {
		if got := of(same); got != first {
			t.Errorf("the fingerprint is %s and was %s:\n%s", got, first, same)
		}
	}
	seen := map[string]string{first: stand24}
	for _, other := range []string{
		strings.Replace(stand24, "length 20", "length 20 mm", 1),
		strings.Replace(stand24, "length 20", "length 20 + 1", 1),
		strings.Replace(stand24, "length 20", "length 21", 1),
		strings.ReplaceAll(stand24, "mast", "pole"),
		strings.ReplaceAll(stand24, "inch", "mm"),
	} {
		if got := of(other); seen[got] != "" {
			t.Errorf("the same fingerprint %s:\n%s\n%s", got, other, seen[got])
		} else {
			seen[got] = other
		}
	}
}

// TestFinishOverBrought: the finish of a design goes over that of a file that it
// brings, and two in one file are a mistake all the same.
func TestFinishOverBrought(t *testing.T) {
	brought, list := syntax.Parse(source.NewFile("shop.stabile", "finish yard { paint }\nrevision \"C\" { note \"of the shop\" }\n"))
	if len(list) > 0 {
		t.Fatal(list.Err())
	}
	d, list := evaluate(stand24+"finish ours { brushed }\n", Options{Used: []*syntax.File{brought}})
	if len(list) > 0 || d.Finish.Name != "ours" || d.Finish.Kind != design.Brushed {
		t.Errorf("%v, finish %+v", list.Err(), d)
	}
	if len(d.Revisions) > 0 {
		t.Errorf("the revisions of a file that is brought are taken over: %+v", d.Revisions)
	}
	if _, list = evaluate(stand24+"finish ours { brushed }\nfinish other { paint }\n", Options{Used: []*syntax.File{brought}}); len(list) != 1 {
		t.Errorf("two finishes in one file: %v", list.Err())
	}
}

// TestWays: left, right, front and back are bearings, unless a thing has the name.
func TestWays(t *testing.T) {
	for word, degrees := range map[string]float64{"right": 0, "back": 90, "left": 180, "front": 270} {
		d := mustEvaluate(t, stand24+"post leg on pad { at polar(6 in, "+word+"), diameter 2, length 8, metal skin, lean 5 deg toward "+word+", seam "+word+" + 0 deg }\n")
		p := d.Part("leg").Post
		if !near(p.Seam, degrees*degree) {
			t.Errorf("seam %s is at %g deg, want %g", word, p.Seam/degree, degrees)
		}
		if got := design.BearingOf(p.Direction); !near(got, degrees*degree) {
			t.Errorf("lean toward %s goes to %g deg, want %g", word, got/degree, degrees)
		}
	}
	d := mustEvaluate(t, stand24+"let left = 30 deg\npost leg on pad { at (6, 0), diameter 2, length 8, metal skin, seam left }\n")
	if got := d.Part("leg").Post.Seam; !near(got, 30*degree) {
		t.Errorf("a value named left is not read: %g deg", got/degree)
	}
	_, list := evaluate(stand24+"post leg on pad { at (6, 0), diameter 2, length 8, metal skin, seam left }\npost left on pad { at (-6, 0), diameter 2, length 8, metal skin }\n", Options{})
	if len(list) != 1 || !strings.Contains(list.Err().Error(), "declared further down") {
		t.Errorf("a part named left, read too early: %v", list.Err())
	}
}
