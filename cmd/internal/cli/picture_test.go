package cli

import (
	"bytes"
	"os"
	"strings"
	"testing"
)

// Whatever stands after the flags of a picture, it is made, or the mistake is named
// with exit status 2 and no file is left.
func FuzzPictureFlags(f *testing.F) {
	f.Add("yard", "low", "300 deg", "1.6 m", "person", "4")
	f.Add("lawn", "soft", "-20deg", "5 ft", "cup", "2")
	f.Add("#d8d2c8", "90 deg", "", "1 mm", "none", "361")
	f.Add("", "noon", "1e400 deg", "NaN", "1.75 m", "x")
	f.Add("plinth", "high", "0", "1e6 m", "chair", "-1")
	const text = `sculpture "F"
units mm
metal skin { alloy copper, thickness 1 mm }
base pad { disc 120, metal skin }
post mast on pad { diameter 20, length 120, metal skin }
`
	f.Fuzz(func(t *testing.T, place, light, from, eye, beside, turn string) {
		t.Chdir(t.TempDir())
		if err := os.WriteFile("f.stabile", []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		args := []string{"picture", "f.stabile", "--size", "24x18", "--place=" + place, "--light=" + light, "--from=" + from, "--eye=" + eye, "--beside=" + beside}
		if len(turn) == 1 {
			args = append(args, "--turn="+turn)
		}
		var stdout, stderr bytes.Buffer
		status := Run(args, strings.NewReader(""), &stdout, &stderr, func(string) string { return "" })
		list, err := os.ReadDir(".")
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case status == statusWrong && (stderr.Len() == 0 || len(list) != 1):
			t.Errorf("%q: exit status 2, %d files, and it says %q", args, len(list), stderr.String())
		case status != statusWrong && len(list) != 2:
			t.Errorf("%q: exit status %d and %d files\n%s", args, status, len(list), stderr.String())
		}
	})
}
