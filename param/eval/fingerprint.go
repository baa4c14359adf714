package eval

import (
	"crypto/sha256"
	"encoding/hex"
	"hash"
	"io"

	"stabile/param/syntax"
)

// Said returns a hash of what the statements of a design say, its own file first, for
// its fingerprint. It is of the trees: what changes no statement, as a comment or another
// layout, does not change it. Nor do revisions, which speak of what is drawn.
func Said(files []*syntax.File) hash.Cloner {
	h := sha256.New()
	for _, f := range files {
		for _, s := range f.Statements {
			if d, ok := s.(*syntax.Declaration); !ok || d.Keyword.Text != "revision" {
				syntax.Write(h, s)
			}
		}
		h.Write([]byte{0}) // which no statement holds, so that none runs into the next file
	}
	return h.(hash.Cloner)
}

// fingerprint is a short name for what the texts of a design say and what is set over
// them, so that papers of different values differ in it.
func fingerprint(said hash.Cloner, variation string, set []string) string {
	h, err := said.Clone()
	if err != nil {
		panic(err) // never of SHA-256
	}
	for _, more := range append([]string{variation}, set...) {
		if more != "" {
			h.Write([]byte{0})
			io.WriteString(h, more)
		}
	}
	return hex.EncodeToString(h.Sum(nil)[:4])
}
