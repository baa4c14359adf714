package eval

import (
	"slices"
	"strings"
	"unicode/utf8"

	"stabile/param/source"
	"stabile/param/syntax"
)

// findTorn finds the declarations that could not be read in full. Of those that
// could, what they lack is reported, whatever is wrong elsewhere in the text.
func (e *evaluator) findTorn() {
	unread := map[*source.File][]int{}
	for _, at := range e.options.Unread {
		unread[at.File] = append(unread[at.File], at.From)
	}
	for _, f := range e.files {
		if places := unread[f.Source]; len(places) > 0 {
			slices.Sort(places)
			e.findTornIn(f.Statements, len(f.Source.Text), places)
		}
	}
}

func (e *evaluator) findTornIn(block []syntax.Statement, end int, unread []int) {
	for i, s := range block {
		switch s := s.(type) {
		case *syntax.Declaration:
			var next syntax.Statement
			if i+1 < len(block) {
				next = block[i+1]
			}
			at, _ := slices.BinarySearch(unread, s.Span().From)
			if at < len(unread) && unread[at] <= end && tears(s, next, unread[at]) {
				e.torn[s] = true
			}
		case *syntax.Repeat:
			e.findTornIn(s.Block, s.Span().To, unread)
		case *syntax.When:
			e.findTornIn(s.Block, s.Span().To, unread)
		}
	}
}

// tears reports whether a declaration may have lost some of its properties at the
// first unread place after its beginning: within it, behind it on its last line,
// or on a line after it, where a brace that closes too early leaves properties.
func tears(d *syntax.Declaration, next syntax.Statement, unread int) bool {
	span := d.Span()
	text := span.File.Text
	table := lookupDeclaration(d.Keyword.Text)
	switch {
	case unread < span.To || !strings.Contains(text[span.To:unread], "\n"):
		return true
	case table == nil:
		return false
	case next != nil && unread >= next.Span().From:
		// A property such as metal skin is read as a statement there.
		n, ok := next.(*syntax.Declaration)
		return ok && unread < n.Span().To && slices.Contains(table.words(""), n.Keyword.Text)
	}
	line := strings.TrimLeft(text[lineStart(text, unread):], " \t")
	if strings.HasPrefix(line, "}") {
		return true
	}
	word := line[:strings.IndexFunc(line+" ", func(r rune) bool { return !inName(r) })]
	_, near := source.Suggest(word, table.words(""))
	return near || slices.Contains(table.words(""), word)
}

// lineStart returns the offset of the start of the line that an offset is on.
func lineStart(text string, at int) int { return strings.LastIndexByte(text[:at], '\n') + 1 }

// isTorn reports whether a declaration could not be read in full. A text in
// another encoding is reported once, so that all of it may be torn.
func (e *evaluator) isTorn(d *syntax.Declaration) bool {
	return e.options.Partial &&
		(len(e.options.Unread) == 0 || e.torn[d] || !utf8.ValidString(d.Span().File.Text))
}
