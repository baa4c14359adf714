package written

import (
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"stabile/param"
	"stabile/param/design"
)

// YardPiece is the text of a design for the example shop that has something of
// everything: a plate for the cutter, a tube, a taper, gores with caps and halves.
const YardPiece = `sculpture "Yard piece"
units inch
bring "lower-yard.stabile"
base pad { plate 28 by 22, metal slab }
post mast on pad { at (0, 0), diameter 4-1/2, length 28, metal skin }
ball moon on mast { diameter 12, gores 10, caps 3, metal skin }
post stay on moon { offset 2 toward 0 deg, diameter 3 to 3-1/2, length 14, metal skin }
ball drop on stay { diameter 6, halves, metal skin }
`

// Yard returns the design that a text describes, which may bring the example shop
// "lower-yard.stabile".
func Yard(t testing.TB, text string) *design.Design {
	t.Helper()
	shop, err := os.ReadFile(filepath.Join(top(t), "examples", "shop", "lower-yard.stabile"))
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{"piece.stabile": {Data: []byte(text)}, "lower-yard.stabile": {Data: shop}}
	d, err := param.Load(files, "piece.stabile", param.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// top returns the folder of the whole project: the one with go.mod, above that in which
// a test runs.
func top(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	for err == nil {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		if dir == filepath.Dir(dir) {
			break
		}
		dir = filepath.Dir(dir)
	}
	t.Fatalf("no go.mod above the folder of the test: %v", err)
	return ""
}
