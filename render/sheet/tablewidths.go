package sheet

import (
	"slices"
	"strings"

	"stabile/render/ink"
)

// A breaker counts the lines of a table's cells at widths of their columns, from the
// widths of words measured once.
type breaker struct {
	words [][][][]float64 // by row, column and paragraph, in mm
	lines [][]int         // by row and column, at the widths in hand
	space float64
}

func newBreaker(rows [][]string, columns int, height float64, face ink.Face) *breaker {
	b := &breaker{space: ink.Width(" ", height, face)}
	for _, r := range rows {
		cells := make([][][]float64, columns)
		for i, text := range r[:min(len(r), columns)] {
			for line := range strings.SplitSeq(text, "\n") {
				var widths []float64
				for word := range strings.SplitSeq(line, " ") {
					if word != "" {
						widths = append(widths, ink.Width(word, height, face))
					}
				}
				cells[i] = append(cells[i], widths)
			}
		}
		b.words = append(b.words, cells)
		b.lines = append(b.lines, make([]int, columns))
	}
	return b
}

// count counts the lines of a column at a width inside its padding.
func (b *breaker) count(column int, width float64) []int {
	counts := make([]int, len(b.words))
	for row := range b.words {
		for _, words := range b.words[row][column] {
			counts[row]++
			at := 0.0
			for _, w := range words {
				switch {
				case at == 0:
					at = w
				case at+b.space+w <= width+wrapSlack:
					at += b.space + w
				default:
					counts[row]++
					at = w
				}
			}
		}
	}
	return counts
}

// take keeps the counts of a column.
func (b *breaker) take(column int, counts []int) {
	for row, n := range counts {
		b.lines[row][column] = n
	}
}

// cost is how many lines high all rows are, and how many lines their cells have, with
// the counts of two columns in place of those in hand.
func (b *breaker) cost(i int, ni []int, j int, nj []int) (high, all int) {
	for row, cells := range b.lines {
		most := 1
		for c, n := range cells {
			switch c {
			case i:
				n = ni[row]
			case j:
				n = nj[row]
			}
			most = max(most, n)
			all += n
		}
		high += most
	}
	return high, all
}

// balance shares the width of columns that may wrap out so that the table comes out as
// low as it can be found to: each column is narrowed as far as costs it no line, and what
// that leaves goes where a millimetre saves most. No word is broken that was whole.
func (g *grid) balance(width float64, t *Table) {
	var may []int
	for i, c := range g.columns {
		if c.Wrap {
			may = append(may, i)
		}
	}
	if len(may) < 2 {
		return
	}
	b := &balance{grid: g, breaker: newBreaker(t.Rows, len(g.columns), g.height, ink.Regular), may: may, width: width}
	for i := range g.columns {
		b.take(i, b.at(i, g.widths[i]))
	}
	b.trim()
	b.spend()
	for range len(may) * len(may) { // mostly two or three rounds
		if !b.exchange() {
			break
		}
		b.trim()
		b.spend()
	}
	g.widths[may[len(may)-1]] += max(0, width-sum(g.widths))
}

// A balance is the sharing out in hand.
type balance struct {
	*grid
	*breaker
	may   []int // the columns that may wrap
	width float64
}

// at counts the lines of a column of a width, its padding counted.
func (b *balance) at(i int, width float64) []int { return b.count(i, width-2*b.side*b.height) }

// fineStep is in what steps widths are tried, in mm.
const fineStep = 1.0

// trim narrows each column as far as costs it no line.
func (b *balance) trim() {
	for _, i := range b.may {
		have := b.at(i, b.widths[i])
		low, high := min(b.least[i], b.widths[i]), b.widths[i]
		for high-low > fineStep/2 {
			middle := (low + high) / 2
			if slices.Equal(b.at(i, middle), have) {
				high = middle
			} else {
				low = middle
			}
		}
		b.widths[i] = high
		b.take(i, have)
	}
}

// spend widens the column in which a millimetre saves most, as long as there is width
// left and any of it saves a line.
func (b *balance) spend() {
	for {
		left := b.width - sum(b.widths)
		high, all := b.cost(-1, nil, -1, nil)
		best, at, more := 0.0, -1, 0.0
		for _, i := range b.may {
			for d := fineStep; d <= left; d += fineStep {
				h, a := b.cost(i, b.at(i, b.widths[i]+d), -1, nil)
				// A line of a cell alone counts little: it lets others save the row's.
				if gain := (float64(high-h) + 0.01*float64(all-a)) / d; gain > best {
					best, at, more = gain, i, d
				}
			}
		}
		if at < 0 {
			return
		}
		b.widths[at] += more
		b.take(at, b.at(at, b.widths[at]))
	}
}

// exchange moves width from one column to another where that makes the table lower.
func (b *balance) exchange() bool {
	high, _ := b.cost(-1, nil, -1, nil)
	left := b.width - sum(b.widths)
	for _, step := range [...]float64{2, 4, 8, 16} {
		for _, i := range b.may {
			if b.widths[i]-step < b.least[i] {
				continue
			}
			ni := b.at(i, b.widths[i]-step)
			for _, j := range b.may {
				if i == j {
					continue
				}
				nj := b.at(j, b.widths[j]+step+left)
				if h, _ := b.cost(i, ni, j, nj); h < high {
					b.widths[i] -= step
					b.widths[j] += step + left
					b.take(i, ni)
					b.take(j, nj)
					return true
				}
			}
		}
	}
	return false
}
