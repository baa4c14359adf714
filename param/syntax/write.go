package syntax

import (
	"fmt"
	"io"
	"reflect"

	"stabile/param/source"
)

// Write writes what a statement says, without its place in the text: two statements
// come out alike where they differ in blanks, line ends and comments alone. It is for
// comparison, not for reading. What w reports goes unheeded: it is a hash.
func Write(w io.Writer, s Statement) { write(w, reflect.ValueOf(s)) }

func write(w io.Writer, v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			io.WriteString(w, "-")
			return
		}
		write(w, v.Elem())
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[source.Span]() || v.Type() == reflect.TypeFor[node]() {
			return
		}
		io.WriteString(w, v.Type().Name()+"{")
		for i := range v.NumField() {
			write(w, v.Field(i))
		}
		io.WriteString(w, "}")
	case reflect.Slice:
		io.WriteString(w, "[")
		for i := range v.Len() {
			write(w, v.Index(i))
		}
		io.WriteString(w, "]")
	case reflect.String:
		fmt.Fprintf(w, "%q", v.String())
	default:
		fmt.Fprintf(w, "%v,", v)
	}
}
