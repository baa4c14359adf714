package vector

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"strconv"
)

// streamHead is how the library begins an object that is a stream and no image:
// what a page shows, a typeface, or a table of letters.
var streamHead = regexp.MustCompile(`^(\d+) 0 obj\n<<(/Filter/FlateDecode)?/Length (\d+)>>stream\n`)

// A stream is an object of a document that carries bytes.
type stream struct {
	number string
	packed bool
	data   []byte
}

// streamOf reads an object; it reports false for one that is no such stream.
func streamOf(object []byte) (s stream, ok bool) {
	head := streamHead.FindSubmatch(object)
	if head == nil {
		return stream{}, false
	}
	rest := object[len(head[0]):]
	length, err := strconv.Atoi(string(head[3]))
	if err != nil || length > len(rest) {
		return stream{}, false
	}
	return stream{string(head[1]), len(head[2]) > 0, rest[:length]}, true
}

// unpacked returns the bytes of a stream as they were before they were packed.
func (s stream) unpacked() ([]byte, error) {
	if !s.packed {
		return s.data, nil
	}
	r, err := zlib.NewReader(bytes.NewReader(s.data))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(r)
}

// A packer packs streams, one after the other. A compressor takes longer to make
// than most pages take to be packed.
type packer struct {
	zlib *zlib.Writer
	data bytes.Buffer
}

// pack returns a stream's object with the given bytes, packed.
func (p *packer) pack(number string, data []byte) []byte {
	p.data.Reset()
	if p.zlib == nil {
		p.zlib = zlib.NewWriter(&p.data)
	} else {
		p.zlib.Reset(&p.data)
	}
	_, _ = p.zlib.Write(data) // a bytes.Buffer takes every write
	_ = p.zlib.Close()
	object := fmt.Appendf(nil, "%s 0 obj\n<</Filter/FlateDecode/Length %d>>stream\n", number, p.data.Len())
	object = append(object, p.data.Bytes()...)
	return append(object, "\nendstream\n\nendobj\n"...)
}
