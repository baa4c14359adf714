// Package list writes tables for a spreadsheet or a script, as comma-separated
// values (RFC 4180).
package list

import (
	"bytes"
	"encoding/csv"
	"io"
	"math"
	"strconv"
	"strings"
)

// A Cell is one field of a table: a text, a number, or nothing.
type Cell struct {
	text   string
	number bool
}

// Text returns a field that is read as a text, whatever is in it.
func Text(s string) Cell { return Cell{text: s} }

// Number returns a field that is read as a number: with a decimal point, to as
// many digits as tell it from any other. One that is not finite is empty.
func Number(x float64) Cell {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return Cell{}
	}
	if x == 0 {
		x = 0 // never as a negative zero
	}
	return Cell{text: strconv.FormatFloat(x, 'f', -1, 64), number: true}
}

// Decimals returns a number with a fixed number of decimals.
func Decimals(x float64, n int) Cell {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return Cell{}
	}
	s := strconv.FormatFloat(x, 'f', n, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return Cell{text: s, number: true}
}

// Count returns a whole number.
func Count(n int) Cell { return Cell{text: strconv.Itoa(n), number: true} }

// mark is the byte-order mark, by which spreadsheets know a text as UTF-8.
const mark = "\ufeff"

// CSV writes rows as comma-separated values. A text that a spreadsheet could take
// for a formula is led by an apostrophe, which makes it a text there; line ends
// within a text become blanks. A table that is not all ASCII is led by a
// byte-order mark.
func CSV(w io.Writer, rows [][]Cell) error {
	var b bytes.Buffer
	c := csv.NewWriter(&b)
	c.UseCRLF = true
	for _, row := range rows {
		fields := make([]string, len(row))
		for i, f := range row {
			fields[i] = f.field()
		}
		if err := c.Write(fields); err != nil {
			return err
		}
	}
	c.Flush()
	if err := c.Error(); err != nil {
		return err
	}
	if bytes.ContainsFunc(b.Bytes(), func(r rune) bool { return r > 127 }) {
		if _, err := io.WriteString(w, mark); err != nil {
			return err
		}
	}
	_, err := b.WriteTo(w)
	return err
}

// Read returns the rows of a table that CSV wrote: each field as it is written there.
func Read(data []byte) ([][]Cell, error) {
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte(mark))))
	var rows [][]Cell
	for {
		fields, err := r.Read()
		if err == io.EOF {
			return rows, nil
		}
		if err != nil {
			return nil, err
		}
		row := make([]Cell, len(fields))
		for i, f := range fields {
			row[i] = Cell{text: f, number: true} // as it stands
		}
		rows = append(rows, row)
	}
}

// Equal reports whether two cells are written alike.
func (c Cell) Equal(o Cell) bool { return c.field() == o.field() }

// field returns what is written of a cell.
func (c Cell) field() string {
	if c.number {
		return c.text
	}
	s := strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, c.text)
	if lead := strings.TrimLeft(s, " "); lead != "" && strings.ContainsRune("=+-@|%＝＋－＠", firstRune(lead)) {
		return "'" + s
	}
	return s
}

func firstRune(s string) rune {
	for _, r := range s {
		return r
	}
	return 0
}
