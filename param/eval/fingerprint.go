package eval

import (
	"crypto/sha256"
	"encoding/hex"

	"stabile/param/syntax"
)

// fingerprint is a short name for what the texts of a design say and what is set over
// them, so that papers of different values differ in it. It is of the trees: what
// changes no statement, as a comment or another layout, does not change it. Nor do
// revisions, which speak of what is drawn.
func fingerprint(files []*syntax.File, variation string, set []string) string {
	h := sha256.New()
	for _, f := range files {
		for _, s := range f.Statements {
			if d, ok := s.(*syntax.Declaration); !ok || d.Keyword.Text != "revision" {
				syntax.Write(h, s)
			}
		}
		h.Write([]byte{0}) // which no statement holds, so that none runs into the next file
	}
	for _, more := range append([]string{variation}, set...) {
		if more != "" {
			h.Write([]byte{0})
			h.Write([]byte(more))
		}
	}
	return hex.EncodeToString(h.Sum(nil)[:4])
}
