package edit

import (
	"bytes"
	"strings"
	"unicode"

	"stabile/param/eval"
	"stabile/param/syntax"
)

// A context is where a place of the text stands: between which braces, and
// behind which words of its line. It is read off the text and not the tree, for
// there is none while a line is being written.
type context struct {
	frames  []frame // open braces, the outermost first
	segment string  // what stands before the place, of its statement or property
	given   []string
	silent  bool // in a comment or a text
}

// A frame is an open brace with the words before it.
type frame struct {
	head  string
	given []string // the first words of what stands in it
}

// contextAt returns the context of a place.
func contextAt(src string) context {
	var c context
	text := []byte(src)
	start, depth := 0, 0
	next := func(i int) {
		if s := strings.TrimSpace(string(text[start:i])); s != "" && len(c.frames) > 0 {
			f := &c.frames[len(c.frames)-1]
			f.given = append(f.given, strings.Fields(s)[0])
		}
		start = i + 1
	}
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '#':
			n := bytes.IndexByte(text[i:], '\n')
			if n < 0 {
				c.silent = true
				return c
			}
			// The comment is no part of what stands before the place.
			for k := range n {
				text[i+k] = ' '
			}
		case '"':
			n := bytes.IndexAny(text[i+1:], "\"\n")
			if n < 0 {
				c.silent = true
				return c
			}
			i += n
			if text[i+1] == '"' {
				i++
			}
		case '(', '[':
			depth++
		case ')', ']':
			depth = max(0, depth-1)
		case '{':
			c.frames = append(c.frames, frame{head: strings.TrimSpace(string(text[start:i]))})
			start, depth = i+1, 0
		case '}':
			if n := len(c.frames); n > 0 {
				c.frames = c.frames[:n-1]
			}
			start, depth = i+1, 0
		case ',':
			if depth == 0 && len(c.frames) > 0 {
				next(i)
			}
		case '\n':
			line := strings.TrimSpace(string(text[start:i]))
			if depth == 0 && !goesOn(line) {
				next(i)
			}
		}
	}
	c.segment = strings.TrimLeftFunc(string(text[start:]), unicode.IsSpace)
	if n := len(c.frames); n > 0 {
		c.given = c.frames[n-1].given
	}
	return c
}

// goesOn reports whether a line goes on with the next one.
func goesOn(line string) bool {
	return line != "" && strings.ContainsRune("+-*/=<>", rune(line[len(line)-1]))
}

// table returns the declaration whose properties stand between the braces, and
// how its thing is tied; nil between other braces or none.
func (t *Text) table(c context) (*eval.Declaration, eval.Host) {
	var d *eval.Declaration
	var host eval.Host
	for _, f := range c.frames {
		words := strings.Fields(f.head)
		if len(words) == 0 {
			return nil, ""
		}
		word := syntax.British(words[0])
		if d == nil {
			if d = declarationOf(word); d != nil {
				host = t.tiedBy(d, words)
			}
			continue
		}
		p := propertyOf(d, word, "")
		if p == nil || p.Body == nil {
			return nil, ""
		}
		d, host = p.Body, ""
	}
	return d, host
}

// tiedBy returns how a declaration is tied by the words before its brace.
func (t *Text) tiedBy(d *eval.Declaration, words []string) eval.Host {
	for i, w := range words {
		for _, c := range d.Clauses {
			if c.Word != w {
				continue
			}
			if c.As != "" {
				return c.As
			}
			if i+1 < len(words) {
				return t.kindOf(familyOf(words[i+1]))
			}
		}
	}
	return ""
}
