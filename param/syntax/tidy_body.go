package syntax

import (
	"slices"
	"strings"
)

// maxWidth is the widest line, in columns, that braces are kept on.
const maxWidth = 100

// braces prints the properties, statements or assignments that stand between
// braces, each by the given function, of which the closing brace ends at an
// offset. It reports whether they stand on one line.
//
// What stands on one line in the text is tried so, and printed once more where
// the line comes out too wide.
func braces[T any](p *printer, end int, list []T, at func(T) int, print func(*printer, T) string) (oneLine bool) {
	from := p.find()
	p.lead(blank, from, p.indent)
	p.text = append(p.text, '{')
	p.pos = from + 1
	if len(list) == 0 && (len(p.comments) == 0 || p.comments[0].Span.From >= end) {
		p.text = append(p.text, '}')
		p.pos = end
		return true
	}
	if p.flat || !strings.Contains(p.src[from:end], "\n") {
		back := *p
		if flat(p, end, list, print) {
			return true
		}
		*p = back
	}
	opened(p, end, list, at, print)
	return false
}

// flat prints what stands between braces on the line in hand, and reports
// whether it fits. Within other such braces it sets burst where it does not, and
// leaves it to the outermost to start again.
func flat[T any](p *printer, end int, list []T, print func(*printer, T) string) bool {
	outer := p.flat
	p.flat = true
	_, block := any(list).([]Statement)
	p.burst = p.burst || block && len(list) > 1 // statements are parted by line ends alone
	for i, x := range list {
		if p.burst = p.burst || p.width() > maxWidth; p.burst {
			break
		}
		if i > 0 {
			p.text = append(p.text, ',')
		}
		print(p, x)
	}
	p.text = append(p.text, " }"...)
	p.pos, p.flat = end, outer
	return outer || !p.burst && p.width() <= maxWidth
}

// opened prints what stands between braces on lines of their own.
func opened[T any](p *printer, end int, list []T, at func(T) int, print func(*printer, T) string) {
	p.indent++
	p.atStart, p.joined = true, false
	for i, x := range list {
		if from := at(x); p.startsLine(x, from) {
			n := p.line(from)
			p.lines[n].run = print(p, x)
			continue
		}
		if i > 0 {
			p.text = append(p.text, ',')
		}
		n := len(p.lines) - 1
		p.joined = true
		print(p, x)
		p.joined = false
		p.lines[n].run = ""
	}
	p.commentsBefore(end, p.indent, true)
	p.indent--
	p.newLine(line{indent: p.indent})
	p.text = append(p.text, '}')
	p.pos = end
}

func statementAt(s Statement) int   { return s.Span().From }
func propertyAt(q Property) int     { return q.At.From }
func assignmentAt(a Assignment) int { return a.Name.At.From }

func (p *printer) assignment(a Assignment) (run string) {
	p.at(blank, a.Name.At)
	p.column(1, 1)
	p.given(a.Value)
	return values
}

// property prints a property. The values of properties are aligned, but for
// those of which the braces are opened.
func (p *printer) property(q Property) (run string) {
	p.at(blank, q.Word.At)
	p.column(1, 1)
	for i, a := range q.Arguments {
		g := blank
		if i > 0 && a.Link.Text == "" && q.Word.Text != countWord && !isShape(q, a) {
			p.sign(none, ",")
			g = soft
		}
		if a.Link.Text != "" {
			p.at(blank, a.Link.At)
			g = soft
		}
		if isCompound(a.Value) {
			p.at(g, a.Value.Span())
		} else {
			p.expression(g, a.Value)
		}
	}
	if strings.HasSuffix(q.At.Text(), "}") && !braces(p, q.At.To, q.Body, propertyAt, (*printer).property) {
		return ""
	}
	p.next = cell{} // of a property without a value
	return properties
}

// startsLine reports whether what starts at an offset between braces may start
// a line. A property that reads as a statement, such as metal skin { ... }, may
// not: it would be taken for one, before which a closing brace is missing.
func (p *printer) startsLine(x any, from int) bool {
	if _, ok := x.(Property); !ok {
		return true
	}
	q := parser{scan: scanner{src: p.src, pos: from}}
	q.tok = q.scan.next()
	return !q.anotherStatement()
}

// isShape reports whether a value is a shape that follows a size.
func isShape(q Property, a Argument) bool {
	w, ok := Word(a.Value)
	return ok && q.Word.Text == shapedWord && slices.Contains(shapes, w)
}
