package param

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"stabile/param/design"
	"stabile/param/source"
)

// texts makes files of names and texts.
func texts(pairs ...string) fstest.MapFS {
	fsys := fstest.MapFS{}
	for i := 0; i < len(pairs); i += 2 {
		fsys[pairs[i]] = &fstest.MapFile{Data: []byte(pairs[i+1])}
	}
	return fsys
}

const garage = `units inch
let sides = 2
bring "lib/alloys.stabile"
let wide = sides * 12 in
adjust rise = 30 in from 10 to 60
base spare { feet }
post rod on spare { diameter 3, length 40, metal skin }
finish coat { paint }
site { push 10 lbf at 5 ft }
shop { shear { width 54, alloy copper, gauge 16 } }
require weight < 1 lb
variation "low" { rise = 12 }
`

const piece = `units mm
bring "shop/garage.stabile"
bring "shop/lib/alloys.stabile"
base pad { plate wide by wide, metal slab }
post mast on pad { at (sides * 9 mm, 0), diameter 10, length rise, metal skin }
variation "tall" { rise = 50 in }
`

const alloys = `units mm
metal skin { alloy copper, thickness 1.5 }
metal slab { alloy copper, thickness 10 }
`

// A used file gives its metals, values, site, shop and finish, and those of the
// files that it brings itself; a plain length in it is in its own units.
func TestBring(t *testing.T) {
	fsys := texts("yard/piece.stabile", piece, "yard/shop/garage.stabile", garage, "yard/shop/lib/alloys.stabile", alloys)
	d, err := Load(fsys, "yard/piece.stabile", Options{Variation: "tall", Set: []string{"rise=300"}})
	if err != nil {
		t.Fatal(err)
	}
	// A plain number on the command line is in the design's own units.
	if mast := d.Part("mast"); mast.Post.Length != 300 || mast.Metal.Thickness != 1.5 || math.Abs(d.Base().Base.Width-24*25.4) > 1e-9 || mast.Post.Ends[design.Foot].At.X != 2*9 {
		t.Errorf("mast = %+v of %+v on a plate of %v", *mast.Post, *mast.Metal, d.Base().Base.Width)
	}
	if d.Site == nil || d.Finish == nil || d.Shop == nil || d.Shop.Shear.Width != 54*25.4 || len(d.Parts) != 2 || len(d.Require) != 0 || d.Title != "piece" {
		t.Errorf("Load = %+v", *d)
	}
	if len(d.Adjust) != 1 || d.Adjust[0].To.Number != 60*25.4 {
		t.Errorf("Adjust = %+v", d.Adjust)
	}
	names := ""
	for _, f := range d.Sources {
		names += f.Name + " "
	}
	if names != "yard/piece.stabile yard/shop/lib/alloys.stabile yard/shop/garage.stabile " || d.Source != d.Sources[0] {
		t.Errorf("Sources = %s", names)
	}
	if d, err = Load(fsys, "yard/piece.stabile", Options{}); err != nil {
		t.Fatal(err)
	}
	first := d.Fingerprint
	fsys["yard/shop/lib/alloys.stabile"].Data = append([]byte("# ours\n"), fsys["yard/shop/lib/alloys.stabile"].Data...)
	if d, err = Load(fsys, "yard/piece.stabile", Options{}); err != nil || d.Fingerprint != first {
		t.Errorf("after a comment in a file that is brought the fingerprint is %v, %v", d.Fingerprint, err)
	}
	fsys["yard/shop/lib/alloys.stabile"].Data = []byte(strings.Replace(alloys, "1.5", "1.6", 1))
	if d, err = Load(fsys, "yard/piece.stabile", Options{}); err != nil || d.Fingerprint == first {
		t.Errorf("after a change to a file that is brought the fingerprint is %v, %v", d.Fingerprint, err)
	}
}

// Mistakes in how files are used are each reported once, in the right file.
func TestBringMistakes(t *testing.T) {
	const rest = "units mm\nbase pad { feet }\n"
	many := []string{}
	for i := range MaxFiles {
		many = append(many, fmt.Sprintf("f%d.stabile", i), fmt.Sprintf("bring \"f%d.stabile\"\n", i+1))
	}
	for _, tt := range []struct {
		name  string
		fsys  fstest.MapFS
		wants []string // with the hint after a bar
	}{
		{"missing", texts("a.stabile", `bring "garge.stabile"`+"\n"+rest, "garage.stabile", ""),
			[]string{"a.stabile:1:7: there is no file 'garge.stabile'|did you mean 'garage.stabile'?"}},
		{"without its ending", texts("a.stabile", `bring "lib/garage"`+"\n"+rest, "lib/garage.stabile", ""),
			[]string{"a.stabile:1:7: there is no file 'lib/garage'|did you mean 'lib/garage.stabile'?"}},
		{"in a used file", texts("a.stabile", `bring "lib/b.stabile"`+"\n"+rest, "lib/b.stabile", `bring "d.stabile"`, "lib/c.stabile", "", "lib/cc.stabile", ""),
			[]string{"lib/b.stabile:1:7: there is no file 'd.stabile'|did you mean 'c.stabile'?"}},
		{"a folder", texts("a.stabile", `bring "lib"`+"\n"+rest, "lib/b.stabile", ""),
			[]string{"a.stabile:1:7: 'lib' cannot be read: it is a folder|"}},
		{"itself", texts("a.stabile", `bring "a.stabile"`+"\n"+rest),
			[]string{"a.stabile:1:7: 'a.stabile' brings itself|leave it out"}},
		{"circle", texts("a.stabile", `bring "b.stabile"`+"\n"+rest, "b.stabile", `bring "lib/c.stabile"`, "lib/c.stabile", `bring "../b.stabile"`),
			[]string{"lib/c.stabile:1:7: 'b.stabile' and 'c.stabile' bring each other in a circle|put what they share into a file of its own"}},
		{"outside", texts("a.stabile", `bring "../garage.stabile"`+"\n"+rest),
			[]string{"a.stabile:1:7: '../garage.stabile' is outside the design's own folder|copy the file into it, or give --allow-outside"}},
		{"outside by a used file", texts("a.stabile", `bring "lib/b.stabile"`+"\n"+rest, "lib/b.stabile", `bring "../../c.stabile"`),
			[]string{"lib/b.stabile:1:7: '../../c.stabile' is outside the design's own folder|copy the file into it, or give --allow-outside"}},
		{"absolute", texts("a.stabile", `bring "/etc/passwd"`+"\n"+rest),
			[]string{"a.stabile:1:7: '/etc/passwd' is outside the design's own folder|copy the file into it, or give --allow-outside"}},
		{"backslash", texts("a.stabile", `bring "lib\\b.stabile"`+"\n"+rest),
			[]string{`a.stabile:1:7: separate the folders of a path with '/'|write bring "lib/b.stabile"`}},
		{"nothing", texts("a.stabile", `bring " "`+"\n"+rest),
			[]string{`a.stabile:1:7: 'bring' names no file|write bring "garage.stabile"`}},
		{"twice", texts("a.stabile", `bring "b.stabile"`+"\n"+`bring "./b.stabile"`+"\n"+rest, "b.stabile", ""),
			[]string{"a.stabile:2:7: './b.stabile' is brought twice|leave one of the two out"}},
		{"what it would have given", texts("a.stabile", `bring "b.stabile"`+"\n"+rest+"ball bud on pad { diameter 30, halves, metal skin }\nlet x = wide\n"),
			[]string{"a.stabile:1:7: there is no file 'b.stabile'|"}},
		{"too many", texts(append(many, "a.stabile", `bring "f0.stabile"`+"\n"+rest)...),
			[]string{"f30.stabile:1:7: a design has at most 32 files|combine some of the files"}},
		{"too large", texts("a.stabile", `bring "b.stabile"`+"\n"+rest, "b.stabile", strings.Repeat(" ", MaxSource-10)),
			[]string{"a.stabile:1:7: with 'b.stabile' the files of the design are larger than 4 MiB together|"}},
		{"in both", texts("a.stabile", `bring "b.stabile"`+"\nlet x = 3\nmetal skin { alloy copper, gauge 14 }\nsite { slope 2 deg }\n"+rest, "b.stabile", "let x = 2\nmetal skin { alloy copper, gauge 16 }\nsite { slope 1 deg }"),
			[]string{"a.stabile:2:5: 'x' is defined twice|give one of the two another name", "a.stabile:3:7: metal 'skin' is declared twice|give one of the two another name", "a.stabile:4:1: 'site' is given twice|keep one of the two"}},
		{"mistake in a used file", texts("a.stabile", `bring "b.stabile"`+"\n"+rest+"ball bud on pad { diameter bad, halves, metal m1 }", "b.stabile", "metal m1 { alloy gold, gauge 14 }\nlet bad = nowhere\nlet worse = 3 +\nlet free = 3"),
			[]string{"b.stabile:1:18: there is no alloy 'gold'|", "b.stabile:2:11: there is no 'nowhere'|", "b.stabile:3:15: |"}},
		{"no units in a used file", texts("a.stabile", `bring "b.stabile"`+"\n"+rest, "b.stabile", "metal m1 { alloy copper, thickness 1 }\nmetal m2 { alloy copper, thickness 2 }"),
			[]string{"b.stabile:1:36: this length has no unit, and the file does not give its units|"}},
		{"parts of a used file", texts("a.stabile", `bring "b.stabile"`+"\n"+rest+"ball bud on rock { diameter 50, bought 1 kg }", "b.stabile", "base rock { feet }\nlet high = rock.top"),
			[]string{"a.stabile:4:13: 'rock' is a part of 'b.stabile'; 'bring' takes over metals, shop, site, finish and values, not parts|",
				"b.stabile:2:12: 'rock' is a part of 'b.stabile'; 'bring' takes over metals, shop, site, finish and values, not parts|"}},
		{"plain number of other units", texts("a.stabile", `bring "b.stabile"`+"\n"+rest+"post mast on pad { diameter 2 * wide, length 300, metal skin }\nball rock on pad { at (count, wide / 3), diameter 9, halves, metal skin }\nball bud on mast { diameter 300, gores count, metal skin }", "b.stabile", "units inch\nlet wide = 2\nlet count = 2 * 4\nmetal skin { alloy copper, gauge 14 }"),
			[]string{"a.stabile:4:29: 'wide' is a plain number of a file in other units, and a length is needed here|give it its unit", "a.stabile:5:23: 'count' is a plain number of a file in other units, and a length is needed here|give it its unit"}},
		{"in a block", texts("a.stabile", "when 1 < 2 { bring \"b.stabile\" }\n"+rest, "b.stabile", ""),
			[]string{"a.stabile:1:14: 'bring' goes at the top of the file, not in a block|move it out of the block"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Load(tt.fsys, "a.stabile", Options{})
			var wrong *source.Error
			if !errors.As(err, &wrong) {
				t.Fatalf("Load: %v", err)
			}
			for i, got := range wrong.List {
				if i >= len(tt.wants) {
					t.Errorf("too many: %v", got)
					continue
				}
				text, hint, _ := strings.Cut(tt.wants[i], "|")
				if !strings.HasPrefix(got.Error(), text) || !strings.Contains(got.Hint, hint) {
					t.Errorf("got  %v\n\thint: %s\nwant %s\n\thint: %s", got, got.Hint, text, hint)
				}
			}
			for _, w := range tt.wants[min(len(wrong.List), len(tt.wants)):] {
				t.Errorf("not told: %s", w)
			}
			if tt.name == "in both" && (len(wrong.List[0].Note) != 1 || wrong.List[0].Note[0].Span.File.Name != "b.stabile") {
				t.Errorf("Note = %+v", wrong.List[0].Note)
			}
		})
	}
}

// With leave, a file outside of the design's folder is opened by the caller, by
// its path from the folder.
func TestBringOutside(t *testing.T) {
	var asked []string
	far := texts("garage.stabile", `bring "metals/all.stabile"`, "metals/all.stabile", "metal skin { alloy copper, gauge 14 }")
	outside := func(name string) (fs.File, error) {
		asked = append(asked, name)
		return far.Open(strings.TrimPrefix(strings.TrimPrefix(name, "../"), "/far/"))
	}
	fsys := texts("a.stabile", `bring "../garage.stabile"`+"\nbase pad { feet }\n", "b.stabile", `bring "/far/garage.stabile"`+"\nbase pad { feet }\n")
	for name, want := range map[string]string{
		"a.stabile": "[../garage.stabile ../metals/all.stabile]", "b.stabile": "[/far/garage.stabile /far/metals/all.stabile]",
	} {
		asked = nil
		if _, err := Load(fsys, name, Options{Outside: outside}); err != nil || fmt.Sprint(asked) != want {
			t.Errorf("Load(%s) opens %v, %v, want %s", name, asked, err, want)
		}
	}
}

// The texts that fuzzing starts from are sound, but for the one of mistakes.
func TestSeeds(t *testing.T) {
	names, err := filepath.Glob("testdata/*.stabile")
	if err != nil || len(names) < 5 {
		t.Fatalf("%d seeds, %v", len(names), err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		d, list := Evaluate(source.NewFile(filepath.Base(name), string(text)), Options{Files: shelf})
		if sound := d != nil; sound == strings.Contains(name, "mistakes") {
			t.Errorf("%s: %v", name, list.Err())
		}
	}
}
