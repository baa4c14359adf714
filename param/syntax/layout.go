package syntax

import "unicode/utf8"

// A layout is a text as lines of cells, which are aligned when all is known.
type layout struct {
	text  []byte // of all cells, one after the other
	cells []cell
	lines []line
}

// A line is one line of a layout.
type line struct {
	indent  int    // level; each is two blanks
	first   int    // its first cell; it has those up to the first of the next line
	empty   bool   // an empty line stands before it
	inner   bool   // it goes on with the line before it
	run     string // the sort of lines that it is aligned with; "" for none
	comment string // behind it, or alone where it has no cells
}

// A cell is a piece of a line that starts at a column which the lines of a run
// have in common. There may be millions, and what they count is bounded by
// maxSource.
type cell struct {
	column int8  // counted from 0; a line need not have every one
	gap    int8  // blanks before it, at least
	from   int32 // offset of its text, which ends at the next cell's
	start  int32 // where it stands on its line, without the indentation
}

// columns is more than the columns of any line.
const columns = 8

// cellsOf returns the range of a line's cells.
func (l *layout) cellsOf(i int) (from, to int) {
	if i+1 < len(l.lines) {
		return l.lines[i].first, l.lines[i+1].first
	}
	return l.lines[i].first, len(l.cells)
}

// textOf returns the text of a cell.
func (l *layout) textOf(c int) []byte {
	if c+1 < len(l.cells) {
		return l.text[l.cells[c].from:l.cells[c+1].from]
	}
	return l.text[l.cells[c].from:]
}

// end returns where a cell ends on its line.
func (l *layout) end(c int) int {
	return int(l.cells[c].start) + utf8.RuneCount(l.textOf(c))
}

// width returns how wide the last line is with its indentation, when it is
// aligned with nothing.
func (l *layout) width() int {
	last := l.lines[len(l.lines)-1]
	w := 2*last.indent + utf8.RuneCount(l.text[l.cells[last.first].from:])
	for _, c := range l.cells[last.first:] {
		w += int(c.gap)
	}
	return w
}

// bytes returns the text with all lines aligned. It reports false for one of
// more bytes than the limit.
func (l *layout) bytes(limit int) (out []byte, ok bool) {
	l.alignCells()
	comments := l.alignComments()
	out = make([]byte, 0, min(len(l.text)+len(l.text)/4, limit))
	pad := func(n int) {
		for range n {
			out = append(out, ' ')
		}
	}
	for i, line := range l.lines {
		if line.empty {
			out = append(out, '\n')
		}
		pad(2 * line.indent)
		at := 0
		from, to := l.cellsOf(i)
		for c := from; c < to; c++ {
			pad(int(l.cells[c].start) - at)
			out = append(out, l.textOf(c)...)
			at = l.end(c)
		}
		if line.comment != "" {
			pad(comments[i] - at)
			out = append(out, line.comment...)
		}
		if out = append(out, '\n'); len(out) > limit {
			return nil, false
		}
	}
	return out, true
}

// alignCells finds where the cells of every line start. A run is lines of one
// sort, one after the other. A line that goes on with the one before it is
// aligned with nothing; it ends a run, but not one of properties, whose values
// start in one column however long they are.
func (l *layout) alignCells() {
	var run []int
	for i, line := range l.lines {
		switch {
		case line.inner:
			if len(run) > 0 && l.lines[run[0]].run != properties {
				l.alignRun(run)
				run = run[:0]
			}
			l.alignRun([]int{i})
			continue
		case len(run) > 0 && (line.empty || line.run == "" || line.run != l.lines[run[0]].run):
			l.alignRun(run)
			run = run[:0]
		}
		run = add(run, i)
	}
	l.alignRun(run)
}

// alignRun aligns the cells of some lines.
func (l *layout) alignRun(run []int) {
	for column := int8(1); column < columns; column++ {
		start := 0
		each := func(do func(c int)) {
			for _, i := range run {
				from, to := l.cellsOf(i)
				for c := from + 1; c < to; c++ {
					if l.cells[c].column == column {
						do(c)
					}
				}
			}
		}
		each(func(c int) { start = max(start, l.end(c-1)+int(l.cells[c].gap)) })
		if start > 0 {
			each(func(c int) { l.cells[c].start = int32(start) })
		}
	}
}

// commentGap is the least number of blanks before a comment behind a line.
const commentGap = 2

// alignComments returns where the comment of each line starts, without the
// indentation. Comments behind lines that follow on each other at one level are
// aligned.
func (l *layout) alignComments() []int {
	starts := make([]int, len(l.lines))
	behind := func(i int) bool {
		from, to := l.cellsOf(i)
		return l.lines[i].comment != "" && from < to
	}
	for i := 0; i < len(l.lines); {
		if !behind(i) {
			i++
			continue
		}
		start, j := 0, i
		for ; j < len(l.lines) && behind(j) && (j == i || !l.lines[j].empty && l.lines[j].indent == l.lines[i].indent); j++ {
			_, to := l.cellsOf(j)
			start = max(start, l.end(to-1)+commentGap)
		}
		for ; i < j; i++ {
			starts[i] = start
		}
	}
	return starts
}
