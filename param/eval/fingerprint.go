package eval

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"io"

	"stabile/param/syntax"
)

// Said writes out what the statements of a design say, its own file first, as
// a design's fingerprint has them. It is of the trees: what changes no statement, as a
// comment or another layout, does not change it. Nor do revisions, which speak of what is
// drawn.
func Said(files []*syntax.File) []byte {
	var b bytes.Buffer
	for _, f := range files {
		for _, s := range f.Statements {
			if d, ok := s.(*syntax.Declaration); !ok || d.Keyword.Text != "revision" {
				syntax.Write(&b, s)
			}
		}
		b.WriteByte(0) // which no statement holds, so that none runs into the next file
	}
	return b.Bytes()
}

// fingerprint is a short name for what the texts of a design say and what is set over
// them, so that papers of different values differ in it.
func fingerprint(said []byte, variation string, set []string) string {
	h := sha256.New()
	h.Write(said)
	for _, more := range append([]string{variation}, set...) {
		if more != "" {
			h.Write([]byte{0})
			io.WriteString(h, more)
		}
	}
	return hex.EncodeToString(h.Sum(nil)[:4])
}
