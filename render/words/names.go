package words

import (
	"fmt"
	"strconv"
	"strings"
)

// Names lists the names of parts, those of copies as Copies does: "a[1] to a[3]".
func Names(names []string) string { return strings.Join(Copies(names), ", ") }

// Copies lists names in their order. Copies of one part, such as a[1], a[2] and a[3], or
// "a[1] pole" and so on, are listed where the first of them stands; those whose numbers
// follow each other are named by the first and the last: "a[1] to a[3] pole".
func Copies(names []string) []string {
	type family struct{ base, after string }
	members := make(map[family][]int) // numbers, in order
	for _, name := range names {
		if c, ok := copyOf(name); ok {
			f := family{c.base, c.after}
			members[f] = append(members[f], c.number)
		}
	}
	var words []string
	for _, name := range names {
		c, ok := copyOf(name)
		if !ok {
			words = append(words, name)
			continue
		}
		f := family{c.base, c.after}
		numbers := members[f]
		delete(members, f) // said once
		for i := 0; i < len(numbers); {
			j := i + 1
			for j < len(numbers) && numbers[j] == numbers[i]+j-i {
				j++
			}
			switch {
			case j-i > 2:
				words = append(words, fmt.Sprintf("%s[%d] to %s[%d]%s", f.base, numbers[i], f.base, numbers[j-1], f.after))
			default:
				for _, n := range numbers[i:j] {
					words = append(words, fmt.Sprintf("%s[%d]%s", f.base, n, f.after))
				}
			}
			i = j
		}
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

// Count writes a number of things: "1 post", "3 posts", or with a plural of its own "2
// passes".
func Count(n int, one string, more ...string) string {
	switch {
	case n == 1:
		return "1 " + one
	case len(more) > 0:
		return strconv.Itoa(n) + " " + more[0]
	}
	return strconv.Itoa(n) + " " + one + "s"
}
