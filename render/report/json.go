package report

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"iter"
	"reflect"
	"strconv"
	"strings"

	"stabile/fab"
	"stabile/render/words"
)

// WriteJSON writes the report as indented JSON, each point and other list of
// plain numbers on one line, so that the text reads and compares well.
func (d *Document) WriteJSON(w io.Writer) error { return WriteJSON(w, d.Design, d) }

// Write writes the report of a job, as Of and WriteJSON do, but a part at a time, so that
// it takes little memory. A brief one leaves out the outlines, holes, marks and ordinates
// of blanks.
func Write(w io.Writer, j *fab.Job, brief bool) error {
	d := withoutParts(j)
	say := words.In(j.Design.Units)
	parts := func(yield func(any) bool) {
		for i := range j.Parts {
			p := partOf(say, &j.Parts[i])
			if brief {
				p.shorten()
			}
			if !yield(&p) {
				return
			}
		}
	}
	return write(w, d.Design, d, map[string]iter.Seq[any]{"parts": parts})
}

// WriteJSON writes a document about a design in the same way.
func WriteJSON(w io.Writer, title string, document any) error { return write(w, title, document, nil) }

// write writes a document. The elements of a list at its top can be given by name, in the
// place of those that it holds.
func write(w io.Writer, title string, document any, lists map[string]iter.Seq[any]) error {
	s := &stream{out: bufio.NewWriter(w), lists: lists}
	s.value(reflect.ValueOf(document), 0)
	s.text("\n")
	err := s.err
	if err == nil {
		err = s.out.Flush()
	}
	if err != nil {
		return fmt.Errorf("report of %q: %w", title, err)
	}
	return nil
}

// deep is to what depth a document is taken apart, so that no large piece of it is ever
// whole in memory.
const deep = 4

// A stream writes a document piece by piece, to the same bytes as an encoder that
// indents by two spaces.
type stream struct {
	out   *bufio.Writer
	lists map[string]iter.Seq[any]
	err   error // the first
}

func (s *stream) text(t string) {
	if s.err == nil {
		_, s.err = s.out.WriteString(t)
	}
}

// value writes a value that stands at a depth.
func (s *stream) value(v reflect.Value, depth int) {
	for v.Kind() == reflect.Pointer && !v.IsNil() && !whole(v) {
		v = v.Elem()
	}
	switch {
	case depth < deep && v.Kind() == reflect.Struct && !whole(v):
		s.object(v, depth)
	case depth < deep && v.Kind() == reflect.Slice && v.Len() > 0 && !whole(v) && composite(v.Type().Elem()):
		s.list(depth, func(yield func(any) bool) {
			for i := range v.Len() {
				if !yield(v.Index(i).Addr().Interface()) {
					return
				}
			}
		})
	default:
		s.piece(v.Interface(), depth)
	}
}

// whole reports whether a value is left to the encoder: one that writes itself, and one
// that holds the fields of another.
func whole(v reflect.Value) bool {
	t := v.Type()
	if t.Implements(reflect.TypeFor[json.Marshaler]()) {
		return true
	}
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct {
		return false
	}
	for i := range t.NumField() {
		if t.Field(i).Anonymous {
			return true
		}
	}
	return false
}

// composite reports whether values of a type hold others.
func composite(t reflect.Type) bool {
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	return t.Kind() == reflect.Struct
}

func (s *stream) object(v reflect.Value, depth int) {
	s.text("{")
	first := true
	for i := range v.NumField() {
		tag := v.Type().Field(i).Tag.Get("json")
		name, how, _ := strings.Cut(tag, ",")
		f := v.Field(i)
		if name == "" || name == "-" || how == "omitempty" && empty(f) || how == "omitzero" && f.IsZero() {
			continue
		}
		if !first {
			s.text(",")
		}
		first = false
		s.line(depth + 1)
		s.text(strconv.Quote(name) + ": ")
		if list := s.lists[name]; list != nil && depth == 0 {
			s.list(depth+1, list)
			continue
		}
		s.value(f, depth+1)
	}
	if !first {
		s.line(depth)
	}
	s.text("}")
}

// empty reports whether a value is left out where that is wanted.
func empty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map, reflect.String, reflect.Array:
		return v.Len() == 0
	case reflect.Struct:
		return false
	}
	return v.IsZero()
}

func (s *stream) list(depth int, elements iter.Seq[any]) {
	s.text("[")
	first := true
	for e := range elements {
		if !first {
			s.text(",")
		}
		first = false
		s.line(depth + 1)
		s.value(reflect.ValueOf(e), depth+1)
		if s.err != nil {
			return
		}
	}
	if !first {
		s.line(depth)
	}
	s.text("]")
}

func (s *stream) line(depth int) { s.text("\n" + strings.Repeat("  ", depth)) }

// piece writes a value in one go.
func (s *stream) piece(v any, depth int) {
	if s.err != nil {
		return
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent(strings.Repeat("  ", depth), "  ")
	if s.err = e.Encode(v); s.err == nil {
		_, s.err = s.out.Write(joinNumbers(bytes.TrimSuffix(b.Bytes(), []byte("\n"))))
	}
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
