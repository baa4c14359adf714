package vector

import "encoding/binary"

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
// which it was made, and mends its sums. The library stamps each typeface that
// it embeds with the clock's time: equal sheets would give unequal documents from
// one second to the next.
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
