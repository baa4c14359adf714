package edit

import (
	"slices"
	"strings"
	"unicode/utf8"

	"stabile/param/source"
	"stabile/param/syntax"
)

// maxWidth is the widest line that a declaration is kept on: that of a tidy text.
const maxWidth = 100

// behind returns the change that puts a declaration in, and where in the new text of
// the change it starts.
func (t *Text) behind(a Addition, host *found, head string, body []string) (Change, int, error) {
	src := t.tree.Source.Text
	anchor := t.anchor(a, host)
	if anchor == nil {
		text, err := t.laidOut(head, body, "")
		return t.change(0, 0, text+t.lineEnd()), 0, err
	}
	start := strings.LastIndexByte(src[:anchor.Span().From], '\n') + 1
	indent := src[start:anchor.Span().From]
	indent = indent[:len(indent)-len(strings.TrimLeft(indent, " \t"))]
	end := anchor.Span().To
	line := len(src) - end
	if n := strings.IndexByte(src[end:], '\n'); n >= 0 {
		line = n
	}
	rest := strings.TrimRight(src[end:end+line], "\r")
	if mark := strings.TrimSpace(rest); mark != "" && mark[0] != '#' {
		// What closes the block stands on the same line.
		text, err := t.laidOut(head, body, indent+"  ")
		spaces := len(rest) - len(strings.TrimLeft(rest, " \t"))
		lead := t.lineEnd() + indent + "  "
		return t.change(end, end+spaces, lead+text+t.lineEnd()+indent), len(lead), err
	}
	at := end + len(rest)
	text, err := t.laidOut(head, body, indent)
	lead := t.lineEnd() + indent
	if host == nil {
		lead = t.lineEnd() + lead // a base starts a group of its own
	}
	return t.change(at, at, lead+text), len(lead), err
}

// anchor returns the statement behind which an addition goes; nil where it comes
// first.
func (t *Text) anchor(a Addition, host *found) (last syntax.Statement) {
	if host == nil {
		for _, s := range t.tree.Statements {
			switch s := s.(type) {
			case *syntax.Setting, *syntax.Let, *syntax.Adjust:
			case *syntax.Declaration:
				if s.Keyword.Text != "metal" {
					return last
				}
			default:
				return last
			}
			last = s
		}
		return last
	}
	after := func(f *found) syntax.Statement {
		for _, b := range f.blocks {
			if _, ok := b.(*syntax.Repeat); ok {
				return b
			}
		}
		return f.Declaration
	}
	last = after(host)
	for _, g := range a.Properties {
		for _, v := range g.Values {
			if v.Word == "" || t.kindOf(familyOf(v.Word)) == "" {
				continue
			}
			f, err := t.find(v.Word)
			if err != nil {
				continue
			}
			s := after(f)
			if len(f.blocks) > 0 && !slices.ContainsFunc(host.blocks, func(b syntax.Statement) bool { return b == f.blocks[0] }) {
				s = f.blocks[0]
			}
			if s.Span().From > last.Span().From {
				last = s
			}
		}
	}
	return last
}

// laidOut returns a declaration in the house style, on one line where it fits.
func (t *Text) laidOut(head string, body []string, indent string) (string, error) {
	text := head + " { " + strings.Join(body, ", ") + " }"
	if utf8.RuneCountInString(indent+text) > maxWidth {
		text = head + " {\n" + strings.Join(body, "\n") + "\n}"
	}
	tidy, wrong := syntax.Tidy(source.NewFile(t.tree.Source.Name, text))
	if len(wrong) > 0 {
		return "", refuse(Unreadable, source.Span{}, wrong[0].Text)
	}
	return strings.ReplaceAll(strings.TrimRight(string(tidy), "\n"), "\n", t.lineEnd()+indent), nil
}
