package vector

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"io"
	"regexp"
	"strconv"
)

// The library stamps each typeface that it embeds with the clock's time, deep
// in the compressed font program. unstamp takes it out, or equal sheets would
// give unequal documents from one second to the next.

var fontStream = regexp.MustCompile(`^(\d+) 0 obj\n<</Filter/FlateDecode/Length (\d+)>>stream\n`)

// unstamp returns an embedded font program's object with the time of the
// program's own making in the place of the clock's.
func unstamp(object []byte) ([]byte, error) {
	head := fontStream.FindSubmatch(object)
	if head == nil {
		return nil, errTail
	}
	length, err := strconv.Atoi(string(head[2]))
	if err != nil || length > len(object)-len(head[0]) {
		return nil, errTail
	}
	r, err := zlib.NewReader(bytes.NewReader(object[len(head[0]) : len(head[0])+length]))
	if err != nil {
		return nil, fmt.Errorf("font program: %w", err)
	}
	program, err := io.ReadAll(r)
	if err != nil {
		return nil, fmt.Errorf("font program: %w", err)
	}
	if err := restamp(program); err != nil {
		return nil, err
	}
	var stream bytes.Buffer
	w := zlib.NewWriter(&stream)
	_, _ = w.Write(program) // a bytes.Buffer takes every write
	_ = w.Close()
	out := fmt.Appendf(nil, "%s 0 obj\n<</Filter/FlateDecode/Length %d>>stream\n", head[1], stream.Len())
	out = append(out, stream.Bytes()...)
	return append(out, "\nendstream\n\nendobj\n"...), nil
}

// The layout of a TrueType program, in bytes: its header, the records of its
// tables, and the fields of the table head.
const (
	sfntHeader = 12
	sfntRecord = 16
	headSize   = 54
	adjustment = 8  // of the sum of the whole program
	created    = 20 // when the typeface was made
	modified   = 28
)

// restamp sets the time at which a TrueType program was changed to that at
// which it was made, and mends its sums.
func restamp(program []byte) error {
	if len(program) < sfntHeader {
		return errTail
	}
	tables := int(binary.BigEndian.Uint16(program[4:]))
	if len(program) < sfntHeader+tables*sfntRecord {
		return errTail
	}
	for i := range tables {
		record := program[sfntHeader+i*sfntRecord:][:sfntRecord]
		if string(record[:4]) != "head" {
			continue
		}
		at := uint64(binary.BigEndian.Uint32(record[8:]))
		padded := uint64(headSize+3) &^ 3
		if binary.BigEndian.Uint32(record[12:]) != headSize || at+padded > uint64(len(program)) {
			return errTail
		}
		head := program[at:][:padded]
		copy(head[modified:modified+8], head[created:created+8])
		binary.BigEndian.PutUint32(head[adjustment:], 0)
		binary.BigEndian.PutUint32(record[4:], sumOf(head))
		binary.BigEndian.PutUint32(head[adjustment:], wholeSum-sumOf(program))
		return nil
	}
	return errTail
}

// wholeSum is what the words of a TrueType program add up to.
const wholeSum = 0xB1B0AFBA

// sumOf adds up the 32-bit words of a table or program.
func sumOf(b []byte) uint32 {
	var sum uint32
	for ; len(b) >= 4; b = b[4:] {
		sum += binary.BigEndian.Uint32(b)
	}
	for i, x := range b {
		sum += uint32(x) << (24 - 8*i)
	}
	return sum
}
