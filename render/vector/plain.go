package vector

import (
	"fmt"

	"stabile/render/ink"
)

// plainGroups are the groups of a file of plain lines, in the order in which
// they stand there, and their colours: programs that know no groups tell lines
// by colour.
var plainGroups = [...]struct{ name, colour string }{
	{"mark", "#0000ff"},
	{"text", "#808080"},
	{"cut", "#000000"},
}

// hairline is the width, in mm, at which plain lines are shown: the line itself
// has none.
const hairline = 0.1

// Plain returns a sheet as an SVG document of lines alone, in true millimetres,
// for a cutting table: no fills, no dashes, no transforms. Its groups are
// "mark", "text" and "cut", in this order, so that a piece is cut loose last;
// every item must be of one of them. A group that has no items is left out.
func Plain(s *ink.Sheet) ([]byte, error) {
	if err := drawable(s); err != nil {
		return nil, fmt.Errorf("svg: %w", err)
	}
	w := newSVG(s)
	w.head("")
	known := make(map[string]bool)
	for _, g := range plainGroups {
		known[g.name] = true
		open := false
		for _, item := range s.Items {
			if plainGroup(item) != g.name {
				continue
			}
			if !open {
				fmt.Fprintf(w, "<g id=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%s\">\n", g.name, g.colour, millimetres(hairline))
				open = true
			}
			w.plain(item)
		}
		if open {
			w.WriteString("</g>\n")
		}
	}
	for i, item := range s.Items {
		if !known[plainGroup(item)] {
			return nil, fmt.Errorf("svg: sheet %q, item %d: %v has no place among plain lines", s.Name, i, item)
		}
	}
	w.WriteString("</svg>\n")
	return w.Bytes(), nil
}

func plainGroup(item ink.Item) string {
	switch it := item.(type) {
	case *ink.Stroke:
		return it.Group
	case *ink.Arc:
		return it.Group
	case *ink.Text:
		return it.Group
	}
	return ""
}

// plain writes an item without a style of its own.
func (w *svgWriter) plain(item ink.Item) {
	switch it := item.(type) {
	case *ink.Stroke:
		w.path(it.Path, it.Closed)
	case *ink.Arc:
		w.arc(it)
	case *ink.Text:
		w.outline(it)
	}
}
