package syntax

// Word returns the word that an expression spells: a name or number, or
// several joined by hyphens without blanks, such as low-carbon-steel,
// stainless-304 or 304. Such a word reads as a difference; only what takes the
// value knows that a word is due. It reports false for any other expression.
func Word(e Expression) (string, bool) {
	switch e.(type) {
	case *Ident, *Literal, *Binary:
	default:
		return "", false
	}
	w := e.Span().Text()
	s := scanner{src: w}
	for i := 0; ; i++ {
		end := s.wordEnd(i)
		switch {
		case end == i:
			return "", false
		case end == len(w):
			return w, true
		case w[end] != '-':
			return "", false
		}
		i = end
	}
}
