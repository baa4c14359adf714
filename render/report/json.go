package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
)

// WriteJSON writes the report as indented JSON, each point and other list of
// plain numbers on one line, so that the text reads and compares well.
func (d *Document) WriteJSON(w io.Writer) error { return WriteJSON(w, d.Design, d) }

// WriteJSON writes a document about a design in the same way.
func WriteJSON(w io.Writer, title string, document any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(document); err != nil {
		return fmt.Errorf("report of %q: %w", title, err)
	}
	_, err := w.Write(joinNumbers(b.Bytes()))
	return err
}

// joinNumbers puts each innermost list of nothing but numbers of a JSON text
// on one line.
func joinNumbers(text []byte) []byte {
	out := make([]byte, 0, len(text))
	quoted := false
	for i := 0; i < len(text); i++ {
		c := text[i]
		switch {
		case quoted && c == '\\':
			out = append(out, c)
			i++
			c = text[i]
		case c == '"':
			quoted = !quoted
		case c == '[' && !quoted:
			end := bytes.IndexAny(text[i+1:], "[]{}\"")
			if end >= 0 && text[i+1+end] == ']' {
				list := bytes.Fields(text[i+1 : i+1+end])
				out = append(out, '[')
				out = append(out, bytes.Join(list, []byte(" "))...)
				out = append(out, ']')
				i += 1 + end
				continue
			}
		}
		out = append(out, c)
	}
	return out
}
