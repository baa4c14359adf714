package pack_test

import (
	"path/filepath"
	"testing"

	"stabile/param/golden"
	"stabile/render/internal/inspect"
	"stabile/render/pack"
	"stabile/render/vector"
)

// The gallery's pictures are for a page of the web: of a width that fits one, and
// small to load.
const (
	gallery       = "../../testdata/gallery"
	galleryWidth  = 220 // mm
	galleryHeight = 150
	galleryBytes  = 100_000
)

// TestGallery compares the elevations of the examples with those that were last
// looked at and found good.
func TestGallery(t *testing.T) {
	for _, e := range examples(t) {
		s := pack.Elevations(e.job, galleryWidth, galleryHeight)
		got, err := vector.SVG(s)
		if err != nil {
			t.Fatal(err)
		}
		if len(got) > galleryBytes {
			t.Errorf("%s: %d bytes, want at most %d", e.name, len(got), galleryBytes)
		}
		inspect.Check(t, e.name, s)
		golden.Text(t, filepath.Join(gallery, e.name+".svg"), string(got))
	}
}
