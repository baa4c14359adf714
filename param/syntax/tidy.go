package syntax

import (
	"strings"

	"stabile/param/source"
)

// Tidy returns a text in the house style. Only blanks, line ends and the commas
// between properties change: words, numbers, strings and comments stay as they
// are written, in the same order, and mean the same. A tidy text is returned as
// it is. The bytes are nil where the list of mistakes is not empty.
//
// The style:
//
//   - Two blanks of indentation, line feeds, no blanks at the end of a line, and
//     no more than one empty line in a row, none within the ends of a block.
//   - What stands between braces on one line stays so where the line fits in 100
//     columns, its comment not counted. Else each property or statement has a
//     line of its own, without commas.
//   - Lines one after the other are aligned where they are of one sort: the
//     values of properties, the names, values and ranges of let and adjust, the
//     results in require, and the braces of such as metal and variation. An empty
//     line or a comment on a line of its own starts again. So are comments behind
//     lines.
//   - One blank about an operator, before a unit and after a comma; none after a
//     leading -, within ( ) and before [ ]. A word with hyphens that is the value
//     of a property is left alone, since it may be no difference.
//   - A line that goes on where an expression allows it goes on there, one level
//     further in.
func Tidy(f *source.File) ([]byte, source.List) {
	tree, list := Parse(f)
	if len(list) > 0 {
		return nil, list
	}
	p := &printer{src: f.Text, comments: tree.Comments, atStart: true}
	p.text = make([]byte, 0, len(f.Text)+len(f.Text)/8)
	p.lines = make([]line, 0, len(tree.Comments)+len(tree.Statements))
	for _, s := range tree.Statements {
		n := p.line(s.Span().From)
		p.lines[n].run = p.statement(s)
	}
	p.commentsBefore(len(f.Text), 0, true)
	out, ok := p.bytes(maxSource)
	if !ok {
		list.Add(source.Span{File: f}, "keep parts of it in files of their own, and read them with bring",
			"the text would be longer than %d MiB when tidied", maxSource>>20)
		return nil, list
	}
	return out, nil
}

// A printer copies the tokens of a text, as the tree has them, into lines of
// the house style. It keeps its place in the text, so that it sees the comments
// and line ends that stand between one token and the next.
type printer struct {
	layout

	src      string
	pos      int       // end of the token or comment that was printed last
	comments []Comment // those not printed yet

	indent  int   // level of the statement or property in hand
	open    []int // level of the line of each open parenthesis and bracket
	flat    bool  // within braces that are kept on one line
	burst   bool  // which cannot be
	joined  bool  // within a property that goes on with the line of the one before
	atStart bool  // of the text or of a block: no empty line may stand here
	fresh   bool  // nothing stands on the line yet
	next    cell  // the cell that the next token starts
}

// A gap is what stands between a token and the one before it.
type gap uint8

const (
	none    gap = 0
	blank   gap = 1 << 0
	lineEnd gap = 1 << 1 // where the text has one
	soft        = blank | lineEnd
)

// put prints the token that runs from one offset to another.
func (p *printer) put(g gap, from, to int) {
	p.lead(g, from, p.level())
	p.text = append(p.text, p.src[from:to]...)
	p.pos = to
}

// at prints the token at a place of the tree.
func (p *printer) at(g gap, s source.Span) { p.put(g, s.From, s.To) }

// sign prints the token that comes next and has no place of its own in the
// tree.
func (p *printer) sign(g gap, s string) {
	from := p.find()
	p.put(g, from, from+len(s))
}

// column makes the next token the start of a cell, unless it comes to stand on
// another line than the statement or property that it belongs to.
func (p *printer) column(n, gap int) {
	if !p.flat && !p.joined && !p.lines[len(p.lines)-1].inner {
		p.next = cell{column: int8(n), gap: int8(gap)}
	}
}

// find returns the offset of the next token of the text.
func (p *printer) find() int {
	i := p.pos
	for i < len(p.src) {
		switch p.src[i] {
		case ' ', '\t', '\r', '\n', '\f', '\v':
			i++
		case '#':
			for i < len(p.src) && p.src[i] != '\n' {
				i++
			}
		default:
			return i
		}
	}
	return i
}

// lead prints what stands before a token: comments, and the gap. The level is
// that of a line which the token starts.
func (p *printer) lead(g gap, from, level int) {
	next := p.next
	p.next = cell{}
	switch {
	case p.fresh:
		p.fresh = false
	case p.commentsBefore(from, p.level(), false), g&lineEnd != 0 && strings.Contains(p.src[p.pos:from], "\n"):
		p.newLine(line{indent: level, inner: true})
	case next.column > 0:
		next.from = int32(len(p.text))
		p.cells = add(p.cells, next)
	case g&blank != 0:
		p.text = append(p.text, ' ')
	}
}

// level returns the level of a line that goes on with the one before it.
func (p *printer) level() int {
	if n := len(p.open); n > 0 {
		return p.open[n-1] + 1
	}
	return p.indent + 1
}

// line starts a line for the statement or property at an offset, and prints
// the comments before it. It returns the number of the line.
func (p *printer) line(from int) int {
	p.commentsBefore(from, p.indent, true)
	p.newLine(line{indent: p.indent, empty: p.emptyBefore(from)})
	p.fresh = true
	return len(p.lines) - 1
}

// newLine starts a line.
func (p *printer) newLine(l line) {
	l.first = len(p.cells)
	p.cells = add(p.cells, cell{from: int32(len(p.text))})
	p.lines = add(p.lines, l)
	p.atStart = false
}

// commentsBefore prints the comments before an offset, the first behind the
// line in hand where it stands there, others on lines of their own. It reports
// whether there are any. Empty lines are kept between statements and
// properties, and dropped within them.
func (p *printer) commentsBefore(from, level int, between bool) bool {
	any := false
	for len(p.comments) > 0 && p.comments[0].Span.From < from {
		at := p.comments[0].Span
		p.comments = p.comments[1:]
		text := strings.TrimRight(at.Text(), blanks)
		if p.behind(at.From) {
			p.lines[len(p.lines)-1].comment = text
		} else {
			empty := between && p.emptyBefore(at.From)
			p.lines = add(p.lines, line{indent: level, empty: empty, inner: !between, first: len(p.cells), comment: text})
			p.atStart = false
		}
		p.pos = at.To
		any = true
	}
	return any
}

// behind reports whether a comment at an offset stands behind the line in hand.
// A comma that starts a line counts as behind the one before.
func (p *printer) behind(from int) bool {
	between := p.src[p.pos:from]
	between = between[strings.LastIndexByte(between, ',')+1:]
	return len(p.lines) > 0 && p.lines[len(p.lines)-1].comment == "" && !strings.Contains(between, "\n")
}

// blanks are the characters that are dropped at the end of a line.
const blanks = " \t\r\f\v"

// emptyBefore reports whether an empty line is to be kept before an offset.
func (p *printer) emptyBefore(from int) bool {
	if p.atStart {
		return false
	}
	ends := 0
	for _, c := range p.src[p.pos:from] {
		switch c {
		case '\n':
			ends++
		case ',':
			ends = 0
		}
		if ends == 2 {
			return true
		}
	}
	return false
}
