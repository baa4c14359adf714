package words

import (
	"unicode"
	"unicode/utf8"
)

// Capital returns a text with its first letter as a capital.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if r == utf8.RuneError {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
