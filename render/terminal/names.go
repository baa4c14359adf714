package terminal

import (
	"fmt"
	"strconv"
	"strings"
)

// enumerate lists names in their order. Those of copies that follow each other,
// such as a[1], a[2] and a[3], or "a[1] pole" and so on, are told by the first and
// the last: "a[1] to a[3] pole".
func enumerate(names []string) []string {
	var words []string
	for i := 0; i < len(names); {
		c, ok := copyOf(names[i])
		j := i + 1
		for ok && j < len(names) {
			d, again := copyOf(names[j])
			if !again || d.base != c.base || d.after != c.after || d.number != c.number+j-i {
				break
			}
			j++
		}
		if j-i > 2 {
			words = append(words, fmt.Sprintf("%s[%d] to %s[%d]%s", c.base, c.number, c.base, c.number+j-i-1, c.after))
		} else {
			words = append(words, names[i:j]...)
		}
		i = j
	}
	return words
}

// A numbered is the name of a copy taken apart, such as "reed[3]", with what may
// come after the part's name in that of a blank, such as " gore".
type numbered struct {
	base   string
	number int
	after  string
}

// copyOf takes the name of a copy apart. It reports false for any other.
func copyOf(name string) (numbered, bool) {
	base, rest, ok := strings.Cut(name, "[")
	if !ok {
		return numbered{}, false
	}
	digits, after, ok := strings.Cut(rest, "]")
	if !ok {
		return numbered{}, false
	}
	n, err := strconv.Atoi(digits)
	return numbered{base, n, after}, err == nil
}

// shown is how many names a line lists.
const shown = 6

// some joins names, the first of many.
func some(names []string) string {
	if n := len(names) - shown; n > 0 {
		return strings.Join(names[:shown], ", ") + fmt.Sprintf(" and %d more", n)
	}
	return strings.Join(names, ", ")
}

// kinds counts blanks by kind and by piece.
type kinds struct {
	names  []string // of each kind
	each   map[string]int
	pieces int
}

func (k *kinds) add(name string, pieces int) {
	if k.each == nil {
		k.each = map[string]int{}
	}
	if k.each[name] == 0 {
		k.names = append(k.names, name)
	}
	k.each[name] += pieces
	k.pieces += pieces
}

// said tells how many there are: "16 pieces of 6 kinds".
func (k *kinds) said() string {
	text := count(k.pieces, "piece")
	if n := len(k.names); n > 1 && n < k.pieces {
		text += fmt.Sprintf(" of %d kinds", n)
	}
	return text
}

// listed lists the kinds, each with how many pieces it has where they are several:
// "head gore (11), leg[1] to leg[3]".
func (k *kinds) listed() string {
	var list []string
	for i := 0; i < len(k.names); {
		j := i + 1
		for j < len(k.names) && k.each[k.names[j]] == k.each[k.names[i]] {
			j++
		}
		for _, name := range enumerate(k.names[i:j]) {
			if n := k.each[k.names[i]]; n > 1 {
				name += fmt.Sprintf(" (%d", n)
				if strings.Contains(name, "] to ") {
					name += " each"
				}
				name += ")"
			}
			list = append(list, name)
		}
		i = j
	}
	return some(list)
}
