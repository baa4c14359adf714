package cli

import (
	"fmt"
	"slices"
	"sort"
	"strings"
)

// contextLines is how many lines that stay are shown about a change, as diff -u
// and git show by default.
const contextLines = 3

// unified returns the difference between two texts of one name as a unified
// diff (POSIX diff -u), which patch can apply; "" where there is none.
//
// Lines that stand once in each text and in the same order are taken as the
// ones that stay, with all that is the same next to them. That takes time in
// proportion to the text, whatever changes; a shortest diff would not, and
// reads no better.
func unified(name, before, after string) string {
	a, b := splitLines(before), splitLines(after)
	var out strings.Builder
	for _, h := range hunks(a, b) {
		if out.Len() == 0 {
			fmt.Fprintf(&out, "--- %s\n+++ %s\n", name, name)
		}
		h.write(&out, a, b)
	}
	return out.String()
}

// splitLines returns the lines of a text with their ends.
func splitLines(s string) []string { return slices.Collect(strings.Lines(s)) }

// A stretch is lines from one number up to but not including another, of both
// texts.
type stretch struct {
	a0, a1, b0, b1 int
}

// A hunk is changes near each other.
type hunk []stretch

// hunks returns the changes from one text to the other.
func hunks(a, b []string) []hunk {
	var list []hunk
	x, y := 0, 0
	for _, same := range append(stays(a, b), stretch{len(a), len(a), len(b), len(b)}) {
		if same.a0 > x || same.b0 > y {
			change := stretch{x, same.a0, y, same.b0}
			if n := len(list); n > 0 && x-list[n-1][len(list[n-1])-1].a1 <= 2*contextLines {
				list[n-1] = append(list[n-1], change)
			} else {
				list = append(list, hunk{change})
			}
		}
		x, y = same.a1, same.b1
	}
	return list
}

// write writes a hunk with the lines about it.
func (h hunk) write(out *strings.Builder, a, b []string) {
	first, last := h[0], h[len(h)-1]
	lead := min(contextLines, first.a0)
	tail := min(contextLines, len(a)-last.a1)
	fmt.Fprintf(out, "@@ -%s +%s @@\n",
		lineRange(first.a0-lead, last.a1+tail), lineRange(first.b0-lead, last.b1+tail))
	put := func(sign byte, lines []string) {
		for _, l := range lines {
			out.WriteByte(sign)
			out.WriteString(l)
			if !strings.HasSuffix(l, "\n") {
				out.WriteString("\n\\ No newline at end of file\n")
			}
		}
	}
	x := first.a0 - lead
	for _, s := range h {
		put(' ', a[x:s.a0])
		put('-', a[s.a0:s.a1])
		put('+', b[s.b0:s.b1])
		x = s.a1
	}
	put(' ', a[x:x+tail])
}

// lineRange returns the lines of a hunk as its head gives them: the first,
// counted from 1, and how many. The first of none is the one before.
func lineRange(from, to int) string {
	switch n := to - from; n {
	case 0:
		return fmt.Sprintf("%d,0", from)
	case 1:
		return fmt.Sprint(from + 1)
	default:
		return fmt.Sprintf("%d,%d", from+1, n)
	}
}

// stays returns the stretches of lines that stay, in order.
func stays(a, b []string) []stretch {
	var list []stretch
	x, y := 0, 0
	for _, p := range append([]pair{{0, 0}}, anchors(a, b)...) {
		if p.a < x || p.b < y {
			continue // in the last stretch
		}
		s := stretch{p.a, p.a, p.b, p.b}
		for s.a0 > x && s.b0 > y && a[s.a0-1] == b[s.b0-1] {
			s.a0, s.b0 = s.a0-1, s.b0-1
		}
		for s.a1 < len(a) && s.b1 < len(b) && a[s.a1] == b[s.b1] {
			s.a1, s.b1 = s.a1+1, s.b1+1
		}
		if s.a1 > s.a0 {
			list = append(list, s)
			x, y = s.a1, s.b1
		}
	}
	return list
}

// A pair is a line of each text.
type pair struct{ a, b int }

// anchors returns the most pairs of equal lines that stand once in each text
// and are in the same order in both, and the ends of both texts.
func anchors(a, b []string) []pair {
	type place struct{ inA, inB, a, b int }
	places := make(map[string]*place, len(a))
	at := func(l string) *place {
		p := places[l]
		if p == nil {
			p = new(place)
			places[l] = p
		}
		return p
	}
	for i, l := range a {
		p := at(l)
		p.inA, p.a = p.inA+1, i
	}
	for i, l := range b {
		p := at(l)
		p.inB, p.b = p.inB+1, i
	}
	var once []pair
	for i, l := range a {
		if p := places[l]; p.inA == 1 && p.inB == 1 {
			once = append(once, pair{i, p.b})
		}
	}
	return append(rising(once), pair{len(a), len(b)})
}

// rising returns the longest run of pairs, which are in order of a, that rises
// in b too, found by patience sorting.
func rising(list []pair) []pair {
	var piles []int // the pair on top of each pile, of which b rises
	before := make([]int, len(list))
	for i, p := range list {
		n := sort.Search(len(piles), func(n int) bool { return p.b < list[piles[n]].b })
		before[i] = -1
		if n > 0 {
			before[i] = piles[n-1]
		}
		if n == len(piles) {
			piles = append(piles, i)
		} else {
			piles[n] = i
		}
	}
	out := make([]pair, len(piles))
	for i, n := len(piles)-1, -1; i >= 0; i-- {
		if n < 0 {
			n = piles[i]
		}
		out[i] = list[n]
		n = before[n]
	}
	return out
}
