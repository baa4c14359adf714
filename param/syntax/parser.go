package syntax

import (
	"strings"

	"stabile/param/source"
)

// The limits of a text. Each is a mistake of its own when it is passed.
const (
	maxSource    = 4 << 20 // bytes
	maxBlocks    = 64      // braces within braces
	maxDepth     = 64      // parentheses, calls and signs within each other
	maxOperators = 1000    // in one expression
	maxMistakes  = 200     // reported in one text
	maxLookahead = 8000    // tokens, in search of what closes or opens something
)

// A parser reads a text by recursive descent with one token of look-ahead.
//
// A mistake is reported once: it sets bad, and nothing more is reported until
// the parser has found its way to the next property or statement, where bad is
// taken back.
type parser struct {
	file *source.File
	scan scanner
	tok  token // the token in hand
	prev token // the one before it

	paren     int // open parentheses, in which a line goes on
	blocks    int // open braces
	depth     int // depth of the expression in hand
	operators int // operators of the expression in hand
	bad       bool
}

// Parse reads a text. The tree holds all that could be read; where the list is
// not empty, parts of it may be missing or stand as Bad. The list is in source
// order.
func Parse(f *source.File) (*File, source.List) {
	var list source.List
	// Room for all comments at once: a text may be little else.
	file := &File{Source: f, Comments: make([]Comment, 0, min(strings.Count(f.Text, "#"), strings.Count(f.Text, "\n")+1))}
	if p := newParser(f, &list, &file.Comments); p != nil {
		file.Statements = p.statements(nil)
	}
	list.Sort()
	return file, list
}

// ParseExpression reads a text that is one expression, such as a value given on
// the command line.
func ParseExpression(f *source.File) (Expression, source.List) {
	var list source.List
	var comments []Comment
	p := newParser(f, &list, &comments)
	if p == nil {
		return &Bad{node{source.Span{File: f}}}, list
	}
	e := p.expression()
	if p.tok.kind != endOfText {
		p.leftover("the value")
	}
	list.Sort()
	return e, list
}

// newParser returns a parser at the first token of a text, or nil for a text
// that cannot be read at all.
func newParser(f *source.File, list *source.List, comments *[]Comment) *parser {
	switch {
	case len(f.Text) > maxSource:
		list.Add(source.Span{File: f}, "keep parts of it in files of their own, and read them with bring", "the text is longer than %d MiB", maxSource>>20)
		return nil
	case strings.HasPrefix(f.Text, "\xff\xfe"), strings.HasPrefix(f.Text, "\xfe\xff"):
		list.Add(source.Span{File: f, To: 2}, "save the file as UTF-8 text", "the text is UTF-16, not UTF-8")
		return nil
	}
	p := &parser{file: f, scan: newScanner(f, list, comments)}
	p.tok = p.scan.next()
	return p
}

// advance takes the token in hand and returns it.
func (p *parser) advance() token {
	if p.tok.spoilt {
		p.bad = true
	}
	p.prev, p.tok = p.tok, p.scan.next()
	return p.prev
}

// peek returns the token after the one in hand.
func (p *parser) peek() token {
	ahead := p.ahead()
	return ahead.next()
}

// ahead returns a scanner that goes on from the token in hand and reports
// nothing.
func (p *parser) ahead() scanner {
	s := p.scan
	s.list, s.comments = nil, nil
	return s
}

// ended reports whether the line has ended before the token in hand, where that
// ends a statement or property.
func (p *parser) ended() bool {
	switch p.tok.kind {
	case endOfText, rightBrace, semicolon:
		return true
	}
	return p.tok.first && p.paren == 0
}

// spanFrom returns the span from an offset to the end of the last token taken.
func (p *parser) spanFrom(from int) source.Span {
	return source.Span{File: p.file, From: from, To: max(from, p.prev.to)}
}

func (p *parser) nodeFrom(from int) node { return node{p.spanFrom(from)} }

// errorAt reports a mistake and sets bad. Nothing is reported while bad is set
// or where the scanner has already reported something.
func (p *parser) errorAt(at source.Span, hint, format string, args ...any) *source.Diagnostic {
	d := p.slip(at, hint, format, args...)
	p.bad = true
	return d
}

// errorHere reports a mistake at the token in hand.
func (p *parser) errorHere(hint, format string, args ...any) *source.Diagnostic {
	return p.errorAt(p.tok.span(p.file), hint, format, args...)
}

// slip reports a mistake of which the meaning is clear, so that reading goes on
// as if it had been written right.
func (p *parser) slip(at source.Span, hint, format string, args ...any) *source.Diagnostic {
	if p.bad || p.tok.spoilt {
		return &source.Diagnostic{}
	}
	return p.scan.report(at.From, at.To, hint, format, args...)
}

// quoted returns a token as a message names it.
func quoted(t token) string {
	switch t.kind {
	case endOfText:
		return "the end of the text"
	case word:
		return "'" + t.text + "'"
	case text:
		return "the text in quotes"
	case number:
		return "the number"
	case cross:
		return "'×'"
	}
	return "'" + signText[t.kind] + "'"
}

var signText = map[kind]string{
	leftBrace: "{", rightBrace: "}", leftParen: "(", rightParen: ")",
	leftBracket: "[", rightBracket: "]", comma: ",", semicolon: ";", dot: ".",
	assign: "=", equal: "==", notEqual: "!=", less: "<", lessEqual: "<=",
	greater: ">", greaterEqual: ">=", plus: "+", minus: "-", star: "*", slash: "/",
}

// written returns the very text of a token, cut short where it is long.
func (p *parser) written(t token) string {
	const enough = 30
	s := []rune(t.span(p.file).Text())
	if len(s) > enough {
		return string(s[:enough]) + "..."
	}
	return string(s)
}

// sync goes on to where the next statement, or in a body the next property,
// may start: a new line, a closing brace, or a comma of the body.
func (p *parser) sync(inBody bool) {
	p.skipParens()
	open, lost := 0, false
	for ; ; p.advance() {
		switch {
		case p.tok.kind == endOfText || p.tok.kind == rightBrace:
			p.bad = false
			return
		case p.tok.first && open == 0:
			p.bad = false
			return
		case p.tok.kind == comma && inBody && open == 0 && p.propertyAhead():
			p.bad = false
			return
		}
		switch p.tok.kind {
		case leftBrace:
			p.skipBlock()
			p.bad = false
			return
		case leftParen, leftBracket:
			if !lost {
				if lost = !p.closesAhead(); !lost {
					open++
				}
			}
		case rightParen, rightBracket:
			open = max(0, open-1)
		}
	}
}

// skipParens goes to the end of the parentheses that are open, if they are
// closed at all.
func (p *parser) skipParens() {
	open := p.paren
	p.paren, p.depth = 0, 0
	if open == 0 || !p.closes(open) {
		return
	}
	for open > 0 && p.tok.kind != endOfText { // which comes early after too many mistakes
		switch p.tok.kind {
		case leftParen, leftBracket:
			open++
		case rightParen, rightBracket:
			open--
		}
		p.advance()
	}
}

// propertyAhead reports whether a property may stand after the comma in hand.
func (p *parser) propertyAhead() bool {
	switch t := p.peek(); t.kind {
	case word, rightBrace, endOfText, comma:
		return true
	default:
		return t.first
	}
}

// surplus returns by how many closing braces there are more from the token in
// hand on than are needed to close what is open: 0 where all is well, and where
// the end of the text is too far off to tell.
func (p *parser) surplus() int {
	n := -p.blocks
	t, s := p.tok, p.ahead()
	for range maxLookahead {
		switch t.kind {
		case leftBrace:
			n--
		case rightBrace:
			n++
		case endOfText:
			return n
		}
		t = s.next()
	}
	return 0
}

// closes reports whether the given number of parentheses are closed from the
// token in hand on, before anything that cannot stand in them.
func (p *parser) closes(open int) bool {
	t, s := p.tok, p.ahead()
	for range maxLookahead {
		switch t.kind {
		case endOfText, leftBrace, rightBrace:
			return false
		case word:
			if t.first && onlyStatement(t.text) {
				return false
			}
		case leftParen, leftBracket:
			open++
		case rightParen, rightBracket:
			if open--; open == 0 {
				return true
			}
		}
		t = s.next()
	}
	return false
}

// closesAhead reports whether the parenthesis in hand is closed.
func (p *parser) closesAhead() bool { return p.closes(0) }

// skipBlock goes past a block, braces and all.
func (p *parser) skipBlock() {
	open := p.tok
	for n := 0; ; {
		switch p.tok.kind {
		case leftBrace:
			n++
		case rightBrace:
			n--
		case endOfText:
			p.bad = false
			p.unclosed(open)
			return
		}
		p.advance()
		if n == 0 {
			return
		}
	}
}

// enter takes an opening brace. It reports false for one too deep, of which the
// block has then been gone past.
func (p *parser) enter() (open token, ok bool) {
	if p.blocks == maxBlocks {
		p.errorHere("move some blocks out of the others", "blocks are nested more than %d deep", maxBlocks)
		p.skipBlock()
		return token{}, false
	}
	p.blocks++
	p.paren = 0
	return p.advance(), true
}

// leave takes the closing brace.
func (p *parser) leave() {
	p.blocks--
	p.advance()
}

// unclosed reports an opening brace without a closing one.
func (p *parser) unclosed(open token) {
	p.errorAt(open.span(p.file), "write } where it ends", "this { is never closed")
}
