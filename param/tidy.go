package param

import (
	"stabile/param/source"
	"stabile/param/syntax"
)

// Tidy returns a text of the design language in the house style, which changes
// nothing of what it says; see syntax.Tidy. The bytes are nil where the list of
// mistakes, all of them of writing and none of meaning, is not empty.
func Tidy(f *source.File) ([]byte, source.List) { return syntax.Tidy(f) }
