package terminal

import "strings"

// A table is rows of cells under an optional head, set in columns that are as
// wide as they need to be.
type table struct {
	columns []column
	rows    []row
}

// A column has a head, which may be empty, and reports whether its cells are set
// to the right, as numbers are.
type column struct {
	head  string
	right bool
}

type row struct {
	cells  []string
	strong bool
}

// gap is the space between two columns of a table.
const gap = 2

// least is the width under which a column is not squeezed while another is
// wider.
const least = 8

// add appends a row. Cells left out are empty.
func (t *table) add(strong bool, cells ...string) {
	t.rows = append(t.rows, row{cells: cells, strong: strong})
}

// widths returns the width of each column, such that a line fits the given
// width: texts are squeezed before numbers, the widest first. An empty column
// has no width.
func (t *table) widths(limit int) []int {
	w := make([]int, len(t.columns))
	for i := range t.columns {
		for _, r := range t.rows {
			if i < len(r.cells) {
				w[i] = max(w[i], width(clean(r.cells[i])))
			}
		}
		if w[i] > 0 {
			w[i] = max(w[i], width(t.columns[i].head))
		}
	}
	total := -gap
	for _, n := range w {
		if n > 0 {
			total += n + gap
		}
	}
	for ; total > limit; total-- {
		i := widest(w, t.columns, false)
		if i < 0 {
			i = widest(w, t.columns, true)
		}
		w[i]--
	}
	return w
}

// widest returns the widest column that may be squeezed, or -1; of those set to
// the right only when they too may be.
func widest(w []int, columns []column, right bool) int {
	best := -1
	for i, n := range w {
		if (right || !columns[i].right && n > least) && (best < 0 || n > w[best]) {
			best = i
		}
	}
	return best
}

// table writes a table.
func (p *page) table(t table) {
	w := t.widths(columns - margin)
	head := make([]string, len(t.columns))
	for i, c := range t.columns {
		head[i] = c.head
	}
	if strings.Join(head, "") != "" {
		p.row(t, w, head, dim)
	}
	for _, r := range t.rows {
		code := ""
		if r.strong {
			code = bold
		}
		p.row(t, w, r.cells, code)
	}
}

// row writes the cells of one row, each broken into as many lines as it takes.
func (p *page) row(t table, w []int, cells []string, code string) {
	broken := make([][]string, len(w))
	height := 1
	for i := range w {
		if w[i] > 0 && i < len(cells) {
			broken[i] = wrap(cells[i], w[i])
			height = max(height, len(broken[i]))
		}
	}
	for k := range height {
		var line strings.Builder
		line.WriteString(strings.Repeat(" ", margin))
		for i, lines := range broken {
			if w[i] == 0 {
				continue
			}
			text := ""
			if k < len(lines) {
				text = lines[k]
			}
			pad := strings.Repeat(" ", max(0, w[i]-width(text)))
			if t.columns[i].right {
				text = pad + text
			} else {
				text += pad
			}
			line.WriteString(text)
			line.WriteString(strings.Repeat(" ", gap))
		}
		p.set(code, line.String())
	}
}
