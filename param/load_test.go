package param

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"stabile/param/source"
)

const small = `sculpture "Small"
units mm
adjust rise = 300 from 100 to 900
metal skin { alloy copper, gauge 16 }
base pad { disc 300, metal skin }
post mast on pad { diameter 40, length rise, metal skin }
variation "tall" { rise = 800 }
`

func TestLoad(t *testing.T) {
	fsys := fstest.MapFS{
		"yard/small.stabile": {Data: []byte(small)},
		"wrong.stabile":      {Data: []byte("units mm\nbase pad { dosc 300 }\nball moon on pad { diameter = }\n")},
		"large.stabile":      {Data: []byte(strings.Repeat(" ", MaxSource+1))},
	}
	d, err := Load(fsys, "yard/small.stabile", Options{Set: []string{"rise=400"}, Variation: "tall"})
	if err != nil {
		t.Fatal(err)
	}
	if d.Title != "Small" || d.Source.Name != "yard/small.stabile" || d.Variation != "tall" || d.Part("mast").Post.Length != 400 {
		t.Errorf("Load = %+v, mast %+v", d, d.Part("mast").Post)
	}
	set := d.Fingerprint
	if d, err = Load(fsys, "yard/small.stabile", Options{}); err != nil || d.Fingerprint == set || len(set) != 8 {
		t.Errorf("Fingerprint = %q, with settings %q, %v", d.Fingerprint, set, err)
	}

	var wrong *source.Error
	if d, err = Load(fsys, "wrong.stabile", Options{}); !errors.As(err, &wrong) || d != nil {
		t.Errorf("Load = %v, %v, want a *source.Error", d, err)
	} else if len(wrong.List) != 2 || wrong.List[0].Span.Start() != (source.Position{Line: 2, Column: 12}) {
		t.Errorf("Load: %v", err)
	}
	if _, err = Load(fsys, "nowhere.stabile", Options{}); !errors.Is(err, fs.ErrNotExist) || errors.As(err, &wrong) {
		t.Errorf("Load of no file: %v", err)
	}
	if _, err = Load(fsys, "large.stabile", Options{}); err == nil || !strings.Contains(err.Error(), "larger than 4 MiB") {
		t.Errorf("Load of a large file: %v", err)
	}
}

func TestTitleOfFile(t *testing.T) {
	d, list := Evaluate(source.NewFile("yard/tide mark.stabile", "base pad { feet }"), Options{})
	if len(list) > 0 || d.Title != "tide mark" {
		t.Errorf("Evaluate = %+v, %v", d, list.Err())
	}
}

// Mistakes in settings are reported at their place in the setting.
func TestSettingMistakes(t *testing.T) {
	for _, tt := range []struct{ set, want string }{
		{"rise", "--set:1:1: this is not a setting"},
		{"=3", "--set:1:1: this is not a setting"},
		{"rise=", "--set:1:1: this is not a setting"},
		{"rise=95 cm", "--set:1:6: 'rise' is a plain number, and this is a length"},
		{"rise=95.5", "--set:1:6: 'rise' may be from 100 to 900, and this is 95.5"},
		{" rice = 4", "--set:1:2: there is no adjustable 'rice'"},
		{"rise = 3 deg + 2", "--set:1:8: a plain number cannot be added to an angle"},
	} {
		_, list := Evaluate(source.NewFile("small.stabile", small), Options{Set: []string{tt.set}})
		if len(list) != 1 || list[0].Error() != tt.want {
			t.Errorf("--set %q: %v, want %s", tt.set, list.Err(), tt.want)
		}
		if len(list) == 1 && list[0].Span.File.Line(1) != tt.set {
			t.Errorf("--set %q is shown as %q", tt.set, list[0].Span.File.Line(1))
		}
	}
	_, list := Evaluate(source.NewFile("small.stabile", small), Options{Set: []string{"rise=200", "rise=300"}})
	if len(list) != 1 || list[0].Text != "'rise' is set twice" {
		t.Errorf("set twice: %v", list.Err())
	}
}
